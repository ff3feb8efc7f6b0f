package preview

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"mime"
	"net/http"
	"net/url"
	"path"
	"strings"
	"sync"
	"time"

	"wardian/content/source"
)

// Server shows what was read last. Show may be called at any time; requests
// before the first call wait for it.
type Server struct {
	style []byte // of the site, for pages that the site doesn't have

	mu    sync.Mutex
	now   *state
	first chan struct{} // closed when there is a state
	open  map[*listener]struct{}
	good  map[string]*file // pages as they last could be made, by site path
}

// listener is one open page.
type listener struct {
	path string
	was  bool          // the site had the page, so that it can be gone
	bell chan struct{} // room for one ring: two mean no more than one
}

// NewServer makes a server with nothing to show. style is the site's style
// sheet, for the few pages that are the preview's own.
func NewServer(style []byte) *Server {
	return &Server{style: style, first: make(chan struct{}), open: map[*listener]struct{}{}, good: map[string]*file{}}
}

// Handler answers requests to the server under its own names at a port.
func (s *Server) Handler(port int) http.Handler { return Gate(port, http.HandlerFunc(s.serve)) }

// Show takes what was read, makes the pages that are open and tells those whose
// bytes or slip changed. It gives how many are open, and how many of them have
// other bytes.
func (s *Server) Show(r Reading) (open, anew int) {
	s.mu.Lock()
	before := s.now
	next := &state{findings: r.Findings, err: r.Err, stale: r.Site == nil}
	switch {
	case r.Site != nil:
		next.sight = newSight(r.Site)
	case before != nil:
		next.sight = before.sight
	}
	paths := map[string]bool{}
	for l := range s.open {
		paths[l.path] = true
	}
	s.mu.Unlock()

	if before != nil && before.sight != next.sight {
		var work sync.WaitGroup
		var count sync.Mutex
		for p := range paths {
			work.Go(func() {
				if s.made(next, p).print != s.made(before, p).print {
					count.Lock()
					anew++
					count.Unlock()
				}
			})
		}
		work.Wait()
	}
	s.mu.Lock()
	s.now = next
	if before == nil {
		close(s.first)
	}
	s.ring()
	s.mu.Unlock()
	return len(paths), anew
}

// ring wakes every open page; with the lock held.
func (s *Server) ring() {
	for l := range s.open {
		select {
		case l.bell <- struct{}{}:
		default:
		}
	}
}

func (s *Server) state() *state {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.now
}

// made makes a file and, if a fault of the diary keeps it from being made, lays
// the finding over all pages; of a page, what could last be made stays.
func (s *Server) made(in *state, p string) *file {
	f, _ := s.madeOrLast(in, p)
	return f
}

// madeOrLast tells of a page, too, whether it is the last that could be made.
func (s *Server) madeOrLast(in *state, p string) (f *file, last bool) {
	f = in.sight.file(p)
	page := path.Ext(p) == ".html"
	if finding, ok := findingIn(f.err); ok {
		s.add(in.sight, finding)
		s.mu.Lock()
		defer s.mu.Unlock()
		if kept := s.good[p]; page && kept != nil {
			return kept, true
		}
	} else if page && f.ok && f.err == nil {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.good[p] = f
	}
	return f, false
}

// after is the state once a file was made: with what making it found, and whether
// an earlier one is shown.
func (s *Server) after(last bool) *state {
	now := *s.state()
	now.stale = now.stale || last
	return &now
}

func (s *Server) add(of *sight, f source.Finding) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.now != nil && s.now.sight == of && !s.now.has(f) {
		s.now = s.now.with(f)
		s.ring()
	}
}

// sitePath is the site path that a request's path asks for.
func sitePath(p string) string {
	p = strings.TrimPrefix(p, "/")
	if p == "" || strings.HasSuffix(p, "/") {
		p += "index.html"
	}
	return p
}

