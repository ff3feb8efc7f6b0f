package content

import (
	"fmt"

	"wardian/content/measure"
)

// judgeFigures judges what was seen of roots and leaves.
func (w *walk) judgeFigures(p *plant, c *CheckIn, l *Look) {
	f := c.Entry.File
	if l.Resting && l.Leaves != nil && l.Leaves.Count != nil && l.Leaves.Count.Value > 0 {
		w.fault(f, c.says("resting"), "resting-in-leaf", "resting means leafless, and leaves are counted",
			"resting, or leaves", "leave one of the two out")
	}
	newRoot, newLeaf := l.Roots != nil && l.Roots.New, l.Leaves != nil && l.Leaves.New
	if i := p.Specimen.Root().Import; i != nil && i.Arrived.Known() && l.Day == 0 {
		for _, n := range []struct {
			said bool
			key  string
		}{{newRoot, "roots.new"}, {newLeaf, "leaves.new"}} {
			if n.said {
				w.fault(f, c.says(n.key), "new-on-arrival", "new on the day of arrival, when there was no look before",
					"new since the last look", "leave it out; it counts as no milestone")
			}
		}
	}
	if l.Roots != nil && l.Roots.Grade != nil {
		g := *l.Roots.Grade
		if p.grade == 0 && g > 0 && !newRoot {
			w.fault(f, c.says("roots.grade"), "roots-unannounced", fmt.Sprintf("roots of grade %d where there were none", g),
				"new root, or roots: {new: yes}, at the look that first saw one", "write new root beside it, if this look saw it first")
		}
		p.grade = g
	}
}

// latestArrivalRecord is how many days after unpacking a record of arrival may
// be made and still tell what arrived (measures, "Record of arrival").
const latestArrivalRecord = 3

// judgeArrival judges a record of arrival.
func (w *walk) judgeArrival(p *plant, c *CheckIn, l *Look) {
	i := p.Specimen.Import
	if !l.Arrival || i == nil || !i.Arrived.Known() {
		return
	}
	e := c.Entry
	switch {
	case p.Specimen.Parent != nil:
		w.fault(e.File, c.says("arrival"), "no-arrival", c.ID+" was cut here and never arrived", "a specimen as received", "leave it out")
	case p.arrival != nil:
		w.fault(e.File, c.says("arrival"), "arrival-twice", "a second record of arrival of "+c.ID, "one record of arrival; the first counts", "leave it out",
			earlier(p.arrivalLook(), "the first stands here"))
	case i.Unpacked.Known() && int(e.When.Day-i.Unpacked.Day) > latestArrivalRecord:
		w.fault(e.File, c.says("arrival"), "arrival-too-late",
			fmt.Sprintf("%d days after unpacking", e.When.Day-i.Unpacked.Day), fmt.Sprintf("a record of arrival made within %d days of unpacking", latestArrivalRecord),
			"leave it out; what it says isn't counted as known on arrival")
	default:
		p.arrival = c
	}
}

func (p *plant) arrivalLook() *Look {
	for _, l := range p.Looks {
		if l.Entry == p.arrival.Entry {
			return l
		}
	}
	return p.Looks[0]
}

// judgeLastDays judges the days that a check-in holds beside its own.
func (w *walk) judgeLastDays(p *plant, c *CheckIn, l *Look) {
	e := c.Entry
	if d := l.LastGood; d.Known() {
		at := c.says("last-good")
		switch {
		case l.Outcome != Lost:
			w.fault(e.File, at, "last-good-alone", "last-good without a loss beside it", "last-good on the check-in that found it lost", "leave it out")
		case p.Begins.Known() && d < p.Begins.Day:
			w.fault(e.File, at, "days-out-of-order", "seen well on "+d.String()+", before it was here", "a day from "+p.Begins.Day.String()+" on", "look at both days")
		}
	}
	if d := l.QuarantineUntil; d.Known() && d < e.When.Day {
		w.fault(e.File, c.says("quarantine-until"), "days-out-of-order", "a quarantine that ends before this check-in", "a day from "+e.When.Day.String()+" on", "look at both days")
	}
	for _, photo := range l.Photos {
		if photo.Taken.Known() && photo.Taken > e.When.Day {
			w.fault(e.File, photo.Span, "days-out-of-order", "a picture taken on "+photo.Taken.String()+", after this check-in", "a day up to "+e.When.Day.String(), "look at both days")
		}
	}
}

// before says whether a is certainly before b.
func before(a, b measure.Span) bool { return a.Known() && b.Known() && a.Last < b.First }
