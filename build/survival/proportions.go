package survival

import (
	"fmt"
	"math"
)

// ProportionTrend asks whether a share rises or falls along ordered groups.
type ProportionTrend struct {
	// Z is above 0 where the share rises with the score; ChiSquare is its
	// square and P its two-sided p. Exists is false, and these are 0, where
	// all or none of all groups count, or the scores don't differ.
	Z, ChiSquare, P float64
	Exists          bool
	// PExact is the same question by all ways to spread the count over the
	// groups, those at least as uneven counted; PGreater and PLess are for a
	// rise and a fall. HasExact is false where there are too many sums.
	PExact, PGreater, PLess float64
	HasExact                bool
}

// TrendInProportions tests k[i] of n[i] along scores[i] (Cochran 1954,
// Biometrics 10:417-451; Armitage 1955, Biometrics 11:375-386), the variance
// with divisor N. It panics if a k lies outside 0 to its n or the lengths differ.
func TrendInProportions(k, n []int, scores []float64) ProportionTrend {
	if len(k) != len(n) || len(k) != len(scores) {
		panic("survival: a trend needs as many shares as scores")
	}
	var t ProportionTrend
	count, size, sum, squares := 0, 0, 0.0, 0.0
	for i := range k {
		noShare(k[i], n[i])
		count, size = count+k[i], size+n[i]
		sum += float64(n[i]) * scores[i]
	}
	if size == 0 {
		return t
	}
	mean, u := sum/float64(size), 0.0
	for i := range k {
		squares += float64(n[i]) * (scores[i] - mean) * (scores[i] - mean)
		u += float64(k[i]) * (scores[i] - mean)
	}
	p := float64(count) / float64(size)
	if v := p * (1 - p) * squares; v > 0 {
		t.Z = u / math.Sqrt(v)
		t.ChiSquare = t.Z * t.Z
		t.P, t.Exists = chiSquareTail(t.ChiSquare, 1), true
	}
	t.exact(k, n, scores, mean, u)
	return t
}

// exact counts, by group, the ways to have had so many so far with each sum of
// scores.
func (t *ProportionTrend) exact(k, n []int, scores []float64, mean, u float64) {
	count, size := 0, 0
	for i := range k {
		count, size = count+k[i], size+n[i]
	}
	if 2*count > size { // the others are fewer; what rises for one falls for the other
		others := make([]int, len(k))
		for i := range k {
			others[i] = n[i] - k[i]
		}
		t.exact(others, n, scores, mean, -u)
		t.PGreater, t.PLess = t.PLess, t.PGreater
		return
	}
	now := make([][]reach, count+1)
	now[0] = []reach{{0, 1}}
	for i := range n {
		lists := make([][][]reach, count+1)
		total := 0
		for had, sums := range now {
			for j := 0; j <= n[i] && had+j <= count; j++ {
				ways := binomial(n[i], j)
				list := make([]reach, len(sums))
				for l, r := range sums {
					list[l] = reach{r.sum + float64(j)*(scores[i]-mean), r.ways * ways}
				}
				lists[had+j] = append(lists[had+j], list)
				if total += len(list); total > maxSums {
					return
				}
			}
		}
		for had := range now {
			now[had] = nil
			if len(lists[had]) > 0 {
				now[had] = mergeAll(lists[had])
			}
		}
	}
	all, two, greater, less := 0.0, 0.0, 0.0, 0.0
	for _, r := range now[count] {
		all += r.ways
		if math.Abs(r.sum) >= math.Abs(u)-equal {
			two += r.ways
		}
		if r.sum >= u-equal {
			greater += r.ways
		}
		if r.sum <= u+equal {
			less += r.ways
		}
	}
	if !math.IsInf(all, 0) {
		t.PExact, t.PGreater, t.PLess, t.HasExact = two/all, greater/all, less/all, true
	}
}

// CommonOdds is the Mantel-Haenszel comparison of several 2 × 2 tables.
type CommonOdds struct {
	// ChiSquare with its P, and both with continuity correction. Exists is
	// false where no table tells anything.
	ChiSquare, P                   float64
	ChiSquareCorrected, PCorrected float64
	Exists                         bool
	// OddsRatio is the common odds ratio with its 95 % limits; absent where it
	// would be 0 or infinite.
	OddsRatio, Lower, Upper float64
	HasOddsRatio            bool
	// PExact is the two-sided conditional p.
	PExact float64
}

// MantelHaenszel compares tables with rows (a, b) and (c, d), one a stratum
// (Mantel and Haenszel 1959, J Natl Cancer Inst 22:719-748; limits of Robins,
// Breslow and Greenland 1986, Biometrics 42:311-323). It panics at a count
// below 0.
func MantelHaenszel(tables [][4]int) CommonOdds {
	var m CommonOdds
	difference, variance := 0.0, 0.0
	diagonal, off, p2, mixed, q2 := 0.0, 0.0, 0.0, 0.0, 0.0
	exact, first, seen := []float64{1}, 0, 0
	for _, t := range tables {
		if min(t[0], t[1], t[2], t[3]) < 0 {
			panic(fmt.Sprintf("survival: no table has the counts %v", t))
		}
		a, b, c, d := float64(t[0]), float64(t[1]), float64(t[2]), float64(t[3])
		n := a + b + c + d
		if n < 2 {
			continue // one line can't be compared
		}
		difference += a - (a+b)*(a+c)/n
		variance += (a + b) * (c + d) * (a + c) * (b + d) / (n * n * (n - 1))
		r, s, p, q := a*d/n, b*c/n, (a+d)/n, (b+c)/n
		diagonal, off = diagonal+r, off+s
		p2, mixed, q2 = p2+p*r, mixed+p*s+q*r, q2+q*s
		h := hypergeometricOf(t[0], t[1], t[2], t[3])
		exact = convolved(exact, h.chance)
		first, seen = first+h.low, seen+t[0]
	}
	if variance > 0 {
		off := math.Abs(difference)
		m.ChiSquare, m.Exists = off*off/variance, true
		m.P = chiSquareTail(m.ChiSquare, 1)
		if off >= 0.5 {
			off -= 0.5
		}
		m.ChiSquareCorrected = off * off / variance
		m.PCorrected = chiSquareTail(m.ChiSquareCorrected, 1)
		m.PExact = hypergeometric{low: first, high: first + len(exact) - 1, chance: exact}.twoSided(seen)
	}
	if diagonal > 0 && off > 0 {
		m.OddsRatio, m.HasOddsRatio = diagonal/off, true
		se := math.Sqrt(p2/(2*diagonal*diagonal) + mixed/(2*diagonal*off) + q2/(2*off*off))
		width := math.Exp(normalQuantile(0.95) * se)
		m.Lower, m.Upper = m.OddsRatio/width, m.OddsRatio*width
	}
	return m
}

func convolved(a, b []float64) []float64 {
	out := make([]float64, len(a)+len(b)-1)
	for i, x := range a {
		for j, y := range b {
			out[i+j] += x * y
		}
	}
	return out
}
