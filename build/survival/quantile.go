package survival

import "math"

// halfTolerance says when a share stands at exactly the wanted height: the
// product of the steps' factors is rounded, so 0.5 may come out as
// 0.5000000000000001. The same 1e-8 as in the reference's conventions.
const halfTolerance = 1e-8

// Quantile is the day by which a given share was lost. Reached false means
// that the curve never fell so far; it is an answer of its own, and Day is 0
// then. The same holds for each limit.
type Quantile struct {
	Day     float64
	Reached bool

	Lower    float64
	HasLower bool
	Upper    float64
	HasUpper bool
}

// Median is the day by which half were lost: see Quantile.
func (c Curve) Median() Quantile { return c.Quantile(0.5) }

// Quantile is the first day on which the share alive is below 1 − p; where it
// stands at exactly 1 − p over a stretch, the middle of that stretch, which
// the last day followed ends if no loss does. The limits are those days on
// which the curves of the lower and of the upper limit do the same (Brookmeyer
// and Crowley 1982, Biometrics 38:29-41); days without limits are passed over.
// p is a share lost between 0 and 1.
func (c Curve) Quantile(p float64) Quantile {
	var q Quantile
	q.Day, q.Reached = c.crossing(1-p, func(e Estimate) (float64, bool) { return e.Share, true })
	q.Lower, q.HasLower = c.crossing(1-p, func(e Estimate) (float64, bool) { return e.Lower, e.HasLimits })
	q.Upper, q.HasUpper = c.crossing(1-p, func(e Estimate) (float64, bool) { return e.Upper, e.HasLimits })
	return q
}

func (c Curve) crossing(height float64, of func(Estimate) (float64, bool)) (day float64, ok bool) {
	start, flat := 0.0, false
	for _, s := range c.Steps {
		v, known := of(s.Estimate)
		if !known {
			continue
		}
		if v < height-halfTolerance {
			if flat {
				return (start + s.Time) / 2, true
			}
			return s.Time, true
		}
		if !flat && math.Abs(v-height) <= halfTolerance {
			start, flat = s.Time, true
		}
	}
	if flat {
		return (start + c.LastDay()) / 2, true
	}
	return 0, false
}
