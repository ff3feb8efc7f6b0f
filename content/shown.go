package content

import (
	"maps"
	"slices"

	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/readings"
)

// ShowOptions says how much of a diary may be shown.
type ShowOptions struct {
	Unfinished bool        // what is marked unfinished, too
	On         measure.Day // the day of the build; measure.NoDay: nothing is too young
}

// Shown gives a copy of the diary that holds only what may be shown on a day:
// nothing later than that day less the diary's hold-back, and nothing
// unfinished unless asked for. What is left out leaves no trace: a specimen of
// an import that is left out is gone from the rounds that name it, a section
// goes with its cut, a picture with its day or with whatever alone named it, a
// refund, an amendment, a reading and a new name with theirs.
//
// A section's own unfinished file takes its words along, not the section: it is
// the check-ins that tell of it. Where the body of something shown speaks of
// something left out, the words stay; the links and pictures in them are the
// pages' business, which find nothing there to point to.
//
// A round whose body has words on a specimen left out has no Words as a whole,
// only its Opening and WordsOf.
//
// The copy shares files, words and figures with the diary; neither may be
// changed afterwards. Where nothing can be left out, it is the diary itself.
func (d *Diary) Shown(o ShowOptions) *Diary {
	s := d.showing(o)
	if o.Unfinished && !o.On.Known() && len(s.seasons(d.Imports)) == len(d.Seasons) {
		return d
	}
	to := &Diary{Settings: d.Settings, Style: d.Style}
	to.Settings.Page = s.page(d.Settings.Page)
	for _, p := range d.Places {
		if s.finished(p.Page) {
			to.Places = append(to.Places, s.place(p))
		}
	}
	for _, i := range d.Imports {
		if s.finished(i.Page) && s.arrived(i) {
			to.Imports = append(to.Imports, s.imported(i))
		}
	}
	s.choose()
	for _, p := range d.Specimens {
		if c := s.specimens[p]; c != nil {
			to.Specimens = append(to.Specimens, c)
		}
	}
	for _, e := range d.Entries {
		if c := s.entries[e]; c != nil && s.entry(e, c) {
			to.Entries = append(to.Entries, c)
		}
	}
	for _, u := range d.Updates {
		if s.finished(u.Page) && !s.late(u.Date) {
			to.Updates = append(to.Updates, s.update(u))
		}
	}
	to.Seasons = s.seasons(to.Imports)
	to.Photos = s.photos(to)
	return to
}

// showing is the making of one copy: from the diary, each thing that is kept
// with its copy.
type showing struct {
	from       *Diary
	unfinished bool
	on, last   measure.Day // the day of the build; the last day shown

	imports   map[*Import]*Import
	specimens map[*Specimen]*Specimen
	places    map[*Place]*Place
	entries   map[*Entry]*Entry
}

func (d *Diary) showing(o ShowOptions) *showing {
	s := &showing{from: d, unfinished: o.Unfinished, on: o.On, last: o.On,
		imports: map[*Import]*Import{}, specimens: map[*Specimen]*Specimen{}, places: map[*Place]*Place{}, entries: map[*Entry]*Entry{}}
	if o.On.Known() {
		s.last -= measure.Day(d.Settings.HoldBack)
	}
	return s
}

func (s *showing) finished(p Page) bool { return s.unfinished || !p.Unfinished }

// late says whether a day is too young to be shown.
func (s *showing) late(d measure.Day) bool { return s.last.Known() && d.Known() && d > s.last }

// arrived says whether an import had surely come by the last day shown. A day
// half known that reaches past the day of the build can't have been later.
func (s *showing) arrived(i *Import) bool {
	if !s.last.Known() || !i.Arrived.Known() {
		return true
	}
	return i.Arrived.First <= s.on && !s.late(min(i.Arrived.Last, s.on))
}

func (s *showing) page(p Page) Page {
	p.Amended = slices.DeleteFunc(slices.Clone(p.Amended), func(a Amendment) bool { return s.late(a.Date) })
	return p
}

func (s *showing) place(p *Place) *Place {
	c := *p
	c.Page = s.page(p.Page)
	if s.last.Known() {
		n, _ := slices.BinarySearchFunc(p.Readings, s.last+1, func(r readings.Reading, d measure.Day) int { return int(r.Moment.Day) - int(d) })
		c.Readings = p.Readings[:n:n]
	}
	s.places[p] = &c
	return &c
}

func (s *showing) imported(i *Import) *Import {
	c := *i
	c.Page = s.page(i.Page)
	if s.late(i.Unpacked.Day) {
		c.Unpacked = measure.At(i.Arrived.First)
	}
	c.Refunds = slices.DeleteFunc(slices.Clone(i.Refunds), func(r Refund) bool { return s.late(r.Date) })
	s.imports[i] = &c
	return &c
}

