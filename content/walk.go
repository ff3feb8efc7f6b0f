package content

import (
	"cmp"
	"slices"

	"wardian/content/measure"
	"wardian/content/source"
)

// walk goes over the entries in order and keeps what is known of each specimen.
// With a report it judges what it meets; without one it only tells.
type walk struct {
	diary  *Diary
	report *source.Report
	plants []*plant // by ID
	byID   map[string]*plant
	places map[*Place]*standing
	notes  []*Entry
	blank  []Look    // looks made ahead, many at a time
	lists  []listEnd // what lists say of ends, by day; those that the walk has passed are gone from it
}

// plant is a specimen on the walk.
type plant struct {
	*Timeline
	begun bool
	at    *Place // where it stands; nil where nobody said, or gone
	gone  ending
	over  *Look       // the look by which it is gone; nil where a list says so
	on    measure.Day // the day on which it is gone

	resting    bool
	rot, pests string
	medium     string
	seen       *Look  // the last look
	notSeen    *Entry // the last entry under whose not-seen it stands
	judged            // what judging remembers; see judge.go
}

// ending is why a specimen is no longer there.
type ending int

const (
	stillThere ending = iota
	goneLost
	goneDivided
	gonePassedOn
)

// standing are the specimens at a place. A specimen that moved away stays in
// the list until the next time it is asked for.
type standing struct{ list []*plant }

func (d *Diary) follow(until measure.Day, report *source.Report) *Timelines {
	w := &walk{diary: d, report: report, byID: make(map[string]*plant, len(d.Specimens)), places: map[*Place]*standing{}}
	for _, s := range d.Specimens {
		p := &plant{Timeline: &Timeline{Specimen: s, Begins: measure.NoMoment, Divided: measure.NoMoment}}
		p.judged.grade = -1
		if i := s.Import; s.Parent == nil && i != nil && i.Arrived.Known() {
			p.begun, p.Begins = true, measure.At(i.Day0())
		}
		w.listed(p, until)
		w.plants = append(w.plants, p)
		w.byID[s.ID] = p
	}
	w.sortLists()
	for _, e := range d.Entries {
		if until.Known() && e.When.Day > until {
			break
		}
		w.listsBefore(e.When.Day)
		w.entry(e)
	}
	w.listsBefore(noEnd)
	for _, p := range w.plants {
		w.judgeListed(p)
	}
	t := &Timelines{Diary: d, Until: until, Notes: w.notes}
	for _, p := range w.plants {
		if p.begun && (!until.Known() || p.Begins.Day <= until) {
			t.List = append(t.List, p.Timeline)
		}
	}
	d.photosByPath(w.byID)
	return t
}

// entry takes in one file.
func (w *walk) entry(e *Entry) {
	if e.PlaceNote() || e.Event != "" {
		w.notes = append(w.notes, e)
	}
	if e.PlaceNote() {
		w.judgeNote(e)
		return
	}
	var others []*plant // who stood there before the round
	if e.Others == OthersSame && e.Place != nil {
		others = w.at(e.Place).present(e.Place)
	}
	named := w.named(e)
	w.judgeEntry(e, named)
	for _, c := range named {
		if p := w.byID[c.ID]; p != nil {
			w.look(p, c)
		}
	}
	for _, m := range e.NotSeen {
		if p := w.byID[m.ID]; p != nil {
			p.notSeen = e
		}
	}
	for _, p := range others {
		if !p.seenIn(e) && p.notSeen != e {
			w.spokenFor(p, e)
		}
	}
	w.judgeRound(e, named)
}

