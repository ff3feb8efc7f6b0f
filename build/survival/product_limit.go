package survival

import (
	"math"
	"sort"
)

// Subject is one line under watch: how long it was followed and whether the
// follow-up ended with its loss. Time is in days since day 0 (whole or not,
// finite and not below 0); Lost false means that it left on that day and was
// alive when last seen.
type Subject struct {
	Time float64
	Lost bool
}

// Estimate is a share with what is known of its precision. No field is ever
// NaN or infinite: what doesn't exist is told by the two flags.
type Estimate struct {
	// Share is the estimated share alive, 0 to 1.
	Share float64
	// StdError is Greenwood's standard error of Share itself: 0 while the
	// share is 1, and absent (HasStdError false) once it is 0.
	StdError    float64
	HasStdError bool
	// Lower and Upper are the curve's confidence limits for Share. Log-log
	// limits don't exist (HasLimits false) where the share is 0 or 1.
	Lower, Upper float64
	HasLimits    bool
}

// Step is one day of a curve: what happened on it and the estimate after it.
type Step struct {
	Time float64
	// AtRisk counts the subjects with a time of this day or later; Lost and
	// Left those lost and those leaving on it. A subject lost on a day comes
	// before one that leaves on that day, so AtRisk holds both.
	AtRisk, Lost, Left int
	Estimate
	// Hazard is the Nelson-Aalen cumulative hazard Σ d/n up to this day and
	// HazardStdError its standard error √(Σ d/n²) (Aalen 1978).
	Hazard, HazardStdError float64
	// greenwood is Σ d/(n(n−d)), the variance of ln Share.
	greenwood float64
}

// Curve is a product-limit estimate. The zero Curve is that of nobody.
type Curve struct {
	// N counts the subjects, Lost those of them that were lost.
	N, Lost int
	// Steps holds one row for every distinct time, ascending.
	Steps []Step
	// Kind and Confidence say which limits the steps carry.
	Kind       LimitKind
	Confidence float64
}

// ProductLimit estimates the share alive over time from subjects of which some
// left early (Kaplan and Meier 1958, J Am Stat Assoc 53:457-481), with
// Greenwood's variance (Greenwood 1926, Reports on Public Health and Medical
// Subjects 33) and 95 % log-log limits. Without subjects it is the zero Curve
// with no steps. It panics if a time is NaN, infinite or below 0: whoever
// dates a line has to see to that.
func ProductLimit(subjects []Subject) Curve {
	return curveOf(len(subjects), tally(subjects))
}

// curveOf estimates from the counts of n subjects by day.
func curveOf(n int, days []dayCount) Curve {
	c := Curve{N: n, Kind: LogLog, Confidence: 0.95}
	c.Steps = make([]Step, len(days))
	atRisk, share, greenwood, hazard, hazardVariance := c.N, 1.0, 0.0, 0.0, 0.0
	limits := newLimiter(c.Kind, c.Confidence)
	for i, d := range days {
		s := &c.Steps[i]
		s.Time, s.AtRisk, s.Lost, s.Left = d.time, atRisk, d.lost, d.left
		if d.lost > 0 || i == 0 {
			n, lost := float64(atRisk), float64(d.lost)
			hazard += lost / n
			hazardVariance += lost / (n * n)
			if d.lost == atRisk {
				share = 0
			} else {
				share = share * (n - lost) / n // in this order 1 · 5/6 · 3/4 · 2/3 is the double nearest to 5/12
				greenwood += lost / (n * (n - lost))
			}
			s.Estimate = estimate(share, greenwood, limits)
		} else {
			s.Estimate = c.Steps[i-1].Estimate
		}
		s.greenwood, s.Hazard, s.HazardStdError = greenwood, hazard, math.Sqrt(hazardVariance)
		c.Lost += d.lost
		atRisk -= d.lost + d.left
	}
	return c
}

func estimate(share, greenwood float64, limits limiter) Estimate {
	e := Estimate{Share: share}
	if share > 0 {
		e.StdError, e.HasStdError = share*math.Sqrt(greenwood), true
	}
	e.Lower, e.Upper, e.HasLimits = limits.of(share, greenwood)
	return e
}

// step finds the last step at or before day; nil before the first.
func (c Curve) step(day float64) *Step {
	i := sort.Search(len(c.Steps), func(i int) bool { return c.Steps[i].Time > day })
	if i == 0 {
		return nil
	}
	return &c.Steps[i-1]
}

// At is the estimate after the losses of day. Before the first step the share
// is 1. After the last day with anybody at risk it carries the last value on;
// whether anybody was still at risk is AtRisk's answer.
func (c Curve) At(day float64) Estimate {
	if s := c.step(day); s != nil {
		return s.Estimate
	}
	return estimate(1, 0, newLimiter(c.Kind, c.Confidence))
}

// AtRisk counts the subjects with a time of day or later.
func (c Curve) AtRisk(day float64) int {
	i := sort.Search(len(c.Steps), func(i int) bool { return c.Steps[i].Time >= day })
	if i == len(c.Steps) {
		return 0
	}
	return c.Steps[i].AtRisk
}

// LostBy counts the losses up to and on day.
func (c Curve) LostBy(day float64) int {
	lost := 0
	for _, s := range c.Steps {
		if s.Time > day {
			break
		}
		lost += s.Lost
	}
	return lost
}

// LeftBy counts the subjects that left, not lost, up to and on day.
func (c Curve) LeftBy(day float64) int {
	left := 0
	for _, s := range c.Steps {
		if s.Time > day {
			break
		}
		left += s.Left
	}
	return left
}

// LastDay is the last day with a subject at risk; 0 for nobody.
func (c Curve) LastDay() float64 {
	if len(c.Steps) == 0 {
		return 0
	}
	return c.Steps[len(c.Steps)-1].Time
}

// FromDayZero gives the steps with a row for day 0 in front, made if nothing
// happened on that day: everybody at risk, share 1, standard error 0. Nobody
// has no rows.
func (c Curve) FromDayZero() []Step {
	if len(c.Steps) == 0 || c.Steps[0].Time == 0 {
		return c.Steps
	}
	return append([]Step{{AtRisk: c.N, Estimate: c.At(0)}}, c.Steps...)
}

// WithLimits is the same curve with limits of another kind or confidence (a
// share between 0 and 1, both excluded; anything else panics).
func (c Curve) WithLimits(kind LimitKind, confidence float64) Curve {
	limits := newLimiter(kind, confidence)
	steps := make([]Step, len(c.Steps))
	for i, s := range c.Steps {
		s.Estimate = estimate(s.Share, s.greenwood, limits)
		steps[i] = s
	}
	c.Steps, c.Kind, c.Confidence = steps, kind, confidence
	return c
}
