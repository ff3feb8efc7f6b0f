package search

import (
	"cmp"
	"regexp"
	"slices"

	"wardian/content"
	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/source"
)

// Found is one sentence in which everything that was looked for stands.
type Found struct {
	File         string // diary path
	Line, Column int    // of the first phrase, from 1, in characters
	When         measure.Moment
	Kind         string // the word for the kind of file: "check-in", "round", "place note", "update" ...
	Specimens    []string
	Place        string // its ID; "" where not said
	In           string // words, remark, did, pests, cause, medium, event, picture, title or amended
	Sentence     string
}

// Only narrows a search down; empty, it does nothing.
type Only struct {
	Specimen string // finds that speak of this one, by its ID
	Place    string // finds at this place, by its ID
}

// Find gives every sentence of a diary that holds the query, newest first; of
// one moment, by file and line. What has no day comes last.
func Find(d *content.Diary, q Query, only Only) []Found {
	var out []Found
	for _, p := range passages(d) {
		if only.Specimen != "" && !slices.Contains(p.Specimens, only.Specimen) || only.Place != "" && p.Place != only.Place {
			continue
		}
		out = append(out, p.find(q)...)
	}
	slices.SortStableFunc(out, func(a, b Found) int {
		switch {
		case b.When.Before(a.When):
			return -1
		case a.When.Before(b.When):
			return 1
		}
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return out
}

// passage is some words of a diary and where they stand in their file.
type passage struct {
	Found      // Line, Column and Sentence are not set yet
	file       *source.File
	text       string
	start, end int // bytes of the file between which the text was written
}

// find gives the sentences of a passage that hold the query.
func (p *passage) find(q Query) []Found {
	var out []Found
	before := 0 // how often the first phrase stood in the sentences before
	for _, sentence := range prose.Sentences(p.text) {
		times := len(places(split(sentence), q.phrases[0]))
		if times > 0 && q.in(sentence) {
			f := p.Found
			f.Sentence = sentence
			at := p.file.Position(p.locate(q.phrases[0], before))
			f.Line, f.Column = at.Line, at.Column
			out = append(out, f)
		}
		before += times
	}
	return out
}

// destination is where a Markdown link leads, which is no word of its sentence.
var destination = regexp.MustCompile(`\]\([^)\n]*\)|\]\[[^\]\n]*\]`)

// locate gives the byte of the file at which a phrase stands for the n-th time,
// from 0. The sentence is plain words and the file has Markdown's marks, so it is
// the place in the file that is counted up to; where marks part the phrase, it is
// the passage's beginning.
func (p *passage) locate(phrase []string, n int) int {
	raw := slices.Clone(p.file.Bytes[p.start:p.end])
	for _, at := range destination.FindAllIndex(raw, -1) {
		for i := at[0]; i < at[1]; i++ {
			raw[i] = ' '
		}
	}
	found := places(split(string(raw)), phrase)
	if len(found) == 0 {
		return p.start
	}
	return p.start + found[min(n, len(found)-1)]
}
