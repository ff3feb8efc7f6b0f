package source

import (
	"cmp"
	"slices"
	"sync"
)

// Severity tells whether a finding stops a build.
type Severity int

const (
	// Warning is worth a look; the site is built all the same.
	Warning Severity = iota
	// Error stops the build: the diary does not say what it must.
	Error
)

// String gives the word that a user reads.
func (s Severity) String() string {
	if s == Error {
		return "error"
	}
	return "warning"
}

// Related points to another place that a finding speaks of, such as the first of
// two equal keys.
type Related struct {
	File    string
	Start   Position
	Message string
}

// Finding is one fault of a diary at one place.
//
// Message starts in lower case, has no full stop and tells what is wrong;
// Expected tells what would be right. Source is the line on which the finding
// starts, without its line end.
//
// Hint is the mend, ready to be followed as it stands, by a person or by a script
// that knows no key and no code. It opens with what to do: "nearest: turgor"
// goes where the underlined stretch is; behind "write" stands what to write to
// the letter ("write 1.5"), behind "such as" and "write it like" an example of
// what can stand there; "leave it out" is about the underlined stretch. A second
// way stands behind ", or". What takes more than that is told in other verbs
// (move, split, look at). A test of content follows the hints of all fault
// diaries so.
type Finding struct {
	File     string
	Span     Span
	Severity Severity
	Code     string // see the table of codes in content/format
	Message  string
	Expected string
	Hint     string
	Source   string
	Related  []Related
}

// Report collects findings. It may be filled from several goroutines at once.
type Report struct {
	mu   sync.Mutex
	list []Finding

	// The source line last taken, shared by the findings of one line: thousands
	// of them on a line of 64 KiB would else hold thousands of copies.
	from *File
	line int
	text string
}

// Add puts a finding into the report, with its source line taken from f, which
// may be nil where no file could be read.
func (r *Report) Add(f *File, finding Finding) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if f != nil {
		if finding.File == "" {
			finding.File = f.Path
		}
		if line := finding.Span.Start.Line; finding.Source == "" {
			if r.from != f || r.line != line {
				r.from, r.line, r.text = f, line, f.Line(line)
			}
			finding.Source = r.text
		}
	}
	r.list = append(r.list, finding)
}

// Findings gives all findings sorted by file, place, code and message, each
// once.
func (r *Report) Findings() []Finding {
	r.mu.Lock()
	defer r.mu.Unlock()
	out := slices.Clone(r.list)
	slices.SortStableFunc(out, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.File, b.File),
			cmp.Compare(a.Span.Start.Line, b.Span.Start.Line),
			cmp.Compare(a.Span.Start.Column, b.Span.Start.Column),
			cmp.Compare(a.Code, b.Code),
			cmp.Compare(a.Message, b.Message),
		)
	})
	return slices.CompactFunc(out, func(a, b Finding) bool {
		return a.File == b.File && a.Span == b.Span && a.Code == b.Code && a.Message == b.Message
	})
}

// Errors counts the findings of severity Error.
func (r *Report) Errors() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	n := 0
	for _, f := range r.list {
		if f.Severity == Error {
			n++
		}
	}
	return n
}
