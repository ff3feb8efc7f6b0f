// Package prose reads the Markdown below a diary file's front matter:
// CommonMark with tables and footnotes. It is the only door to goldmark.
//
// A body is parsed once. What comes of it is a row of pieces: HTML that is ready,
// with gaps where a page decides (where a diary path leads, how a picture is
// framed, what a plate draws, how deep headings stand). Putting a page's words
// together is then a matter of filling gaps, may be done by many goroutines at
// once, and keeps no syntax tree in memory.
//
// What never passes: raw HTML (comments vanish in silence, anything else with a
// warning), links under a scheme other than http, https and mailto, pictures
// fetched from elsewhere, control characters. A body over MaxBody bytes or one
// that would keep the parser busy beyond its budget of work is a finding, and
// none of it is shown. The budget counts steps, not seconds, so that a slow
// machine judges a diary as a fast one does.
//
// The package refuses to know what a path means, what a plate draws and how a
// page looks. Offsets are bytes; places are lines and characters from 1.
//
// Sources: CommonMark 0.31.2; GitHub's specification for tables; footnotes are
// common practice, no source.
package prose

import (
	"slices"

	"wardian/content/source"
)

// MaxBody is the longest body that is read, in bytes.
const MaxBody = 64 << 10

// Document is the body of one file. It doesn't change once parsed. The methods
// of a nil Document answer as for one without words.
type Document struct {
	mark     string // makes footnote ids of this document its own
	opening  *Section
	sections []*Section
	notes    [][]piece // by footnote
	links    []Link
	plates   []Plate
}

// Section is a part of a document: the words under one heading of level 2, or
// those before the first.
type Section struct {
	Heading string      // the heading's words; "" for the opening
	Span    source.Span // where the heading's words stand; for the opening, its first character

	doc  *Document
	mark string
	head []piece
	body []piece
}

// Link is one link or picture in a document.
type Link struct {
	Dest  string      // as meant: escapes resolved, and %20 where it is a diary path
	Image bool        // a picture, not a link
	Span  source.Span // the destination; where that stands elsewhere (a reference), the link itself
	Text  string      // a link's words
	Alt   string      // a picture's words
}

// External tells whether the link leads out of the diary.
func (l Link) External() bool { return scheme(l.Dest) != "" }

// Plate is a fenced block with the info word "plate": it calls a drawing into
// an update.
type Plate struct {
	Span   source.Span // from the opening fence's info word to the end of the block's text
	Text   string      // the block: YAML
	Offset int         // of Text's first byte in the file
}

// Opening gives the words before the first heading of level 2; nil where there
// are none.
func (d *Document) Opening() *Section {
	if d == nil || d.opening.Empty() {
		return nil
	}
	return d.opening
}

// Sections gives one section a heading of level 2, in order.
func (d *Document) Sections() []*Section {
	if d == nil {
		return nil
	}
	return slices.Clone(d.sections)
}

// Links gives all links and pictures in the order of the file, footnotes
// included.
func (d *Document) Links() []Link {
	if d == nil {
		return nil
	}
	return slices.Clone(d.links)
}

// Plates gives all plates in the order of the file.
func (d *Document) Plates() []Plate {
	if d == nil {
		return nil
	}
	return slices.Clone(d.plates)
}

// Empty tells whether there is nothing under the heading.
func (s *Section) Empty() bool { return s == nil || len(s.body) == 0 }
