package build

import (
	"io/fs"

	"wardian/content"
	"wardian/content/source"
)

// Reader reads one diary again and again while it is written, and plans its site
// each time. What a change doesn't touch is neither read nor told nor reckoned
// again, and a file of the site is made when it is asked for. What it gives is to
// the byte what reading everything gives. It may be used by one goroutine at a
// time.
type Reader struct {
	keeper *content.Keeper
	prints *Prints
	last   *Sight
}

// NewReader has read nothing yet.
func NewReader() *Reader { return &Reader{keeper: content.NewKeeper(), prints: NewPrints()} }

// Read reads the diary. changed are the paths that differ from the reading before,
// those of files and of folders that came or went; nil says that any may. files
// opens the diary's files for as long as the sight is used. Where the diary has
// errors there is no sight. An error is the disk's; everything is read after it.
func (r *Reader) Read(root, files fs.FS, o content.Options, changed []string) (*Sight, []source.Finding, error) {
	if changed == nil {
		r.prints.Forget("")
	}
	for _, at := range changed {
		r.prints.Forget(at)
	}
	d, report, err := r.keeper.Load(root, o, changed)
	if err != nil {
		return nil, nil, err
	}
	if report.Errors() > 0 {
		return nil, report.Findings(), nil
	}
	s, err := see(d, files, report, r.prints, r.last)
	if err != nil {
		return nil, report.Findings(), err
	}
	r.last = s
	return s, report.Findings(), nil
}
