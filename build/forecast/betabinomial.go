package forecast

import "math"

// lnBetaBinomial is the logarithm of the chance of y alive of n plants whose
// import has a share of its own, drawn from a beta distribution with mean mean
// (between 0 and 1, both excluded) and weight weight (above 0): beta-binomial
// (n; α = mean·weight, β = (1−mean)·weight), in gamma functions,
//
//	Γ(n+1)/(Γ(y+1)Γ(n−y+1)) · Γ(α+y)Γ(β+n−y)/Γ(α+β+n) · Γ(α+β)/(Γ(α)Γ(β)),
//
// so that y and n needn't be whole (0 ≤ y ≤ n). Source: Skellam 1948, J R Stat
// Soc B 10:257-261; Johnson, Kemp and Kotz, Univariate Discrete Distributions,
// section 6.2 (both from memory).
func lnBetaBinomial(y, n, mean, weight float64) float64 {
	alpha, beta := mean*weight, (1-mean)*weight
	return lnGamma(n+1) - lnGamma(y+1) - lnGamma(n-y+1) +
		lnGamma(alpha+y) + lnGamma(beta+n-y) - lnGamma(weight+n) +
		lnGamma(weight) - lnGamma(alpha) - lnGamma(beta)
}

// lnGamma is ln Γ(x) for x above 0, where Γ is positive.
func lnGamma(x float64) float64 {
	v, _ := math.Lgamma(x)
	return v
}
