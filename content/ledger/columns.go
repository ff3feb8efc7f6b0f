package ledger

import (
	"bytes"

	"wardian/content/source"
)

// Role is what a column of a list tells.
type Role int

// The roles, in the order in which an import names them.
const (
	ID Role = iota
	Name
	Size
	Price
	Alive
	Lost
	Left
	Cause
	Words
	roles
)

// Roles lists all roles.
func Roles() []Role {
	out := make([]Role, roles)
	for i := range out {
		out[i] = Role(i)
	}
	return out
}

// String is the key under which an import names the column of a role.
func (r Role) String() string {
	return [...]string{"id", "name", "size", "price", "alive", "lost", "left", "cause", "words"}[r]
}

// Columns names the columns of a table by their headings; "" where the table
// tells nothing of that role.
type Columns [roles]string

// layout is how a table is laid out: its first line with a separator in it holds
// the headings.
type layout struct {
	comma    rune
	start    int // byte at which the headings' line begins
	line     source.Span
	headings []string
}

// maxHeadings bounds the line of headings, in bytes.
const maxHeadings = 16 << 10

// layoutOf finds the headings. The separator is the one of tab, semicolon and
// comma by which most of the wanted columns are found, else the one that parts
// the line into most cells; the first of them where that is undecided.
func layoutOf(f *source.File, found func(headings []string) int) layout {
	data := f.Bytes
	start := source.TableStart(data)
	for start < len(data) && (data[start] == '\n' || data[start] == '\r') {
		start++
	}
	end := len(data)
	if i := bytes.IndexByte(data[start:], '\n'); i >= 0 {
		end = start + i
	}
	line := bytes.TrimRight(data[start:end], "\r")
	best := layout{comma: ',', start: start, line: f.SpanOf(start, start+len(line))}
	if len(line) > maxHeadings {
		return best
	}
	most := -1
	for _, comma := range []rune{'\t', ';', ','} {
		headings := source.Headings(line, comma)
		if n := found(headings)*1000 + len(headings); n > most {
			most, best.comma, best.headings = n, comma, headings
		}
	}
	return best
}
