package cohort

import (
	"wardian/content"
	"wardian/content/measure"
)

// dayOf counts a moment's day from the arrival of the part's import.
func (p *Part) dayOf(m measure.Moment) int { return int(m.Day - p.Specimen.Import.Day0()) }

// before is the place from which stay number n was a move: the place before it,
// or for a section's first the place where its parent stood at the cut. Nil
// where it came from nowhere known.
func (p *Part) before(n int) *content.Place {
	if n > 0 {
		return p.Stays[n-1].Place
	}
	if p.Parent == nil {
		return nil
	}
	return p.Parent.PlaceBefore(p.Timeline.Begins)
}

// PlaceBefore is the place where a part stood just before a moment, moves of
// that very moment not yet made; nil where nobody had said so by the end of that
// day.
func (p *Part) PlaceBefore(m measure.Moment) *content.Place {
	var at *content.Place
	for _, s := range p.Stays {
		if !s.From.Before(m) && (at != nil || s.From.Day > m.Day) {
			break
		}
		at = s.Place
	}
	return at
}

// PlaceOn is the place where a part stood at the end of a day of its import;
// nil before its first place and after its watch ended.
func (p *Part) PlaceOn(day int) *content.Place {
	if day > p.End() {
		return nil
	}
	var at *content.Place
	for _, s := range p.Stays {
		if p.dayOf(s.From) > day {
			break
		}
		at = s.Place
	}
	return at
}

// End is the last day of a part that is known: that on which it was found lost,
// was cut up or passed on, or else was last seen alive. It is the day on which
// its drawings end; Begins where it was never seen.
func (p *Part) End() int {
	switch {
	case p.Fate == Lost && p.LostOn != Never:
		return p.LostOn
	case p.LastAlive != Never:
		return max(p.LastAlive, p.Begins)
	default:
		return p.Begins
	}
}

// Span is a part's time at one place, in days of its import. Until is the day
// of the move onward, or the part's End.
type Span struct {
	Place       *content.Place
	From, Until int
}

// Spans are the times at places of a part, in order, up to its End. Stays of
// one and the same place that follow one another are one.
func (p *Part) Spans() []Span {
	var out []Span
	for n, s := range p.Stays {
		from := p.dayOf(s.From)
		until := p.End()
		if n+1 < len(p.Stays) {
			until = min(until, p.dayOf(p.Stays[n+1].From))
		}
		if until < from {
			continue
		}
		if k := len(out); k > 0 && out[k-1].Place == s.Place {
			out[k-1].Until = until
			continue
		}
		out = append(out, Span{Place: s.Place, From: from, Until: until})
	}
	return out
}

// DaysAt counts the days a part stood at places of one stage.
func (p *Part) DaysAt(stage content.Stage) int {
	days := 0
	for _, s := range p.Spans() {
		if s.Place.Stage == stage {
			days += s.Until - s.From
		}
	}
	return days
}
