package survival

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFirthReference(t *testing.T) {
	eachRecord(t, "cox_firth", 14, func(t *testing.T, r record) {
		p := decode[coxParams](t, r.Params)
		require.Equal(t, 0.95, decode[common](t, r.Params).Conf)
		want := decode[struct {
			N, Events    int
			Coef, SE, HR []float64
			Lower        []*float64   `json:"coef_lower"`
			Upper        []*float64   `json:"coef_upper"`
			Chisq        []float64    `json:"plr_chisq"`
			P            []float64    `json:"plr_p"`
			Null         float64      `json:"penalized_loglik_null"`
			Loglik       float64      `json:"penalized_loglik"`
			Global       testExpected `json:"plr_global"`
		}](t, r.Expected)
		fit := Firth(observationsOf(t, r, p), tieNames[p.Ties])
		require.True(t, fit.Exists, fit.Reason)
		assert.Equal(t, want.N, fit.N)
		assert.Equal(t, want.Events, fit.Lost)
		require.Len(t, fit.Coefficients, len(want.Coef))
		for j, c := range fit.Coefficients {
			near(t, want.Coef[j], c.Value, 1e-6, "coefficient %d", j)
			near(t, want.SE[j], c.StdError, 1e-6, "error %d", j)
			near(t, want.HR[j], c.Ratio(), 1e-6, "ratio %d", j)
			nearOrAbsent(t, want.Lower[j], c.Lower, c.HasLower, 1e-6, "lower %d", j)
			nearOrAbsent(t, want.Upper[j], c.Upper, c.HasUpper, 1e-6, "upper %d", j)
			near(t, want.Chisq[j], c.ChiSquare, 1e-6, "chi square %d", j)
			near(t, want.P[j], c.P, 1e-6, "p %d", j)
		}
		near(t, want.Loglik-want.Null, fit.LogLikelihood-fit.LogLikelihoodNull, 1e-6, "gain")
		near(t, want.Null, fit.LogLikelihoodNull, 1e-6, "null penalised log-likelihood")
		near(t, want.Loglik, fit.LogLikelihood, 1e-6, "penalised log-likelihood")
		nearTest(t, want.Global, fit.LikelihoodRatio, 1e-6, "global")
	})
}

// TestFirthStratified: within strata the penalty keeps a group without losses
// finite too, and equal strata give the estimate of one with twice the terms.
func TestFirthStratified(t *testing.T) {
	var members []Member
	for s := range 3 {
		for i := range 5 {
			members = append(members, Member{Subject{float64(2 + 3*i), i < 3}, 0, s}, Member{Subject{float64(3 + 3*i), false}, 1, s})
		}
	}
	observations, groups := Indicators(members, 0)
	require.Equal(t, []int{1}, groups)
	assert.Equal(t, NoFiniteFit, Cox(observations, Efron).Reason)
	fit := Firth(observations, Efron)
	require.True(t, fit.Exists)
	c := fit.Coefficients[0]
	assert.Less(t, c.Value, 0.0)
	assert.True(t, c.HasLower && c.HasUpper)
	assert.Less(t, c.Upper, 0.0)
	assert.Greater(t, c.Value, c.Lower)
	// The estimate is where no neighbour is better.
	f := firth{newPartialLikelihood(observations, Efron)}
	top, _ := f.penalised([]float64{c.Value}, nil)
	for _, b := range []float64{c.Value - 1e-3, c.Value + 1e-3} {
		s, _ := f.penalised([]float64{b}, nil)
		assert.Less(t, s.value, top.value)
	}
}

func BenchmarkFirth60(b *testing.B) {
	observations, _ := Indicators(crowd(3, 30, 30), 0)
	for b.Loop() {
		Firth(observations, Efron)
	}
}
