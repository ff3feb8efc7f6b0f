package content

import (
	"io/fs"

	"wardian/content/header"
)

// Files reads the files of a diary's folder as Load does, for those who want
// their bytes alone: in one call of the system each, where there is one.
type Files struct {
	fs   fs.FS
	disk *disk
}

// OpenFiles opens the folder that a file system stands for, until Close.
func OpenFiles(files fs.FS) *Files { return &Files{files, openDisk(files)} }

// ReadFile reads a file whole. The error is the file system's own.
func (f *Files) ReadFile(path string) ([]byte, error) {
	if data, ok := f.disk.read(path, header.MaxFile); ok {
		return data, nil
	}
	return fs.ReadFile(f.fs, path)
}

// Close ends it; the file system stays open.
func (f *Files) Close() { f.disk.close() }