func (s *Server) serve(w http.ResponseWriter, r *http.Request) {
	select {
	case <-s.first:
	case <-r.Context().Done():
		return
	}
	p := sitePath(r.URL.Path)
	switch p {
	case scriptAt:
		answer(w, r, p, http.StatusOK, script)
		return
	case slipStyle:
		answer(w, r, p, http.StatusOK, style)
		return
	case baseStyle:
		answer(w, r, p, http.StatusOK, s.style)
		return
	case streamAt:
		s.stream(w, r)
		return
	}
	now := s.state()
	f, last := s.madeOrLast(now, p)
	now = s.after(last)
	switch {
	case f.err != nil && path.Ext(p) != ".html":
		http.Error(w, plain(f.err.Error()), http.StatusInternalServerError)
	case f.err != nil:
		failed := *now
		failed.err = f.err
		answer(w, r, p, http.StatusInternalServerError, served(bare("This page couldn’t be made", "What keeps it from being made stands below."), "", failed.slip(false)))
	case f.ok && path.Ext(p) == ".html":
		answer(w, r, p, http.StatusOK, served(f.bytes, f.print, now.slip(false)))
	case f.ok:
		answer(w, r, p, http.StatusOK, f.bytes)
	case now.sight == nil:
		answer(w, r, ".html", http.StatusServiceUnavailable, served(bare("Nothing to show yet", "The site comes when what stands below is mended."), "", now.slip(false)))
	case path.Ext(p) == ".html" || path.Ext(p) == "":
		answer(w, r, ".html", http.StatusNotFound, served(bare("No such page", "The diary makes no page of this name."), "", now.slip(false)))
	default:
		http.Error(w, "no such file", http.StatusNotFound)
	}
}

// answer sends bytes; a browser keeps them, and asks each time whether they are
// still right.
func answer(w http.ResponseWriter, r *http.Request, p string, code int, data []byte) {
	h := w.Header()
	h.Set("Content-Type", contentType(p))
	if code != http.StatusOK {
		h.Set("Cache-Control", "no-store")
		w.WriteHeader(code)
		if r.Method != http.MethodHead {
			_, _ = w.Write(data)
		}
		return
	}
	sum := sha256.Sum256(data)
	h.Set("Cache-Control", "no-cache")
	h.Set("ETag", `"`+hex.EncodeToString(sum[:12])+`"`)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
}

// contentType goes by the name alone. What the standard library knows depends
// on the machine, so that what a site is made of is named here.
func contentType(p string) string {
	switch ext := path.Ext(p); ext {
	case ".html":
		return "text/html; charset=utf-8"
	case ".css":
		return "text/css; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".json":
		return "application/json"
	case ".atom":
		return "application/atom+xml"
	case ".csv":
		return "text/csv; charset=utf-8"
	case ".jpg":
		return "image/jpeg"
	default:
		if t := mime.TypeByExtension(ext); t != "" {
			return t
		}
		return "application/octet-stream"
	}
}

// message is what an open page is told: all of its state, so that one that was
// away for a while needs nothing else.
type message struct {
	Print string `json:"print"` // of the page's bytes; "" where there is no such page now
	Slip  string `json:"slip"`  // HTML
}

// beat is how often a silent stream sends a line, so that one whose page is gone
// is noticed.
const beat = 20 * time.Second

// stream tells an open page of its changes, as server-sent events (HTML
// standard, 9.2).
func (s *Server) stream(w http.ResponseWriter, r *http.Request) {
	asked := r.URL.Query()
	page, err := url.PathUnescape(asked.Get("page"))
	if err != nil || page == "" {
		http.Error(w, "which page? write ?page=/", http.StatusBadRequest)
		return
	}
	l := &listener{path: sitePath(page), was: asked.Get("print") != "", bell: make(chan struct{}, 1)}
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	out := http.NewResponseController(w)
	fmt.Fprint(w, "retry: 250\n\n")
	if out.Flush() != nil || r.Method == http.MethodHead {
		return
	}
	s.mu.Lock()
	s.open[l] = struct{}{}
	s.mu.Unlock()
	defer func() {
		s.mu.Lock()
		delete(s.open, l)
		s.mu.Unlock()
	}()
	beats := time.NewTicker(beat)
	defer beats.Stop()
	last := message{Print: "-"}
	for {
		if now := s.tell(l); now != last {
			data, err := json.Marshal(now)
			if err != nil {
				panic("preview: " + err.Error()) // two texts always encode
			}
			if _, err := fmt.Fprintf(w, "data: %s\n\n", data); err != nil || out.Flush() != nil {
				return
			}
			last = now
		}
		select {
		case <-l.bell:
		case <-beats.C:
			if _, err := fmt.Fprint(w, ":\n\n"); err != nil || out.Flush() != nil {
				return
			}
		case <-r.Context().Done():
			return
		}
	}
}

// tell is what a page is to be told now.
func (s *Server) tell(l *listener) message {
	now := s.state()
	f, last := s.madeOrLast(now, l.path)
	now = s.after(last)
	if f.err != nil {
		failed := *now
		failed.err = f.err
		return message{Slip: string(failed.slip(false))}
	}
	l.was = l.was || f.ok
	return message{Print: f.print, Slip: string(now.slip(l.was && !f.ok))}
}
