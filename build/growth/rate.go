package growth

import (
	"math"

	"wardian/content/measure"
)

// Rate is a relative growth rate of leaf area between two looks.
type Rate struct {
	From, To  int // places of the two looks
	Days      int // at least 1
	PerDay    float64
	Estimated bool // from an estimated area
}

// Rates gives the relative growth rate (ln A2 − ln A1)/(t2 − t1) per day between
// each look that says something of leaves and gives an area, and the next such
// look on a later day: both areas above 0, and no leaf cut or dropped after the
// first and up to the second, which would be no growth. Classical growth
// analysis (from memory; no source seen). looks and states are those of Over.
func Rates(looks []Leaves, states []State) []Rate {
	var rates []Rate
	from := -1
	for i, s := range states {
		if looks[i].Cut > 0 || looks[i].Dropped > 0 {
			from = -1 // what came before can't be compared with what comes now
		}
		if !s.Said || !s.Known() {
			continue
		}
		if s.Area <= 0 {
			from = -1
			continue
		}
		if from >= 0 && s.Day > states[from].Day {
			a, b := states[from], s
			rates = append(rates, Rate{
				From: from, To: i, Days: int(b.Day - a.Day),
				PerDay:    math.Log(float64(b.Area/a.Area)) / float64(b.Day-a.Day),
				Estimated: a.Estimated || b.Estimated,
			})
		}
		from = i
	}
	return rates
}

// By says what recovery was judged by.
type By int

// What recovery is judged by.
const (
	Unjudged By = iota // the record of arrival has neither area nor count: left out, and counted by the caller
	ByArea
	ByCount
)

// Arrived is what the record of arrival says of a line's leaves.
type Arrived struct {
	AreaKnown  bool
	Area       measure.Area
	CountKnown bool
	Count      int
}

// ArrivedAs takes the record of arrival from the state after it.
func ArrivedAs(s State) Arrived {
	return Arrived{AreaKnown: s.Known(), Area: s.Area, CountKnown: s.CountKnown, Count: s.Count}
}

// Recovered finds the first of the states after the record of arrival with more
// leaf area than recorded there, or, where the record gives no area, more leaves
// than counted there. at is its place in after, or -1 if there is none. The
// states are those of one part of the line; a section's own leaves are held
// against its line's record. Looks whose area (or count) isn't known are passed
// over, and so are those that say nothing of leaves.
func Recovered(record Arrived, after []State) (at int, by By) {
	switch {
	case record.AreaKnown:
		by = ByArea
	case record.CountKnown:
		by = ByCount
	default:
		return -1, Unjudged
	}
	for i, s := range after {
		switch {
		case !s.Said:
		case by == ByArea && s.Known() && more(float64(s.Area), float64(record.Area)):
			return i, by
		case by == ByCount && s.CountKnown && s.Count > record.Count:
			return i, by
		}
	}
	return -1, by
}

// more says whether a is greater than b by more than the order of a sum can
// make.
func more(a, b float64) bool { return a > b+1e-9*math.Abs(b) }
