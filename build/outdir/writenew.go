package outdir

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// WriteNew writes one new file, of mode 0644, with all of its bytes or not at all, and makes the folders above it
// that are missing. It never replaces anything: a file that stands there, be it a broken link, is an error
// (errors.Is fs.ErrExist). When it returns, file and name are on the disk.
//
// The bytes go to .NAME.wardian-new in the same folder and are renamed. A process killed before that leaves this
// file and .NAME.wardian-lock, which the next WriteNew of the same name uses and clears away.
func WriteNew(path string, data []byte) error { return writeNew(osDisk{}, path, data) }

func writeNew(d disk, path string, data []byte) (err error) {
	fail := func(err error) error { return fmt.Errorf("write %s: %w", path, err) }
	full, err := filepath.Abs(path)
	if err != nil {
		return fail(err)
	}
	if exists(full) {
		return fail(fs.ErrExist)
	}
	if _, err := makeParents(d, filepath.Dir(full)); err != nil {
		return fail(err)
	}
	l, err := d.lock(beside(full, "lock"))
	if err != nil {
		return fail(err)
	}
	defer func() {
		if e := d.unlock(l); e != nil {
			err = errors.Join(err, fail(e))
		}
	}()
	temporary := beside(full, "new")
	if info, err := os.Lstat(temporary); err == nil && !info.Mode().IsRegular() {
		return fail(&Refused{temporary, "it is the name of a file of Wardian's, and something else stands there", "move that away"})
	}
	if err := d.remove(temporary); err != nil {
		return fail(err)
	}
	if err := writeFile(d, temporary, data, true); err != nil {
		return fail(errors.Join(err, d.remove(temporary)))
	}
	if err := d.renameNew(temporary, full); err != nil {
		return fail(errors.Join(err, d.remove(temporary)))
	}
	if err := d.syncDir(filepath.Dir(full)); err != nil {
		return fail(err)
	}
	return nil
}
