package preview

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/source"
)

// counting is a site that counts what is made.
type counting struct {
	fixed
	made         sync.Map // path: *atomic.Int64
	pages, parts map[string]string
	unfit        map[string]source.Finding
}

func (c *counting) File(path string) ([]byte, bool, error) {
	n, _ := c.made.LoadOrStore(path, new(atomic.Int64))
	n.(*atomic.Int64).Add(1)
	if f, ok := c.unfit[path]; ok {
		return nil, false, unfit{f}
	}
	return c.fixed.File(path)
}

func (c *counting) Marks() (pages, parts map[string]string) { return c.pages, c.parts }

func (c *counting) count(path string) int64 {
	n, ok := c.made.Load(path)
	if !ok {
		return 0
	}
	return n.(*atomic.Int64).Load()
}

type unfit struct{ f source.Finding }

func (u unfit) Error() string           { return u.f.Message }
func (u unfit) Finding() source.Finding { return u.f }

// get asks a handler for a path as a browser at the address would.
func get(h http.Handler, path string, headers ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodGet, "http://localhost:4711"+path, nil)
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// broken is a finding with everything a finding may have.
var broken = source.Finding{File: "check-ins/a.md", Span: source.Span{Start: source.Position{Line: 4, Column: 9}, End: source.Position{Line: 4, Column: 14}},
	Severity: source.Error, Code: "unknown-word", Message: `there is no word "frim" <here>`, Expected: "firm, soft or limp", Hint: "nearest: firm",
	Source: "turgor: \"frim\"", Related: []source.Related{{File: "check-ins/b.md", Start: source.Position{Line: 2, Column: 1}, Message: "first said here"}}}

func TestAPageIsMadeOnceWhenItIsAskedFor(t *testing.T) {
	site := &counting{fixed: fixed{"index.html": small, "a.html": small, "pictures/p.jpg": "JPEG"}}
	s, h := showing(Reading{Site: site})
	assert.Zero(t, site.count("index.html"), "nothing is made before it is asked for")
	for range 3 {
		assert.Equal(t, 200, get(h, "/").Code)
	}
	assert.Equal(t, int64(1), site.count("index.html"))
	assert.Zero(t, site.count("a.html"))
	assert.Equal(t, "image/jpeg", get(h, "/pictures/p.jpg").Header().Get("Content-Type"))
	assert.Equal(t, "JPEG", get(h, "/pictures/p.jpg").Body.String(), "a file goes out as it is")

	first := get(h, "/")
	assert.Equal(t, http.StatusNotModified, get(h, "/", "If-None-Match", first.Header().Get("ETag")).Code)

	// After a change nothing is made but what is open, which here is nothing.
	next := &counting{fixed: fixed{"index.html": small}}
	open, anew := s.Show(Reading{Site: next})
	assert.Equal(t, [2]int{0, 0}, [2]int{open, anew})
	assert.Zero(t, next.count("index.html"))
	assert.Equal(t, 404, get(h, "/a.html").Code)
	for range 3 {
		get(h, "/not-there.html")
	}
	assert.Len(t, s.now.sight.made, 0, "what isn't there isn't kept")
}

func TestTheSlip(t *testing.T) {
	s, h := showing(Reading{Site: fixed{"index.html": small}})
	assert.NotContains(t, get(h, "/").Body.String(), "preview-finding")
	s.Show(Reading{Findings: []source.Finding{broken}})
	page := get(h, "/").Body.String()
	assert.Contains(t, page, "words", "the last good page stays")
	assert.Contains(t, page, `there is no word &#34;frim&#34; &lt;here&gt;`)
	assert.Contains(t, page, "<b>check-ins/a.md</b>, line 4, column 9")
	assert.Contains(t, page, "<code>turgor: <mark>&#34;frim</mark>&#34;</code>")
	assert.Contains(t, page, "nearest: <b>firm</b>")
	assert.Contains(t, page, "check-ins/b.md</b>, line 2, column 1: first said here")
	assert.Contains(t, page, "1 error: the page below is the last good one")
	assert.Contains(t, page, ` open>`)
	s.Show(Reading{Site: fixed{"index.html": small}})
	assert.NotContains(t, get(h, "/").Body.String(), "preview-finding", "it goes when it is mended")

	warning := broken
	warning.Severity = source.Warning
	s.Show(Reading{Site: fixed{"index.html": small}, Findings: []source.Finding{warning}})
	page = get(h, "/").Body.String()
	assert.Contains(t, page, "1 warning")
	assert.NotContains(t, page, "last good one")
	assert.NotContains(t, page, " open>", "a warning lies folded")

	s.Show(Reading{Err: errors.New("the folder is gone")})
	page = get(h, "/").Body.String()
	assert.Contains(t, page, "the folder is gone")
	assert.Contains(t, page, "last good one")

	var many []source.Finding
	for i := range 40 {
		f := broken
		f.Span.Start.Line = i + 1
		many = append(many, f)
	}
	s.Show(Reading{Findings: append([]source.Finding{warning}, many...)})
	page = get(h, "/").Body.String()
	assert.Equal(t, most, strings.Count(page, `class="preview-finding error"`), "the first few at length")
	assert.Contains(t, page, "And 34 more")
	assert.Contains(t, page, "40 errors, 1 warning")
}

