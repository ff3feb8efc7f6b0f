// Package readings reads what loggers wrote at a place: CSV files as they come
// out of the logger's own program, with one row a measurement.
//
// Read understands columns in any order under any headings, after any lines of
// preamble; commas, semicolons or tabs between them; decimal points and commas;
// a byte-order mark and CRLF; days written year first, with full stops day first,
// and with slashes or hyphens in either order where the whole file allows only
// one; times of 24 or of 12 hours, with seconds or without; Z or an offset, which
// is turned into the diary's time zone. Temperatures come out in degrees
// Celsius, humidity in per cent from 0 to 100.
//
// It refuses to guess: a file in which 06/04/2026 could be either day is a
// finding, and none of it is read. Rows that make no sense (not a number, a
// humidity outside 0 to 100, a temperature outside −40 to 70 °C, the range that
// such loggers are sold for; common practice, no source) are left out with one
// warning a run of rows. A row with neither figure is what loggers write when a
// button is pressed, and is passed over in silence.
//
// Times are kept to the minute; of several rows in one minute the first is kept.
// Where clocks go back in autumn, the doubled hour of a logger that knows no
// offset is kept once. A stretch without rows is no fault: Gaps tells of it.
package readings

import (
	"cmp"
	"slices"

	"wardian/content/measure"
)

// Reading is one measured temperature and relative humidity.
type Reading struct {
	Moment      measure.Moment
	Temperature measure.Temperature
	Humidity    measure.Humidity
}

// order compares readings by their moment.
func order(a, b Reading) int {
	return cmp.Or(cmp.Compare(a.Moment.Day, b.Moment.Day), cmp.Compare(a.Moment.Minute, b.Moment.Minute))
}

// Merge joins pieces of one place's log, each sorted or not, into one list in
// order of time. Where pieces overlap, the reading of the earlier piece is kept.
func Merge(pieces ...[]Reading) []Reading {
	all := slices.Concat(pieces...)
	slices.SortStableFunc(all, order)
	return slices.CompactFunc(all, func(a, b Reading) bool { return a.Moment == b.Moment })
}

// Conflict is a minute for which two pieces give different figures.
type Conflict struct {
	Kept, Dropped Reading
	Piece         int // the piece, counted from 0, that the dropped one stands in
}

// Conflicts tells what Merge drops although it differs from what is kept, in
// order of time. Overlapping pieces of one logger agree and give none.
func Conflicts(pieces ...[]Reading) []Conflict {
	type from struct {
		Reading
		piece int
	}
	var all []from
	for i, p := range pieces {
		for _, r := range p {
			all = append(all, from{r, i})
		}
	}
	slices.SortStableFunc(all, func(a, b from) int { return order(a.Reading, b.Reading) })
	var out []Conflict
	kept := 0
	for i := 1; i < len(all); i++ {
		switch {
		case all[i].Moment != all[kept].Moment:
			kept = i
		case all[i].Reading != all[kept].Reading:
			out = append(out, Conflict{Kept: all[kept].Reading, Dropped: all[i].Reading, Piece: all[i].piece})
		}
	}
	return out
}

// Gap is a stretch without readings, between two that were made.
type Gap struct {
	From, To measure.Moment
}

// Hours is how long the gap is.
func (g Gap) Hours() measure.Hours {
	h, _ := g.From.HoursUntil(g.To)
	return h
}

// Gaps gives the stretches of a sorted list that are longer than so many hours.
func Gaps(list []Reading, longer measure.Hours) []Gap {
	var out []Gap
	for i := 1; i < len(list); i++ {
		if g := (Gap{From: list[i-1].Moment, To: list[i].Moment}); g.Hours() > longer {
			out = append(out, g)
		}
	}
	return out
}
