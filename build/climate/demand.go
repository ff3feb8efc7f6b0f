package climate

import (
	"math"
	"strconv"

	"wardian/content/measure"
)

// Floor is the least deficit that a sensor can tell from none, in kPa. At 25 °C
// an error of 3 % in relative humidity is 0.095 kPa. A smaller deficit counts as
// Floor wherever it is divided by, and what comes out is a bound; it is printed
// as "< 0.1 kPa".
const Floor measure.Pressure = 0.1

// BelowFloor says whether a deficit is too small to be told from none.
func BelowFloor(d measure.Pressure) bool { return d < Floor }

// Side is one end of a move: how dry the air was, and the leaf area that was
// last recorded up to and at the move.
type Side struct {
	Deficit   measure.Pressure // kPa
	Area      measure.Area     // cm²
	AreaKnown bool
}

// Bound says how a step's ratio is to be read.
type Bound int

// How a ratio is to be read.
const (
	About   Bound = iota // the ratio, rounded to nearest
	AtLeast              // the old deficit was floored: the step is this or more; rounded down
	AtMost               // the new one was floored: this or less; rounded up
	NoStep               // both were: no step that a sensor can tell
	NoRatio              // a leafless end, or air not known: nothing to divide
)

// Step is what a move asks of a plant, its stomata taken as unchanged: the ratio
// of demand after to demand before. Held constant, they overstate the step for
// hardened leaves and may understate it for leaves made in wet air.
type Step struct {
	Bound      Bound
	Ratio      float64          // rounded to two significant digits as Bound says; 0 for NoStep and NoRatio
	Exact      float64          // the same before rounding
	Difference measure.Pressure // new less old in kPa, from the deficits as they were, never floored
	WithArea   bool             // leaf areas were in the ratio
	Leafless   bool             // an area is 0: why there is no ratio
}

// Demand compares the two ends of a move: (A2·V2)/(A1·V1), deficits under Floor
// counted as Floor. Areas are left out unless both are known; where either is
// known to be 0 there is no ratio. The sources of both deficits are the caller's
// to say. 24 °C 98 % to 22 °C 55 % is at least ×11, a difference of 1.1 kPa.
func Demand(old, new Side) Step {
	s := Step{Difference: new.Deficit - old.Deficit}
	if old.AreaKnown && old.Area <= 0 || new.AreaKnown && new.Area <= 0 {
		s.Bound, s.Leafless = NoRatio, true
		return s
	}
	switch {
	case BelowFloor(old.Deficit) && BelowFloor(new.Deficit):
		s.Bound = NoStep
		return s
	case BelowFloor(old.Deficit):
		s.Bound = AtLeast
	case BelowFloor(new.Deficit):
		s.Bound = AtMost
	}
	s.Exact = float64(max(new.Deficit, Floor) / max(old.Deficit, Floor))
	if old.AreaKnown && new.AreaKnown {
		s.WithArea = true
		s.Exact *= float64(new.Area / old.Area)
	}
	s.Ratio = twoDigits(s.Exact, s.Bound)
	return s
}

// Move is Demand between the air before and the air after a move; where either
// is unknown there is no ratio, and the difference is 0 and means nothing.
func Move(old, new Air, oldArea, newArea measure.Area, oldKnown, newKnown bool) Step {
	if old.Source == Unknown || new.Source == Unknown {
		return Step{Bound: NoRatio}
	}
	return Demand(Side{old.Deficit, oldArea, oldKnown}, Side{new.Deficit, newArea, newKnown})
}

// twoDigits rounds a ratio above 0 to two significant digits: down for what is
// at least so much, up for what is at most so much, else to the nearest. A ratio
// that is a two-digit figure but for the last bits of its arithmetic is taken as
// that figure.
func twoDigits(ratio float64, bound Bound) float64 {
	nearest := significant(ratio)
	if math.Abs(ratio-nearest) <= 1e-9*ratio {
		return nearest
	}
	// One unit of the second digit, taken from the rounded figure's exponent so
	// that 9.96 goes down to 9.9 and up to 10.
	unit := math.Pow(10, math.Floor(math.Log10(ratio))-1)
	switch {
	case bound == AtLeast && nearest > ratio:
		return significant(math.Floor(ratio/unit) * unit)
	case bound == AtMost && nearest < ratio:
		return significant(math.Ceil(ratio/unit) * unit)
	}
	return nearest
}

// significant rounds to two significant digits, by way of the decimal text, so
// that the figure is the one nearest to its own digits.
func significant(v float64) float64 {
	r, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 1, 64), 64)
	return r
}

// Digits writes the ratio with its two significant digits: "11", "8.0", "0.085",
// "120"; nothing where there is no ratio.
func (s Step) Digits() string {
	if !(s.Ratio > 0) {
		return ""
	}
	text := strconv.FormatFloat(s.Ratio, 'e', 1, 64) // d.de±dd
	exponent, _ := strconv.Atoi(text[4:])
	return strconv.FormatFloat(s.Ratio, 'f', max(0, 1-exponent), 64)
}
