package cohort

import (
	"wardian/build/growth"
	"wardian/content"
	"wardian/content/measure"
)

// Point is what one look tells of a part's leaves and roots, those of earlier
// looks carried on as far as build/growth's rules allow.
type Point struct {
	Look   *content.Look
	Day    int
	Leaves growth.State
	Roots  growth.RootLength
	Grade  *int // as seen at this look
	Ratio  growth.Ratio
	Falls  bool // leaves were cut or dropped at this look
}

// measureUp works out a part's points, one a look.
func (p *Part) measureUp() {
	seen := make([]growth.Leaves, len(p.Looks))
	for i, l := range p.Looks {
		seen[i] = leavesOf(l)
	}
	states := growth.Over(seen, shapeFactor(p.Specimen.Root()))
	p.Points = make([]Point, len(p.Looks))
	for i, l := range p.Looks {
		point := Point{Look: l, Day: l.Day, Leaves: states[i], Roots: growth.RootLength{Day: l.When.Day}}
		if r := l.Facts.Roots; r != nil {
			point.Roots = growth.LengthOf(rootsOf(l))
			point.Grade = r.Grade
		}
		point.Ratio = growth.RootToLeaf(point.Roots, states[i])
		point.Falls = seen[i].Cut > 0 || seen[i].Dropped > 0
		p.Points[i] = point
	}
}

// shapeFactor is the factor of a plant's leaf: its own, its shape's, or the
// general one.
func shapeFactor(s *content.Specimen) growth.Factor {
	if s.Factor != nil {
		return growth.Own(*s.Factor)
	}
	length := growth.Whole
	if !s.LeafWhole {
		length = growth.SinusToTip
	}
	return growth.FactorFor(growth.Shape(s.LeafShape), length)
}

func leavesOf(l *content.Look) growth.Leaves {
	g := growth.Leaves{Day: l.When.Day}
	if f := l.Facts.Leaves; f != nil {
		g.Sizes, g.Cut, g.Dropped, g.New = f.Sizes, f.Cut, f.Dropped, f.New
		if f.Count != nil {
			g.Counted, g.Count = true, *f.Count
		}
	}
	return g
}

func rootsOf(l *content.Look) growth.Roots {
	r := l.Facts.Roots
	g := growth.Roots{Day: l.When.Day}
	take := func(to *measure.Figure[measure.Length], from *measure.Figure[measure.Length]) {
		if from != nil {
			*to = *from
		}
	}
	take(&g.Length, r.Length)
	take(&g.Mean, r.Mean)
	take(&g.Longest, r.Longest)
	if r.Count != nil {
		g.Counted, g.Count = true, *r.Count
	}
	return g
}

// areaAround gives the leaf areas last recorded before a move and up to and at
// it; known only if both are.
func (p *Part) areaAround(move *content.Look, day int) (before, at measure.Area, known bool) {
	var was, is growth.State
	was.Why, is.Why = growth.NeverCounted, growth.NeverCounted
	for _, point := range p.Points {
		if point.Look == move {
			is = point.Leaves
			break
		}
		if point.Day > day {
			break
		}
		was, is = point.Leaves, point.Leaves
	}
	return was.Area, is.Area, was.Known() && is.Known()
}

// Arrival is the record of arrival: the look that says so, at most three days
// after unpacking; nil where there is none.
func (l *Line) Arrival() *content.Look {
	unpacked := l.Import().Unpacked.Day
	for _, look := range l.Looks {
		if look.Arrival && look.When.Day <= unpacked+3 {
			return look
		}
	}
	return nil
}

// recovered is the first day on which any part of a line carried more leaf than
// the record of arrival; asked is false where that has neither area nor count.
func (l *Line) recovered() (day int, asked bool) {
	record := l.Arrival()
	if record == nil {
		return Never, false
	}
	day = Never
	for _, p := range l.Parts {
		states := make([]growth.State, 0, len(p.Points))
		days := make([]int, 0, len(p.Points))
		after := p.Parent != nil
		for _, point := range p.Points {
			if after {
				states, days = append(states, point.Leaves), append(days, point.Day)
			}
			after = after || point.Look == record
		}
		at, by := growth.Recovered(l.arrivedAs(record), states)
		asked = by != growth.Unjudged
		if at >= 0 {
			earliest(&day, days[at])
		}
	}
	return day, asked
}

func (l *Line) arrivedAs(record *content.Look) growth.Arrived {
	for _, point := range l.Points {
		if point.Look == record {
			return growth.ArrivedAs(point.Leaves)
		}
	}
	return growth.Arrived{}
}

// LastArea is the leaf area last known of a part, with the day of the look
// that says so.
func (p *Part) LastArea() (area measure.Area, estimated bool, day int, ok bool) {
	for i := len(p.Points) - 1; i >= 0; i-- {
		if s := p.Points[i].Leaves; s.Said {
			return s.Area, s.Estimated, p.Points[i].Day, s.Known()
		}
	}
	return 0, false, 0, false
}

// LastRoots is the last look that gave a root length or a grade; nil where none
// did.
func (p *Part) LastRoots() *Point {
	for i := len(p.Points) - 1; i >= 0; i-- {
		if pt := &p.Points[i]; pt.Roots.Kind != growth.NoRootLength || pt.Grade != nil {
			return pt
		}
	}
	return nil
}

// LastRatio is the last look that gave a root-to-leaf ratio; nil where none did.
func (p *Part) LastRatio() *Point {
	for i := len(p.Points) - 1; i >= 0; i-- {
		if p.Points[i].Ratio.Known {
			return &p.Points[i]
		}
	}
	return nil
}

// HasRoots tells whether the look gave a root length.
func (p *Point) HasRoots() bool { return p.Roots.Kind != growth.NoRootLength }

// RootsOf says what the look's root length is a length of; "" where it gave
// none.
func (p *Point) RootsOf() string {
	return [...]string{growth.NoRootLength: "", growth.AllRoots: "all roots", growth.CountTimes: "count times mean", growth.LongestAlone: "longest root"}[p.Roots.Kind]
}