// Before there is a good site, the slip lies on a page of the preview's own.
func TestNothingToShowYet(t *testing.T) {
	s, h := showing(Reading{Findings: []source.Finding{broken}})
	w := get(h, "/specimens/p-1.html")
	assert.Equal(t, http.StatusServiceUnavailable, w.Code)
	assert.Contains(t, w.Body.String(), "line 4, column 9")
	assert.Equal(t, "text/html; charset=utf-8", w.Header().Get("Content-Type"))
	s.Show(Reading{Site: fixed{"specimens/p-1.html": small}})
	assert.Equal(t, 200, get(h, "/specimens/p-1.html").Code)
}

func TestTheSpot(t *testing.T) {
	at := func(line, from, to int) source.Span {
		return source.Span{Start: source.Position{Line: line, Column: from}, End: source.Position{Line: line, Column: to}}
	}
	long := strings.Repeat("a", 500) + "HERE" + strings.Repeat("b", 500)
	for _, c := range []struct {
		line                string
		span                source.Span
		before, spot, after string
	}{
		{"turgr: firm", at(1, 1, 6), "", "turgr", ": firm"},
		{"name: blåbær x", at(1, 7, 13), "name: ", "blåbær", " x"},
		{"name:", at(1, 6, 6), "name:", " ", ""},
		{"name:", at(1, 99, 99), "name:", " ", ""},
		{"a b", at(1, 2, 2), "a", "  ", "b"},
		{"", at(1, 1, 1), "", "", ""},
		{long, at(1, 501, 505), "… " + strings.Repeat("a", around), "HERE", strings.Repeat("b", around) + " …"},
		{long, at(1, 1, 1005), "", strings.Repeat("a", 4*around), " …"},
		{"two lines", source.Span{Start: source.Position{Line: 1, Column: 5}, End: source.Position{Line: 3, Column: 1}}, "two ", "lines", ""},
		{"a\u202eb\x1bc\td", at(1, 2, 3), "a", "�", "b�c\td"},
	} {
		before, spot, after := spot(source.Finding{Source: c.line, Span: c.span})
		assert.Equal(t, []string{c.before, c.spot, c.after}, []string{before, spot, after}, "%.20q", c.line)
	}
}

func TestMarks(t *testing.T) {
	page := `<html><head></head><body><header id="h"></header><main id="content"><ol><li id="entry-a">1</li><li class="x" id="entry-b"><h3>2</h3></li></ol></main></body></html>`
	site := &counting{fixed: fixed{"a.html": page, "b.html": page}, pages: map[string]string{"b.html": "unfinished"}, parts: map[string]string{"entry-b": `held "back"`}}
	_, h := showing(Reading{Site: site})
	a := get(h, "/a.html").Body.String()
	assert.Contains(t, a, `<li id="entry-a">1`)
	assert.Contains(t, a, `<li class="x" id="entry-b" data-only-here="held &#34;back&#34;"><h3><span class="preview-mark">(held &#34;back&#34;) </span>2</h3>`)
	assert.Contains(t, a, "Shown here only: 1 entry of this page, marked.</p></aside>\n<main")
	assert.NotContains(t, a, "this page is")
	assert.Contains(t, get(h, "/b.html").Body.String(), "this page is unfinished")

	_, h = showing(Reading{Site: fixed{"a.html": page}})
	assert.NotContains(t, get(h, "/a.html").Body.String(), "only-here")
	assert.Contains(t, get(h, "/a.html").Body.String(), page[len("<html><head></head>"):strings.Index(page, "</body>")], "nothing else is touched")
}

// A picture that turns out to be no picture is told on every page, and the site
// stays.
func TestAFaultFoundLate(t *testing.T) {
	site := &counting{fixed: fixed{"index.html": small}, unfit: map[string]source.Finding{"pictures/p.jpg": broken}}
	_, h := showing(Reading{Site: site})
	assert.NotContains(t, get(h, "/").Body.String(), "preview-finding")
	assert.Equal(t, http.StatusInternalServerError, get(h, "/pictures/p.jpg").Code)
	get(h, "/pictures/p.jpg")
	page := get(h, "/").Body.String()
	assert.Equal(t, 1, strings.Count(page, "preview-finding"))
	assert.NotContains(t, page, "last good one", "the page is as good as it gets")
}

