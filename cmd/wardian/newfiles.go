package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"wardian/build/outdir"
	"wardian/build/scaffold"
)

// newFiles is a set of new files that are written all, or where one can't be not
// at all, and only on a yes. Each is whole or not there. A process killed between
// two leaves those before it; proof then tells of the import whose plants lack.
type newFiles struct {
	dir     string // the diary's folder
	files   []scaffold.File
	look    string // what stands above the question: "lines", "rows"
	refused string // what to do where one of the files is there already
	yes     bool   // write without asking
	dryRun  bool   // print them instead
}

// write asks and writes; done is false where nothing was written. ask is nil
// where nobody is there to be asked.
func (o newFiles) write(v voice, ask asker) (done bool, err error) {
	if o.dryRun {
		for _, f := range o.files {
			v.tell("== " + f.Path + "\n" + f.Text)
		}
		return false, nil
	}
	for _, f := range o.files {
		switch _, err := os.Lstat(o.path(f)); {
		case err == nil:
			return false, wrongUse{message: o.path(f) + " is there already; nothing was written", next: o.refused}
		case !errors.Is(err, fs.ErrNotExist):
			return false, err
		}
	}
	if !o.yes {
		if ask == nil {
			return false, wrongUse{message: "nothing was written: nobody is there to ask", next: "look at the " + o.look + " above, then call again with --yes"}
		}
		switch yes, err := ask(v, fmt.Sprintf("write %s into %s?", counted(len(o.files), "file", "files"), o.dir)); {
		case err != nil:
			return false, err
		case !yes:
			v.say("nothing was written")
			return false, nil
		}
	}
	for n, f := range o.files {
		if err := outdir.WriteNew(o.path(f), []byte(f.Text)); err != nil {
			return false, errors.Join(err, o.takeBack(n))
		}
	}
	for _, f := range o.files {
		v.tell(o.path(f))
	}
	return true, nil
}

// takeBack removes the first n files, which this call wrote.
func (o newFiles) takeBack(n int) error {
	var all error
	for _, f := range o.files[:n] {
		if err := os.Remove(o.path(f)); err != nil {
			all = errors.Join(all, fmt.Errorf("take back: %w", err))
		}
	}
	return all
}

func (o newFiles) path(f scaffold.File) string {
	return filepath.Join(o.dir, filepath.FromSlash(f.Path))
}
