package readings

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"wardian/content/source"
)

// Columns names the columns of a logger's file by their headings, as a place's
// file gives them.
type Columns struct {
	Time, Temperature, Humidity string
}

func (c Columns) list() [3]string { return [3]string{c.Time, c.Temperature, c.Humidity} }

const (
	timeColumn = iota
	temperatureColumn
	humidityColumn
)

// searched is how many lines may stand before the headings.
const searched = 100

// layout is how a file is laid out.
type layout struct {
	comma    rune
	start    int    // byte at which the headings' line begins
	column   [3]int // of time, temperature and humidity; -1 where none
	headings []string
}

// missing counts the columns that weren't found.
func (l layout) missing() (n int) {
	for _, c := range l.column {
		if c < 0 {
			n++
		}
	}
	return n
}

// layoutOf finds the headings: the first line on which, cut at tabs, semicolons
// or commas, all columns are found; failing that, the line with most of them.
func layoutOf(data []byte, columns Columns) layout {
	best := layout{column: [3]int{-1, -1, -1}, comma: ','}
	start := source.TableStart(data)
	best.start = start
	for range searched {
		if start >= len(data) {
			break
		}
		end := len(data)
		if i := bytes.IndexByte(data[start:], '\n'); i >= 0 {
			end = start + i
		}
		line := data[start:end]
		for _, comma := range []rune{'\t', ';', ','} {
			if len(line) > maxLine || !bytes.ContainsRune(line, comma) {
				continue
			}
			l := layout{comma: comma, start: start, headings: source.Headings(line, comma)}
			for i, name := range columns.list() {
				l.column[i] = source.Column(l.headings, name)
			}
			if l.missing() == 0 {
				return l
			}
			if l.missing() < best.missing() || best.headings == nil {
				best = l
			}
		}
		start = end + 1
	}
	return best
}

// maxLine bounds the lines among which headings are sought, in bytes.
const maxLine = 8 << 10

// noColumns reports the columns that a file lacks.
func noColumns(f *source.File, l layout, columns Columns, report *source.Report) {
	seen := "a line of headings, with commas, semicolons or tabs between them"
	if len(l.headings) > 0 {
		seen = "one of the headings: " + strings.Join(l.headings, ", ")
		if utf8.RuneCountInString(seen) > 300 {
			seen = string([]rune(seen)[:300]) + " …"
		}
	}
	end := l.start
	for end < len(f.Bytes) && f.Bytes[end] != '\n' && f.Bytes[end] != '\r' {
		end++
	}
	for i, name := range columns.list() {
		if l.column[i] >= 0 {
			continue
		}
		hint := "name the column in the place's readings: as it is headed here"
		if near := source.Nearest(name, l.headings); near != "" {
			hint = "nearest: " + near
		}
		report.Add(f, source.Finding{
			Span: f.SpanOf(l.start, end), Severity: source.Error, Code: "logger-column",
			Message: "no column is headed " + quote(name), Expected: seen, Hint: hint,
		})
	}
}
