package build_test

import (
	"context"
	_ "embed"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
)

//go:embed testdata/measure.js
var measureJS string

//go:embed testdata/paper.js
var paperJS string

// madeIn is the folder in which standing made its site; "" where it didn't yet.
var madeIn string

// standing is the example's site on disk, built once for all tests that need one.
var standing = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "wardian-site-")
	if err != nil {
		return "", err
	}
	madeIn = dir
	to := filepath.Join(dir, "site")
	d, report, err := content.Load(example.Files(), content.Options{Today: measure.NoDay})
	if err != nil {
		return "", err
	}
	_, ok, err := build.Run(context.Background(), d, example.Files(), report, build.Options{To: to, On: measure.NoDay})
	if err == nil && !ok {
		err = fmt.Errorf("the example has errors: %v", report.Findings())
	}
	return to, err
})

func TestMain(m *testing.M) {
	code := m.Run()
	if madeIn != "" {
		os.RemoveAll(madeIn)
	}
	os.Exit(code)
}

// shownPages are the example's pages that a browser is sent to: one of each kind,
// and of specimens and updates those with most on them.
var shownPages = []string{
	"index.html", "imports/index.html", "imports/2026-spring-c.html", "imports/2025-spring-a.html",
	"specimens/index.html", "specimens/v26-01.html", "specimens/v26-01a.html", "specimens/v26-03.html", "specimens/v26-04.html",
	"specimens/v26-05.oldest.html", "specimens/v26-09.html", "seasons/index.html", "seasons/2025-autumn.html",
	"compare/index.html", "compare/genus.html", "compare/season.html", "compare/leaves-cut.html", "compare/root-grade.html",
	"places/index.html", "places/tote.html", "places/jar.html",
	"updates/index.html", "updates/the-night-of-the-fuse.html", "updates/the-first-twelve-weeks.html", "updates/dont-wash-up.html",
	"amendments/index.html", "method/index.html", "data/index.html",
}

// browser starts a browser for a test, or skips it with a word; where everything
// must be checked, its lack fails the test. Under the race detector it skips it.
func browser(t *testing.T) context.Context {
	t.Helper()
	unraced(t)
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			path = p
			break
		}
	}
	if path == "" {
		if required() {
			t.Fatal("no chromium on the path")
		}
		t.Skip("no chromium on the path: pages were not looked at in a browser")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true),
		chromedp.Flag("allow-file-access-from-files", true))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	// pages of a headless browser are never in front: take them for focused
	require.NoError(t, chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, to *chromedp.Target) error {
		_, err := cdp.Call(ctx, to, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
		return err
	})), "start the browser")
	return ctx
}

// lookedAt is what measure.js and paper.js find.
type lookedAt struct {
	Complaints []string
	Drawings   int // on the page
	Words      int // in its drawings
	Stops      int // where the keyboard halts
	Opened     int // parts of details that paper shows
}

func look(t *testing.T, ctx context.Context, script string) lookedAt {
	t.Helper()
	found, err := chromedp.Run(ctx, chromedp.Evaluate[lookedAt](script))
	require.NoError(t, err)
	return found
}

func visit(t *testing.T, ctx context.Context, address string) {
	t.Helper()
	ctx, done := context.WithTimeout(ctx, time.Minute)
	defer done()
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(address)), address)
}

// window sets how wide the window is, and for what it stands: "screen" or "print",
// "light" or "dark".
func window(t *testing.T, ctx context.Context, width int64, media, scheme string) {
	t.Helper()
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Func(func(ctx context.Context, to *chromedp.Target) error {
		_, err := cdp.Call(ctx, to, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Media: media, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
		})
		return err
	})))
}

// textSize makes a page's text larger, as a reader's own setting does.
func textSize(t *testing.T, ctx context.Context, percent int) {
	t.Helper()
	require.NoError(t, chromedp.Do(ctx, chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`document.documentElement.style.fontSize = "%d%%"`, percent))))
}

func fileURL(path string) string {
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}).String()
}

// Each kind of page from a folder, on a phone, a tablet and a desk, by day and by
// night: nothing scrolls sideways, overlaps, is cut or too small, and the keyboard
// finds its way. On paper nothing stays closed.
func TestPagesStandInABrowser(t *testing.T) {
	ctx := browser(t)
	site, err := standing()
	require.NoError(t, err)
	drawings, words, stops, opened := 0, 0, 0, 0
	for _, page := range shownPages {
		require.FileExists(t, filepath.Join(site, page))
		visit(t, ctx, fileURL(filepath.Join(site, page)))
		for _, width := range []int64{320, 360, 768, 1200} {
			for _, scheme := range []string{"light", "dark"} {
				window(t, ctx, width, "screen", scheme)
				found := look(t, ctx, measureJS)
				assert.Empty(t, found.Complaints, "%s at %d px, %s", page, width, scheme)
				assert.NotZero(t, found.Stops, page)
				drawings, words, stops = drawings+found.Drawings, words+found.Words, stops+found.Stops
			}
		}
		window(t, ctx, 1200, "screen", "light")
		textSize(t, ctx, 200)
		large := look(t, ctx, measureJS).Complaints
		assert.Empty(t, large, "%s with text twice as large", page)
		textSize(t, ctx, 100)
		window(t, ctx, 700, "print", "dark")
		found := look(t, ctx, paperJS)
		assert.Empty(t, found.Complaints, "%s on paper", page)
		opened += found.Opened
	}
	assert.Greater(t, drawings, 100)
	assert.Greater(t, words, 1000)
	assert.Greater(t, stops, 1000)
	assert.Greater(t, opened, 10)
	t.Logf("%d pages, %d drawings, %d words in them, %d stops of the keyboard, %d parts opened for paper", len(shownPages), drawings, words, stops, opened)
}