// named gives the check-ins of an entry that say something, in file order but
// that a section cut in this entry comes after its parent.
func (w *walk) named(e *Entry) []*CheckIn {
	out := make([]*CheckIn, 0, len(e.Named))
	cuts := false
	for _, c := range e.Named {
		if c.Empty {
			continue
		}
		out = append(out, c)
		cuts = cuts || len(c.CutInto) > 0
	}
	if cuts {
		depth := func(c *CheckIn) (n int) {
			for s := w.diary.Specimen(c.ID); s != nil && s.Parent != nil && s.CutBy == e && n < len(out); s = s.Parent {
				n++
			}
			return n
		}
		slices.SortStableFunc(out, func(a, b *CheckIn) int { return cmp.Compare(depth(a), depth(b)) })
	}
	return out
}

// look takes in what an entry says of a specimen that it names.
func (w *walk) look(p *plant, c *CheckIn) {
	e := c.Entry
	if !w.judgeBegun(p, c) {
		return
	}
	if e.Place != nil && p.at == nil && p.gone == stillThere && len(p.Stays) == 0 {
		w.stand(p, e.Place, e.When, nil)
	}
	l := p.seen
	if !p.seenIn(e) || !l.Cutting { // else the cut in this entry made it: one look
		l = w.begin(p, e)
	}
	l.Named, l.At, l.Facts = true, p.at, c.Facts
	w.judgeLook(p, c, l)
	p.seen = l
	w.carry(p, l)
	w.move(p, l)
	w.settle(p, l)
	w.cut(p, l)
	p.end(l)
}

// spokenFor takes in a look by "others: same".
func (w *walk) spokenFor(p *plant, e *Entry) {
	f := e.Common
	f.Same = true
	f.To, f.Medium, f.Outcome, f.Cause, f.CutInto, f.Photos = nil, "", "", Cause{}, nil, nil
	f.LastGood = measure.NoDay
	l := w.begin(p, e)
	l.At, l.Facts = p.at, f
	p.seen = l
	w.carry(p, l)
	p.end(l)
}

// begin opens a look at a specimen.
func (w *walk) begin(p *plant, e *Entry) *Look {
	if len(w.blank) == 0 {
		w.blank = make([]Look, 128)
	}
	l := &w.blank[0]
	w.blank = w.blank[1:]
	l.Timeline, l.Entry, l.When, l.Day = p.Timeline, e, e.When, p.day(e.When)
	p.Looks = append(p.Looks, l)
	return l
}

// carry keeps what lasts beyond the look.
func (w *walk) carry(p *plant, l *Look) {
	if l.Resting {
		p.resting = true
	} else if l.Facts.hasLeaf() {
		p.resting = false
	}
	if l.Rot != "" {
		p.rot = l.Rot
	}
	if l.Pests != "" {
		p.pests = l.Pests
	}
	if l.Medium != "" {
		p.medium = l.Medium
	}
}

// hasLeaf says whether a leaf was seen: counted, measured or new.
func (f *Facts) hasLeaf() bool {
	l := f.Leaves
	return l != nil && (l.New || len(l.Sizes) > 0 || l.Count != nil && l.Count.Value > 0)
}

// end writes what holds at the end of a look into it.
func (p *plant) end(l *Look) {
	l.AtRest, l.RotNow, l.PestsNow, l.MediumNow = p.resting, p.rot, p.pests, p.medium
}

// move brings a specimen to another place.
func (w *walk) move(p *plant, l *Look) {
	if l.To == nil || l.To == p.at || p.gone != stillThere {
		return
	}
	p.leave(l.When)
	w.stand(p, l.To, l.When, l)
	if l.Medium != "" && l.To.Stage != Soak {
		p.medium = l.Medium
	}
}

// stand lets a specimen stand at a place. In a soak the roots are in water;
// what they are in when it comes out, nobody knows until it is said.
func (w *walk) stand(p *plant, at *Place, from measure.Moment, move *Look) {
	out := p.at != nil && p.at.Stage == Soak
	p.at = at
	p.Stays = append(p.Stays, Stay{Place: at, From: from, Until: measure.NoMoment, Move: move})
	s := w.at(at)
	s.list = append(s.list, p)
	if at.Stage == Soak {
		p.medium = "water"
	} else if out {
		p.medium = ""
	}
}

