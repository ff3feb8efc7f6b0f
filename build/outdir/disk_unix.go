//go:build unix

package outdir

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// retry calls again what a signal broke off.
func retry(call func() error) error {
	for {
		if err := call(); err != unix.EINTR {
			return err
		}
	}
}

// linkNew does renameNew's work where the file system has hard links but no such rename.
func linkNew(from, to string) error {
	if err := os.Link(from, to); err != nil {
		return err
	}
	return os.Remove(from)
}

func syncDir(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOTSUP) {
		err = nil // a file system that keeps no folders to write (some network and FUSE mounts)
	}
	return errors.Join(err, f.Close())
}

// lock is a lock file held through flock(2), which ends with the process, however that ends.
type lock struct {
	path string
	file *os.File
}

// takeLock opens the lock file, making it if it isn't there, and takes it without waiting.
//
// The one who lets go removes the file. So it can happen that we lock a file whose name is gone and
// that the next one makes a new file: then two would hold "the" lock. Hence the look, after locking,
// whether the name still leads to the file that we hold.
func takeLock(path string) (*lock, error) {
	for {
		if err := lockIsOurs(path); err != nil {
			return nil, err
		}
		f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|unix.O_NOFOLLOW, 0o600)
		if err != nil {
			return nil, err
		}
		err = retry(func() error { return unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB) })
		if err != nil {
			f.Close()
			if err == unix.EWOULDBLOCK {
				return nil, ErrBusy
			}
			return nil, &os.PathError{Op: "lock", Path: path, Err: err}
		}
		held, err := f.Stat()
		if err != nil {
			return nil, errors.Join(err, f.Close())
		}
		named, err := os.Lstat(path)
		if err == nil && os.SameFile(held, named) {
			return &lock{path, f}, nil
		}
		f.Close()
	}
}

// release removes the name first, while nobody else can hold it.
func (l *lock) release() error {
	err := os.Remove(l.path)
	if errors.Is(err, os.ErrNotExist) {
		err = nil
	}
	return errors.Join(err, l.file.Close())
}
