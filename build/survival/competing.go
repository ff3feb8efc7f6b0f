package survival

import (
	"fmt"
	"math"
	"slices"
	"sort"
)

// Outcome is a subject that may go one of several ways: Cause 1, 2, … is what
// happened first on day Time, Cause 0 that it left before anything did.
type Outcome struct {
	Time  float64
	Cause int
}

// IncidenceStep is one day of an Incidence.
type IncidenceStep struct {
	Time float64
	// AtRisk counts the subjects to which nothing had happened and that hadn't
	// left before this day; Left those that leave on it.
	AtRisk, Left int
	// Survival is the share to which nothing has happened after this day.
	Survival float64
	// Events and Shares go with the causes 1, 2, … (at index 0, 1, …): how
	// many on this day, and the share so far. The shares and Survival add up
	// to 1. A share's error is 0 where it is 0 or 1, and it has no limits there.
	Events []int
	Shares []Estimate
}

// Incidence is the cumulative incidence of several causes that compete.
type Incidence struct {
	// N counts the subjects; Causes the causes.
	N, Causes int
	// Steps holds a row for every distinct time, ascending.
	Steps []IncidenceStep
}

// CompetingRisks estimates, for each cause, the share of subjects to which it
// has happened by each day (Aalen and Johansen 1978, Scand J Stat 5:141-150).
// One minus a survival curve would count those lost to another cause as if the
// first could still come. The variance is the delta-method one of Greenwood's
// type (Marubini and Valsecchi 1995, Analysing Survival Data from Clinical
// Trials and Observational Studies, section 10.2); the 95 % limits are
// symmetric in ln(−ln(1 − F)), 1 − (1−F)^exp(±z·se/((1−F)·ln(1−F))). Nobody
// has no steps. It panics at a time that can't be and at a cause that is
// neither 0 nor one of causes.
func CompetingRisks(outcomes []Outcome, causes int) Incidence {
	c := Incidence{N: len(outcomes), Causes: causes}
	days := map[float64][]int{} // by cause, 0 first
	for _, o := range outcomes {
		checkTime(o.Time)
		if o.Cause < 0 || o.Cause > causes {
			panic(fmt.Sprintf("survival: no cause %d among %d", o.Cause, causes))
		}
		time := o.Time + 0 // minus nought is nought
		if days[time] == nil {
			days[time] = make([]int, causes+1)
		}
		days[time][o.Cause]++
	}
	var times []float64
	for time := range days {
		times = append(times, time)
	}
	slices.Sort(times)

	z := normalQuantile(0.95)
	atRisk, alive, all := c.N, 1.0, 0
	totals := make([]int, causes)
	sums := make([]incidenceVariance, causes)
	for _, time := range times {
		counts := days[time]
		s := IncidenceStep{Time: time, AtRisk: atRisk, Left: counts[0], Events: counts[1:], Shares: make([]Estimate, causes)}
		d := 0
		for _, n := range s.Events {
			d += n
		}
		all += d
		s.Survival = alive * float64(atRisk-d) / float64(atRisk)
		for k, n := range s.Events {
			totals[k] += n
			v := &sums[k]
			v.add(float64(atRisk), float64(d), float64(n), alive)
			e := Estimate{Share: v.share, HasStdError: true}
			if s.Survival == 0 && totals[k] == all {
				e.Share = 1 // nothing else ever happened: all, not all but a rounding
			}
			if e.Share > 0 && e.Share < 1 {
				e.StdError = math.Sqrt(math.Max(0, v.variance()))
				rest := 1 - e.Share
				w := math.Exp(z * e.StdError / (rest * math.Log(rest))) // below 1
				e.Lower, e.Upper, e.HasLimits = -math.Expm1(w*math.Log(rest)), -math.Expm1(math.Log(rest)/w), true
			}
			s.Shares[k] = e
		}
		c.Steps = append(c.Steps, s)
		alive = s.Survival
		atRisk -= d + counts[0]
	}
	return c
}

// incidenceVariance adds up, for one cause and over days j, the terms of
//
//	Σ (F−F_j)²·d/(n(n−d)) + Σ S²·d_k(n−d_k)/n³ − 2·Σ (F−F_j)·S·d_k/n²,
//
// S being the share just before. All sums are kept relative to the F of the
// day at hand, so nothing large is taken from anything large and one pass is
// enough.
type incidenceVariance struct {
	share float64 // F
	// a = d/(n(n−d)) and c = S·d_k/n²: sums of a, of (F−F_j)·a and (F−F_j)²·a,
	// of c and (F−F_j)·c, and of the middle term.
	a, a1, a2, c, c1, middle float64
}

func (v *incidenceVariance) add(n, d, own, alive float64) {
	rise := alive * own / n
	v.share += rise
	v.a2 += 2*rise*v.a1 + rise*rise*v.a
	v.a1 += rise * v.a
	v.c1 += rise * v.c
	// Today's own term counts from tomorrow on: F − F_j is 0 today. Where all
	// at risk go today there is no tomorrow.
	if d < n {
		v.a += d / (n * (n - d))
	}
	v.c += alive * own / (n * n)
	v.middle += alive * alive * own * (n - own) / (n * n * n)
}

func (v *incidenceVariance) variance() float64 { return v.a2 + v.middle - 2*v.c1 }

// FromDayZero gives the steps with a row for day 0 in front, made if nothing
// happened on that day. Nobody has no rows.
func (c Incidence) FromDayZero() []IncidenceStep {
	if len(c.Steps) == 0 || c.Steps[0].Time == 0 {
		return c.Steps
	}
	return append([]IncidenceStep{c.start()}, c.Steps...)
}

// start is the state before anything happened.
func (c Incidence) start() IncidenceStep {
	s := IncidenceStep{AtRisk: c.N, Survival: 1, Events: make([]int, c.Causes), Shares: make([]Estimate, c.Causes)}
	for k := range s.Shares {
		s.Shares[k].HasStdError = true
	}
	return s
}

// At is the last step at or before day: the shares by then. Before the first
// step it is that of day 0.
func (c Incidence) At(day float64) IncidenceStep {
	i := sort.Search(len(c.Steps), func(i int) bool { return c.Steps[i].Time > day })
	if i == 0 {
		return c.start()
	}
	return c.Steps[i-1]
}

// AtRisk counts the subjects still at risk on day.
func (c Incidence) AtRisk(day float64) int {
	i := sort.Search(len(c.Steps), func(i int) bool { return c.Steps[i].Time >= day })
	if i == len(c.Steps) {
		return 0
	}
	return c.Steps[i].AtRisk
}

// By counts the subjects to which the cause (1, 2, …) had happened by day.
func (c Incidence) By(cause int, day float64) int {
	n := 0
	for _, s := range c.Steps {
		if s.Time > day {
			break
		}
		n += s.Events[cause-1]
	}
	return n
}

// Median is the first day by which the cause (1, 2, …) had happened to half or
// more; ok is false where it never came so far.
func (c Incidence) Median(cause int) (day float64, ok bool) {
	for _, s := range c.Steps {
		if s.Shares[cause-1].Share >= 0.5-halfTolerance {
			return s.Time, true
		}
	}
	return 0, false
}
