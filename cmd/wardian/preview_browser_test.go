package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/example"
)

// previewing is the command as it runs over a diary.
type previewing struct {
	t       *testing.T
	dir     string
	address string
	port    int
	stop    func() int // ends it and gives its code
	talk    *lockedBuffer
}

type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// exampleCopy is the example diary in a folder of its own.
func exampleCopy(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "sill")
	require.NoError(t, os.CopyFS(dir, example.Files()))
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		return os.Chmod(path, 0o644)
	}))
	return dir
}

// startPreview runs the command until the test ends. port 0 is a free one.
func startPreview(t *testing.T, dir string, port int) *previewing {
	t.Helper()
	if port == 0 {
		l, err := net.Listen("tcp", "127.0.0.1:0")
		require.NoError(t, err)
		port = l.Addr().(*net.TCPAddr).Port
		l.Close()
	}
	ctx, cancel := context.WithCancel(context.Background())
	p := &previewing{t: t, dir: dir, port: port, talk: &lockedBuffer{}}
	out, data := io.Pipe()
	ended := make(chan int, 1)
	go func() {
		code := run(ctx, []string{"preview", dir, "--on", "2026-07-01", "--port", fmt.Sprint(port)}, nil, data, p.talk)
		data.Close()
		ended <- code
	}()
	p.stop = sync.OnceValue(func() int { cancel(); return <-ended })
	t.Cleanup(func() { p.stop() })
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err, p.talk.String())
	p.address = strings.TrimSpace(line)
	return p
}

// edit changes a file of the diary as an editor does that writes beside it and
// renames.
func (p *previewing) edit(name string, change func(string) string) {
	p.t.Helper()
	at := filepath.Join(p.dir, filepath.FromSlash(name))
	data, err := os.ReadFile(at)
	require.NoError(p.t, err)
	text := change(string(data))
	require.NotEqual(p.t, string(data), text, "the edit of %s changes something", name)
	beside := filepath.Join(filepath.Dir(at), ".beside")
	require.NoError(p.t, os.WriteFile(beside, []byte(text), 0o644))
	require.NoError(p.t, os.Rename(beside, at))
}

func replacing(old, new string) func(string) string {
	return func(text string) string { return strings.Replace(text, old, new, 1) }
}

// browsing is a page in a browser.
type browsing struct {
	t   *testing.T
	ctx context.Context
}

// browser starts Debian's Chromium, or skips the test with a word; where
// everything must be checked, its lack fails the test.
func browser(t *testing.T) *browsing {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("WARDIAN_CI") != "" {
			t.Fatal("no chromium on the path")
		}
		t.Skip("no chromium on the path: the preview was not looked at in a browser")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true), chromedp.WindowSize(1000, 800))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	require.NoError(t, chromedp.Do(ctx), "start the browser")
	return &browsing{t, ctx}
}

func (b *browsing) visit(address string) {
	b.t.Helper()
	ctx, done := context.WithTimeout(b.ctx, 30*time.Second)
	defer done()
	require.NoError(b.t, chromedp.Do(ctx, chromedp.Navigate(address)), address)
	// A page that is loaded anew forgets this.
	b.is("(window.sameLoad = true)")
}

// ask evaluates a script on the page.
func ask[T any](b *browsing, script string) T {
	b.t.Helper()
	got, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](script))
	require.NoError(b.t, err, script)
	return got
}

// is waits until a script gives true.
func (b *browsing) is(script string) {
	b.t.Helper()
	for end := time.Now().Add(10 * time.Second); ; {
		if ask[bool](b, "!!("+script+")") {
			return
		}
		if time.Now().After(end) {
			b.t.Log(ask[string](b, "document.body.innerText.slice(0, 1500) + '…' + document.getElementById('preview-slip')?.innerText"))
			require.Fail(b.t, "never came true", script)
		}
		time.Sleep(10 * time.Millisecond)
	}
}

const (
	round = "check-ins/2026/06-15-sill.md"
	words = "Ten. The zip is closing."
)

// says is a script that looks for words on the page's own part.
func says(words string) string {
	return fmt.Sprintf("document.querySelector('main')?.textContent.includes(%q)", words)
}

const slipText = "document.getElementById('preview-slip').innerText"

