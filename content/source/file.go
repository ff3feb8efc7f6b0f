package source

import (
	"bytes"
	"sort"
	"strings"
	"unicode/utf8"
)

// File is one file of a diary as it was read. Path is the diary path, with
// forward slashes, never a path of the machine. Bytes are kept unchanged.
type File struct {
	Path  string
	Bytes []byte
	lines []int // byte offset of each line's first byte
}

// New makes a File of what was read at a diary path. A byte-order mark at its
// start belongs to no line and counts as no column.
func New(path string, data []byte) *File {
	f := &File{Path: path, Bytes: data, lines: []int{0}}
	if bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) {
		f.lines[0] = 3
	}
	for i := 0; i < len(data); {
		n := bytes.IndexByte(data[i:], '\n')
		if n < 0 {
			break
		}
		i += n + 1
		f.lines = append(f.lines, i)
	}
	return f
}

// Position is a place in a file: line and column from 1, in characters.
type Position struct {
	Line, Column int
}

// Position gives the place of a byte offset; offsets outside the file are taken
// as its nearest end.
func (f *File) Position(offset int) Position {
	offset = min(max(offset, f.lines[0]), len(f.Bytes))
	line := sort.SearchInts(f.lines, offset+1) - 1
	return Position{Line: line + 1, Column: utf8.RuneCount(f.Bytes[f.lines[line]:offset]) + 1}
}

// Offset gives the byte offset of a place; places outside the file are taken as
// the nearest inside it.
func (f *File) Offset(p Position) int {
	line := min(max(p.Line, 1), len(f.lines)) - 1
	start, end := f.lines[line], len(f.Bytes)
	if line+1 < len(f.lines) {
		end = f.lines[line+1]
	}
	offset := start
	for c := 1; c < p.Column && offset < end; c++ {
		_, size := utf8.DecodeRune(f.Bytes[offset:end])
		offset += size
	}
	return offset
}

// Lines is the number of lines, a last one without a line end counted.
func (f *File) Lines() int { return len(f.lines) }

// Line gives the text of a line, without its line end; "" outside the file.
func (f *File) Line(n int) string {
	if n < 1 || n > len(f.lines) {
		return ""
	}
	start, end := f.lines[n-1], len(f.Bytes)
	if n < len(f.lines) {
		end = f.lines[n]
	}
	return strings.TrimRight(string(f.Bytes[start:end]), "\r\n")
}

// Span marks characters of a file: from Start up to, not including, End.
type Span struct {
	Start, End Position
}

// SpanOf gives the span between two byte offsets.
func (f *File) SpanOf(start, end int) Span {
	return Span{Start: f.Position(start), End: f.Position(max(start, end))}
}
