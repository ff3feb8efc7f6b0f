package survival

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type coxParams struct {
	Filter map[string]any
	Terms  []struct {
		Column string
		Level  *string
	}
	Strata *string
	Ties   string
}

func observationsOf(t testing.TB, r record, p coxParams) []Observation {
	t.Helper()
	rows := dataset(t, r.Dataset, p.Filter)
	stratum := map[string]int{}
	if p.Strata != nil {
		_, stratum = levels(rows, *p.Strata)
	}
	var observations []Observation
	for i, s := range subjectsOf(t, rows) {
		o := Observation{Subject: s}
		if p.Strata != nil {
			o.Stratum = stratum[rows[i][*p.Strata]]
		}
		for _, term := range p.Terms {
			x := 0.0
			if term.Level == nil {
				x = rows[i].number(t, term.Column)
			} else if rows[i][term.Column] == *term.Level {
				x = 1
			}
			o.X = append(o.X, x)
		}
		observations = append(observations, o)
	}
	return observations
}

var tieNames = map[string]Ties{"efron": Efron, "breslow": Breslow, "exact": Exact}

type testExpected struct {
	Chisq, P float64
	DF       int
}

func nearTest(t *testing.T, want testExpected, got GlobalTest, relative float64, what string) {
	t.Helper()
	near(t, want.Chisq, got.ChiSquare, relative, "%s chi square", what)
	near(t, want.P, got.P, relative, "%s p", what)
	assert.Equal(t, want.DF, got.DegreesOfFreedom, what)
}

func TestCoxReference(t *testing.T) {
	eachRecord(t, "cox", 27, func(t *testing.T, r record) {
		p := decode[coxParams](t, r.Params)
		want := decode[struct {
			N, Events       int
			Coef, SE, Z, P  []float64
			HR              []float64
			HRLower         []float64 `json:"hr_lower"`
			HRUpper         []float64 `json:"hr_upper"`
			Var             [][]float64
			Null            float64 `json:"loglik_null"`
			Loglik          float64
			LR, Wald, Score testExpected
		}](t, r.Expected)
		require.Contains(t, tieNames, p.Ties)
		fit := Cox(observationsOf(t, r, p), tieNames[p.Ties])
		require.True(t, fit.Exists, fit.Reason)
		assert.Equal(t, want.N, fit.N)
		assert.Equal(t, want.Events, fit.Lost)
		require.Len(t, fit.Coefficients, len(want.Coef))
		for j, c := range fit.Coefficients {
			near(t, want.Coef[j], c.Value, 1e-8, "coefficient %d", j)
			near(t, want.SE[j], c.StdError, 1e-8, "error %d", j)
			near(t, want.Z[j], c.Z, 1e-8, "z %d", j)
			near(t, want.P[j], c.P, 1e-8, "p %d", j)
			near(t, want.HR[j], c.Ratio(), 1e-8, "ratio %d", j)
			near(t, want.HRLower[j], math.Exp(c.Lower), 1e-8, "lower %d", j)
			near(t, want.HRUpper[j], math.Exp(c.Upper), 1e-8, "upper %d", j)
			nearAll(t, want.Var[j], fit.Variance[j], 1e-8, "variance")
		}
		near(t, want.Null, fit.LogLikelihoodNull, 1e-8, "null log-likelihood")
		near(t, want.Loglik, fit.LogLikelihood, 1e-8, "log-likelihood")
		nearTest(t, want.LR, fit.LikelihoodRatio, 1e-8, "likelihood ratio")
		nearTest(t, want.Wald, fit.Wald, 1e-8, "Wald")
		nearTest(t, want.Score, fit.Score, 1e-8, "score")
	})
}

// TestSlopes checks the derivatives against differences, third ones included.
func TestSlopes(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 5))
	var observations []Observation
	for i := range 25 {
		observations = append(observations, Observation{Subject{float64(1 + r.IntN(8)), r.IntN(3) > 0}, i % 2, []float64{r.NormFloat64(), float64(r.IntN(2))}})
	}
	for name, ties := range tieNames {
		l := newPartialLikelihood(observations, ties)
		beta := []float64{0.3, -0.4}
		third := ties != Exact
		s := l.at(beta, third)
		const h = 1e-5
		for j := range beta {
			up, down := []float64{0.3, -0.4}, []float64{0.3, -0.4}
			up[j] += h
			down[j] -= h
			a, b := l.at(up, false), l.at(down, false)
			assert.InDelta(t, (a.value-b.value)/(2*h), s.score[j], 1e-6, name)
			for k := range beta {
				assert.InDelta(t, -(a.score[k]-b.score[k])/(2*h), s.information[j][k], 1e-6, name)
				for m := range beta {
					if third {
						assert.InDelta(t, (a.information[k][m]-b.information[k][m])/(2*h), s.change[j][k][m], 1e-6, name)
					}
				}
			}
		}
	}
}

