package cohort

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/survival"
)

// Six lines: rooted d5, lost d5, rooted d9, passed on d12, lost d20, open d30.
// Worked by hand: at risk 6, 4, 3, 2, 1; rooted 1/6, then 1/6 + 4/6·1/4 = 1/3;
// lost 1/6, then 1/6 + 1/2·1/2 = 5/12; neither 4/6, 1/2, 1/2, 1/4. The one minus
// a curve would have said 1 − 5/6·3/4 = 3/8 rooted.
func TestRootsAndLossesCompete(t *testing.T) {
	s := told(t, `
		p-1: 0 alive, 5 grew, 30 alive
		p-2: 0 alive, 5 lost
		p-3: 0 alive, 9 grew, 20 lost
		p-4: 0 alive, 12 passed
		p-5: 0 alive, 20 lost
		p-6: 0 alive, 30 alive`).All()
	c := s.Milestone(FirstRoot)
	for _, want := range []struct {
		day                       float64
		atRisk                    int
		reached, lost, neither, s float64
	}{
		{0, 6, 0, 0, 1, 0},
		// Nobody had left before day 9, so that the variance is F(1 − F)/n.
		{5, 6, 1.0 / 6, 1.0 / 6, 4.0 / 6, math.Sqrt(1.0 / 6 * 5 / 6 / 6)},
		{9, 4, 1.0 / 3, 1.0 / 6, 1.0 / 2, math.Sqrt(1.0 / 3 * 2 / 3 / 6)},
		{12, 3, 1.0 / 3, 1.0 / 6, 1.0 / 2, math.Sqrt(1.0 / 3 * 2 / 3 / 6)},
		{20, 2, 1.0 / 3, 5.0 / 12, 1.0 / 4, -1},
		{30, 1, 1.0 / 3, 5.0 / 12, 1.0 / 4, -1},
	} {
		at := c.At(want.day)
		assert.Equal(t, want.atRisk, c.AtRisk(want.day), "day %g", want.day)
		assert.InDelta(t, want.reached, at.Shares[CauseReached-1].Share, 1e-12, "day %g", want.day)
		assert.InDelta(t, want.lost, at.Shares[CauseLost-1].Share, 1e-12, "day %g", want.day)
		assert.InDelta(t, want.neither, at.Survival, 1e-12, "day %g", want.day)
		if want.s >= 0 {
			assert.InDelta(t, want.s, at.Shares[CauseReached-1].StdError, 1e-9, "day %g", want.day)
		}
	}
	_, last, ok := c.Median()
	assert.False(t, ok, "a third is fewer than half")
	assert.Equal(t, 30, last)
	latest, ok := c.LatestReached()
	assert.True(t, ok)
	assert.Equal(t, 9, latest)
	_, ok = s.Milestone(Established).LatestReached()
	assert.False(t, ok)

	assert.Equal(t, MilestoneRow{Day: 12, Kind: Counted, N: 6, Reached: 2, Lost: 1, Waiting: 3,
		Share: 1.0 / 3, Lower: survival.Wilson(2, 6, 0.95).Lower, Upper: survival.Wilson(2, 6, 0.95).Upper, HasLimits: true}, c.By(12),
		"a line passed on on the day is known to be without root that day")
	late := c.By(28)
	assert.Equal(t, Estimated, late.Kind)
	assert.Equal(t, []int{2, 2, 1, 1}, []int{late.Reached, late.Lost, late.Waiting, late.Unknown})
	assert.InDelta(t, 1.0/3, late.Share, 1e-12)
	assert.True(t, late.HasLimits)
	assert.Equal(t, NotYet, c.By(42).Kind)
}

