package content

import (
	"wardian/content/ledger"
	"wardian/content/measure"
	"wardian/content/source"
)

// List is the table of an import that is kept as one.
type List struct {
	Path    string // diary path of the table: lists/2024-spring.csv
	columns ledger.Columns
	spans   [len(ledger.Columns{})]source.Span // where the import names each column
	at      source.Span                        // where it names the file
}

// Stated is what a list says of one thing that may have happened to a plant:
// nothing, yes, or a day that may be known by half.
type Stated = ledger.Fact

// nothingStated is an empty cell.
var nothingStated = Stated{Day: measure.NoSpan}

// Listed is what a list tells of a specimen. It has no timeline: these few days
// are all that is known but for check-ins that go on with it.
type Listed struct {
	Alive Stated // last seen alive
	Lost  Stated // the day is that on which it was found
	Left  Stated // sold or given away
	Cause Cause
	Words string // a public remark
	Line  int    // the line of the table

	alive, lost, left source.Span // the cells
}

// Undated says whether a list gives no day that counts: none at all, or a loss
// without one, which leaves nobody knowing how long the plant lived. Check-ins
// are not asked.
func (l *Listed) Undated() bool {
	if l.Lost.Said && !l.Lost.Day.Known() {
		return true
	}
	return !l.Alive.Day.Known() && !l.Lost.Day.Known() && !l.Left.Day.Known()
}

// told gives what a list says of the days up to one (measure.NoDay: of all).
// What it says of later days is unknown then, and so is what it says of no day:
// that may have been later. A loss or a leaving half known counts once its last
// possible day has come, a life from its first.
func (l *Listed) told(until measure.Day) *Listed {
	if !until.Known() {
		return l
	}
	c := *l
	if !c.Alive.Day.Known() || c.Alive.Day.First > until {
		c.Alive = nothingStated
	}
	if !c.Left.Day.Known() || c.Left.Day.Last > until {
		c.Left = nothingStated
	}
	if !c.Lost.Day.Known() || c.Lost.Day.Last > until {
		c.Lost, c.Cause = nothingStated, Cause{}
	}
	return &c
}

// shown gives what may be shown of a row: nothing of a day that is too young, and
// no remark beside such a day, since it may speak of it. What stands without a
// day has no day to be too young.
func (l *Listed) shown(late func(measure.Span) bool) *Listed {
	c := *l
	for _, s := range []*Stated{&c.Alive, &c.Lost, &c.Left} {
		if s.Day.Known() && late(s.Day) {
			*s, c.Words = nothingStated, ""
		}
	}
	if !c.Lost.Said {
		c.Cause = Cause{}
	}
	return &c
}
