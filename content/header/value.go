package header

import (
	"strings"

	"wardian/content/source"
)

// Kind tells what a value is made of.
type Kind int

// The kinds of value as YAML has them. Empty is a key with nothing after it, or
// with a bare tilde; an empty text in quotes is Text.
const (
	Empty Kind = iota
	Text
	List
	Map
)

// Style tells how a text was written.
type Style int

// The styles of a text.
const (
	Plain  Style = iota // without quotes
	Quoted              // in single or double quotes
	Block               // after | or >
)

// Value is one value as it was written, with its place.
type Value struct {
	Kind   Kind
	Text   string // of kind Text: the words as written, without quotes and outer space
	Style  Style
	Span   source.Span
	Items  []Value // of kind List
	Fields []Field // of kind Map, in the order of the file; keys may be equal
	Faulty bool    // a finding was made of it already; it says nothing

	exact bool // the text's characters stand one for one in the file, on one line
	chars int  // how many characters an exact text has
}

// Field is one key and its value.
type Field struct {
	Key     string
	KeySpan source.Span
	Value   Value
}

// Part is the place of some characters of a text, from start up to, not
// including, end, both counted from 0. Where the text doesn't stand in the file
// character by character (it runs over lines, or holds escapes), it is the whole
// value's place.
func (v *Value) Part(start, end int) source.Span {
	if !v.exact || start < 0 || start > v.chars {
		return v.Span
	}
	end = min(max(end, start), v.chars)
	from := v.Span.Start
	if v.Style == Quoted {
		from.Column++
	}
	from.Column += start
	return source.Span{Start: from, End: source.Position{Line: from.Line, Column: from.Column + end - start}}
}

// Field gives the first field with a key, or nil.
func (v *Value) Field(key string) *Field {
	for i := range v.Fields {
		if v.Fields[i].Key == key {
			return &v.Fields[i]
		}
	}
	return nil
}

// Lines says whether the text runs over several lines.
func (v *Value) Lines() bool { return strings.Contains(v.Text, "\n") }

// Header is what stands at the head of a file.
type Header struct {
	File   *source.File
	Top    Value       // always of kind Map; without fields where nothing could be read
	Head   source.Span // the line that opens the front matter, for findings about the whole file
	Body   int         // the byte at which the words below begin; the file's length where there are none
	Broken bool        // it couldn't be read to its end; keys may be missing for that reason alone
}
