package content

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"wardian/content/header"
)

// Files reads the files and folders of a diary's folder as Load does, for those
// who want their bytes alone: in one call of the system each, where there is one.
// It is a file system, the one that it was opened on.
type Files struct {
	fs   fs.FS
	disk *disk
}

// OpenFiles opens the folder that a file system stands for, until Close.
func OpenFiles(files fs.FS) *Files { return &Files{files, openDisk(files)} }

// Read reads a file whole, into room where that is large enough: then the bytes
// last until room is used again. The error is the file system's own.
func (f *Files) Read(path string, room []byte) ([]byte, error) {
	if data, ok := f.disk.read(path, header.MaxFile, room); ok {
		return data, nil
	}
	return fs.ReadFile(f.fs, path)
}

// ReadDir lists a folder by name. The error is the file system's own.
func (f *Files) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, ok := f.disk.list(name)
	if !ok {
		return fs.ReadDir(f.fs, name)
	}
	slices.SortFunc(entries, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	for n, e := range entries {
		entries[n] = within{e, f, path.Join(name, e.Name())}
	}
	return entries, nil
}

// within is an entry that asks the diary's own folder for more: by itself it would
// ask for its name in the folder that the program runs in.
type within struct {
	fs.DirEntry
	files *Files
	path  string
}

func (w within) Info() (fs.FileInfo, error) { return fs.Lstat(w.files.fs, w.path) }

// Open opens a file as the file system does.
func (f *Files) Open(path string) (fs.File, error) { return f.fs.Open(path) }

// Close ends it; the file system stays open.
func (f *Files) Close() { f.disk.close() }
