package content

import (
	"slices"

	"wardian/content/format"
	"wardian/content/source"
)

// A section is said once, where it is cut: cut-into on its parent's check-in. It
// has name and import from its parent and needs no file; where it has one, the
// file's words are its own.

// sectionKeys are the keys of a specimen's file with none required: which are,
// is known only when all cuts are.
var sectionKeys = func() []format.Key {
	out := slices.Clone(format.Specimen.Keys)
	for i := range out {
		out[i].Required = false
	}
	return out
}()

// tieSections makes a specimen of each section that has no file, and ties each
// to its parent and to the entry that cut it. The first cut in order of time
// makes a section; what a later one says of it is judged on the walk.
func (l *loader) tieSections() {
	d := l.diary
	cuts := false
	byID := make(map[string]*Specimen, len(d.Specimens))
	for _, s := range d.Specimens {
		s.CutOn = noMoment
		byID[s.ID] = s
	}
	made := map[string]bool{}
	eachCut(d.Entries, func(e *Entry, parent *CheckIn, p Piece) {
		cuts = true
		if p.ID == parent.ID || byID[p.ID] != nil {
			return
		}
		made[p.ID] = true
		byID[p.ID] = &Specimen{ID: p.ID, LeafWhole: true, Page: Page{Head: p.Span}, Renamed: noDay, CutOn: noMoment}
	})
	for _, e := range l.undated {
		for _, n := range e.Named {
			for _, p := range n.CutInto {
				l.refused["specimen/"+p.ID] = true
			}
		}
	}
	if cuts {
		eachCut(d.Entries, func(e *Entry, n *CheckIn, p Piece) {
			child, parent := byID[p.ID], byID[n.ID]
			if child == nil || parent == nil || child.Parent != nil || asReceived(child, parent) || descends(parent, child) {
				return
			}
			child.Parent, child.CutOn, child.Position, child.CutBy = parent, e.When, p.Position, e
		})
		for id := range made {
			if s := byID[id]; s.Parent != nil {
				d.Specimens = append(d.Specimens, s)
			} else {
				l.refused["specimen/"+id] = true // its parent isn't known, which is reported
			}
		}
		slices.SortFunc(d.Specimens, func(a, b *Specimen) int { return cmpString(a.ID, b.ID) })
	}
	l.ids.specimens = nil // there are more of them now
	for _, s := range d.Specimens {
		l.inherit(s)
	}
}

// eachCut visits every section that entries make, in order.
func eachCut(entries []*Entry, visit func(*Entry, *CheckIn, Piece)) {
	for _, e := range entries {
		for _, n := range e.Named {
			for _, p := range n.CutInto {
				visit(e, n, p)
			}
		}
	}
}

// asReceived says whether a file is that of a plant as received, which no cut
// can have made: it was paid for, or came with another import than the parent.
func asReceived(s, parent *Specimen) bool {
	return s.Price != nil || s.Listed != nil || s.Import != nil && parent.Root().Import != nil && s.Import != parent.Root().Import
}

// descends says whether s was cut from of, or is it.
func descends(s, of *Specimen) bool {
	for ; s != nil; s = s.Parent {
		if s == of {
			return true
		}
	}
	return false
}

// inherit gives a section what it has from its parent, and reports what a
// specimen as received must say of itself.
func (l *loader) inherit(s *Specimen) {
	if s.Parent != nil {
		root := s.Root()
		take(&s.Name, root.Name)
		take(&s.Import, root.Import)
		if s.File == nil {
			s.LeafShape, s.LeafWhole, s.Factor = root.LeafShape, root.LeafWhole, root.Factor
			s.Received, s.Renamed, s.Climate, s.Traits = root.Received, root.Renamed, root.Climate, root.Traits
		}
		return
	}
	if s.File == nil || s.Listed != nil || l.broken[s] {
		return
	}
	for _, name := range []string{"name", "import"} {
		if s.Spans.Of(name, source.Span{}) != (source.Span{}) {
			continue
		}
		key := format.Find(format.Specimen.Keys, name)
		rd := l.reader(s.File, &format.Specimen)
		rd.fault("missing-key", s.Head, "the key "+quoted(name)+" is missing", key.Value.Kind.Expected(), "write "+name+": "+key.Example)
	}
}
