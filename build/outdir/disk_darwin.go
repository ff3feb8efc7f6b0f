package outdir

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

func exchange(a, b string) error {
	err := retry(func() error { return unix.RenamexNp(a, b, unix.RENAME_SWAP) })
	switch err {
	case nil:
		return nil
	case unix.EINVAL, unix.ENOSYS, unix.ENOTSUP, unix.EOPNOTSUPP, unix.EXDEV:
		return errCannotExchange
	}
	return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
}

func renameNew(from, to string) error {
	err := retry(func() error { return unix.RenamexNp(from, to, unix.RENAME_EXCL) })
	switch err {
	case nil:
		return nil
	case unix.EINVAL, unix.ENOSYS, unix.ENOTSUP, unix.EOPNOTSUPP:
		return linkNew(from, to)
	}
	return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
}

// syncTree hands every file and folder to the drive with a plain fsync(2), which is quick on macOS, and
// then has the drive write its cache once: os.File.Sync is F_FULLFSYNC there.
func syncTree(path string) error {
	err := syncEach(path, func(f *os.File) error {
		return retry(func() error { return unix.Fsync(int(f.Fd())) })
	})
	return errors.Join(err, syncDir(path))
}
