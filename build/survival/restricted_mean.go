package survival

import "math"

// Mean is a restricted mean: of the first Tau days, Days were lived on
// average. StdError is its standard error, in days.
type Mean struct {
	Tau, Days, StdError float64
}

// RestrictedMean is the area under the curve up to day tau, with variance
// Σ A²·d/(n(n−d)), A being the area from each loss to tau (Klein and
// Moeschberger 2003, section 4.5). ok is false for nobody, for tau below 0,
// and where the curve ends above 0 before tau: what happened afterwards is not
// known. A curve that reached 0 has a mean at any later tau.
func (c Curve) RestrictedMean(tau float64) (m Mean, ok bool) {
	if len(c.Steps) == 0 || !(tau >= 0) || math.IsInf(tau, 1) {
		return Mean{}, false
	}
	last := c.Steps[len(c.Steps)-1]
	if tau > last.Time && last.Share > 0 {
		return Mean{}, false
	}
	m.Tau = tau
	end, area, variance := tau, 0.0, 0.0 // area from the loss at hand to tau
	for i := len(c.Steps) - 1; i >= 0; i-- {
		s := c.Steps[i]
		if s.Time >= tau {
			continue
		}
		area += s.Share * (end - s.Time)
		end = s.Time
		if s.Lost > 0 && s.Lost < s.AtRisk {
			n, d := float64(s.AtRisk), float64(s.Lost)
			variance += area * area * d / (n * (n - d))
		}
	}
	m.Days, m.StdError = area+end, math.Sqrt(variance)
	return m, true
}

// CommonHorizon is the tau at which restricted means may be compared: horizon,
// or the last day with a subject at risk in one of the curves if that comes
// earlier. A curve that reached 0 sets no bound, and neither does nobody's.
func CommonHorizon(horizon float64, curves ...Curve) float64 {
	for _, c := range curves {
		if n := len(c.Steps); n > 0 && c.Steps[n-1].Share > 0 {
			horizon = math.Min(horizon, c.Steps[n-1].Time)
		}
	}
	return horizon
}

// Difference is a difference of two estimates, first minus second, with a
// normal interval and a two-sided p.
type Difference struct {
	Value, StdError, Lower, Upper float64
	// Z is Value over StdError and P its two-sided normal p; HasTest is false
	// where StdError is 0.
	Z, P    float64
	HasTest bool
}

// NormalDifference is a − b with ± z·√(se_a² + se_b²), for two independent
// estimates with their standard errors; z belongs to the confidence.
func NormalDifference(a, seA, b, seB, confidence float64) Difference {
	d := Difference{Value: a - b, StdError: math.Hypot(seA, seB)}
	half := normalQuantile(confidence) * d.StdError
	d.Lower, d.Upper = d.Value-half, d.Value+half
	if d.StdError > 0 {
		d.Z = d.Value / d.StdError
		d.P, d.HasTest = math.Erfc(math.Abs(d.Z)/math.Sqrt2), true
	}
	return d
}

// RestrictedMeanDifference compares two curves by their restricted means up to
// tau (Royston and Parmar 2013, BMC Med Res Methodol 13:152). ok is false
// where one of them has none.
func RestrictedMeanDifference(a, b Curve, tau, confidence float64) (d Difference, ok bool) {
	first, okFirst := a.RestrictedMean(tau)
	second, okSecond := b.RestrictedMean(tau)
	if !okFirst || !okSecond {
		return Difference{}, false
	}
	return NormalDifference(first.Days, first.StdError, second.Days, second.StdError, confidence), true
}
