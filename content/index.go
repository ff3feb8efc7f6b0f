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
	owner    map[string]string      // of such a picture: the specimen
	named    map[string]int         // of a picture: how often entries name it

	notes, taken, unfinished []*Entry // place notes and events; those with a reading; unfinished ones: each in order
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
	x := &index{of: make(map[string][]mentioned, len(d.Specimens)), same: map[*Place][]*Entry{}, owner: map[string]string{}, named: map[string]int{}}
	for _, e := range d.Entries {
		x.enter(e)
	}
	x.pictures = d.picturesByPath()
	for id, list := range x.pictures {
		for _, p := range list {
			x.owner[p.path] = id
		}
	}
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

// enter puts an entry into the index.
func (x *index) enter(e *Entry) {
	e.eachMention(func(id string, m mentioned) {
		list := x.of[id]
		at := len(list)
		for at > 0 && inOrder(list[at-1].entry, e) > 0 {
			at--
		}
		x.of[id] = slices.Insert(list, at, m)
	})
	if e.speaksForAll() {
		at := after(x.same[e.Place], e)
		x.same[e.Place] = slices.Insert(x.same[e.Place], at, e)
	}
	e.eachPhoto(func(p Photo) { x.named[p.Path]++ })
	for _, list := range x.lists(e) {
		*list = slices.Insert(*list, after(*list, e), e)
	}
}

// lists are those in which an entry stands.
func (x *index) lists(e *Entry) (in []*[]*Entry) {
	if e.PlaceNote() || e.Event != "" {
		in = append(in, &x.notes)
	}
	if e.Reading != nil && e.Place != nil {
		in = append(in, &x.taken)
	}
	if e.Unfinished {
		in = append(in, &x.unfinished)
	}
	return in
}

// leave takes an entry out of the index.
func (x *index) leave(e *Entry) {
	e.eachMention(func(id string, _ mentioned) {
		x.of[id] = slices.DeleteFunc(x.of[id], func(m mentioned) bool { return m.entry == e })
	})
	if e.speaksForAll() {
		x.same[e.Place] = slices.DeleteFunc(x.same[e.Place], func(s *Entry) bool { return s == e })
	}
	e.eachPhoto(func(p Photo) { x.named[p.Path]-- })
	for _, list := range x.lists(e) {
		*list = slices.DeleteFunc(*list, func(o *Entry) bool { return o == e })
	}
}
