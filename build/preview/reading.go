package preview

import (
	"fmt"
	"time"

	"wardian/content/source"
)

// Site is a site of which any file can be made at any time. Its methods may be
// called from several goroutines at once.
type Site interface {
	// File makes the file at a site path ("specimens/b26-03.html"); ok is false
	// where the site has none. If a fault of the diary keeps it from being made,
	// the error has a method Finding() source.Finding.
	File(path string) (data []byte, ok bool, err error)
	// Marks tells what is shown here and would not be in a built site: words
	// such as "unfinished", by the site path of a page that as a whole isn't,
	// and by the id of a part that isn't, on whatever page it stands.
	Marks() (pages, parts map[string]string)
}

// Reading is what came of reading the folder once.
type Reading struct {
	Site     Site             // nil where findings or an error kept it from being made
	Findings []source.Finding // all of them, warnings too
	Err      error            // the disk failed, or the folder is gone
}

// Kind says how a path changed.
type Kind int

const (
	Edited Kind = iota // or replaced
	New
	Gone
	Passing // came and went, or did so in a folder, before anybody listed it
)

// String gives the word that a user reads.
func (k Kind) String() string {
	return [...]string{"changed", "new", "gone", "come and gone"}[k]
}

// Path is one path that changed: from the watched folder, with forward slashes.
type Path struct {
	Name string
	Kind Kind
}

// Change is what happened in the folder since the last one.
type Change struct {
	Paths []Path    // sorted by name; of a folder that came or went, with everything in it
	All   bool      // events were lost: anything may have changed, whatever its size and time say
	Began time.Time // of the first event
}

// Told is what a change came to, for the terminal.
type Told struct {
	Change
	Reading
	Open int           // pages that are open
	Anew int           // of these, pages whose bytes changed
	Took time.Duration // from the first event until the open pages were told
}

// fault is an error that is a finding.
type fault interface {
	error
	Finding() source.Finding
}

// counted is a number with its noun.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
