package outdir

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
)

// MarkerName is the file that tells a site made by Wardian from any other folder.
const MarkerName = ".made-by-wardian"

// markerOpening is what every marker begins with; a later version may add to the line.
const markerOpening = "Made by Wardian."

const markerWords = markerOpening + " This folder is replaced whole at every build: keep nothing of your own in it.\n" +
	"These are the files that were written:\n"

// marker writes the marker's bytes: two lines of words, then each file of the site on a line of its
// own in byte order. checkPath lets no line break into a path.
func marker(files []string) []byte {
	slices.Sort(files)
	var b bytes.Buffer
	b.WriteString(markerWords)
	for _, f := range files {
		b.WriteString(f)
		b.WriteByte('\n')
	}
	return b.Bytes()
}

// parseMarker reads the list back. It reports false for what is no marker of ours.
func parseMarker(data []byte) (files map[string]bool, ours bool) {
	lines := strings.Split(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n")
	if len(lines) < 3 || !strings.HasPrefix(lines[0], markerOpening) {
		return nil, false
	}
	files = make(map[string]bool, len(lines))
	for _, line := range lines[2:] {
		if line != "" {
			files[line] = true
		}
	}
	return files, true
}

// site is what stands at a target.
type site struct {
	exists bool            // a folder, be it empty
	marker []byte          // nil if it has none; then it is empty
	files  map[string]bool // what the marker lists
	modes  bool            // every file and folder has the mode that we give
}

// look reads what stands at path, and refuses a folder that isn't ours to replace. shown is the
// target as the person wrote it.
func look(path, shown string) (site, error) {
	var s site
	entries, err := os.ReadDir(path)
	if errors.Is(err, os.ErrNotExist) {
		return s, nil
	}
	if err != nil {
		return s, err
	}
	s.exists = true
	data, err := os.ReadFile(filepath.Join(path, MarkerName))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return s, err
	}
	files, ours := parseMarker(data)
	if !ours {
		for _, e := range entries {
			if !isJunk(e.Name()) {
				return s, &Refused{shown, "it holds files and was not made by Wardian (no " + MarkerName + " in it)",
					"name an empty folder or one that doesn't exist yet"}
			}
		}
		return s, nil
	}
	s.marker, s.files = data, files
	var foreign []string
	if foreign, s.modes, err = strangers(path, files); err != nil {
		return s, err
	}
	if n := len(foreign); n > 0 {
		what := strings.Join(foreign[:min(n, 3)], ", ")
		if n > 3 {
			what += " and others"
		}
		return s, &Refused{shown, "it holds what Wardian did not write and a build would delete: " + what, "move that elsewhere"}
	}
	return s, nil
}

// strangers walks a site and returns what its marker doesn't list: files, links, and whole folders named
// once. Empty folders don't count, nor does what desktops leave behind.
func strangers(root string, listed map[string]bool) (foreign []string, modes bool, err error) {
	folders := map[string]bool{".": true}
	for f := range listed {
		for d := f; strings.Contains(d, "/"); {
			d = d[:strings.LastIndexByte(d, '/')]
			folders[d] = true
		}
	}
	modes = true
	err = filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		want := os.FileMode(fileMode)
		switch {
		case e.IsDir() && folders[rel]:
			want = dirMode
		case e.IsDir():
			below, err := os.ReadDir(path)
			if err != nil {
				return err
			}
			modes = false // a folder too many: the next site is written anew
			if len(below) > 0 {
				foreign = append(foreign, rel+"/")
			}
			return fs.SkipDir
		case isJunk(e.Name()):
			return nil
		case !e.Type().IsRegular() || !listed[rel] && rel != MarkerName:
			foreign = append(foreign, rel)
			return nil
		}
		if runtime.GOOS == "windows" {
			return nil // it keeps no such modes
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		modes = modes && info.Mode().Perm() == want
		return nil
	})
	return foreign, modes, err
}

// isJunk tells the files that desktops put into any folder they show.
func isJunk(name string) bool {
	switch strings.ToLower(name) {
	case ".ds_store", "thumbs.db", "desktop.ini", ".directory":
		return true
	}
	return false
}
