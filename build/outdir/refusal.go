package outdir

import (
	"errors"
	"os"
)

// ErrBusy says that another build holds the lock of the same target.
var ErrBusy = errors.New("another build is writing there; wait until it has ended")

// Refused is the error for a target that must not be written to. It is the person's choice of folder that
// is at fault, not the disk.
type Refused struct {
	Target string // as it was given
	Reason string // what is wrong with it: "it is a file"
	Next   string // what to do instead
}

func (r *Refused) Error() string {
	return "can't put the site at " + r.Target + ": " + r.Reason + "; " + r.Next
}

// lockIsOurs refuses a file of the lock's name that holds something, or is none: our lock files are empty.
func lockIsOurs(path string) error {
	info, err := os.Lstat(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() || info.Size() > 0 {
		return &Refused{path, "it is the name of Wardian's lock, and something else stands there", "move that away"}
	}
	return nil
}
