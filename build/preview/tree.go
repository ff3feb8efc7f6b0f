package preview

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"
)

// known is what was seen of one entry of a folder. Two entries that are equal
// are taken for the same unless an event says otherwise.
type known struct {
	mode fs.FileMode
	size int64     // of a file; 0 for a folder, whose size means nothing
	time time.Time // of a folder: when a name last came into it or left it
}

// listing is a folder's entries by name.
type listing map[string]known

// tree is everything seen below a folder: listings by the folder's path, "." for
// the folder itself.
type tree map[string]listing

// list lists one folder, without what is passed over. A folder that isn't there,
// or is no folder, is empty with an error; a link is an entry and never followed.
func list(root, folder string, pass func(string) bool) (listing, error) {
	entries, err := os.ReadDir(filepath.Join(root, filepath.FromSlash(folder)))
	if err != nil {
		return nil, err
	}
	out := make(listing, len(entries))
	for _, e := range entries {
		if passed(path.Join(folder, e.Name()), pass) {
			continue
		}
		info, err := e.Info()
		if err != nil {
			continue // gone since the folder was listed
		}
		k := known{mode: info.Mode(), time: info.ModTime()}
		if !info.IsDir() {
			k.size = info.Size()
		}
		out[e.Name()] = k
	}
	return out, nil
}

// passed says whether a path is passed over: by the caller, or since its name
// opens with a dot, as editors name what they write for themselves.
func passed(name string, pass func(string) bool) bool {
	return strings.HasPrefix(path.Base(name), ".") || pass != nil && pass(name)
}

// below calls do for a folder of the tree and every folder below it, the folder
// first.
func (t tree) below(folder string, do func(folder string)) {
	entries, ok := t[folder]
	if !ok {
		return
	}
	do(folder)
	for name, k := range entries {
		if k.mode.IsDir() {
			t.below(path.Join(folder, name), do)
		}
	}
}

// paths gives every file and folder below a folder.
func (t tree) paths(folder string) []string {
	var out []string
	t.below(folder, func(at string) {
		for name := range t[at] {
			out = append(out, path.Join(at, name))
		}
	})
	return out
}

// scan sees everything below a folder afresh, without watching.
func scan(root string, pass func(string) bool) tree {
	t := tree{}
	var enter func(string)
	enter = func(folder string) {
		entries, err := list(root, folder, pass)
		if err != nil {
			return
		}
		t[folder] = entries
		for name, k := range entries {
			if k.mode.IsDir() {
				enter(path.Join(folder, name))
			}
		}
	}
	enter(".")
	return t
}
