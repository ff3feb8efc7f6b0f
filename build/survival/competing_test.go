package survival

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCompetingRisksReference(t *testing.T) {
	eachRecord(t, "cif", 3, func(t *testing.T, r record) {
		p := decode[common](t, r.Params)
		want := decode[struct {
			N       int
			Time    []float64
			NRisk   []int `json:"n_risk"`
			NCensor []int `json:"n_censor"`
			Surv    []float64
			Causes  []struct {
				Code      int
				NEvent    []int `json:"n_event"`
				CIF       []float64
				SEIJ      []float64 `json:"se_ij"`
				Greenwood []float64 `json:"se_greenwood"`
			}
		}](t, r.Expected)
		var outcomes []Outcome
		for _, row := range dataset(t, r.Dataset, p.Filter) {
			outcomes = append(outcomes, Outcome{row.number(t, "time"), int(row.number(t, "event"))})
		}
		got := CompetingRisks(outcomes, 2)
		assert.Equal(t, want.N, got.N)
		require.Len(t, got.Steps, len(want.Time))
		require.Len(t, want.Causes, 2)
		for i, s := range got.Steps {
			assert.Equal(t, want.Time[i], s.Time)
			assert.Equal(t, want.NRisk[i], s.AtRisk)
			assert.Equal(t, want.NCensor[i], s.Left)
			near(t, want.Surv[i], s.Survival, 1e-9, "survival on day %v", s.Time)
			sum := s.Survival
			for _, c := range want.Causes {
				e := s.Shares[c.Code-1]
				sum += e.Share
				assert.Equal(t, c.NEvent[i], s.Events[c.Code-1])
				near(t, c.CIF[i], e.Share, 1e-9, "share %d on day %v", c.Code, s.Time)
				near(t, c.Greenwood[i], e.StdError, 1e-9, "standard error %d on day %v", c.Code, s.Time)
				near(t, c.SEIJ[i], e.StdError, 1e-9, "infinitesimal jackknife %d on day %v", c.Code, s.Time)
			}
			assert.InDelta(t, 1, sum, 1e-12)
		}
	})
}

// obviousVariance is the sum as the formula has it, term by term.
func obviousVariance(c Incidence, i, k int) float64 {
	sum, alive := 0.0, 1.0
	for j := 0; j <= i; j++ {
		s := c.Steps[j]
		n, own, d := float64(s.AtRisk), float64(s.Events[k]), 0.0
		for _, e := range s.Events {
			d += float64(e)
		}
		rise := c.Steps[i].Shares[k].Share - s.Shares[k].Share
		if rise > 0 {
			sum += rise * rise * d / (n * (n - d))
		}
		sum += alive*alive*own*(n-own)/(n*n*n) - 2*rise*alive*own/(n*n)
		alive = s.Survival
	}
	return sum
}

func TestIncidenceAgainstTheObvious(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 3))
	for range 200 {
		outcomes := make([]Outcome, 1+r.IntN(40))
		causes := 1 + r.IntN(3)
		for i := range outcomes {
			outcomes[i] = Outcome{float64(r.IntN(15)), r.IntN(causes + 1)}
		}
		c := CompetingRisks(outcomes, causes)
		lastShares := make([]float64, causes)
		for i, s := range c.FromDayZero() {
			sum := s.Survival
			for k, e := range s.Shares {
				sum += e.Share
				require.GreaterOrEqual(t, e.Share, lastShares[k]-1e-15)
				lastShares[k] = e.Share
				require.Equal(t, e.Share > 0 && e.Share < 1, e.HasLimits)
				for _, v := range []float64{e.Share, e.StdError, e.Lower, e.Upper} {
					require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
				}
				if e.HasLimits {
					require.LessOrEqual(t, e.Lower, e.Share)
					require.GreaterOrEqual(t, e.Upper, e.Share)
				}
			}
			require.InDelta(t, 1, sum, 1e-12)
			if j := i - (len(c.FromDayZero()) - len(c.Steps)); j >= 0 {
				for k, e := range s.Shares {
					require.InDelta(t, math.Max(0, obviousVariance(c, j, k)), e.StdError*e.StdError, 1e-14)
				}
			}
		}
	}
}

// TestOneCauseIsTheProductLimit: with loss alone F is 1 − S, with the same
// error and the mirrored log-log limits.
func TestOneCauseIsTheProductLimit(t *testing.T) {
	subjects := subjectsOf(t, dataset(t, "leukemia6mp", nil))
	var outcomes []Outcome
	for _, s := range subjects {
		o := Outcome{Time: s.Time}
		if s.Lost {
			o.Cause = 1
		}
		outcomes = append(outcomes, o)
	}
	c, f := ProductLimit(subjects), CompetingRisks(outcomes, 1)
	for i, s := range c.Steps {
		e := f.Steps[i].Shares[0]
		near(t, 1-s.Share, e.Share, 1e-12, "share on day %v", s.Time)
		near(t, s.StdError, e.StdError, 1e-9, "error on day %v", s.Time)
		require.Equal(t, s.HasLimits, e.HasLimits)
		if s.HasLimits {
			near(t, 1-s.Upper, e.Lower, 1e-9, "lower on day %v", s.Time)
			near(t, 1-s.Lower, e.Upper, 1e-9, "upper on day %v", s.Time)
		}
	}
}

// TestIncidenceByHand: four subjects, cause 1 on day 2, lost (2) on day 3, one
// leaves on day 4, cause 1 on day 5. F1 = 1/4, then 1/4 + 1/2 · 1/1 = 3/4.
func TestIncidenceByHand(t *testing.T) {
	c := CompetingRisks([]Outcome{{5, 1}, {2, 1}, {3, 2}, {4, 0}}, 2)
	assert.InDelta(t, 0.25, c.At(2).Shares[0].Share, 1e-15)
	assert.InDelta(t, 0.75, c.At(5).Shares[0].Share, 1e-15)
	assert.InDelta(t, 0.25, c.At(99).Shares[1].Share, 1e-15)
	assert.Equal(t, 0.0, c.At(5).Survival)
	assert.Equal(t, 1.0, c.At(0).Survival)
	day, ok := c.Median(1)
	assert.True(t, ok)
	assert.Equal(t, 5.0, day)
	_, ok = c.Median(2)
	assert.False(t, ok)
	assert.Equal(t, []int{1, 2, 1}, []int{c.By(1, 4), c.By(1, 5), c.By(2, 3)})
	assert.Equal(t, []int{4, 4, 3, 1, 0}, []int{c.AtRisk(0), c.AtRisk(2), c.AtRisk(2.5), c.AtRisk(5), c.AtRisk(6)})
	require.Len(t, c.FromDayZero(), 5)

	all := CompetingRisks([]Outcome{{1, 1}, {2, 1}, {3, 1}}, 2)
	last := all.At(3).Shares[0]
	assert.Equal(t, Estimate{Share: 1, HasStdError: true}, last, "all reached it: exactly 1, error 0, no limits")
	assert.Empty(t, CompetingRisks(nil, 2).FromDayZero())
	assert.Panics(t, func() { CompetingRisks([]Outcome{{1, 3}}, 2) })
	assert.Panics(t, func() { CompetingRisks([]Outcome{{-1, 1}}, 2) })
}
