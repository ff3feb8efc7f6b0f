package outdir

import (
	"errors"
	"os"
	"path/filepath"
)

// Options are what the caller knows about the disk and this package doesn't.
type Options struct {
	// Keep names what must survive: the target may be none of these and no folder above one. The
	// diary's own folder belongs here.
	Keep []string
	// Apart names folders that the target may not lie in either: those that are read as the diary.
	Apart []string
}

const elsewhere = "name a folder of its own for the site"

// resolve makes a target absolute, with the symbolic links above it followed once and for all, and
// refuses what can be refused without looking into it. A target that doesn't exist is fine, and so
// is one whose parents don't.
func resolve(target string, opts Options) (string, error) {
	refuse := func(reason, next string) (string, error) {
		return "", &Refused{target, reason, next}
	}
	if target == "" {
		return refuse("no folder is named", elsewhere)
	}
	abs, err := filepath.Abs(target)
	if err != nil {
		return "", err
	}
	if filepath.Dir(abs) == abs {
		return refuse("it is the root of the disk", elsewhere)
	}
	info, err := os.Lstat(abs)
	switch {
	case errors.Is(err, os.ErrNotExist):
	case err != nil:
		return "", err
	case info.Mode()&os.ModeSymlink != 0:
		return refuse("it is a symbolic link", "name the folder that it leads to")
	case !info.IsDir():
		return refuse("it is a file", elsewhere)
	}
	parent, err := resolveParent(filepath.Dir(abs))
	if err != nil {
		return "", err
	}
	full := filepath.Join(parent, filepath.Base(abs))
	for _, keep := range append(append([]string(nil), opts.Keep...), opts.Apart...) {
		if stands, err := within(keep, full); err != nil {
			return "", err
		} else if stands {
			return refuse("the diary's own "+keep+" stands there, and a build replaces the folder whole", elsewhere)
		}
	}
	for _, apart := range opts.Apart {
		if stands, err := within(full, apart); err != nil {
			return "", err
		} else if stands {
			return refuse("it lies in "+apart+", which is read as the diary", elsewhere)
		}
	}
	return full, nil
}

// resolveParent follows the links of a folder's longest part that exists.
func resolveParent(dir string) (string, error) {
	real, err := filepath.EvalSymlinks(dir)
	if err == nil {
		return real, nil
	}
	if !errors.Is(err, os.ErrNotExist) || filepath.Dir(dir) == dir {
		return "", err
	}
	above, err := resolveParent(filepath.Dir(dir))
	return filepath.Join(above, filepath.Base(dir)), err
}

// within tells whether path is dir or lies below it. It asks the file system, not the spelling: on
// disks that fold case, and under bind mounts, one folder has several names. Where one of the two
// doesn't exist the spelling decides.
func within(path, dir string) (bool, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return false, err
	}
	if dir, err = filepath.Abs(dir); err != nil {
		return false, err
	}
	real, err := resolveParent(abs)
	if err != nil {
		return false, err
	}
	dirReal, err := resolveParent(dir)
	if err != nil {
		return false, err
	}
	dirInfo, dirErr := os.Stat(dirReal)
	for _, p := range []string{abs, real} {
		for {
			if p == dirReal {
				return true, nil
			}
			if info, err := os.Stat(p); err == nil && dirErr == nil && os.SameFile(info, dirInfo) {
				return true, nil
			}
			if filepath.Dir(p) == p {
				break
			}
			p = filepath.Dir(p)
		}
	}
	return false, nil
}

// makeParents makes the folders above a target that are missing and returns them, the topmost first.
func makeParents(d disk, dir string) (made []string, err error) {
	if _, err := os.Stat(dir); err == nil || !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	if made, err = makeParents(d, filepath.Dir(dir)); err != nil {
		return made, err
	}
	err = d.mkdir(dir, dirMode)
	if errors.Is(err, os.ErrExist) {
		return made, nil // another build made it just now
	}
	if err != nil {
		return made, err
	}
	return append(made, dir), d.syncDir(filepath.Dir(dir))
}