// leave ends a specimen's stay.
func (p *plant) leave(when measure.Moment) {
	if n := len(p.Stays); n > 0 && !p.Stays[n-1].Until.Known() {
		p.Stays[n-1].Until = when
	}
}

// settle takes in what became of the specimen.
func (w *walk) settle(p *plant, l *Look) {
	switch l.Outcome {
	case Lost:
		if p.gone == stillThere && !dividedBy(l) {
			p.Loss = l
			p.depart(goneLost, l)
		}
	case PassedOn:
		if p.gone == stillThere {
			p.PassedOn = l
			p.depart(gonePassedOn, l)
		}
	case AliveAfterAll:
		switch {
		case p.listedLost(): // by the list, which alone says so
			p.ListedBack = l
			w.back(p, l)
		case p.gone == goneLost:
			p.Loss.TakenBack = l
			p.Withdrawn = append(p.Withdrawn, p.Loss)
			p.Loss = nil
			w.back(p, l)
		}
	}
}

// dividedBy says whether a look cut a specimen up whole: sections without its
// own ID among them. A loss beside it means that the rest was thrown away.
func dividedBy(l *Look) bool {
	return len(l.CutInto) > 0 && !slices.ContainsFunc(l.CutInto, func(c Piece) bool { return c.ID == l.Timeline.Specimen.ID })
}

func (p *plant) depart(why ending, by *Look) {
	p.leave(by.When)
	p.gone, p.over, p.on = why, by, by.When.Day
}

// back puts a specimen that was thought lost where it stood: it never left.
func (w *walk) back(p *plant, l *Look) {
	p.gone, p.over = stillThere, nil
	if len(p.Stays) == 0 && l.Entry.Place != nil {
		w.stand(p, l.Entry.Place, l.When, nil)
		l.At = p.at
	} else if n := len(p.Stays); n > 0 {
		p.Stays[n-1].Until = measure.NoMoment
		p.at = p.Stays[n-1].Place
		s := w.at(p.at)
		s.list = append(s.list, p)
		l.At = p.at
	}
	w.move(p, l)
}

// cut begins the sections that a look made.
func (w *walk) cut(p *plant, l *Look) {
	w.judgeCut(p, l)
	for _, piece := range l.CutInto {
		child := w.byID[piece.ID]
		if piece.ID == p.Specimen.ID || child == nil || child.begun ||
			child.Specimen.CutBy != l.Entry || child.Specimen.Parent != p.Specimen {
			continue
		}
		child.begun, child.Begins, child.resting = true, l.When, p.resting
		if p.at != nil {
			w.stand(child, p.at, l.When, nil)
		}
		c := w.begin(child, l.Entry)
		c.Cutting, c.At, c.Facts = true, p.at, nothingSaid()
		child.seen = c
		child.end(c)
		p.Pieces = append(p.Pieces, child.Timeline)
	}
	if dividedBy(l) && p.gone == stillThere {
		p.Divided = l.When
		p.depart(goneDivided, l)
	}
}

func (w *walk) at(place *Place) *standing {
	s := w.places[place]
	if s == nil {
		s = &standing{}
		w.places[place] = s
	}
	return s
}

// present gives who stands at a place, by ID, and forgets who left.
func (s *standing) present(place *Place) []*plant {
	slices.SortFunc(s.list, func(a, b *plant) int { return cmp.Compare(a.Specimen.ID, b.Specimen.ID) })
	s.list = slices.Compact(s.list)
	s.list = slices.DeleteFunc(s.list, func(p *plant) bool { return p.at != place || p.gone != stillThere })
	return slices.Clone(s.list)
}

func (p *plant) seenIn(e *Entry) bool { return p.seen != nil && p.seen.Entry == e }

// day counts from the arrival of the import.
func (p *plant) day(when measure.Moment) int {
	s := p.Specimen.Root()
	if s.Import == nil || !s.Import.Arrived.Known() {
		return 0
	}
	return int(when.Day - s.Import.Day0())
}
