package outdir

import (
	"errors"
	"io"
	"os"
)

// Modes of what a site is made of, whatever the umask.
const (
	fileMode  = 0o644
	dirMode   = 0o755
	stageMode = 0o700 // nobody else reads half a site
)

// errCannotExchange is what exchange reports where kernel or file system has no such step.
var errCannotExchange = errors.New("two folders can't be exchanged in one step here")

// disk is every operation of this package that changes something. It stands behind an interface for
// one reason: the tests count these operations, let each one fail and kill the process at each one.
// Reading goes to package os directly.
type disk interface {
	// mkdir makes one folder with exactly this mode.
	mkdir(path string, mode os.FileMode) error
	// create makes a file of mode 0644 that must not exist yet.
	create(path string) (handle, error)
	// rename moves a file or folder; a folder never replaces one that holds something.
	rename(from, to string) error
	// renameNew moves a file and fails with fs.ErrExist if there is one at to.
	renameNew(from, to string) error
	// exchange swaps two folders in one step, or reports errCannotExchange.
	exchange(a, b string) error
	// remove takes away a file or an empty folder; what is gone already is no error.
	remove(path string) error
	// syncTree writes all of a folder to disk.
	syncTree(path string) error
	// syncDir writes a folder's own entries to disk.
	syncDir(path string) error
	// lock takes the lock file at path, or reports ErrBusy.
	lock(path string) (*lock, error)
	// unlock removes the lock file and lets it go, in this order.
	unlock(*lock) error
}

// handle is a file being written.
type handle interface {
	io.Writer
	Sync() error
	Close() error
}

// osDisk is the real one.
type osDisk struct{}

func (osDisk) mkdir(path string, mode os.FileMode) error {
	if err := os.Mkdir(path, mode); err != nil {
		return err
	}
	return os.Chmod(path, mode)
}

func (osDisk) create(path string) (handle, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, fileMode)
	if err != nil {
		return nil, err
	}
	if err := f.Chmod(fileMode); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

func (osDisk) rename(from, to string) error    { return os.Rename(from, to) }
func (osDisk) renameNew(from, to string) error { return renameNew(from, to) }
func (osDisk) exchange(a, b string) error      { return exchange(a, b) }
func (osDisk) syncTree(path string) error      { return syncTree(path) }
func (osDisk) syncDir(path string) error       { return syncDir(path) }
func (osDisk) lock(path string) (*lock, error) { return takeLock(path) }
func (osDisk) unlock(l *lock) error            { return l.release() }

func (osDisk) remove(path string) error {
	err := os.Remove(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}

// writeFile makes one file through d; with sync it is on the disk when the call returns.
func writeFile(d disk, path string, data []byte, sync bool) error {
	f, err := d.create(path)
	if err != nil {
		return err
	}
	if _, err := f.Write(data); err != nil {
		return errors.Join(err, f.Close())
	}
	if sync {
		if err := f.Sync(); err != nil {
			return errors.Join(err, f.Close())
		}
	}
	return f.Close()
}

// removeTree takes away a folder and what is in it. Symbolic links are removed, never followed.
func removeTree(d disk, path string) error {
	info, err := os.Lstat(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if info.IsDir() {
		entries, err := os.ReadDir(path)
		if err != nil {
			return err
		}
		for _, e := range entries {
			below := path + string(os.PathSeparator) + e.Name()
			if e.IsDir() {
				err = removeTree(d, below)
			} else {
				err = d.remove(below)
			}
			if err != nil {
				return err
			}
		}
	}
	return d.remove(path)
}
