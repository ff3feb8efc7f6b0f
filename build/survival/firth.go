package survival

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Firth fits proportional hazards with Firth's penalty, half the logarithm of
// the information's determinant (Firth 1993, Biometrika 80:27-38; Heinze and
// Schemper 2001, Biometrics 57:114-119). It has a finite estimate even where a
// group had no losses. Limits (95 %) and P are by the profile of the penalised
// likelihood; the standard error is from the information at the estimate. ties
// is Efron or Breslow; it panics at Exact, and as Cox does.
func Firth(observations []Observation, ties Ties) HazardFit {
	if ties == Exact {
		panic("survival: Firth's penalty goes with Efron's or Breslow's ties")
	}
	f := firth{newPartialLikelihood(observations, ties)}
	fit := HazardFit{N: f.n, Lost: f.lost}
	if f.lost == 0 {
		fit.Reason = NoLosses
		return fit
	}
	if f.p == 0 {
		fit.Reason = NoContrast
		return fit
	}
	null := make([]float64, f.p)
	nullSlopes, ok := f.penalised(null, nil)
	if !ok {
		fit.Reason = NoContrast
		return fit
	}
	best, ok := f.maximise(null, -1)
	if !ok {
		fit.Reason = NoFiniteFit
		return fit
	}
	top, _ := f.penalised(best, nil)
	fit.Exists = true
	fit.Variance, _ = invert(top.information, f.spread)
	fit.LogLikelihoodNull, fit.LogLikelihood = nullSlopes.value, top.value
	fit.LikelihoodRatio = globalTest(2*(top.value-nullSlopes.value), f.p)
	z := normalQuantile(0.95)
	for j, b := range best {
		c := Coefficient{Value: b, StdError: math.Sqrt(fit.Variance[j][j])}
		fixed := append([]float64(nil), best...)
		fixed[j] = 0
		if without, ok := f.maximise(fixed, j); ok {
			s, _ := f.penalised(without, nil)
			c.ChiSquare = math.Max(0, 2*(top.value-s.value))
		}
		c.P = chiSquareTail(c.ChiSquare, 1)
		c.Lower, c.HasLower = f.limit(best, top.value, j, -c.StdError, z*z)
		c.Upper, c.HasUpper = f.limit(best, top.value, j, c.StdError, z*z)
		fit.Coefficients = append(fit.Coefficients, c)
	}
	return fit
}

type firth struct{ *partialLikelihood }

// penalised is the penalised likelihood and its slopes, over the free
// coefficients if some are named; ok is false where the information is
// singular.
func (f firth) penalised(beta []float64, free []int) (s *slopes, ok bool) {
	s = f.at(beta, true)
	inverse, ok := invert(s.information, f.spread)
	if !ok {
		return s, false
	}
	scaled := mat.NewDense(f.p, f.p, nil)
	for i, row := range s.information {
		scaled.SetRow(i, row)
	}
	ln, sign := mat.LogDet(scaled)
	if sign <= 0 {
		return s, false
	}
	s.value += ln / 2
	for t := range f.p {
		trace := 0.0
		for a := range f.p {
			for b := range f.p {
				trace += inverse[a][b] * s.change[t][b][a]
			}
		}
		s.score[t] += trace / 2
	}
	if free != nil {
		score, information := make([]float64, len(free)), square(len(free))
		for i, a := range free {
			score[i] = s.score[a]
			for j, b := range free {
				information[i][j] = s.information[a][b]
			}
		}
		s.score, s.information = score, information
	}
	return s, true
}

// maximise climbs from start with one coefficient held (or −1 for none): steps
// of the modified score through the information, halved until the likelihood
// rises.
func (f firth) maximise(start []float64, held int) (beta []float64, ok bool) {
	beta = append([]float64(nil), start...)
	free, spread := []int{}, []float64{}
	for j := range beta {
		if j != held {
			free, spread = append(free, j), append(spread, f.spread[j])
		}
	}
	now, ok := f.penalised(beta, free)
	if !ok || len(free) == 0 {
		return beta, ok
	}
	for range 500 {
		inverse, ok := invert(now.information, spread)
		if !ok {
			return nil, false
		}
		step := multiply(inverse, now.score)
		size := 0.0
		for i := range free {
			size = math.Max(size, math.Abs(step[i])*spread[i])
		}
		if size < 1e-10 {
			return beta, true
		}
		length := math.Min(1, 5/size)
		var next *slopes
		for ; length > 1e-12; length /= 2 {
			at := append([]float64(nil), beta...)
			for i, j := range free {
				at[j] += length * step[i]
			}
			if s, ok := f.penalised(at, free); ok && s.value >= now.value-1e-13*math.Abs(now.value) {
				beta, next = at, s
				break
			}
		}
		if next == nil {
			return beta, size < 1e-6
		}
		now = next
	}
	return nil, false
}

// limit is where the profile of coefficient j has fallen by half of chi from
// the top, on the side that step points to; ok is false where it never does.
func (f firth) limit(best []float64, top float64, j int, step, chi float64) (float64, bool) {
	from := append([]float64(nil), best...)
	fall := func(value float64) (float64, bool) {
		from[j] = value
		at, ok := f.maximise(from, j)
		if !ok {
			return 0, false
		}
		from = at
		s, ok := f.penalised(at, nil)
		return 2*(top-s.value) - chi, ok
	}
	low, high := best[j], best[j] // below chi at low, above at high
	lowFall, highFall := -chi, -chi
	for try := 0; highFall < 0; try++ {
		if try == 40 || f.spread[j]*math.Abs(high-best[j]) > 64 {
			return 0, false
		}
		low, lowFall = high, highFall
		high += step
		step *= 1.5
		var ok bool
		if highFall, ok = fall(high); !ok {
			return 0, false
		}
	}
	// False position, with the stale end's weight halved (the Illinois rule).
	for range 200 {
		middle := high - highFall*(high-low)/(highFall-lowFall)
		value, ok := fall(middle)
		if !ok {
			return 0, false
		}
		if math.Abs(value) < 1e-11 || math.Abs(high-low) < 1e-13*math.Max(1, math.Abs(high)) {
			return middle, true
		}
		if value > 0 {
			high, highFall = middle, value
			lowFall /= 2
		} else {
			low, lowFall = middle, value
			highFall /= 2
		}
	}
	return (low + high) / 2, true
}
