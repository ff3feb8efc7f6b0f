package content

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"wardian/content/header"
	"wardian/content/source"
)

// Folders of a diary that are read, and those that never are.
var (
	readFolders  = []string{"imports", "specimens", "check-ins", "places", "readings", "lists", "updates", "seasons", "photos", "style"}
	ownedFolders = []string{"shown"} // never read
)

// folder lists the files of a diary. A link that leads out of the diary, or to a
// folder, is reported and passed over: what a diary publishes stands in it.
type folder struct {
	fs     fs.FS
	disk   *disk // the folder of the disk itself; nil where it is none, or isn't opened
	report *source.Report
}

// fault reports a finding about a file whose bytes aren't looked at.
func (d *folder) fault(code, file, message, expected, hint string) {
	finding := header.Fault(code, source.Span{Start: source.Position{Line: 1, Column: 1}, End: source.Position{Line: 1, Column: 1}}, message, expected, hint)
	finding.File = file
	d.report.Add(nil, finding)
}

// lookAround looks at the diary's own folder: it must hold diary.yaml, and a folder
// whose name is nearly one of ours is pointed out.
func (d *folder) lookAround() error {
	entries, err := fs.ReadDir(d.fs, ".")
	if err != nil {
		return fmt.Errorf("reading the diary's folder: %w", err)
	}
	found := false
	for _, e := range entries {
		name := e.Name()
		switch {
		case name == "diary.yaml":
			found = true
		case name == "diary.yml" || name == "diary.md" || strings.EqualFold(name, "diary.yaml"):
			if !found {
				d.fault("no-diary", name, "the diary's own file has another name", "diary.yaml", "name it diary.yaml")
				found = true
			}
		case !e.IsDir() || strings.HasPrefix(name, "."), slices.Contains(readFolders, name), slices.Contains(ownedFolders, name):
		default:
			if near := source.Nearest(name, readFolders); near != "" {
				d.fault("unknown-folder", name, "nothing in this folder is read", "one of "+strings.Join(readFolders, ", "), "nearest: "+near)
			}
		}
	}
	if !found {
		d.fault("no-diary", "diary.yaml", "there is no diary.yaml in this folder", "a diary's folder", "name the diary's folder, or begin one with wardian start")
	}
	return nil
}

// files lists what stands in a folder of the diary and, where deep is set, in
// its sub-folders: sorted, names that open with a dot left out in silence. A
// folder that isn't there is empty.
func (d *folder) files(name string, deep bool) ([]string, error) {
	var out []string
	err := d.walk(name, deep, &out)
	slices.Sort(out)
	return out, err
}

func (d *folder) walk(name string, deep bool, out *[]string) error {
	info, err := d.stat(name)
	if errors.Is(err, fs.ErrNotExist) || info == nil && err == nil {
		return nil
	}
	if err != nil {
		return fmt.Errorf("reading %s: %w", name, err)
	}
	if !info.IsDir() {
		d.fault("passed-over", name, "this isn't a folder", "a folder", "move it elsewhere")
		return nil
	}
	entries, ok := d.disk.list(name)
	if !ok {
		if entries, err = fs.ReadDir(d.fs, name); err != nil {
			return fmt.Errorf("reading %s: %w", name, err)
		}
	}
	for _, e := range entries {
		at := path.Join(name, e.Name())
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case e.Type()&fs.ModeSymlink != 0:
			if d.linked(at) {
				*out = append(*out, at)
			}
		case e.IsDir() && deep:
			if err := d.walk(at, deep, out); err != nil {
				return err
			}
		case e.IsDir():
			d.fault("passed-over", at, "nothing in this folder is read", "files in "+name+" itself", "move its files up into "+name)
		case e.Type().IsRegular():
			*out = append(*out, at)
		default:
			d.fault("passed-over", at, "this is neither a file nor a folder", "a file", "move it elsewhere")
		}
	}
	return nil
}

// stat looks at a folder itself; nil, without an error, for one that was
// reported: a link.
func (d *folder) stat(name string) (fs.FileInfo, error) {
	info, err := fs.Lstat(d.fs, name)
	if err != nil {
		return nil, err
	}
	if info.Mode()&fs.ModeSymlink != 0 {
		d.linked(name)
		return nil, nil
	}
	return info, nil
}

// linked says whether a symbolic link leads to a file inside the diary; any
// other is reported.
func (d *folder) linked(at string) bool {
	info, err := fs.Stat(d.fs, at)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		d.fault("link-out", at, "this link leads nowhere", "a file", "put the file itself here")
	case err != nil:
		// os.Root refuses every path that leaves its folder; the error it gives
		// has no name of its own.
		d.fault("link-out", at, "this link leads out of the diary", "a file inside the diary", "put the file itself here")
	case info.IsDir():
		d.fault("link-out", at, "this link leads to a folder", "a file, or a folder that stands here itself", "move the folder here")
	default:
		return info.Mode().IsRegular()
	}
	return false
}

// read reads a file; nil, without an error, for one that was reported.
func (d *folder) read(at string, most int64) ([]byte, error) {
	if data, ok := d.disk.read(at, most, nil); ok {
		return data, nil
	}
	f, err := d.fs.Open(at)
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", at, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", at, err)
	}
	if info.Size() > most {
		d.fault("file-too-long", at, fmt.Sprintf("the file has %d KiB", (info.Size()+1023)/1024), fmt.Sprintf("at most %d KiB", most>>10), "split it, or move what isn't words elsewhere")
		return nil, nil
	}
	data := make([]byte, 0, info.Size()+1)
	for {
		n, err := f.Read(data[len(data):cap(data)])
		data = data[:len(data)+n]
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, fmt.Errorf("reading %s: %w", at, err)
		}
		if err != nil {
			return data, nil
		}
		if int64(len(data)) > most {
			d.fault("file-too-long", at, "the file grows while it is read", fmt.Sprintf("at most %d KiB", most>>10), "wait until it is written")
			return nil, nil
		}
		if len(data) == cap(data) {
			data = slices.Grow(data, 512)
		}
	}
}