func TestAnOpenPageFollowsTheDiary(t *testing.T) {
	b := browser(t)
	p := startPreview(t, exampleCopy(t), 0)
	b.visit(p.address + "specimens/v26-01a.html")
	b.is(says(words))
	b.is("performance.getEntriesByType('resource').some(e => e.name.includes('/preview/changes')) || true")

	// An edit out of sight takes the reader to it; what was opened stays open,
	// and the page isn't loaded again.
	ask[bool](b, "document.querySelector('main details').open = true")
	ask[bool](b, "scrollTo(0, 0), true")
	p.edit(round, replacing(words, "The very first leaf of its own."))
	b.is(says("The very first leaf of its own."))
	b.is("window.sameLoad")
	b.is("document.querySelector('main details').open")
	b.is("scrollY > 0")
	b.is("(r => r.top >= 0 && r.bottom <= innerHeight)(document.querySelector('[data-preview-new]').getBoundingClientRect())")
	assert.Equal(t, "entry-2026.06-15-sill", ask[string](b, "document.querySelector('[data-preview-new]').id"))

	// An edit in sight moves nothing, though the page grows above it.
	y := ask[float64](b, "document.querySelector('[data-preview-new]').getBoundingClientRect().top")
	scroll := ask[float64](b, "scrollY")
	p.edit(round, replacing("The very first", "The 2nd"))
	b.is(says("The 2nd leaf of its own."))
	assert.InDelta(t, scroll, ask[float64](b, "scrollY"), 1)
	assert.InDelta(t, y, ask[float64](b, "document.querySelector('[data-preview-new]').getBoundingClientRect().top"), 1)
	// What is read stays where it is though the page grows above it.
	height := ask[float64](b, "document.querySelector('.label').offsetHeight")
	y = ask[float64](b, "document.getElementById('entry-2026.06-15-sill').getBoundingClientRect().top")
	p.edit("specimens/v26-01a.md", replacing("import: 2026-spring-c\n", "import: 2026-spring-c\nsize: small\nsize-as-sold: \"a small rooted cutting, the seller says, with at least two pairs of leaves\"\n"))
	b.is("document.querySelector('.label').innerText.includes('two pairs')")
	assert.Greater(t, ask[float64](b, "document.querySelector('.label').offsetHeight"), height+20)
	assert.InDelta(t, y, ask[float64](b, "document.getElementById('entry-2026.06-15-sill').getBoundingClientRect().top"), 1)
	b.is("window.sameLoad")

	// Words of the diary that changed above are gone to.
	p.edit("specimens/v26-01a.md", replacing("Easter Saturday", "the Saturday before Easter"))
	b.is(says("the Saturday before Easter"))
	b.is("(r => r.top >= 0 && r.bottom <= innerHeight)(document.querySelector('.said').getBoundingClientRect())")

	// Broken, a slip lies over the page, with line and column; the page stays.
	p.edit(round, replacing("place: sill", "plaice: sill"))
	b.is(slipText + ".includes('06-15-sill.md, line 3, column 1')")
	b.is("document.querySelector('#preview-slip mark').textContent == 'plaice'")
	b.is(slipText + ".includes('nearest: place')")
	b.is(says("The 2nd leaf of its own."))
	assert.Equal(t, "status", ask[string](b, "document.getElementById('preview-slip').getAttribute('role')"))
	assert.Equal(t, "BODY", ask[string](b, "document.activeElement.nodeName"), "the slip doesn't take the focus")

	// Mended, it goes by itself.
	p.edit(round, replacing("plaice: sill", "place: sill"))
	b.is("!" + slipText + ".includes('plaice')")
	b.is("!document.querySelector('#preview-slip .error')")
	b.is("window.sameLoad")

	// Ten saves in a second settle into the last one's page.
	for i := range 10 {
		old := "The 2nd leaf"
		if i > 0 {
			old = fmt.Sprintf("The leaf %d", i-1)
		}
		p.edit(round, replacing(old, fmt.Sprintf("The leaf %d", i)))
		time.Sleep(100 * time.Millisecond)
	}
	b.is(says("The leaf 9"))
	time.Sleep(200 * time.Millisecond)
	b.is(says("The leaf 9") + " && !" + says("The leaf 8"))
	b.is("window.sameLoad")
	assert.Contains(t, p.talk.String(), "check-ins/2026/06-15-sill.md changed; ")
	assert.Contains(t, p.talk.String(), "1 of 1 open page made anew; ")

	// What was mended in place is what a fresh page would be.
	same := `fetch(location.pathname).then(r => r.text()).then(text => {
		const main = d => d.querySelector('main').outerHTML.replace(/ (open|data-preview-new)=""/g, '');
		return main(new DOMParser().parseFromString(text, 'text/html')) == main(document); })`
	got, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](same, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	assert.True(t, got)
}

