package survival

import (
	"fmt"
	"math"
)

// FourFold is Fisher's exact test of a 2 × 2 table.
type FourFold struct {
	// P is two-sided: the tables with these margins that are no more likely
	// than the one seen. PLess and PGreater are for an odds ratio below and
	// above 1.
	P, PLess, PGreater float64
	// OddsRatio is the conditional maximum likelihood estimate. It exists only
	// where the margins allow more than one table and the first cell isn't as
	// large as they allow (the ratio is infinite then).
	OddsRatio    float64
	HasOddsRatio bool
	// Lower and Upper are its exact 95 % limits; HasUpper is false where the
	// upper one is infinite.
	Lower, Upper float64
	HasUpper     bool
}

// Fisher tests the table with rows (a, b) and (c, d) given its margins (Fisher
// 1935, J R Stat Soc 98:39-82). It panics at a count below 0.
func Fisher(a, b, c, d int) FourFold {
	if min(a, b, c, d) < 0 {
		panic(fmt.Sprintf("survival: no table has the counts %d, %d, %d, %d", a, b, c, d))
	}
	h := hypergeometricOf(a, b, c, d)
	f := FourFold{P: h.twoSided(a), PLess: h.tail(a, -1, 0), PGreater: h.tail(a, 1, 0)}
	switch {
	case h.low == h.high:
	case a == h.low:
		f.HasOddsRatio = true
	case a < h.high:
		// The mean rises with the odds ratio.
		f.OddsRatio = math.Exp(bisect(-40, 40, func(ln float64) bool { return h.mean(ln) < float64(a) }))
		f.HasOddsRatio = true
	}
	if a > h.low {
		f.Lower = math.Exp(bisect(-40, 40, func(ln float64) bool { return h.tail(a, 1, ln) < 0.025 }))
	}
	if a < h.high {
		f.Upper = math.Exp(bisect(-40, 40, func(ln float64) bool { return h.tail(a, -1, ln) > 0.025 }))
		f.HasUpper = true
	}
	return f
}

// hypergeometric is the distribution of the first cell given the margins: the
// chance of each value from low to high.
type hypergeometric struct {
	low, high int
	chance    []float64
}

func hypergeometricOf(a, b, c, d int) hypergeometric {
	h := hypergeometric{low: max(0, a-d), high: min(a+b, a+c)}
	// Each chance follows from its neighbour; starting with 1 at the value
	// seen and dividing by the sum loses no digits.
	h.chance = make([]float64, h.high-h.low+1)
	h.chance[a-h.low] = 1
	ratio := func(k int) float64 { // of k+1 to k
		return float64(a+b-k) * float64(a+c-k) / (float64(k+1) * float64(d-a+k+1))
	}
	for k := a; k < h.high; k++ {
		h.chance[k+1-h.low] = h.chance[k-h.low] * ratio(k)
	}
	for k := a - 1; k >= h.low; k-- {
		h.chance[k-h.low] = h.chance[k+1-h.low] / ratio(k)
	}
	sum := 0.0
	for _, p := range h.chance {
		sum += p
	}
	for i := range h.chance {
		h.chance[i] /= sum
	}
	return h
}

// alike is the relative difference up to which two tables count as equally
// likely; the chances are rounded.
const alike = 1e-7

func (h hypergeometric) twoSided(a int) float64 {
	sum := 0.0
	for _, p := range h.chance {
		if p <= h.chance[a-h.low]*(1+alike) {
			sum += p
		}
	}
	return math.Min(1, sum)
}

// tilted gives the chances at an odds ratio of e^ln.
func (h hypergeometric) tilted(ln float64) []float64 {
	if ln == 0 {
		return h.chance
	}
	chance := make([]float64, len(h.chance))
	largest := math.Inf(-1)
	for i, p := range h.chance {
		chance[i] = math.Log(p) + float64(i)*ln
		largest = math.Max(largest, chance[i])
	}
	sum := 0.0
	for i := range chance {
		chance[i] = math.Exp(chance[i] - largest)
		sum += chance[i]
	}
	for i := range chance {
		chance[i] /= sum
	}
	return chance
}

// tail is the chance of a or more (side 1), or of a or fewer (side −1).
func (h hypergeometric) tail(a, side int, ln float64) float64 {
	sum := 0.0
	for i, p := range h.tilted(ln) {
		if side*(i+h.low-a) >= 0 {
			sum += p
		}
	}
	return math.Min(1, sum)
}

func (h hypergeometric) mean(ln float64) float64 {
	mean := 0.0
	for i, p := range h.tilted(ln) {
		mean += float64(i+h.low) * p
	}
	return mean
}

// bisect finds where below turns from true to false.
func bisect(low, high float64, below func(float64) bool) float64 {
	for range 200 {
		middle := (low + high) / 2
		if middle == low || middle == high {
			break
		}
		if below(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}