// What measures the pages must see each fault that it is there for.
func TestTheMeasureOfAPageSeesFaults(t *testing.T) {
	ctx := browser(t)
	for fault, c := range map[string]struct{ html, says string }{
		"sideways":       {`<p style="width:800px;background:red">wide</p>`, "scrolls sideways"},
		"overlap":        {`<svg width="200" height="50"><text x="10" y="20">one word</text><text x="30" y="24">another</text></svg>`, "overlap by"},
		"cut word":       {`<svg width="200" height="50" style="overflow:visible"><text x="-30" y="20">one word</text></svg>`, `"one word" is cut`},
		"cut paragraph":  {`<p style="margin-left:-50px">one word</p>`, `"one word" is cut`},
		"small":          {`<p style="font-size:12px">fine print</p>`, "under 13 px"},
		"small word":     {`<svg width="200" height="50"><text x="10" y="20" style="font-size:9px">fine</text></svg>`, "under 13 px"},
		"no size":        {`<img src="x.jpg" alt="a plant">`, "without its size"},
		"no alt":         {`<img src="x.jpg" width="3" height="4">`, "without words"},
		"headings":       {`<h3>Three</h3>`, `h3 "Three" follows h1`},
		"no ring":        {`<a href="#" style="outline:none">a link</a>`, "no ring"},
		"nameless":       {`<a href="#"><img src="x.jpg" alt="" width="3" height="4"></a>`, "a link without words"},
		"small target":   {`<nav><a href="#" style="display:block;line-height:14px">a</a></nav>`, "is a target of"},
		"closed (paper)": {`<details><summary>s</summary><p>hidden</p></details>`, "closed on paper: hidden"},
		"nav (paper)":    {`<nav>ways</nav>`, "of no use there"},
		"none":           {`<h2>Two</h2><p><a href="#">words</a></p><svg width="200" height="50"><text x="10" y="20">one</text><text x="60" y="20">two</text></svg>`, ""},
		"none (paper)":   {`<details open><summary>s</summary><p>shown</p></details>`, ""},
	} {
		page := `<!doctype html><html lang="en"><title>t</title><meta name="viewport" content="width=device-width"><style>:focus-visible{outline:3px solid}body{background:#fff;color:#000}</style><body><h1>One</h1>` + c.html
		visit(t, ctx, "data:text/html;charset=utf-8,"+url.PathEscape(page))
		script := measureJS
		if strings.Contains(fault, "(paper)") {
			window(t, ctx, 360, "print", "light")
			script = paperJS
		} else {
			window(t, ctx, 360, "screen", "light")
		}
		said := strings.Join(look(t, ctx, script).Complaints, "\n")
		if c.says == "" {
			assert.Empty(t, said, fault)
		} else {
			assert.Contains(t, said, c.says, fault)
		}
	}
}

// Over http a page fetches its style and its first pictures, all of them from the
// site, and nothing else.
func TestPagesStandOverHTTP(t *testing.T) {
	ctx := browser(t)
	site, err := standing()
	require.NoError(t, err)
	var asked atomic.Int64
	files := http.StripPrefix("/under/a/path", http.FileServer(http.Dir(site)))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		asked.Add(1)
		files.ServeHTTP(w, r)
	}))
	defer server.Close()

	window(t, ctx, 360, "screen", "light")
	for _, page := range []string{"index.html", "specimens/v26-09.html", "imports/2026-spring-c.html"} {
		asked.Store(0)
		visit(t, ctx, server.URL+"/under/a/path/"+page)
		ground, err := chromedp.Run(ctx, chromedp.Evaluate[string](`getComputedStyle(document.body).backgroundColor`))
		require.NoError(t, err)
		assert.Equal(t, "rgb(232, 237, 240)", ground, "the style has come")
		assert.Empty(t, look(t, ctx, measureJS).Complaints, page)
		type resource struct {
			Name   string
			Status int
		}
		fetched, err := chromedp.Run(ctx, chromedp.Evaluate[[]resource](`performance.getEntriesByType("resource").map(r => ({Name: r.name, Status: r.responseStatus}))`))
		require.NoError(t, err)
		assert.NotEmpty(t, fetched, "the style at least")
		for _, r := range fetched {
			assert.Equal(t, http.StatusOK, r.Status, r.Name)
			assert.True(t, strings.HasPrefix(r.Name, server.URL+"/under/a/path/"), "%s is not of the site", r.Name)
		}
		assert.LessOrEqual(t, asked.Load(), int64(8), "%s: requests before anybody scrolls", page)
	}
}
