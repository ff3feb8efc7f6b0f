package survival

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Coefficient is one covariate's part in a fit: a log hazard ratio.
type Coefficient struct {
	// Value is the log hazard ratio and StdError its standard error.
	Value, StdError float64
	// Z is Value/StdError in Cox's fit, 0 in Firth's; P is two-sided, by Z in
	// Cox's fit and by profile in Firth's, which gives its ChiSquare.
	Z, ChiSquare, P float64
	// Lower and Upper are 95 % limits of Value: ± z·StdError in Cox's fit, of
	// the profile in Firth's, where one may be absent.
	Lower, Upper       float64
	HasLower, HasUpper bool
}

// Ratio is the hazard ratio.
func (c Coefficient) Ratio() float64 { return math.Exp(c.Value) }

// GlobalTest is a test of all coefficients at once.
type GlobalTest struct {
	ChiSquare        float64
	DegreesOfFreedom int
	P                float64
}

func globalTest(chi float64, degrees int) GlobalTest {
	chi = math.Max(0, chi)
	return GlobalTest{chi, degrees, chiSquareTail(chi, degrees)}
}

// HazardFit is a proportional-hazards fit.
type HazardFit struct {
	N, Lost int
	// Exists is false where there is no estimate; Reason then says why in a
	// few plain words, and everything below is empty.
	Exists       bool
	Reason       string
	Coefficients []Coefficient
	Variance     [][]float64
	// LogLikelihoodNull and LogLikelihood are at coefficients 0 and at the
	// estimate; in Firth's fit both are penalised, and only their difference
	// has a meaning of its own.
	LogLikelihoodNull, LogLikelihood float64
	LikelihoodRatio, Wald, Score     GlobalTest // Firth's fit has the first alone
}

// The reasons why a fit doesn't exist.
const (
	NoLosses    = "nobody was lost"
	NoContrast  = "the covariates don't differ among those at risk together, or one follows from the others"
	NoFiniteFit = "the losses all fall on one side, so the ratio has no bound"
)

// Cox fits proportional hazards by the partial likelihood (Cox 1972, J R Stat
// Soc B 34:187-220), strata with baselines of their own. Where a group had no
// losses the ratio has no finite estimate and the fit doesn't exist: use Firth.
// It panics at a time or covariate that can't be, and if the observations
// differ in the number of covariates.
func Cox(observations []Observation, ties Ties) HazardFit {
	l := newPartialLikelihood(observations, ties)
	fit := HazardFit{N: l.n, Lost: l.lost}
	if l.lost == 0 || l.p == 0 {
		fit.Reason = NoLosses
		if l.lost > 0 {
			fit.Reason = NoContrast
		}
		return fit
	}
	beta := make([]float64, l.p)
	now := l.at(beta, false)
	null := now
	if _, ok := invert(now.information, l.spread); !ok {
		fit.Reason = NoContrast
		return fit
	}
	settled := false
	for range 100 {
		inverse, ok := invert(now.information, l.spread)
		if !ok {
			break
		}
		step := multiply(inverse, now.score)
		size := l.size(step)
		next := l.rise(now, beta, step)
		if next == nil || size < 1e-11 {
			settled = size < 1e-7
			break
		}
		now = next
	}
	// Where the likelihood goes on rising for ever, the steps don't grow small
	// before the information is gone.
	variance, ok := invert(now.information, l.spread)
	if !settled || !ok || l.size(beta) > 40 {
		fit.Reason = NoFiniteFit
		return fit
	}
	fit.Exists, fit.Variance = true, variance
	fit.LogLikelihoodNull, fit.LogLikelihood = null.value, now.value
	z := normalQuantile(0.95)
	for j, b := range beta {
		c := Coefficient{Value: b, StdError: math.Sqrt(variance[j][j]), HasLower: true, HasUpper: true}
		c.Z = b / c.StdError
		c.ChiSquare = c.Z * c.Z
		c.P = math.Erfc(math.Abs(c.Z) / math.Sqrt2)
		c.Lower, c.Upper = b-z*c.StdError, b+z*c.StdError
		fit.Coefficients = append(fit.Coefficients, c)
	}
	fit.LikelihoodRatio = globalTest(2*(now.value-null.value), l.p)
	fit.Wald = globalTest(formOf(beta, now.information), l.p)
	inverse, _ := invert(null.information, l.spread)
	fit.Score = globalTest(formOf(null.score, inverse), l.p)
	return fit
}

// rise goes along step as far as the likelihood rises, moving beta; nil if it
// doesn't rise at all.
func (l *partialLikelihood) rise(now *slopes, beta, step []float64) *slopes {
	for length := 1.0; length > 1e-10; length /= 2 {
		next := make([]float64, len(beta))
		for j := range beta {
			next[j] = beta[j] + length*step[j]
		}
		s := l.at(next, false)
		if s.value >= now.value-1e-13*math.Abs(now.value) {
			copy(beta, next)
			return s
		}
	}
	return nil
}

// size is the largest coefficient, each on the scale of its covariate.
func (l *partialLikelihood) size(beta []float64) float64 {
	largest := 0.0
	for j, b := range beta {
		largest = math.Max(largest, math.Abs(b)*l.spread[j])
	}
	return largest
}

// invert inverts an information matrix; ok is false where it is singular,
// judged on the scale of the covariates' spread.
func invert(v [][]float64, spread []float64) (inverse [][]float64, ok bool) {
	n := len(v)
	inverse = square(n)
	scale := make([]float64, n)
	for i := range v {
		if !(v[i][i] > 1e-12*spread[i]*spread[i]) {
			return inverse, false
		}
		scale[i] = math.Sqrt(v[i][i])
	}
	symmetric := mat.NewSymDense(n, nil)
	for i := range v {
		for j := range i + 1 {
			symmetric.SetSym(i, j, v[i][j]/(scale[i]*scale[j]))
		}
	}
	var c mat.Cholesky
	if !c.Factorize(symmetric) || c.Cond() > 1e12 {
		return inverse, false
	}
	var whole mat.SymDense
	if err := c.InverseTo(&whole); err != nil {
		return inverse, false
	}
	for i := range n {
		for j := range n {
			inverse[i][j] = whole.At(i, j) / (scale[i] * scale[j])
		}
	}
	return inverse, true
}

func multiply(m [][]float64, v []float64) []float64 {
	out := make([]float64, len(m))
	for i, row := range m {
		out[i] = dot(row, v)
	}
	return out
}
