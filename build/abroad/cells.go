package abroad

import (
	"bytes"
	"crypto/md5"
	"crypto/sha1"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/hex"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"wardian/content/measure"
	"wardian/content/source"
)

// A table's cells are judged one by one as they are cut, against what the
// descriptor says of their column. Rows are kept of the few tables that are used;
// of others only the values that keys lead to.

// cell is one field of a row, with its place: the line of the file and the byte of
// that line.
type cell struct {
	text       string
	line, from int
}

// read judges a table's file. The error is for a disk that fails.
func (r *reader) readTable(t *table) error {
	data, ok, err := r.get(t.path, mostTable)
	if !ok || err != nil {
		return err
	}
	f := source.New(t.path, data)
	if n := firstNotText(data); n >= 0 {
		r.fault(f, n, n+1, "this file isn't UTF-8 from here on", "UTF-8", mendWhole)
		return nil
	}
	if t.bytes >= 0 && t.bytes != int64(len(data)) {
		r.whole(t.path, fmt.Sprintf("this file has %d bytes and was described with %d: it isn't the one that was published", len(data), t.bytes), "the file as it was published", "fetch the whole folder again")
		return nil
	}
	if why := hashed(t.hash, data); why != "" {
		r.whole(t.path, why, "the file as it was published", "fetch the whole folder again")
		return nil
	}
	r.cut(f, t)
	return nil
}

// hashed says why a file isn't the one that a hash was taken of; "" where it is,
// and where none is given. A hash without the name of its kind is MD5's, by the
// standard.
func hashed(hash string, data []byte) (why string) {
	if hash == "" {
		return ""
	}
	kind, sum, named := strings.Cut(hash, ":")
	if !named {
		kind, sum = "md5", hash
	}
	var got []byte
	switch strings.ToLower(kind) {
	case "md5":
		s := md5.Sum(data)
		got = s[:]
	case "sha1":
		s := sha1.Sum(data)
		got = s[:]
	case "sha256":
		s := sha256.Sum256(data)
		got = s[:]
	case "sha512":
		s := sha512.Sum512(data)
		got = s[:]
	default:
		return "this file is described by a hash of a kind that isn't known here"
	}
	if strings.EqualFold(hex.EncodeToString(got), sum) {
		return ""
	}
	return "this file has another hash than was described: it isn't the one that was published"
}

// cut parts a table into rows and judges them.
func (r *reader) cut(f *source.File, t *table) {
	follow := t.followed(r)
	seen := map[string]int{} // primary keys: data rows
	unique := make([]map[string]bool, len(t.fields))
	n, head, sound := 0, true, true
	f.EachRow(source.TableStart(f.Bytes), ',', func(row source.TableRow) {
		if r.told[t.path] > mostTold {
			sound = false
			return
		}
		if head {
			head = false
			sound = r.headings(f, t, row)
			return
		}
		if !sound {
			return
		}
		n++
		if len(row.Cells) != len(t.fields) {
			line, _ := row.At(0)
			at := source.Position{Line: line, Column: 1}
			r.at(f, t.path, source.Span{Start: at, End: source.Position{Line: line, Column: 1 + utf8.RuneCountInString(f.Line(line))}},
				fmt.Sprintf("row %d has %s under %d headings", n, counted(len(row.Cells), "cell", "cells"), len(t.fields)), "a cell for each heading", mendWhole)
			return
		}
		cells := make([]cell, len(row.Cells))
		for i, text := range row.Cells {
			cells[i].line, cells[i].from = row.At(i)
			cells[i].text = text
			if why := t.fields[i].judge(text, t.missing[text]); why != "" {
				r.amiss(f, t, cells[i], i, n, why)
				continue
			}
			if t.fields[i].unique && !t.missing[text] {
				if unique[i] == nil {
					unique[i] = map[string]bool{}
				}
				if unique[i][text] {
					r.amiss(f, t, cells[i], i, n, "stands twice")
				}
				unique[i][strings.Clone(text)] = true
			}
		}
		if len(t.key) > 0 {
			key := joined(cells, t.key)
			if first, twice := seen[key]; twice {
				r.amiss(f, t, cells[t.key[0]], t.key[0], n, fmt.Sprintf("is the key of row %d, too", first))
			} else {
				seen[key] = n
			}
		}
		for name, columns := range follow {
			key := joined(cells, columns)
			if _, there := t.values[name][key]; !there {
				t.values[name][key] = cells[columns[0]]
			}
		}
		if t.keep {
			for i := range cells {
				cells[i].text = strings.Clone(cells[i].text)
			}
			t.rows = append(t.rows, cells)
		}
	})
	if head {
		r.whole(t.path, "this file is empty", "the line of headings at least", mendWhole)
		sound = false
	}
	t.sound = sound && r.told[t.path] == 0
}

