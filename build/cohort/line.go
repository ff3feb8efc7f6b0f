package cohort

import (
	"wardian/content"
)

// Line is a specimen as received with everything that was cut from it: the unit
// of every share.
type Line struct {
	*Part         // the specimen as received
	Parts []*Part // it and its sections, each parent before its pieces, in order of cutting

	Fate  Fate
	Day   int // the day on which it was found lost, left, or the as-of day while open
	After int // for a lost line: the latest day any part was surely alive; -1 where none
	Seen  bool
	// LastAlive is the last day on which any part was seen alive; Never where
	// none ever was.
	LastAlive int
	Cause     content.Cause
	// Undated: a row of a list with no day to count from, or a loss without
	// one. Fate is then what is said of it, and Day is Never. It stands in no
	// Scope's Lines.
	Undated bool
	// OnArrival: found lost on or before the day of unpacking.
	OnArrival bool
	// AsOfDay is the as-of day in the import's count.
	AsOfDay int

	Milestones Milestones
}

// Sections are the parts that were cut.
func (l *Line) Sections() []*Part { return l.Parts[1:] }

// Import is the consignment the line came in.
func (l *Line) Import() *content.Import { return l.Specimen.Import }

// follow makes the line of a specimen as received.
func (c *Cohort) follow(t *content.Timeline) *Line {
	l := &Line{Day: 0, After: Never, LastAlive: Never}
	l.AsOfDay, _ = c.Day(t.Specimen.Import)
	l.Part = c.gather(l, t, nil, 0)
	losing := c.settle(l)
	if l.Undated = l.undated(); l.Undated {
		l.Fate, l.Day, l.After = l.wordOf(), Never, Never
	}
	if l.Fate == Lost {
		l.Cause = losing.CauseOf()
		arrived := t.Specimen.Import
		l.OnArrival = l.Day <= int(arrived.Unpacked.Day-arrived.Day0()) && !l.Undated
	}
	c.reach(l)
	return l
}

// gather adds a part and, in order of cutting, its pieces to a line.
func (c *Cohort) gather(l *Line, t *content.Timeline, parent *Part, depth int) *Part {
	p := &Part{Timeline: t, Line: l, Parent: parent, Depth: depth}
	if parent != nil {
		p.Begins = int(t.Begins.Day - t.Specimen.Import.Day0())
	}
	withdrawn := make(map[*content.Look]bool, len(t.Withdrawn))
	for _, w := range t.Withdrawn {
		withdrawn[w] = true
	}
	p.end(withdrawn)
	p.Open = p.Fate == Open && p.LastAlive != Never && l.AsOfDay-p.LastAlive <= c.seenWithin(t)
	l.Seen = l.Seen || len(t.Looks) > 0 || listedAsOf(t).Known()
	l.LastAlive = max(l.LastAlive, p.LastAlive)
	p.measureUp()
	c.move(p)
	c.parts[t.Specimen.ID] = p
	l.Parts = append(l.Parts, p)
	for _, piece := range t.Pieces {
		c.gather(l, piece, p, depth+1)
	}
	return p
}

// seenWithin is the number of days after its last look for which a part still
// counts as under watch: the diary's own figure alone where it sets one, else
// the larger of 7 and twice the check-every of the place where it stands.
func (c *Cohort) seenWithin(t *content.Timeline) int {
	if set := c.Diary.Settings.SeenWithin; set >= 0 {
		return set
	}
	days := 7
	if n := len(t.Stays); n > 0 {
		days = max(days, 2*t.Stays[n-1].Place.CheckEvery)
	}
	return days
}

// settle works out what became of a line, and gives the part that was found lost
// last. A line is lost only when every part was found lost; a divided
// part has no fate of its own.
func (c *Cohort) settle(l *Line) (losing *Part) {
	var lost, waiting, open, passed int
	for _, p := range l.Parts {
		switch {
		case p.Fate == Divided:
		case p.Fate == Lost:
			lost++
		case p.Fate == PassedOn:
			passed++
		case p.Open:
			open++
		default:
			waiting++
		}
	}
	switch {
	case open > 0:
		l.Fate, l.Day = Open, l.AsOfDay
	case lost > 0 && waiting == 0 && passed == 0:
		l.Fate, l.Day = Lost, Never
		for _, p := range l.Parts {
			if p.Fate != Lost {
				l.After = max(l.After, p.LastAlive)
				continue
			}
			l.After = max(l.After, p.LostAfter)
			if p.LostOn >= l.Day {
				l.Day, losing = p.LostOn, p
			}
		}
		l.After = min(l.After, l.Day-1)
	default:
		l.Fate = NotSeen
		if waiting == 0 && passed > 0 {
			l.Fate = PassedOn
		}
		l.Day = max(l.LastAlive, 0)
	}
	return losing
}

// CauseOf is why a part was lost, by the look that found it or by its list.
func (p *Part) CauseOf() content.Cause {
	if look := p.Losing(); look != nil {
		return look.Cause
	}
	if p.ByList {
		return p.Listed.Cause
	}
	return content.Cause{}
}

// Losing is the look that found a part lost for good; nil where it wasn't lost,
// or a list alone says so.
func (p *Part) Losing() *content.Look {
	if p.ByList {
		return nil
	}
	for i := len(p.Looks) - 1; i >= 0; i-- {
		if !sawAlive(p.Looks[i]) {
			return p.Looks[i]
		}
	}
	return nil
}