// choose settles which specimens and entries are kept. A section is kept with
// the entry that cut it and with its parent, so both are settled in order of
// time: a check-in of a section comes after its cut.
func (s *showing) choose() {
	for _, p := range s.from.Specimens {
		if p.Parent == nil && s.finished(p.Page) && (p.Import == nil || s.imports[p.Import] != nil) {
			s.specimens[p] = s.specimen(p)
		}
	}
	cuts := map[*Entry][]*Specimen{}
	for _, p := range s.from.Specimens {
		if p.Parent != nil && p.CutBy != nil {
			cuts[p.CutBy] = append(cuts[p.CutBy], p)
		}
	}
	for _, e := range s.from.Entries {
		if !s.finished(e.Page) || s.late(e.When.Day) {
			continue
		}
		c := *e
		s.entries[e] = &c
		for again := true; again; { // a section may be cut again in the same round
			again = false
			for _, p := range cuts[e] {
				if s.specimens[p] == nil && s.specimens[p.Parent] != nil {
					s.specimens[p] = s.specimen(p)
					s.specimens[p].Parent, s.specimens[p].CutBy = s.specimens[p.Parent], &c
					again = true
				}
			}
		}
	}
}

func (s *showing) specimen(p *Specimen) *Specimen {
	c := *p
	c.Page = s.page(p.Page)
	c.Import = s.imports[p.Import]
	if p.Parent != nil && !s.finished(p.Page) {
		parent := s.specimens[p.Parent]
		c = Specimen{ID: p.ID, Name: parent.Name, Import: parent.Import, LeafShape: parent.LeafShape, LeafWhole: parent.LeafWhole,
			Factor: parent.Factor, Received: parent.Received, Renamed: parent.Renamed, Climate: parent.Climate,
			Parent: p.Parent, CutOn: p.CutOn, Position: p.Position, CutBy: p.CutBy}
		return &c
	}
	if p.Listed != nil {
		c.Listed = p.Listed.shown(func(d measure.Span) bool { return s.last.Known() && s.late(min(d.Last, s.on)) })
	}
	if c.Received != "" && s.late(c.Renamed) { // the new name isn't known yet
		c.Name, c.Received, c.Renamed = c.Received, "", measure.NoDay
	}
	return &c
}

// entry fills the copy of an entry; false where nothing is left of it.
func (s *showing) entry(e, c *Entry) bool {
	c.Page = s.page(e.Page)
	c.Place = s.places[e.Place]
	c.Common = s.facts(e.Common)
	c.Photos = s.pictures(e.Photos)
	c.Named, c.NotSeen, c.WordsOf = nil, nil, nil
	for _, n := range e.Named {
		if !s.keeps(n.ID) {
			continue
		}
		m := *n
		m.Entry = c
		m.Facts = s.facts(n.Facts)
		c.Named = append(c.Named, &m)
	}
	for _, m := range e.NotSeen {
		if s.keeps(m.ID) {
			c.NotSeen = append(c.NotSeen, m)
		}
	}
	if e.WordsOf != nil {
		c.WordsOf = maps.Clone(e.WordsOf)
		maps.DeleteFunc(c.WordsOf, func(id string, _ *prose.Section) bool { return !s.keeps(id) })
		if len(c.WordsOf) < len(e.WordsOf) {
			c.Words = nil // the body as a whole holds the words left out
		}
	}
	spoke := len(e.Named)+len(e.NotSeen) > 0
	speaks := len(c.Named)+len(c.NotSeen) > 0 || e.Others != OthersUnsaid && c.Place != nil
	return !spoke || speaks
}

// keeps says whether a specimen is kept. An ID that the diary doesn't know is:
// it stands for nothing that could be left out.
func (s *showing) keeps(id string) bool {
	p := s.from.Specimen(id)
	return p == nil || s.specimens[p] != nil
}

func (s *showing) facts(f Facts) Facts {
	f.To = s.places[f.To]
	f.Photos = s.pictures(f.Photos)
	if len(f.CutInto) > 0 {
		f.CutInto = slices.DeleteFunc(slices.Clone(f.CutInto), func(p Piece) bool { return !s.keeps(p.ID) })
	}
	return f
}

func (s *showing) update(u *Update) *Update {
	c := *u
	c.Page = s.page(u.Page)
	c.Import = s.imports[u.Import]
	c.Plates = nil
	for _, p := range u.Plates {
		q := p
		q.Import, q.Specimen, q.Place = s.imports[p.Import], s.specimens[p.Specimen], s.places[p.Place]
		if (q.Import == nil) == (p.Import == nil) && (q.Specimen == nil) == (p.Specimen == nil) && (q.Place == nil) == (p.Place == nil) {
			c.Plates = append(c.Plates, q)
		}
	}
	return &c
}

// seasons keeps the words on seasons of which an import is kept.
func (s *showing) seasons(kept []*Import) []*SeasonWords {
	var out []*SeasonWords
	for _, w := range s.from.Seasons {
		if s.finished(w.Page) && slices.ContainsFunc(kept, func(i *Import) bool { return i.Season == w.Season }) {
			c := *w
			c.Page = s.page(w.Page)
			out = append(out, &c)
		}
	}
	return out
}