func TestAnOpenPageFollowsRenamesAndDeletions(t *testing.T) {
	b := browser(t)
	p := startPreview(t, exampleCopy(t), 0)
	letter := filepath.Join(p.dir, "updates", "what-a-plant-costs.md")
	b.visit(p.address + "updates/what-a-plant-costs.html")
	b.is("document.getElementById('preview-only-here').innerText.includes('unfinished')")

	// The file is renamed: the page is gone, what was there stays under the slip.
	other := filepath.Join(p.dir, "updates", "what-it-costs.md")
	require.NoError(t, os.Rename(letter, other))
	b.is(slipText + ".includes('no such page any more')")
	b.is(says("What a plant costs when it lives"))
	require.NoError(t, os.Rename(other, letter))
	b.is("!" + slipText + ".includes('no such page')")
	b.is("window.sameLoad")

	// A page that is asked for before it is made comes when it is.
	b.visit(p.address + "updates/what-it-costs.html")
	b.is("document.querySelector('[data-preview-bare]')")
	require.NoError(t, os.Rename(letter, other))
	b.is("!document.querySelector('[data-preview-bare]') && " + says("What a plant costs when it lives"))

	// An entry is deleted, restored, and its whole folder moved.
	b.visit(p.address + "specimens/v26-01a.html")
	b.is(says(words))
	at := filepath.Join(p.dir, filepath.FromSlash(round))
	text, err := os.ReadFile(at)
	require.NoError(t, err)
	require.NoError(t, os.Remove(at))
	b.is("!" + says(words))
	require.NoError(t, os.WriteFile(at, text, 0o644))
	b.is(says(words))
	require.NoError(t, os.MkdirAll(filepath.Join(p.dir, "check-ins", "kept"), 0o755))
	require.NoError(t, os.Rename(filepath.Join(p.dir, "check-ins", "2026"), filepath.Join(p.dir, "check-ins", "kept", "2026")))
	b.is("document.getElementById('entry-kept.2026.06-15-sill')")
	p.edit("check-ins/kept/2026/06-15-sill.md", replacing(words, "In its new folder."))
	b.is(says("In its new folder."))
	b.is("window.sameLoad")
}

func TestAnOpenPageFindsTheServerAgain(t *testing.T) {
	b := browser(t)
	p := startPreview(t, exampleCopy(t), 0)
	b.visit(p.address + "specimens/v26-01a.html")
	b.is(says(words))
	began := time.Now()
	assert.Equal(t, exitStopped, p.stop())
	assert.Less(t, time.Since(began), 100*time.Millisecond, "Ctrl-C ends at once, with a page open") // standards B8

	p.edit(round, replacing(words, "Written while nobody looked."))
	time.Sleep(300 * time.Millisecond)
	again := startPreview(t, p.dir, p.port)
	assert.Equal(t, p.address, again.address)
	b.is(says("Written while nobody looked."))
	again.edit(round, replacing("nobody", "everybody"))
	b.is(says("Written while everybody looked."))
	b.is("window.sameLoad")
}

// Without JavaScript a page reads as it is, and the slip is on it.
func TestAPreviewedPageReadsWithoutJavaScript(t *testing.T) {
	p := startPreview(t, exampleCopy(t), 0)
	page := fetch(t, p.address+"specimens/v26-01a.html")
	assert.Contains(t, page, words)
	p.edit(round, replacing("place: sill", "plaice: sill"))
	assert.Eventually(t, func() bool { return strings.Contains(fetch(t, p.address+"specimens/v26-01a.html"), "line 3, column 1") }, 10*time.Second, 10*time.Millisecond)
	assert.Contains(t, fetch(t, p.address+"specimens/v26-01a.html"), words)
	assert.Eventually(t, func() bool { return strings.Contains(p.talk.String(), "the pages stay as they were") }, 10*time.Second, 10*time.Millisecond)
}

func fetch(t *testing.T, address string) string {
	t.Helper()
	answer, err := http.Get(address)
	require.NoError(t, err)
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	return string(body)
}
