package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/build/preview"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

// twins are two previews of one folder. One lives on and is told what changed, as
// the command's is; the other is handed, each time they are compared, what was
// read of the folder from scratch. Whatever is asked of them, they must answer
// alike, to the byte.
type twins struct {
	dir         string
	reader      *reader // nil where the system tells of changes
	live, fresh *preview.Server
	liveAt      http.Handler
	freshAt     http.Handler

	reading  preview.Reading    // what the one that lives on read last
	untold   map[string]bool    // paths that were operated on since
	tree     map[string]dirItem // the folder, as last told
	fromHere bool               // the fresh one's last good site is that of the one that lives on

	ever     map[string]bool // paths that were ever answered
	pictures map[string]bool // those that were compared: another picture is another path
	good     int             // comparisons of all pages
	broken   int             // comparisons of findings, and of the last good pages under them
	pages    int             // answers compared
}

// dirItem is what a watcher knows of a path.
type dirItem struct {
	mode fs.FileMode
	size int64
	time time.Time
}

const (
	twinsDay  = "2026-07-01"
	twinsPort = 4711
)

func newTwins(dir string) *twins {
	w := &twins{dir: dir, reader: &reader{dir: dir, on: twinsDay, reader: build.NewReader()},
		live: preview.NewServer(build.Style()), fresh: preview.NewServer(build.Style()),
		untold: map[string]bool{}, ever: map[string]bool{}, pictures: map[string]bool{}}
	w.liveAt, w.freshAt = w.live.Handler(twinsPort), w.fresh.Handler(twinsPort)
	w.tree = w.look()
	w.read(preview.Change{All: true})
	return w
}

// tell goes the way of a change in the command: told, read, shown. Where the
// system tells of changes there is nothing to do.
func (w *twins) tell() {
	if w.reader != nil {
		w.read(w.change(false))
	}
}

func (w *twins) read(c preview.Change) {
	w.reading = w.reader.read(c)
	w.live.Show(w.reading)
	if w.reading.Site != nil {
		w.fromHere = false
	}
}

// scratch reads the folder as if nobody had read it before.
func (w *twins) scratch() preview.Reading {
	options, err := dayOptions(twinsDay)
	if err != nil {
		return preview.Reading{Err: err}
	}
	d, report, err := content.LoadFolder(w.dir, options)
	if err != nil {
		return preview.Reading{Err: err}
	}
	if report.Errors() > 0 {
		return preview.Reading{Findings: report.Findings()}
	}
	s, err := build.See(d, os.DirFS(w.dir), report, build.NewPrints())
	if err != nil {
		return preview.Reading{Findings: report.Findings(), Err: err}
	}
	return preview.Reading{Site: s, Findings: report.Findings()}
}

// differ compares the twins and says how they differ; "" where they are alike.
func (w *twins) differ() string {
	want := w.scratch()
	if (want.Err == nil) != (w.reading.Err == nil) || (want.Site == nil) != (w.reading.Site == nil) || !sameFindings(want.Findings, w.reading.Findings) {
		return fmt.Sprintf("from scratch: a site %t, error %v, findings\n%s\nthe preview: a site %t, error %v, findings\n%s",
			want.Site != nil, want.Err, listFindings(want.Findings), w.reading.Site != nil, w.reading.Err, listFindings(w.reading.Findings))
	}
	w.fresh.Show(want)
	if want.Site == nil {
		w.broken++
		if !w.fromHere {
			return "" // the last good site wasn't read from scratch
		}
		return w.differOnPages()
	}
	w.good++
	w.fromHere = true
	return w.differOnPages()
}

func sameFindings(a, b []source.Finding) bool {
	return len(a) == 0 && len(b) == 0 || reflect.DeepEqual(a, b)
}

func listFindings(findings []source.Finding) string {
	var out []string
	for _, f := range findings {
		out = append(out, f.Line())
	}
	return strings.Join(out, "\n")
}

// differOnPages asks both for the front page and for all that is linked from
// there, and for all that they ever answered.
func (w *twins) differOnPages() string {
	asked := map[string]bool{"/": true}
	next := []string{"/"}
	for at := range w.ever {
		if !asked[at] {
			asked[at] = true
			next = append(next, at)
		}
	}
	for len(next) > 0 {
		now := next
		next = nil
		links := make([][]string, len(now))
		wrong := make([]string, len(now))
		var work sync.WaitGroup
		places := make(chan int, len(now))
		for n := range now {
			places <- n
		}
		close(places)
		for range runtime.GOMAXPROCS(0) {
			work.Go(func() {
				for n := range places {
					links[n], wrong[n] = w.ask(now[n])
				}
			})
		}
		work.Wait()
		for n, at := range now {
			if wrong[n] != "" {
				return wrong[n]
			}
			w.ever[at] = true
			if strings.HasSuffix(at, ".jpg") {
				w.pictures[at] = true
			}
			for _, link := range links[n] {
				if !asked[link] && !(strings.HasSuffix(link, ".jpg") && w.pictures[link]) {
					asked[link] = true
					next = append(next, link)
				}
			}
		}
		w.pages += len(now)
	}
	return ""
}

