package cohort

import (
	"cmp"
	"slices"

	"wardian/content"
	"wardian/content/measure"
)

// A season that was kept as a list tells of a plant a last day alive, a loss or
// a leaving, each perhaps known by half, and no looks. Here it becomes an end as
// looks would give it (measures: From a list). A life counts from its first
// possible day, a loss on its last; nothing counts below day 0. A plant of which
// no day is known, or whose loss has none, can't stand on any axis of days: it
// counts by its word and in nothing else.

// span is a day of an import that may be known by half.
type span struct{ first, last int }

// daysOf counts a list's day from the import's arrival, never below 0.
func (p *Part) daysOf(s measure.Span) span {
	day0 := p.Specimen.Import.Day0()
	return span{max(int(s.First-day0), 0), max(int(s.Last-day0), 0)}
}

// listedAlive is the day from which a list's last look counts.
func (p *Part) listedAlive() (day int, ok bool) {
	if p.Listed == nil || !p.Listed.Alive.Day.Known() {
		return 0, false
	}
	return p.daysOf(p.Listed.Alive.Day).first, true
}

// endListed takes in what a list says of how the watch over a part ended. What
// looks say of an end goes before it.
func (p *Part) endListed(withdrawn map[*content.Look]bool) {
	row := p.Listed
	if row == nil {
		return
	}
	if alive, ok := p.listedAlive(); ok {
		p.LastAlive = max(p.LastAlive, alive)
	}
	switch {
	case p.Fate != Open:
	case row.Lost.Said && p.ListedBack == nil:
		p.Fate, p.ByList, p.Doubted = Lost, true, row.Cause.Doubt
		if row.Lost.Day.Known() {
			lost := p.daysOf(row.Lost.Day)
			p.LostOn, p.LostAfter = lost.last, p.sureBefore(len(p.Looks), lost, measure.NoDay, withdrawn)
		}
	case row.Left.Said:
		p.Fate = PassedOn
		if row.Left.Day.Known() {
			p.LastAlive = max(p.LastAlive, p.daysOf(row.Left.Day).first)
		}
	}
}

// listedAsOf is the latest day of a list's row: a day half known by its first, a
// loss by its last. NoDay where the row tells of none.
func listedAsOf(t *content.Timeline) measure.Day {
	row := t.Listed
	if row == nil {
		return measure.NoDay
	}
	latest := max(row.Alive.Day.First, row.Left.Day.First, row.Lost.Day.Last)
	if !latest.Known() {
		return measure.NoDay
	}
	return max(latest, t.Specimen.Import.Day0())
}

// FromList tells whether the line is a row of a list, whether or not check-ins
// went on with it. Such a line stands in groups known at day 0, never in one
// formed by a landmark.
func (l *Line) FromList() bool { return l.Specimen.Listed != nil }

// Told tells whether anybody wrote a check-in of the line. A row of a list
// without any can't be asked for milestones.
func (l *Line) Told() bool { return !l.FromList() || len(l.Looks) > 0 }

// undated tells whether a line can't stand on an axis of days: its list says that
// it was lost and not when, or it has neither a day nor a check-in. In an
// update, where later days of the list aren't known yet, it is told by what the
// list holds in the end: to leave out the rows with a later day would leave the
// losses alone.
func (l *Line) undated() bool {
	row := l.Specimen.Listed
	if row == nil {
		return false
	}
	if row.Lost.Said && !row.Lost.Day.Known() && l.ListedBack == nil {
		return true
	}
	return row.Undated() && len(l.Looks) == 0
}

// wordOf is what is known of an undated line: lost, passed on, alive (Open), or
// nothing (NotSeen).
func (l *Line) wordOf() Fate {
	switch {
	case l.Fate == Lost || l.Fate == PassedOn || l.Fate == Open:
		return l.Fate
	case l.Listed != nil && l.Listed.Alive.Said && !l.Listed.Alive.Day.Known() && l.Part.Fate == Open:
		return Open
	}
	return NotSeen
}

// Shares counts a scope's lines by what became of them, those without a day by
// their word. Alive + Lost + PassedOn + Unknown = N.
type Shares struct {
	N                              int
	Alive, Lost, PassedOn, Unknown int // Unknown: not seen since, never seen, or not said
	Undated                        int // those of N that have no day
}

// Shares counts every line of the scope.
func (s Scope) Shares() Shares {
	out := Shares{Undated: len(s.Undated)}
	for _, l := range s.Everyone() {
		out.N++
		switch l.Fate {
		case Open:
			out.Alive++
		case Lost:
			out.Lost++
		case PassedOn:
			out.PassedOn++
		default:
			out.Unknown++
		}
	}
	return out
}

// Everyone is every line of the scope, those without a day included, by ID.
func (s Scope) Everyone() []*Line {
	if len(s.Undated) == 0 {
		return s.Lines
	}
	out := slices.Concat(s.Lines, s.Undated)
	slices.SortFunc(out, func(a, b *Line) int { return cmp.Compare(a.Specimen.ID, b.Specimen.ID) })
	return out
}
