package preview

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fixed is a site of given files.
type fixed map[string]string

func (f fixed) File(path string) ([]byte, bool, error) {
	data, ok := f[path]
	return []byte(data), ok, nil
}

func (f fixed) Marks() (pages, parts map[string]string) { return nil, nil }

const small = "<!doctype html>\n<html><head><title>t</title></head>\n<body><main>words</main></body></html>\n"

// showing is a server at port 4711 that shows a site.
func showing(r Reading) (*Server, http.Handler) {
	s := NewServer([]byte("body{}"))
	s.Show(r)
	return s, s.Handler(4711)
}

// Every host, origin and site a request may name, by every method, at every kind
// of path. The answers are pinned by hand, row by row of hosts and senders; the
// paths tell what is answered where the gate is open.
func TestWhoMayRead(t *testing.T) {
	_, handler := showing(Reading{Site: fixed{"index.html": small, "specimens/p-1.html": small, "look/style-0.css": "a{}"}})
	hosts := []struct {
		host string
		own  bool
	}{
		{"localhost:4711", true}, {"127.0.0.1:4711", true}, {"[::1]:4711", true},
		{"localhost", false}, {"127.0.0.1", false}, {"[::1]", false}, {"::1:4711", false}, {"", false},
		{"localhost:4712", false}, {"127.0.0.1:80", false}, {"127.0.0.2:4711", false}, {"127.1:4711", false},
		{"0.0.0.0:4711", false}, {"[::]:4711", false}, {"[0:0:0:0:0:0:0:1]:4711", false}, {"[::ffff:127.0.0.1]:4711", false},
		{"LOCALHOST:4711", false}, {"localhost.:4711", false}, {"localhost:04711", false}, {"localhost:4711 ", false},
		{"example.org", false}, {"example.org:4711", false}, {"localhost.example.org:4711", false}, {"127.0.0.1.example.org:4711", false},
		{"localhost:4711@example.org", false}, {"2130706433:4711", false},
	}
	senders := []struct {
		origin, site string // "" where the header is missing; HOST: the request's own host
		own          bool
	}{
		{"", "", true}, {"", "none", true}, {"", "same-origin", true}, {"http://HOST", "", true}, {"http://HOST", "same-origin", true},
		{"", "cross-site", false}, {"", "same-site", false}, {"", "Same-Origin", false}, {"", "anything", false},
		{"null", "", false}, {"null", "same-origin", false}, {"https://HOST", "", false}, {"http://HOST/", "", false},
		{"http://example.org", "", false}, {"https://example.org", "cross-site", false}, {"http://localhost:4712", "", false}, {"http://localhost", "", false},
		{"http://HOST.example.org", "", false}, {"http://HOST", "cross-site", false}, {"http://HOST http://example.org", "", false}, {"file://", "", false},
	}
	paths := []struct {
		path string
		code int // where the gate is open
	}{
		{"/", 200}, {"/index.html", 200}, {"/specimens/p-1.html", 200}, {"/look/style-0.css", 200}, {"/preview/page.js", 200}, {"/preview/slip.css", 200},
		{"/preview/changes?page=/", 200}, {"/preview/changes", 400}, {"/nowhere.html", 404}, {"/specimens", 404}, {"/preview/", 404},
		{"/../diary.yaml", 404}, {"/..%2fdiary.yaml", 404}, {"/%2e%2e/diary.yaml", 404}, {"/specimens/../../etc/passwd", 404}, {"//etc/passwd", 404},
		{"/C:/Windows/win.ini", 404}, {`/..\..\diary.yaml`, 404}, {"/index.html%00.css", 404}, {"/diary.yaml", 404},
	}
	methods := []struct {
		method string
		reads  bool
	}{{"GET", true}, {"HEAD", true}, {"POST", false}, {"PUT", false}, {"DELETE", false}, {"OPTIONS", false}, {"PATCH", false}, {"TRACE", false}, {"CONNECT", false}, {"get", false}}

	rows, refused := 0, 0
	for _, h := range hosts {
		for _, s := range senders {
			for _, m := range methods {
				for _, p := range paths {
					if (!h.own || !s.own || !m.reads) && p.path != "/" && p.path != "/preview/changes?page=/" && p.path != "/nowhere.html" {
						continue // one page, the stream and what isn't there stand for all that is refused
					}
					rows++
					want := p.code
					switch {
					case !h.own, !s.own:
						want = http.StatusForbidden
						refused++
					case !m.reads:
						want = http.StatusMethodNotAllowed
					}
					r := httptest.NewRequest(http.MethodGet, "http://placeholder/", nil)
					u, err := r.URL.Parse("http://placeholder" + strings.ReplaceAll(p.path, `\`, "%5c"))
					require.NoError(t, err)
					r.Method, r.URL, r.Host = m.method, u, h.host
					if s.origin != "" {
						r.Header.Set("Origin", strings.ReplaceAll(s.origin, "HOST", h.host))
					}
					if s.site != "" {
						r.Header.Set("Sec-Fetch-Site", s.site)
					}
					w := httptest.NewRecorder()
					if want == 200 && strings.Contains(p.path, "changes") {
						// A stream that is let in stays open: only its head is asked for here.
						r.Method = http.MethodHead
					}
					handler.ServeHTTP(w, r)
					if !assert.Equal(t, want, w.Code, "%s %s at host %q from %q, %q", m.method, p.path, h.host, s.origin, s.site) {
						return
					}
					for key := range w.Header() {
						assert.False(t, strings.HasPrefix(key, "Access-Control-"), key)
					}
					assert.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"))
					if want == http.StatusForbidden || want == http.StatusMethodNotAllowed {
						assert.NotContains(t, w.Body.String(), "words")
						assert.NotContains(t, w.Body.String(), "data:")
					}
				}
			}
		}
	}
	assert.Greater(t, rows, 100)
	assert.Greater(t, refused, 100)
	t.Logf("%d rows, %d refused", rows, refused)
}

// Two headers where one is allowed are one too many.
func TestTwoOriginsAreRefused(t *testing.T) {
	_, handler := showing(Reading{Site: fixed{"index.html": small}})
	for _, key := range []string{"Origin", "Sec-Fetch-Site"} {
		r := httptest.NewRequest(http.MethodGet, "http://localhost:4711/", nil)
		own := map[string]string{"Origin": "http://localhost:4711", "Sec-Fetch-Site": "same-origin"}[key]
		r.Header.Add(key, own)
		r.Header.Add(key, own)
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		assert.Equal(t, http.StatusForbidden, w.Code, key)
	}
}

// The server as it listens: on loopback, under both of its families.
func TestListening(t *testing.T) {
	listeners, port, err := listen(0, 0)
	require.NoError(t, err)
	for _, l := range listeners {
		assert.Regexp(t, `^(127\.0\.0\.1|\[::1\]):\d+$`, l.Addr().String())
	}
	_, _, err = listen(port, 0)
	assert.Error(t, err, "a port that was asked for is taken")
	others, other, err := listen(0, port)
	require.NoError(t, err, "one that was only wished for isn't insisted on")
	assert.NotEqual(t, port, other)
	for _, l := range append(listeners, others...) {
		l.Close()
	}
	again, port2, err := listen(0, port)
	require.NoError(t, err)
	assert.Equal(t, port, port2, "the wish is granted where it can be")
	for _, l := range again {
		l.Close()
	}
}
