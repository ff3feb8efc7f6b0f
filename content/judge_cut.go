package content

import (
	"wardian/content/source"
)

// judgeCut judges the sections that a look makes. That the parent had come and
// wasn't lost is judged with the look itself.
func (w *walk) judgeCut(p *plant, l *Look) {
	if w.report == nil || len(l.CutInto) == 0 {
		return
	}
	e := l.Entry
	for n, piece := range l.CutInto {
		if piece.ID == p.Specimen.ID {
			continue
		}
		child := w.byID[piece.ID]
		const expected = "an ID that no specimen has yet"
		switch {
		case child == nil: // an ID that can't be one has its own finding
		case child.Specimen.Parent == nil:
			of := ""
			if i := child.Specimen.Import; i != nil {
				of = " of " + i.ID
			}
			var related []source.Related
			if f := child.Specimen.File; f != nil {
				message := "it has a file of its own, with its import"
				if child.Specimen.Listed != nil {
					message = "it stands in a list"
				}
				related = append(related, source.Related{File: f.Path, Start: child.Specimen.Head.Start, Message: message})
			}
			w.fault(e.File, piece.Span, "cut-exists", piece.ID+" is a specimen"+of+" as received, not a section", expected, w.freeID(p.Specimen.ID), related...)
		case child.begun || child.Specimen.CutBy != e || child.Specimen.Parent != p.Specimen || repeated(l.CutInto[:n], piece.ID):
			by := child.Specimen.CutBy
			var related []source.Related
			if by != nil {
				related = append(related, source.Related{File: by.File.Path, Start: cutSpan(by, piece.ID).Start, Message: "it was cut here, from " + child.Specimen.Parent.ID})
			}
			w.fault(e.File, piece.Span, "cut-twice", piece.ID+" was made by another cut", expected, w.freeID(p.Specimen.ID), related...)
		}
	}
}

func repeated(pieces []Piece, id string) bool {
	for _, p := range pieces {
		if p.ID == id {
			return true
		}
	}
	return false
}

// cutSpan is where an entry names a section that it makes.
func cutSpan(e *Entry, id string) source.Span {
	for _, c := range e.Named {
		for _, p := range c.CutInto {
			if p.ID == id {
				return p.Span
			}
		}
	}
	return e.Spans.Of("date", e.Head)
}

// freeID offers the next ID for a section of a specimen: its own with the first
// letter that isn't taken.
func (w *walk) freeID(parent string) string {
	for c := 'a'; c <= 'z'; c++ {
		if id := parent + string(c); w.byID[id] == nil {
			return "write " + id
		}
	}
	return "give the section another ID"
}