// headings holds the first line to the fields.
func (r *reader) headings(f *source.File, t *table, row source.TableRow) bool {
	for i, field := range t.fields {
		if i >= len(row.Cells) {
			line, from := row.At(len(row.Cells) - 1)
			r.at(f, t.path, f.Part(line, from, row.Cells[len(row.Cells)-1]), fmt.Sprintf("the column %q is missing", field.name), "the columns that the descriptor names, in its order", mendWhole)
			return false
		}
		if row.Cells[i] != field.name {
			line, from := row.At(i)
			r.at(f, t.path, f.Part(line, from, row.Cells[i]), fmt.Sprintf("column %d is headed %q where the descriptor has %q", i+1, short(row.Cells[i]), field.name), "the columns that the descriptor names, in its order", mendWhole)
			return false
		}
	}
	if len(row.Cells) > len(t.fields) {
		line, from := row.At(len(t.fields))
		r.at(f, t.path, f.Part(line, from, row.Cells[len(t.fields)]), fmt.Sprintf("the column %q isn't described", short(row.Cells[len(t.fields)])), "the columns that the descriptor names, and no more", mendWhole)
		return false
	}
	return true
}

// amiss reports a cell.
func (r *reader) amiss(f *source.File, t *table, c cell, column, row int, why string) {
	r.at(f, t.path, f.Part(c.line, c.from, c.text), fmt.Sprintf("row %d, column %s: %q %s", row, t.fields[column].name, short(c.text), why), t.fields[column].wanted(), mendWhole)
}

var (
	integer = regexp.MustCompile(`^[+-]?[0-9]{1,15}$`)
	decimal = regexp.MustCompile(`^[+-]?[0-9]{1,40}(\.[0-9]{0,400})?([eE][+-]?[0-9]{1,3})?$`)
)

// judge says what is wrong with a cell, "" where nothing is.
func (f field) judge(text string, missing bool) string {
	if missing {
		if f.required {
			return "may not be missing"
		}
		return ""
	}
	if f.words != nil && !f.words[text] {
		return "is none of the words that can stand here"
	}
	switch f.kind {
	case "integer":
		if !integer.MatchString(text) {
			return "isn't a whole number"
		}
	case "number":
		x, err := strconv.ParseFloat(text, 64)
		if !decimal.MatchString(text) || err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
			return "isn't a number"
		}
	case "boolean":
		if text != "true" && text != "false" {
			return "isn't true or false"
		}
	case "date":
		if _, trouble := measure.ParseDay(text); trouble != nil {
			return "isn't a day"
		}
	}
	return ""
}

// wanted is what should stand in a column.
func (f field) wanted() string {
	if f.words != nil && len(f.words) <= 8 {
		return "one of " + strings.Join(sorted(f.words), ", ")
	}
	switch f.kind {
	case "integer":
		return "a whole number such as 42"
	case "number":
		return "a number such as 0.75"
	case "boolean":
		return "true or false"
	case "date":
		return "a day such as 2026-03-09"
	}
	return "a value of its own"
}

// joined is a key of several columns.
func joined(cells []cell, columns []int) string {
	if len(columns) == 1 {
		return strings.Clone(cells[columns[0]].text)
	}
	var b bytes.Buffer
	for _, c := range columns {
		b.WriteString(cells[c].text)
		b.WriteByte(0) // no cell holds one
	}
	return b.String()
}

// short cuts a stranger's words for a message.
func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
