package main

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"wardian/build/preview"
)

// The folder of twins as a watcher sees it, without waiting for one.

// look sees the folder as a watcher does.
func (w *twins) look() map[string]dirItem {
	out := map[string]dirItem{}
	err := filepath.WalkDir(w.dir, func(at string, e fs.DirEntry, err error) error {
		rel, _ := filepath.Rel(w.dir, at)
		name := filepath.ToSlash(rel)
		switch {
		case err != nil || name == ".":
			return err
		case strings.HasPrefix(e.Name(), ".") || unread(name):
			if e.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		item := dirItem{mode: info.Mode()}
		if !e.IsDir() {
			item.size, item.time = info.Size(), info.ModTime()
		}
		out[name] = item
		return nil
	})
	if err != nil {
		panic(err) // a temporary folder of the test's own
	}
	return out
}

// change is what a watcher tells of what was done since it told last: paths that
// differ, and those that events named though nothing tells their bytes apart.
func (w *twins) change(lost bool) preview.Change {
	before, after := w.tree, w.look()
	kinds := map[string]preview.Kind{}
	for name, was := range before {
		if is, there := after[name]; !there {
			kinds[name] = preview.Gone
		} else if is != was || w.untold[name] {
			kinds[name] = preview.Edited
		}
	}
	for name := range after {
		if _, there := before[name]; !there {
			kinds[name] = preview.New
		}
	}
	c := preview.Change{All: lost, Began: time.Now()}
	for _, name := range slices.Sorted(maps.Keys(kinds)) {
		c.Paths = append(c.Paths, preview.Path{Name: name, Kind: kinds[name]})
	}
	w.tree, w.untold = after, map[string]bool{}
	return c
}

// What is done to the folder. Each names the paths that events would name.

func (w *twins) at(name string) string { return filepath.Join(w.dir, filepath.FromSlash(name)) }

func (w *twins) put(name string, data []byte, beside bool) {
	at := w.at(name)
	must(os.MkdirAll(filepath.Dir(at), 0o755))
	if beside {
		other := filepath.Join(filepath.Dir(at), ".beside")
		must(os.WriteFile(other, data, 0o644))
		must(os.Rename(other, at))
	} else {
		must(os.WriteFile(at, data, 0o644))
	}
	w.untold[name] = true
}

func (w *twins) drop(name string) {
	w.name(name)
	must(os.RemoveAll(w.at(name)))
}

func (w *twins) move(from, to string) {
	w.name(from)
	must(os.MkdirAll(filepath.Dir(w.at(to)), 0o755))
	must(os.Rename(w.at(from), w.at(to)))
	w.name(to)
}

// name names a path, and all that lies below it.
func (w *twins) name(name string) {
	w.untold[name] = true
	for at := range w.look() {
		if strings.HasPrefix(at, name+"/") {
			w.untold[at] = true
		}
	}
}

func must(err error) {
	if err != nil {
		panic(err) // a temporary folder of the test's own
	}
}

// sketch is a small picture of a shade.
func sketch(shade uint8) []byte {
	m := image.NewRGBA(image.Rect(0, 0, 24, 18))
	for x := range 24 {
		for y := range 18 {
			m.Set(x, y, color.RGBA{shade, uint8(x * 9), uint8(y * 13), 255})
		}
	}
	var out bytes.Buffer
	must(jpeg.Encode(&out, m, nil))
	return append(out.Bytes(), shade) // behind its end, where bytes change no picture
}