// linked are the paths that a page links to on its own site, as it wrote them. It
// is no parser: the site's own pages write each attribute so.
func linked(page []byte) []string {
	var out []string
	for _, attribute := range []string{`href="`, `src="`} {
		for rest := page; ; {
			_, after, found := bytes.Cut(rest, []byte(attribute))
			if !found {
				break
			}
			to, _, _ := bytes.Cut(after, []byte(`"`))
			to, _, _ = bytes.Cut(to, []byte("#"))
			to, _, _ = bytes.Cut(to, []byte("?"))
			if len(to) > 0 && !bytes.Contains(to, []byte(":")) {
				out = append(out, string(to))
			}
			rest = after
		}
	}
	return out
}

// ask asks both for a path.
func (w *twins) ask(at string) (links []string, wrong string) {
	want, got := request(w.freshAt, at), request(w.liveAt, at)
	a, b := want.Body.Bytes(), got.Body.Bytes()
	if want.Code != got.Code || !bytes.Equal(a, b) {
		n := 0
		for n < min(len(a), len(b)) && a[n] == b[n] {
			n++
		}
		part := func(x []byte) []byte { return x[max(0, min(n-120, len(x))):min(n+200, len(x))] }
		return nil, fmt.Sprintf("%s: from scratch %d, %d bytes; the preview %d, %d bytes; from byte %d on:\n…%s\n…%s", at, want.Code, len(a), got.Code, len(b), n, part(a), part(b))
	}
	if !strings.HasPrefix(want.Header().Get("Content-Type"), "text/html") {
		return nil, ""
	}
	if specimen, ok := strings.CutSuffix(at, ".html"); ok && strings.HasPrefix(at, "/specimens/") && !strings.HasSuffix(specimen, ".oldest") && want.Code == http.StatusOK {
		links = append(links, specimen+".oldest.html") // of a plant without entries it is linked from nowhere
	}
	for _, to := range linked(a) {
		if !strings.HasPrefix(to, "/") {
			folder := at
			if !strings.HasSuffix(at, "/") {
				folder = path.Dir(at)
			}
			slash := strings.HasSuffix(to, "/")
			to = path.Join(folder, to)
			if slash && to != "/" {
				to += "/"
			}
		}
		links = append(links, to)
	}
	return links, ""
}

func request(h http.Handler, at string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodGet, fmt.Sprintf("http://localhost:%d%s", twinsPort, at), nil)
	answer := httptest.NewRecorder()
	h.ServeHTTP(answer, r)
	return answer
}

// noGoroutineIsLeft fails the test where, when it ends, more run than when it
// began.
func noGoroutineIsLeft(t *testing.T) {
	t.Helper()
	before := runtime.NumGoroutine()
	t.Cleanup(func() {
		for end := time.Now().Add(5 * time.Second); runtime.NumGoroutine() > before && time.Now().Before(end); {
			time.Sleep(10 * time.Millisecond)
		}
		if now := runtime.NumGoroutine(); now > before {
			stacks := make([]byte, 1<<16)
			require.Fail(t, "goroutines are left", "%d, and %d before\n%s", now, before, stacks[:runtime.Stack(stacks, true)])
		}
	})
}

// The comparison itself: it reaches every file of a build, and sees what differs.
func TestTwinsSeeAllAndWhatDiffers(t *testing.T) {
	dir := everyKind(t)
	w := newTwins(dir)
	require.Empty(t, w.differ())
	to := filepath.Join(t.TempDir(), "site")
	d, report, err := content.LoadFolder(dir, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	_, ok, err := build.Run(t.Context(), d, os.DirFS(dir), report, build.Options{To: to, Unfinished: true, On: measure.NoDay})
	require.NoError(t, err)
	require.True(t, ok, listFindings(report.Findings()))
	files := 0
	require.NoError(t, filepath.WalkDir(to, func(at string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || strings.HasPrefix(e.Name(), ".") {
			return err
		}
		rel, _ := filepath.Rel(to, at)
		files++
		name := "/" + filepath.ToSlash(rel)
		require.True(t, w.ever[name] || path.Base(name) == "index.html" && w.ever[strings.TrimSuffix(name, "index.html")], "%s is linked from nowhere", name)
		return nil
	}))
	require.Greater(t, files, 60)

	w.put("updates/first.md", []byte("---\ntitle: Another\ndate: 2026-03-21\n---\nWords.\n"), false)
	require.Contains(t, w.differ(), "from byte", "an edit that wasn't told")
	w.tell()
	require.Empty(t, w.differ())
	w.put("updates/first.md", []byte("---\ntitel: Another\ndate: 2026-03-21\n---\nWords.\n"), false)
	require.Contains(t, w.differ(), `no key "titel"`, "a fault that wasn't told")
	w.tell()
	require.Empty(t, w.differ())
	require.Equal(t, 1, w.broken)
}
