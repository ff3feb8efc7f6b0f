package survival

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Interval is a pair of confidence limits for a share or for a difference.
type Interval struct {
	Lower, Upper float64
}

// Wilson is the score interval of k of n (Wilson 1927, J Am Stat Assoc
// 22:209-212; method 3 of Newcombe 1998, Stat Med 17:857-872). It is exactly 0
// below at k = 0 and exactly 1 above at k = n. Of nobody nothing is known: 0
// to 1. It panics if k lies outside 0 to n.
func Wilson(k, n int, confidence float64) Interval {
	if noShare(k, n) {
		return Interval{0, 1}
	}
	z, size := normalQuantile(confidence), float64(n)
	p := float64(k) / size
	widen := 1 + z*z/size
	middle := (p + z*z/(2*size)) / widen
	half := z / widen * math.Sqrt(p*(1-p)/size+z*z/(4*size*size))
	return ends(k, n, middle-half, middle+half)
}

// WilsonCorrected is the score interval with continuity correction (method 4
// of Newcombe 1998, Stat Med 17:857-872). Nobody and a wrong k as in Wilson.
func WilsonCorrected(k, n int, confidence float64) Interval {
	if noShare(k, n) {
		return Interval{0, 1}
	}
	z, size := normalQuantile(confidence), float64(n)
	p := float64(k) / size
	below := 2*size*p + z*z - 1 - z*math.Sqrt(math.Max(0, z*z-2-1/size+4*p*(size*(1-p)+1)))
	above := 2*size*p + z*z + 1 + z*math.Sqrt(math.Max(0, z*z+2-1/size+4*p*(size*(1-p)-1)))
	return ends(k, n, below/(2*(size+z*z)), above/(2*(size+z*z)))
}

// ClopperPearson is the exact interval, from the beta distribution (Clopper
// and Pearson 1934, Biometrika 26:404-413). Nobody and a wrong k as in Wilson.
func ClopperPearson(k, n int, confidence float64) Interval {
	if noShare(k, n) {
		return Interval{0, 1}
	}
	normalQuantile(confidence) // judges the confidence
	tail := (1 - confidence) / 2
	var i Interval
	if k > 0 {
		i.Lower = betaQuantile(tail, float64(k), float64(n-k+1))
	}
	i.Upper = 1
	if k < n {
		// The upper limit is one minus the lower limit of the n − k others.
		i.Upper = 1 - betaQuantile(tail, float64(n-k), float64(k+1))
	}
	return i
}

// betaQuantile inverts the regularised incomplete beta function; two steps of
// Newton bring the library's answer to the last digits.
func betaQuantile(p, a, b float64) float64 {
	x := mathext.InvRegIncBeta(a, b, p)
	for range 2 {
		density := math.Exp((a-1)*math.Log(x) + (b-1)*math.Log1p(-x) - mathext.Lbeta(a, b))
		next := x - (mathext.RegIncBeta(a, b, x)-p)/density
		if !(next > 0 && next < 1) {
			break
		}
		x = next
	}
	return x
}

func noShare(k, n int) bool {
	if n < 0 || k < 0 || k > n {
		panic(fmt.Sprintf("survival: %d of %d is no share", k, n))
	}
	return n == 0
}

func ends(k, n int, lower, upper float64) Interval {
	lower, upper = math.Max(0, lower), math.Min(1, upper)
	if k == 0 {
		lower = 0
	}
	if k == n {
		upper = 1
	}
	return Interval{lower, upper}
}
