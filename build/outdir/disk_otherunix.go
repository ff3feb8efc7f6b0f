//go:build unix && !linux && !darwin

package outdir

import "os"

func exchange(a, b string) error { return errCannotExchange }

func renameNew(from, to string) error { return linkNew(from, to) }

func syncTree(path string) error {
	return syncEach(path, func(f *os.File) error { return f.Sync() })
}
