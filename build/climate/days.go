package climate

import (
	"slices"

	"wardian/content/measure"
)

// Reading is what was measured at one place at one moment. The time of day may
// be missing.
type Reading struct {
	Moment measure.Moment
	T      measure.Temperature
	RH     measure.Humidity
}

// Deficit is the reading's vapour pressure deficit, in kPa.
func (r Reading) Deficit() measure.Pressure { return Deficit(r.T, r.RH) }

// Range is the mean, the least and the greatest of a day's figures.
type Range[T ~float64] struct{ Mean, Min, Max T }

// Day sums up the readings of one day at one place.
type Day struct {
	Day      measure.Day
	Readings int // at least 1
	Hours    int // hours of the day that are covered, 0 to 24; see Covered
	Deficit  Range[measure.Pressure]
	T        Range[measure.Temperature]
	RH       Range[measure.Humidity]
}

// Days sums up readings day by day, in any order given; days without a reading
// have none. The mean deficit is the mean of the readings' deficits, not the
// deficit of mean temperature and mean humidity (FAO-56 ch. 3: saturation is
// convex, so averaging first says too little). Each reading weighs the same.
// Readings on an unknown day are left out.
func Days(readings []Reading) []Day {
	ordered := inOrder(readings)
	hours := covered(ordered)
	var days []Day
	for from := 0; from < len(ordered); {
		to := from
		for to < len(ordered) && ordered[to].Moment.Day == ordered[from].Moment.Day {
			to++
		}
		d := sum(ordered[from:to])
		for h := 0; h < 24; h++ {
			if hours[hour(d.Day, h)] {
				d.Hours++
			}
		}
		days = append(days, d)
		from = to
	}
	return days
}

// sum makes one day of its readings, of which there is at least one.
func sum(readings []Reading) Day {
	d := Day{Day: readings[0].Moment.Day, Readings: len(readings)}
	for i, r := range readings {
		widen(&d.Deficit, r.Deficit(), i)
		widen(&d.T, r.T, i)
		widen(&d.RH, r.RH, i)
	}
	return d
}

// widen takes one more figure, the i-th from 0, into a range. The mean is kept
// running, so that a year of readings loses no more digits than a day's.
func widen[T ~float64](r *Range[T], v T, i int) {
	if i == 0 {
		*r = Range[T]{v, v, v}
		return
	}
	r.Mean += (v - r.Mean) / T(i+1)
	r.Min, r.Max = min(r.Min, v), max(r.Max, v)
}

// Gap is the longest time between two readings over which the hours between
// them still count as covered, in minutes. Three hours let a logger miss a few
// readings without losing a day, and are too short for a night to pass
// unseen. Common practice, no source.
const Gap = 3 * 60

// hour numbers the hours since 1970-01-01 00:00.
func hour(d measure.Day, h int) int { return int(d)*24 + h }

// covered gives the hours that are covered by readings in order. An hour is
// covered if it holds a reading or lies between two readings at most Gap apart.
// A reading without a time of day covers none: nobody knows which.
func covered(ordered []Reading) map[int]bool {
	hours := map[int]bool{}
	last, seen := 0, false // in minutes
	for _, r := range ordered {
		if !r.Moment.Timed() {
			continue
		}
		at := int(r.Moment.Day)*24*60 + r.Moment.Minute
		from := floorDiv(at, 60)
		if seen && at-last <= Gap {
			from = floorDiv(last, 60)
		}
		for h := from; h <= floorDiv(at, 60); h++ {
			hours[h] = true
		}
		last, seen = at, true
	}
	return hours
}

// Covered counts the hours of the days first to last, both included, that are
// covered: those that hold a reading or lie between two readings at most three
// hours apart. Readings of the days around count as neighbours.
func Covered(readings []Reading, first, last measure.Day) int {
	n := 0
	for h := range covered(inOrder(readings)) {
		if h >= hour(first, 0) && h < hour(last+1, 0) {
			n++
		}
	}
	return n
}

// inOrder gives the readings of known days by moment, without touching the
// caller's.
func inOrder(readings []Reading) []Reading {
	ordered := make([]Reading, 0, len(readings))
	for _, r := range readings {
		if r.Moment.Known() {
			ordered = append(ordered, r)
		}
	}
	slices.SortStableFunc(ordered, func(a, b Reading) int {
		switch {
		case a.Moment.Before(b.Moment):
			return -1
		case b.Moment.Before(a.Moment):
			return 1
		}
		return 0
	})
	return ordered
}

// floorDiv divides towards minus infinity: days before 1970 are days too.
func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
