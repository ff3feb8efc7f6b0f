package outdir

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// syncEach opens every file and folder of a tree, the deepest first, and has sync write it to disk. It is for
// systems without syncfs(2). Folders are left out on Windows, which can't flush them.
func syncEach(root string, sync func(*os.File) error) error {
	var dirs []string
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() {
			dirs = append(dirs, path)
			return nil
		}
		return syncOne(path, os.O_RDWR, sync)
	})
	if err != nil || runtime.GOOS == "windows" {
		return err
	}
	for i := len(dirs) - 1; i >= 0; i-- {
		if err := syncOne(dirs[i], os.O_RDONLY, sync); err != nil {
			return err
		}
	}
	return nil
}

func syncOne(path string, flag int, sync func(*os.File) error) error {
	f, err := os.OpenFile(path, flag, 0)
	if err != nil {
		return err
	}
	return errors.Join(sync(f), f.Close())
}
