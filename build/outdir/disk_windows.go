package outdir

import (
	"os"

	"golang.org/x/sys/windows"
)

func exchange(a, b string) error { return errCannotExchange }

// renameNew leaves out MOVEFILE_REPLACE_EXISTING, which os.Rename sets.
func renameNew(from, to string) error {
	f, err := windows.UTF16PtrFromString(from)
	if err != nil {
		return err
	}
	t, err := windows.UTF16PtrFromString(to)
	if err != nil {
		return err
	}
	if err := windows.MoveFileEx(f, t, windows.MOVEFILE_WRITE_THROUGH); err != nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
	}
	return nil
}

// syncTree flushes files only: Windows has no flush of a folder that needs no administrator.
func syncTree(path string) error {
	return syncEach(path, func(f *os.File) error { return f.Sync() })
}

func syncDir(string) error { return nil }

// lock is a file opened with no sharing that Windows deletes when its one handle is closed, by us or
// by the end of the process.
type lock struct{ handle windows.Handle }

func takeLock(path string) (*lock, error) {
	if err := lockIsOurs(path); err != nil {
		return nil, err
	}
	p, err := windows.UTF16PtrFromString(path)
	if err != nil {
		return nil, err
	}
	h, err := windows.CreateFile(p, windows.GENERIC_READ|windows.GENERIC_WRITE|windows.DELETE, 0, nil,
		windows.OPEN_ALWAYS, windows.FILE_ATTRIBUTE_HIDDEN|windows.FILE_FLAG_DELETE_ON_CLOSE, 0)
	if err == windows.ERROR_SHARING_VIOLATION {
		return nil, ErrBusy
	}
	if err != nil {
		return nil, &os.PathError{Op: "lock", Path: path, Err: err}
	}
	return &lock{h}, nil
}

func (l *lock) release() error { return windows.CloseHandle(l.handle) }
