package cohort

import (
	"math"

	"wardian/build/survival"
)

// A milestone and a loss compete: a plant that was lost will never root. One
// minus a curve would count those lost as if the root could still come and say
// too much, so the share that reached a milestone is always estimated together
// with the share lost without it (Putter, Fiocco and Geskus 2007, Stat Med
// 26:2389-2430; Austin and Fine 2017, Stat Med 36:4391-4400, both from memory).
// The arithmetic is survival.CompetingRisks.

// Milestone is one of the things a line can reach.
type Milestone int

// The milestones, in the order in which files and pages give them.
const (
	FirstRoot Milestone = iota
	FirstLeaf
	LeftBin
	Recovered
	Established
)

// AllMilestones lists them in that order.
var AllMilestones = []Milestone{FirstRoot, FirstLeaf, LeftBin, Recovered, Established}

// String is the milestone's name.
func (m Milestone) String() string {
	return [...]string{"first new root", "first new leaf", "left the bin", "recovered", "established"}[m]
}

// In is the day on which a line reached the milestone, Never where it didn't;
// asked is false for a line that can't be asked: one that never stood in soak or
// bin can't leave it, and one whose record of arrival has neither leaf area nor
// count can't be seen to recover.
func (m Milestone) In(all Milestones) (day int, asked bool) {
	switch m {
	case FirstRoot:
		return all.FirstRoot, true
	case FirstLeaf:
		return all.FirstLeaf, true
	case LeftBin:
		return all.LeftBin, all.Binned
	case Recovered:
		return all.Recovered, all.Measured
	default:
		return all.Established, true
	}
}

// MilestoneDays are the days for which "x of n by day" is said first.
var MilestoneDays = []int{14, 28, 42}

// The ways a line can go in a MilestoneCurve, in the terms of survival.Outcome.
const (
	CauseReached = 1
	CauseLost    = 2
)

// MilestoneCurve is the share of a scope's lines that reached a milestone, with
// the share lost without it: at any day Shares[CauseReached-1],
// Shares[CauseLost-1] and Survival add up to 1.
type MilestoneCurve struct {
	Milestone Milestone
	survival.Incidence
	Lines []*Line // those that can be asked
	Out   int     // lines left out: they can't be asked
	// WentBack counts the lines that went back to wetter air after they had
	// left the bin; it undoes nothing. Of LeftBin alone.
	WentBack int
}

// fate says how a line goes in a milestone's curve. A milestone and a loss on
// one day: the milestone. A line whose watch has ended can reach nothing more:
// what a loss that is no loss of the line (another part's fate being unknown)
// tells of a later day stays out, as the loss does.
func (m Milestone) fate(l *Line) survival.Outcome {
	end := max(l.Day, 0)
	if on, _ := m.In(l.Milestones); on != Never && on <= end {
		return survival.Outcome{Time: float64(max(on, 0)), Cause: CauseReached}
	}
	if l.Fate == Lost {
		return survival.Outcome{Time: float64(end), Cause: CauseLost}
	}
	return survival.Outcome{Time: float64(end)}
}

// Milestone follows the scope's lines to a milestone (measures: Milestones). A
// row of a list without a check-in is left out: lists tell of no milestones.
func (s Scope) Milestone(m Milestone) MilestoneCurve { return s.MilestoneUpTo(m, math.MaxInt) }

// MilestoneUpTo follows them to a horizon and no further: all groups of one
// comparison end on one day. A line that neither reached the milestone nor was lost
// by then leaves on it. By tells of days up to it alone.
func (s Scope) MilestoneUpTo(m Milestone, horizon int) MilestoneCurve {
	c := MilestoneCurve{Milestone: m}
	var outcomes []survival.Outcome
	for _, l := range s.Lines {
		if _, asked := m.In(l.Milestones); !asked || !l.Told() {
			c.Out++
			continue
		}
		c.Lines = append(c.Lines, l)
		o := m.fate(l)
		if o.Time > float64(horizon) {
			o = survival.Outcome{Time: float64(horizon)}
		}
		outcomes = append(outcomes, o)
		if m == LeftBin && l.Milestones.WentBack > 0 {
			c.WentBack++
		}
	}
	c.Incidence = survival.CompetingRisks(outcomes, 2)
	return c
}

// MilestoneRow says how many lines had reached a milestone by a day. Reached +
// Lost + Waiting + Unknown = N.
type MilestoneRow struct {
	Day  int
	Kind Kind
	N    int
	// Lost without it; Waiting: under watch without it on that day; Unknown:
	// the watch ended before that day, alive and without it.
	Reached, Lost, Waiting, Unknown int
	// Share is the share that reached it: Reached of N with Wilson's limits
	// where Counted, the Aalen-Johansen share with its own where Estimated
	// (HasLimits false where it is 0 or 1). 95 %.
	Share, Lower, Upper float64
	HasLimits           bool
}

// By says how many of the curve's lines had reached the milestone by a day. Kind
// is NotYet where the day lies after the as-of day of a line, Over where some
// are unknown and none was at risk any more.
func (c MilestoneCurve) By(day int) MilestoneRow {
	r := MilestoneRow{Day: day, N: len(c.Lines)}
	for _, l := range c.Lines {
		if l.AsOfDay < day {
			r.Kind = NotYet
		}
		switch o := c.Milestone.fate(l); {
		case o.Time <= float64(day) && o.Cause == CauseReached:
			r.Reached++
		case o.Time <= float64(day) && o.Cause == CauseLost:
			r.Lost++
		case o.Time >= float64(day):
			r.Waiting++
		default:
			r.Unknown++
		}
	}
	switch {
	case r.Kind == NotYet:
	case r.N == 0 || r.Unknown > 0 && c.AtRisk(float64(day)) == 0:
		r.Kind = Over
	case r.Unknown == 0:
		r.Kind = Counted
		w := survival.Wilson(r.Reached, r.N, 0.95)
		r.Share, r.Lower, r.Upper, r.HasLimits = float64(r.Reached)/float64(r.N), w.Lower, w.Upper, true
	default:
		r.Kind = Estimated
		e := c.At(float64(day)).Shares[CauseReached-1]
		r.Share, r.Lower, r.Upper, r.HasLimits = e.Share, e.Lower, e.Upper, e.HasLimits
	}
	return r
}

// Median is the first day by which half the lines or more had reached the
// milestone; ok is false where fewer than half were seen to, and last is then
// the last day with a line at risk.
func (c MilestoneCurve) Median() (day, last int, ok bool) {
	if n := len(c.Steps); n > 0 {
		last = int(c.Steps[n-1].Time)
	}
	median, ok := c.Incidence.Median(CauseReached)
	return int(median), last, ok
}

// LatestReached is the latest day on which a line reached the milestone, among
// those that did; ok is false where none did.
func (c MilestoneCurve) LatestReached() (day int, ok bool) {
	for _, step := range c.Steps {
		if step.Events[CauseReached-1] > 0 {
			day, ok = int(step.Time), true
		}
	}
	return day, ok
}
