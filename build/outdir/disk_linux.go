package outdir

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

func exchange(a, b string) error {
	err := retry(func() error {
		return unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	})
	switch err {
	case nil:
		return nil
	case unix.EINVAL, unix.ENOSYS, unix.EOPNOTSUPP, unix.EXDEV, unix.EPERM:
		// EPERM comes from sandboxes that don't know the call. Where it is a true refusal, the two
		// renames that follow meet it again and report it.
		return errCannotExchange
	}
	return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
}

func renameNew(from, to string) error {
	err := retry(func() error {
		return unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, unix.RENAME_NOREPLACE)
	})
	switch err {
	case nil:
		return nil
	case unix.EINVAL, unix.ENOSYS, unix.EOPNOTSUPP, unix.EPERM:
		return linkNew(from, to)
	}
	return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
}

// syncTree needs one call: syncfs(2) writes the whole file system that the folder stands on, and since
// Linux 5.8 reports what could not be written.
func syncTree(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	err = retry(func() error { return unix.Syncfs(int(f.Fd())) })
	if errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.EPERM) {
		err = syncEach(path, func(f *os.File) error { return f.Sync() })
	} else if err != nil {
		err = &os.PathError{Op: "sync", Path: path, Err: err}
	}
	return errors.Join(err, f.Close())
}
