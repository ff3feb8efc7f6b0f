package preview

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
	"sync"

	"wardian/content/source"
)

// sight is one site with the files of it that were asked for so far.
type sight struct {
	site Site
	once sync.Once
	page map[string]string // marks of whole pages
	part map[string]string // marks of parts

	mu   sync.Mutex
	made map[string]*file
}

// file is one file of a site, made once.
type file struct {
	once  sync.Once
	ok    bool
	err   error
	bytes []byte // a page's with its marks
	print string // short hash of bytes; "" where there are none
}

func newSight(site Site) *sight { return &sight{site: site, made: map[string]*file{}} }

// file makes a file, or waits until another has made it. A nil sight has none.
func (s *sight) file(path string) *file {
	if s == nil {
		return &file{}
	}
	s.mu.Lock()
	f := s.made[path]
	if f == nil {
		f = &file{}
		s.made[path] = f
	}
	s.mu.Unlock()
	f.once.Do(func() {
		defer func() {
			// A page that can't be drawn must not end the server that shows how
			// it is mended: the panic is told where the page would be.
			if p := recover(); p != nil {
				f.ok, f.bytes, f.err = false, nil, fmt.Errorf("making %s failed: %v", path, p)
			}
		}()
		f.bytes, f.ok, f.err = s.site.File(path)
		if f.ok && f.err == nil {
			if strings.HasSuffix(path, ".html") {
				f.bytes = s.mark(path, f.bytes)
			}
			sum := sha256.Sum256(f.bytes)
			f.print = hex.EncodeToString(sum[:8])
		}
	})
	if !f.ok && f.err == nil {
		// Paths that aren't there can be asked for without end.
		s.mu.Lock()
		delete(s.made, path)
		s.mu.Unlock()
	}
	return f
}

// state is what is shown at a moment: the last good site, and what is wrong now.
type state struct {
	sight    *sight // nil before there was a good one
	findings []source.Finding
	err      error
	stale    bool // the last reading made no site
}

// with is the state with another finding, which a file had that was made late.
func (s *state) with(f source.Finding) *state {
	out := *s
	out.findings = append(append([]source.Finding(nil), s.findings...), f)
	return &out
}

// has says whether a finding is told already.
func (s *state) has(f source.Finding) bool {
	for _, g := range s.findings {
		if g.File == f.File && g.Span == f.Span && g.Code == f.Code && g.Message == f.Message {
			return true
		}
	}
	return false
}

// findingIn is the finding that an error is, if it is one.
func findingIn(err error) (source.Finding, bool) {
	var f fault
	if errors.As(err, &f) {
		return f.Finding(), true
	}
	return source.Finding{}, false
}
