package content

import (
	"slices"

	"wardian/content/measure"
	"wardian/content/source"
)

// walk goes along one specimen's life in order of time and keeps what is known of
// it. With a report it judges what it meets; without one it only tells.
type walk struct {
	*telling
	report *source.Report
	blank  []Look    // looks made ahead, many at a time
	lists  []listEnd // what its list says of its end, by day; those that the walk has passed are gone from it
}

// plant is a specimen as it is told.
type plant struct {
	*Timeline
	followed bool
	begun    bool
	birth    *birth // nil but for a section that was cut by then
	at       *Place // where it stands; nil where nobody said, or gone
	gone     ending
	over     *Look       // the look by which it is gone; nil where a list says so
	on       measure.Day // the day on which it is gone

	resting    bool
	rot, pests string
	medium     string
	seen       *Look          // the last look
	notSeen    *Entry         // the last entry under whose not-seen it stands
	verdict    *source.Report // what is wrong with what is said of it; nil where nothing is judged
	judged                    // what judging remembers; see judge.go
}

// birth is the cut that made a section: by which look of its parent, where it
// came to stand, and whether it was at rest.
type birth struct {
	look    *Look
	at      *Place
	resting bool
}

// ending is why a specimen is no longer there.
type ending int

const (
	stillThere ending = iota
	goneLost
	goneDivided
	gonePassedOn
)

// newPlant is a specimen of which nothing is told yet.
func (t *telling) newPlant(s *Specimen) *plant {
	p := &plant{Timeline: &Timeline{Specimen: s, Begins: measure.NoMoment, Divided: measure.NoMoment}}
	p.judged.grade = -1
	if i := s.Import; s.Parent == nil && i != nil && i.Arrived.Known() {
		p.begun, p.Begins = true, measure.At(i.Day0())
	}
	if t.verdicts != nil {
		p.verdict = &source.Report{}
	}
	return p
}

// life tells a specimen from its beginning to its end: the entries that name it,
// the rounds that speak for it unnamed, the cut that made it.
func (w *walk) life(p *plant) {
	w.listed(p, w.until)
	mentions := w.index.of[p.Specimen.ID]
	w.blank = make([]Look, len(mentions)+1)
	for last := (*Entry)(nil); ; {
		e := w.next(p, mentions, last)
		if e == nil || w.until.Known() && e.When.Day > w.until {
			break
		}
		w.listsBefore(p, e.When.Day)
		n := 0
		for n < len(mentions) && mentions[n].entry == e {
			n++
		}
		w.entry(p, e, mentions[:n])
		mentions, last = mentions[n:], e
	}
	w.listsBefore(p, noEnd)
	w.judgeListed(p)
	p.join(w.index)
}

// next is the entry that tells of a specimen next; nil where none does.
func (w *walk) next(p *plant, mentions []mentioned, last *Entry) (next *Entry) {
	sooner := func(e *Entry) {
		if next == nil || inOrder(e, next) < 0 {
			next = e
		}
	}
	if len(mentions) > 0 {
		sooner(mentions[0].entry)
	}
	if p.birth != nil && !p.begun {
		sooner(p.birth.look.Entry)
	}
	if p.at != nil && p.gone == stillThere {
		rounds := w.index.same[p.at]
		if n := after(rounds, last); n < len(rounds) {
			sooner(rounds[n])
		}
	}
	return next
}

// entry takes in what one entry says of a specimen: by name, or for all that
// stood at its place before it.
func (w *walk) entry(p *plant, e *Entry, mentions []mentioned) {
	meant := e.speaksForAll() && p.at == e.Place && p.gone == stillThere
	for _, m := range mentions {
		if m.seen != nil {
			w.judgeStanding(p, m.seen)
		}
	}
	if p.birth != nil && p.birth.look.Entry == e {
		w.born(p)
	}
	for _, m := range mentions {
		if m.seen != nil {
			w.look(p, m.seen)
		} else {
			p.notSeen = e
		}
	}
	if meant && !p.seenIn(e) && p.notSeen != e {
		w.spokenFor(p, e)
	}
	for _, m := range mentions {
		if m.seen == nil {
			w.judgeNotSeen(p, e, m.unseen)
		}
	}
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
	w.spoken[e]++
	w.carry(p, l)
	p.end(l)
}

// begin opens a look at a specimen.
func (w *walk) begin(p *plant, e *Entry) *Look {
	if len(w.blank) == 0 {
		w.blank = make([]Look, 16)
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
		l.At = p.at
	}
	w.move(p, l)
}

// cut makes the sections of a look: what of them is said later is told with them.
func (w *walk) cut(p *plant, l *Look) {
	w.judgeCut(p, l)
	for _, piece := range l.CutInto {
		child := w.byID[piece.ID]
		if piece.ID == p.Specimen.ID || child == nil || child.birth != nil ||
			child.Specimen.CutBy != l.Entry || child.Specimen.Parent != p.Specimen {
			continue
		}
		child.birth = &birth{look: l, at: p.at, resting: p.resting}
		p.Pieces = append(p.Pieces, child.Timeline)
	}
	if dividedBy(l) && p.gone == stillThere {
		p.Divided = l.When
		p.depart(goneDivided, l)
	}
}

// born begins a section with the cut that made it.
func (w *walk) born(p *plant) {
	e := p.birth.look.Entry
	p.begun, p.Begins, p.resting = true, e.When, p.birth.resting
	if p.birth.at != nil {
		w.stand(p, p.birth.at, e.When, nil)
	}
	l := w.begin(p, e)
	l.Cutting, l.At, l.Facts = true, p.birth.at, nothingSaid()
	p.seen = l
	p.end(l)
}

// seenIn says whether an entry is the last that looked at it.
func (p *plant) seenIn(e *Entry) bool { return p.seen != nil && p.seen.Entry == e }

// lookIn says whether an entry looked at it, of all that are told.
func (p *plant) lookIn(e *Entry) bool {
	_, found := slices.BinarySearchFunc(p.Looks, e, func(l *Look, e *Entry) int { return inOrder(l.Entry, e) })
	return found
}

// day counts from the arrival of the import.
func (p *plant) day(when measure.Moment) int {
	s := p.Specimen.Root()
	if s.Import == nil || !s.Import.Arrived.Known() {
		return 0
	}
	return int(when.Day - s.Import.Day0())
}
