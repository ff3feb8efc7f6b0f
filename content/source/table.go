package source

import (
	"bytes"
	"encoding/csv"
	"strings"
	"unicode/utf8"
)

// A table is a file of rows whose cells are parted by commas, semicolons or
// tabs: what a logger wrote, or a list that a person kept. This file cuts such
// files and knows where each cell stands; what the cells mean is the business of
// those who read them. Quotes are read as spreadsheets write them (RFC 4180); one
// that stands inside a cell is a character like any other, since people write
// inches so.

// mark is a byte-order mark.
var mark = []byte("\xef\xbb\xbf")

// TableStart is the byte at which the first line of a table begins, behind a
// byte-order mark.
func TableStart(data []byte) int {
	if bytes.HasPrefix(data, mark) {
		return len(mark)
	}
	return 0
}

// NotText tells whether bytes are UTF-16, by its mark or by the NULs that it
// puts beside Latin letters, or hold NULs of another origin.
func NotText(data []byte) bool {
	return bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) ||
		bytes.IndexByte(data[:min(len(data), 1024)], 0) >= 0
}

// Headings cuts one line into headings, each with its spaces evened out.
func Headings(line []byte, comma rune) []string {
	row, _ := tableReader(line, comma).Read() // a line that can't be cut has no cells
	for i := range row {
		row[i] = heading(row[i])
	}
	return row
}

// heading gives a heading's words. Programs that write "°C" in Latin-1 are
// common; such bytes are read as that.
func heading(s string) string {
	if !utf8.ValidString(s) {
		runes := make([]rune, len(s))
		for i := range len(s) {
			runes[i] = rune(s[i])
		}
		s = string(runes)
	}
	return strings.Join(strings.Fields(s), " ")
}

// Column gives the column with a heading: as it is written, else in other
// letters' case where only one is; -1 where none is.
func Column(headings []string, name string) int {
	name = heading(name)
	if name == "" {
		return -1
	}
	found, alike := -1, 0
	for i, h := range headings {
		if h == name {
			return i
		}
		if strings.EqualFold(h, name) {
			found = i
			alike++
		}
	}
	if alike > 1 {
		return -1
	}
	return found
}

// TableRow is one row of a table. Cells are as they stand but for their quotes;
// the slice is good until the next row is read.
type TableRow struct {
	Cells []string
	file  *File
	above int // lines of the file above the table
	r     *csv.Reader
}

// EachRow cuts a table into rows, from a byte of the file on, which must be the
// first of a line. Empty lines are passed over.
func (f *File) EachRow(start int, comma rune, visit func(TableRow)) {
	r := tableReader(f.Bytes[start:], comma)
	r.ReuseRecord = true
	row := TableRow{file: f, above: f.Position(start).Line - 1, r: r}
	for {
		var err error
		if row.Cells, err = r.Read(); err != nil {
			return // the end; with lazy quotes and any number of cells, nothing else is an error
		}
		visit(row)
	}
}

// At gives the line of a cell and the byte of that line at which it begins; of
// the row's last cell where the row is shorter.
func (r TableRow) At(i int) (line, from int) {
	line, column := r.r.FieldPos(min(i, len(r.Cells)-1))
	return r.above + line, column - 1
}

// Part gives the span of text that a cell holds: the text without the quote
// before it and the spaces round it, up to the end of its line.
func (f *File) Part(line, from int, text string) Span {
	start := f.Offset(Position{Line: line, Column: 1}) + from
	if start < len(f.Bytes) && f.Bytes[start] == '"' {
		start++
	}
	for start < len(f.Bytes) && text != "" && (f.Bytes[start] == ' ' || f.Bytes[start] == '\t') && f.Bytes[start] != text[0] {
		start++
	}
	end := start
	for end < len(f.Bytes) && end-start < len(text) && f.Bytes[end] != '\n' && f.Bytes[end] != '\r' {
		end++
	}
	return f.SpanOf(start, end)
}

func tableReader(data []byte, comma rune) *csv.Reader {
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = comma, true, -1
	return r
}
