package content

import (
	"cmp"
	"slices"

	"wardian/content/measure"
)

// index tells which entries speak of whom. It is made in one pass over a diary and
// read while its specimens are told.
type index struct {
	of       map[string][]mentioned // by specimen, in order
	same     map[*Place][]*Entry    // rounds that speak for all at their place, in order
	pictures map[string][]dated     // by specimen: those that belong to it by their path
	named    map[string]int         // of a picture: how often entries name it
}

// mentioned is one entry's naming of a specimen.
type mentioned struct {
	entry  *Entry
	seen   *CheckIn // nil: it stands under not-seen
	unseen Mention
}

// dated is a picture whose path holds the day and the ID that it belongs to.
type dated struct {
	path string
	day  measure.Day
}

// inOrder is the order of a diary's entries: by day, then time (none before any),
// then file.
func inOrder(a, b *Entry) int {
	switch {
	case a == b:
		return 0
	case a.When.Before(b.When):
		return -1
	case b.When.Before(a.When):
		return 1
	}
	return cmp.Compare(a.File.Path, b.File.Path)
}

// newIndex makes the index of a diary.
func newIndex(d *Diary) *index {
	x := &index{of: make(map[string][]mentioned, len(d.Specimens)), same: map[*Place][]*Entry{}, named: map[string]int{}}
	for _, e := range d.Entries {
		e.eachMention(func(id string, m mentioned) { x.of[id] = append(x.of[id], m) })
		if e.speaksForAll() {
			x.same[e.Place] = append(x.same[e.Place], e)
		}
		e.eachPhoto(func(p Photo) { x.named[p.Path]++ })
	}
	x.pictures = d.picturesByPath()
	return x
}

// eachMention visits every naming of a specimen that says something.
func (e *Entry) eachMention(visit func(id string, m mentioned)) {
	for _, c := range e.Named {
		if !c.Empty {
			visit(c.ID, mentioned{entry: e, seen: c})
		}
	}
	for _, m := range e.NotSeen {
		visit(m.ID, mentioned{entry: e, unseen: m})
	}
}

// speaksForAll says whether an entry speaks for every specimen at its place.
func (e *Entry) speaksForAll() bool { return e.Others == OthersSame && e.Place != nil }

// after gives the first of some entries in order that comes after another; nil:
// after nothing.
func after(entries []*Entry, last *Entry) int {
	if last == nil {
		return 0
	}
	n, found := slices.BinarySearchFunc(entries, last, inOrder)
	if found {
		n++
	}
	return n
}
