package opendata

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
)

// A cell is one field of a CSV, as it is written.
type cell string

// missing is a value that isn't known.
const missing cell = ""

// text is a field of words. A spreadsheet takes a field that opens with one of
// = + - @ or a tab or a carriage return for a formula, so such a field gets an
// apostrophe in front; the Data Package says so.
func text(s string) cell {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' {
			return -1
		}
		return r
	}, s)
	if s != "" && strings.ContainsRune("=+-@\t", rune(s[0])) {
		s = "'" + s
	}
	return cell(s)
}

func whole(n int) cell { return cell(strconv.Itoa(n)) }

// number is the shortest decimal that reads back as the same double, without an
// exponent: a small p is written as people and every program read it.
func number(x float64) cell { return cell(strconv.FormatFloat(x, 'f', -1, 64)) }

func maybe(x float64, known bool) cell {
	if !known {
		return missing
	}
	return number(x)
}

// trueFalse is a boolean in the words of Table Schema.
func trueFalse(b bool) cell {
	if b {
		return "true"
	}
	return "false"
}

// A table is a CSV under way: RFC 4180 but for its line ends, which are LF.
type table struct {
	buf bytes.Buffer
	w   *csv.Writer
	n   int
}

func newTable(header []string) *table {
	t := &table{n: len(header)}
	t.w = csv.NewWriter(&t.buf)
	t.w.Write(header) // writing into memory can't fail
	return t
}

// add writes a row; one of another length than the header's panics, since it is
// this package that writes both.
func (t *table) add(row ...cell) {
	if len(row) != t.n {
		panic("opendata: a row of " + strconv.Itoa(len(row)) + " fields under a header of " + strconv.Itoa(t.n))
	}
	fields := make([]string, len(row))
	for i, c := range row {
		fields[i] = string(c)
	}
	t.w.Write(fields)
}

func (t *table) bytes() []byte {
	t.w.Flush()
	return t.buf.Bytes()
}