// TestScaleOfCovariates: a covariate in other units gives the same fit.
func TestScaleOfCovariates(t *testing.T) {
	observations, _ := Indicators(crowd(4, 10, 10), 0)
	small := make([]Observation, len(observations))
	for i, o := range observations {
		small[i] = Observation{o.Subject, 0, []float64{1e-9 * o.X[0]}}
	}
	for _, fits := range [][2]HazardFit{{Cox(observations, Efron), Cox(small, Efron)}, {Firth(observations, Efron), Firth(small, Efron)}} {
		require.True(t, fits[1].Exists, fits[1].Reason)
		a, b := fits[0].Coefficients[0], fits[1].Coefficients[0]
		near(t, a.Value, b.Value*1e-9, 1e-8, "coefficient")
		near(t, a.P, b.P, 1e-8, "p")
		near(t, a.Upper, b.Upper*1e-9, 1e-6, "upper")
	}
}

// TestExactTiesByHand: three at risk, two lost on one day, one covariate 1, 0,
// 0 with the 1 among the lost: e^b / (2e^b + 1).
func TestExactTiesByHand(t *testing.T) {
	l := newPartialLikelihood([]Observation{
		{Subject{1, true}, 0, []float64{1}}, {Subject{1, true}, 0, []float64{0}}, {Subject{2, false}, 0, []float64{0}},
	}, Exact)
	b := 0.7
	assert.InDelta(t, math.Log(math.Exp(b)/(2*math.Exp(b)+1)), l.at([]float64{b}, false).value, 1e-14)
}

func TestHazardFitsThatDontExist(t *testing.T) {
	member := func(day float64, lost bool, group int) Member { return Member{Subject{day, lost}, group, 0} }
	cases := map[string]struct {
		members    []Member
		cox, firth string
	}{
		"nobody":                 {nil, NoLosses, NoLosses},
		"no losses":              {[]Member{member(1, false, 0), member(2, false, 1)}, NoLosses, NoLosses},
		"one group":              {[]Member{member(1, true, 0), member(2, true, 0)}, NoContrast, NoContrast},
		"never at risk together": {[]Member{member(1, false, 0), member(2, true, 1), member(3, true, 1)}, NoContrast, NoContrast},
		"all on day 0":           {[]Member{member(0, true, 0), member(0, true, 1), member(0, true, 1)}, "", ""},
		"a group without losses": {[]Member{member(1, true, 0), member(2, true, 0), member(3, true, 0), member(4, false, 1), member(4, false, 1)}, NoFiniteFit, ""},
		"losses wholly apart":    {[]Member{member(1, true, 0), member(2, true, 0), member(3, true, 1), member(4, true, 1)}, NoFiniteFit, ""},
	}
	for name, c := range cases {
		observations, groups := Indicators(c.members, 0)
		for _, f := range []struct {
			fit  HazardFit
			want string
		}{{Cox(observations, Efron), c.cox}, {Firth(observations, Efron), c.firth}} {
			assert.Equal(t, f.want, f.fit.Reason, name)
			assert.Equal(t, f.want == "", f.fit.Exists, name)
			text := fmt.Sprintf("%+v", f.fit)
			assert.NotContains(t, text, "NaN", name)
			assert.NotContains(t, text, "Inf", name)
			if f.fit.Exists {
				assert.Len(t, f.fit.Coefficients, len(groups), name)
			} else {
				assert.Empty(t, f.fit.Coefficients, name)
			}
		}
	}
	assert.Panics(t, func() { Cox([]Observation{{Subject{1, true}, 0, []float64{math.NaN()}}}, Efron) })
	assert.Panics(t, func() { Cox([]Observation{{Subject{1, true}, 0, []float64{1}}, {Subject{1, true}, 0, nil}}, Efron) })
	assert.Panics(t, func() { Firth(nil, Exact) })
}

func BenchmarkCox(b *testing.B) {
	for _, n := range []int{60, 1000} {
		observations, _ := Indicators(crowd(3, n/2, n/2), 0)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Cox(observations, Efron)
			}
		})
	}
}