// A milestone and a loss of one line on one day count as the milestone; what
// can't be asked is left out and counted; what comes after the line's watch
// ended is not counted.
func TestEdgesOfMilestones(t *testing.T) {
	c := told(t, `
		p-1: 0 alive, 8 grew, 8 lost
		p-2: 0 alive, 8 lost`)
	for _, l := range c.Lines {
		require.Equal(t, Lost, l.Fate)
	}
	root := c.All().Milestone(FirstRoot)
	assert.Equal(t, []int{1, 1}, root.Steps[0].Events)
	assert.InDelta(t, 0.5, root.At(8).Shares[0].Share, 1e-12)
	day, _, ok := root.Median()
	assert.True(t, ok, "half is half")
	assert.Equal(t, 8, day)

	recovered := c.All().Milestone(Recovered)
	assert.Equal(t, 2, recovered.Out, "no record of arrival")
	assert.Empty(t, recovered.FromDayZero())
	assert.Equal(t, Over, recovered.By(8).Kind)

	bin := c.All().Milestone(LeftBin)
	assert.Equal(t, 0, bin.Out, "all stood in a bin")
	assert.Equal(t, Counted, bin.By(8).Kind)
	assert.Zero(t, bin.By(8).Reached)

	// The parent wasn't seen after d12, so that the line leaves then; a root on
	// the look that found the piece dead on d30 is not of a line under watch.
	gone := &Line{Fate: NotSeen, Day: 12, LastAlive: 12, Milestones: Milestones{FirstRoot: 30}}
	assert.Equal(t, survival.Outcome{Time: 12}, FirstRoot.fate(gone))
}

func TestMilestonesOfNobody(t *testing.T) {
	for _, m := range AllMilestones {
		c := Scope{}.Milestone(m)
		assert.Empty(t, c.FromDayZero(), m.String())
		assert.Equal(t, MilestoneRow{Day: 14, Kind: Over}, c.By(14))
		_, _, ok := c.Median()
		assert.False(t, ok)
	}
}

// Every number of every curve is a number, the parts add up to 1, and the rows to
// the lines, whatever becomes of the plants.
func TestPartsOfMilestonesAddUpToOne(t *testing.T) {
	for _, text := range []string{
		"p-1: 0 lost\np-2: 0 lost\np-3: 0 lost",                      // all lost on day 0
		"p-1: 0 alive, 7 lost\np-2: 0 alive, 7 lost",                 // all tied
		"p-1: 0 alive, 40 alive\np-2: 0 alive, 40 alive",             // nobody lost
		"p-1: 0 alive, 9 grew",                                       // one specimen
		"p-1: 0 alive, 9 grew\np-2: 0 alive, 9 grew",                 // all reach it at once
		"p-1:\np-2: 0 alive, 9 grew, 40 alive\np-3: 0 alive, 3 lost", // never looked at
	} {
		s := told(t, text).All()
		for _, m := range AllMilestones {
			c := s.Milestone(m)
			for _, step := range c.FromDayZero() {
				sum := step.Survival
				for _, e := range step.Shares {
					sum += e.Share
					for _, x := range []float64{e.Share, e.StdError, e.Lower, e.Upper} {
						require.False(t, math.IsNaN(x) || math.IsInf(x, 0), text)
					}
				}
				assert.InDelta(t, 1, sum, 1e-12, text)
			}
			for _, day := range MilestoneDays {
				r := c.By(day)
				assert.Equal(t, r.N, r.Reached+r.Lost+r.Waiting+r.Unknown, text)
				assert.Equal(t, len(s.Lines), r.N+c.Out, text)
			}
		}
	}
}

// Cut on a day, nothing later is in it, and nothing earlier is changed: the six
// lines above, up to day 10, have their three that still wait leave on it.
func TestAMilestoneUpToADay(t *testing.T) {
	s := told(t, `
		p-1: 0 alive, 5 grew, 30 alive
		p-2: 0 alive, 5 lost
		p-3: 0 alive, 9 grew, 20 lost
		p-4: 0 alive, 12 passed
		p-5: 0 alive, 20 lost
		p-6: 0 alive, 30 alive`).All()
	whole, cut := s.Milestone(FirstRoot), s.MilestoneUpTo(FirstRoot, 10)
	require.Len(t, cut.Steps, 3)
	assert.Equal(t, whole.Steps[:2], cut.Steps[:2])
	last := cut.Steps[2]
	assert.Equal(t, []float64{10, 3, 3}, []float64{last.Time, float64(last.AtRisk), float64(last.Left)})
	assert.InDelta(t, 1, last.Shares[0].Share+last.Shares[1].Share+last.Survival, 1e-12)
	assert.Equal(t, whole.By(9), cut.By(9))
	assert.Equal(t, whole.Steps, s.MilestoneUpTo(FirstRoot, 30).Steps)
}
