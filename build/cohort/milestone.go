package cohort

import "wardian/content"

// Milestones are the days on which a line, by the earliest of its parts, was
// first seen to have reached something; Never where it wasn't. Each is dated on
// the check-in that first records it.
type Milestones struct {
	FirstRoot   int
	FirstLeaf   int
	LeftBin     int // first move from soak or bin to step-down or room
	Recovered   int // more leaf than at the record of arrival
	Established int
	// WentBack counts the moves back to wetter air after it had left the bin.
	WentBack int
	// Binned is false for a line that never stood in soak or bin: it can't
	// leave one and stands in no count of LeftBin.
	Binned bool
	// Measured is false where the record of arrival has neither area nor
	// count: such a line stands in no count of Recovered.
	Measured bool
}

// reach finds a line's milestones.
func (c *Cohort) reach(l *Line) {
	m := Milestones{FirstRoot: Never, FirstLeaf: Never, LeftBin: Never, Recovered: Never, Established: Never}
	for _, p := range l.Parts {
		for _, look := range p.Looks {
			// New on the day of arrival is what came in the box.
			if look.Day > 0 && look.Facts.Roots != nil && look.Facts.Roots.New {
				earliest(&m.FirstRoot, look.Day)
			}
			if look.Day > 0 && look.Facts.Leaves != nil && look.Facts.Leaves.New {
				earliest(&m.FirstLeaf, look.Day)
			}
			if look.Outcome == content.Established {
				earliest(&m.Established, look.Day)
			}
		}
		for n, stay := range p.Stays {
			wet := stay.Place.Stage <= content.Bin
			m.Binned = m.Binned || wet
			before := p.before(n)
			switch {
			case before == nil:
			case before.Stage <= content.Bin && !wet:
				earliest(&m.LeftBin, p.dayOf(stay.From))
			case m.LeftBin != Never && before.Stage > content.Bin && wet:
				m.WentBack++
			}
		}
	}
	m.Recovered, m.Measured = l.recovered()
	l.Milestones = m
}

func earliest(day *int, seen int) {
	if *day == Never || seen < *day {
		*day = seen
	}
}