// A page that a fault keeps from being made stays as it last was, and says so,
// for whoever has it open and whoever comes anew; one that never was made can't.
func TestThePageThatWasMadeLastStays(t *testing.T) {
	s, h := showing(Reading{Site: fixed{"index.html": small}})
	require.Contains(t, get(h, "/").Body.String(), "<main>words")
	s.Show(Reading{Site: &counting{fixed: fixed{}, unfit: map[string]source.Finding{"index.html": broken, "a.html": broken}}})
	for range 2 {
		w := get(h, "/")
		assert.Equal(t, http.StatusOK, w.Code)
		assert.Contains(t, w.Body.String(), "<main>words")
		assert.Equal(t, 1, strings.Count(w.Body.String(), "preview-finding"))
		assert.Contains(t, w.Body.String(), "last good one")
	}
	assert.Equal(t, http.StatusInternalServerError, get(h, "/a.html").Code)
	s.Show(Reading{Site: fixed{"index.html": strings.Replace(small, "words", "others", 1)}})
	assert.Contains(t, get(h, "/").Body.String(), "<main>others")
	assert.NotContains(t, get(h, "/").Body.String(), "last good one")
}

type panicking struct{ fixed }

func (p panicking) File(path string) ([]byte, bool, error) {
	if path == "bad.html" {
		panic("a curve without points")
	}
	return p.fixed.File(path)
}

func TestAPageThatCantBeDrawnEndsNothing(t *testing.T) {
	_, h := showing(Reading{Site: panicking{fixed{"index.html": small}}})
	w := get(h, "/bad.html")
	assert.Equal(t, http.StatusInternalServerError, w.Code)
	assert.Contains(t, w.Body.String(), "a curve without points")
	assert.Equal(t, 200, get(h, "/").Code)
}

// streamed reads an open page's stream.
type streamed struct {
	t     *testing.T
	lines *bufio.Scanner
}

func (s *streamed) next() message {
	s.t.Helper()
	for s.lines.Scan() {
		if data, ok := strings.CutPrefix(s.lines.Text(), "data: "); ok {
			var m message
			require.NoError(s.t, json.Unmarshal([]byte(data), &m))
			return m
		}
	}
	require.Fail(s.t, "the stream ended")
	return message{}
}

func TestAnOpenPageIsToldWhatChanged(t *testing.T) {
	s := NewServer(nil)
	server := httptest.NewUnstartedServer(nil)
	server.Config.Handler = s.Handler(server.Listener.Addr().(*net.TCPAddr).Port)
	server.Start()
	defer server.Close()
	defer server.CloseClientConnections() // streams don’t end by themselves
	s.Show(Reading{Site: fixed{"index.html": small, "a.html": small}})

	hear := func(page string) *streamed {
		ctx, stop := context.WithTimeout(context.Background(), 20*time.Second)
		t.Cleanup(stop)
		r, err := http.NewRequestWithContext(ctx, http.MethodGet, server.URL+"/preview/changes?print=x&page="+url.QueryEscape(page), nil)
		require.NoError(t, err)
		answer, err := http.DefaultClient.Do(r)
		require.NoError(t, err)
		t.Cleanup(func() { answer.Body.Close() })
		require.Equal(t, "text/event-stream", answer.Header.Get("Content-Type"))
		return &streamed{t, bufio.NewScanner(answer.Body)}
	}
	front, a := hear("/"), hear("/a.html")
	was, wasA := front.next(), a.next()
	assert.NotEmpty(t, was.Print)
	assert.Empty(t, was.Slip)

	site := &counting{fixed: fixed{"index.html": small + "more", "a.html": small, "b.html": small}}
	open, anew := s.Show(Reading{Site: site})
	assert.Equal(t, [2]int{2, 1}, [2]int{open, anew})
	now := front.next()
	assert.NotEqual(t, was.Print, now.Print)
	assert.Equal(t, int64(1), site.count("index.html"), "made once, whoever asks")
	assert.Equal(t, int64(1), site.count("a.html"))
	assert.Zero(t, site.count("b.html"), "a page that isn't open isn't made")

	// The page whose bytes are the same hears nothing of it: the slip is the
	// next it is told.
	s.Show(Reading{Findings: []source.Finding{broken}})
	told := a.next()
	assert.Equal(t, wasA.Print, told.Print)
	assert.Contains(t, told.Slip, "line 4, column 9")
	assert.Contains(t, front.next().Slip, "line 4, column 9")

	s.Show(Reading{Site: fixed{"index.html": small + "more"}})
	assert.Equal(t, message{Print: now.Print}, front.next(), "the slip is gone and the page as before")
	gone := a.next()
	assert.Empty(t, gone.Print)
	assert.Contains(t, gone.Slip, "no such page any more")
	s.Show(Reading{Site: fixed{"index.html": small, "a.html": small}})
	assert.Equal(t, message{Print: wasA.Print}, a.next(), "and comes back with the page")
}
