package abroad

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
	"unicode"

	"wardian/content/source"
)

// mostTold is how many faults are told of one file. A stranger's file of a million
// wrong rows is as wrong after the first fifty.
const mostTold = 50

// reader reads one published folder.
type reader struct {
	root   fs.FS
	get    func(name string, most int64) (data []byte, ok bool, err error)
	report *source.Report
	told   map[string]int // findings, by file
	bytes  int64          // read so far
	tables map[string]*table
}

// fault reports a finding at bytes of a file.
func (r *reader) fault(f *source.File, start, end int, message, expected, hint string) {
	if r.told[f.Path] > mostTold {
		return // where the rest stand isn't worked out: that takes a walk along the line each
	}
	r.at(f, f.Path, f.SpanOf(start, end), message, expected, hint)
}

// whole reports a finding about a file that isn't read.
func (r *reader) whole(path, message, expected, hint string) {
	start := source.Position{Line: 1, Column: 1}
	r.at(nil, path, source.Span{Start: start, End: start}, message, expected, hint)
}

func (r *reader) at(f *source.File, path string, span source.Span, message, expected, hint string) {
	if r.told == nil {
		r.told = map[string]int{}
	}
	switch r.told[path]++; {
	case r.told[path] > mostTold+1:
		return
	case r.told[path] > mostTold:
		message, expected, hint = fmt.Sprintf("more is wrong from here on; the first %d faults of this file are told", mostTold), "a file without a fault", ""
	}
	r.report.Add(f, source.Finding{File: path, Span: span, Severity: source.Error, Code: Code, Message: message, Expected: expected, Hint: hint})
}

// open reads a file of the folder, up to a bound. ok is false where it can't be
// read, which is reported; the error is for a disk that fails.
func (r *reader) open(name string, most int64) (data []byte, ok bool, err error) {
	// Nothing on the way to it may be a link: what was published stands in the
	// folder itself.
	steps := strings.Split(name, "/")
	for n := range steps {
		at := strings.Join(steps[:n+1], "/")
		info, err := fs.Lstat(r.root, at)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			r.absent(name)
			return nil, false, nil
		case err != nil:
			return nil, false, fmt.Errorf("reading %s: %w", at, err)
		case info.Mode()&fs.ModeSymlink != 0:
			r.whole(name, "a link isn't followed", "a file in the folder itself", "put the file in its place")
			return nil, false, nil
		case n < len(steps)-1 && !info.IsDir(), n == len(steps)-1 && !info.Mode().IsRegular():
			r.whole(name, "this isn't a file", "a file", "fetch the whole folder again")
			return nil, false, nil
		case n == len(steps)-1 && info.Size() > min(most, mostInAll-r.bytes):
			r.tooLarge(name, most)
			return nil, false, nil
		}
	}
	f, err := r.root.Open(name)
	if err != nil {
		return nil, false, fmt.Errorf("opening %s: %w", name, err)
	}
	defer f.Close()
	most = min(most, mostInAll-r.bytes)
	if data, err = io.ReadAll(io.LimitReader(f, most+1)); err != nil {
		return nil, false, fmt.Errorf("reading %s: %w", name, err)
	}
	if int64(len(data)) > most { // it has grown since
		r.tooLarge(name, most)
		return nil, false, nil
	}
	r.bytes += int64(len(data))
	return data, true, nil
}

func (r *reader) absent(name string) {
	r.whole(name, "this file isn't there", "every file that "+Descriptor+" names", "fetch the whole folder again")
}

func (r *reader) tooLarge(name string, most int64) {
	r.whole(name, "this file is too large to be read", fmt.Sprintf("at most %d MiB, and %d MiB of all files together", most>>20, mostInAll>>20), "")
}

// stays tells whether a resource's path keeps to the folder: a plain relative path
// of names, as the standard asks for. It says why not.
func stays(name string) (why string) {
	switch {
	case strings.Contains(name, "://"):
		return "an address on the net isn't fetched"
	case strings.HasPrefix(name, "/"), strings.Contains(name, "\\"), strings.Contains(name, ":"), strings.HasPrefix(name, "~"):
		return "the path isn't one in this folder"
	case len(name) > 255 || strings.ContainsFunc(name, unicode.IsControl):
		return "the path isn't a name that a file can have"
	}
	for step := range strings.SplitSeq(name, "/") {
		if step == ".." {
			return "the path leads out of the folder"
		}
	}
	for step := range strings.SplitSeq(name, "/") {
		if strings.HasPrefix(step, ".") {
			return "the path leads to a hidden file"
		}
	}
	if !fs.ValidPath(name) || path.Clean(name) != name {
		return "the path isn't one in this folder"
	}
	return ""
}
