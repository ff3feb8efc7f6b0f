package climate

import "wardian/content/measure"

// Typical are a place's typical figures, as its file gives them, used where
// nothing was measured. They are Known only if both were given.
type Typical struct {
	Known bool
	T     measure.Temperature
	RH    measure.Humidity
}

// Source says what a figure for a place's air rests on.
type Source int

// What a figure rests on.
const (
	Unknown      Source = iota // neither enough readings nor typical figures
	Measured                   // readings over at least half of the hours
	TypicalValue               // the place's typical figures
)

// Window is the number of whole days before and after a move's day over which
// the air is taken.
const Window = 3

// Air is how dry a place was over some days.
type Air struct {
	Source   Source
	Deficit  measure.Pressure // kPa; 0 where Source is Unknown
	Readings int              // readings in the days, whether or not they sufficed
	Hours    int              // hours covered, of HoursOf
	HoursOf  int
}

// Before is the old place's air over the three whole days before the day of a
// move; After the new place's over the three whole days after it. The move's own
// day belongs to neither place.
func Before(readings []Reading, moved measure.Day, typical Typical) Air {
	return Over(readings, moved-Window, moved-1, typical)
}

// After is the counterpart of Before.
func After(readings []Reading, moved measure.Day, typical Typical) Air {
	return Over(readings, moved+1, moved+Window, typical)
}

// Over takes the air over the days first to last, both included: the mean of
// the deficits of the readings, if at least half of the hours are covered (see
// Covered); else the deficit at the typical figures; else nothing.
func Over(readings []Reading, first, last measure.Day, typical Typical) Air {
	// Gap is shorter than a day: no reading further off can cover an hour.
	near := make([]Reading, 0, len(readings))
	for _, r := range readings {
		if r.Moment.Known() && r.Moment.Day >= first-1 && r.Moment.Day <= last+1 {
			near = append(near, r)
		}
	}
	air := Air{
		Hours:   Covered(near, first, last),
		HoursOf: 24 * int(last-first+1),
	}
	var mean Range[measure.Pressure]
	for _, r := range near {
		if r.Moment.Day >= first && r.Moment.Day <= last {
			widen(&mean, r.Deficit(), air.Readings)
			air.Readings++
		}
	}
	switch {
	case air.Readings > 0 && 2*air.Hours >= air.HoursOf:
		air.Source, air.Deficit = Measured, mean.Mean
	case typical.Known:
		air.Source, air.Deficit = TypicalValue, Deficit(typical.T, typical.RH)
	}
	return air
}
