package survival

import (
	"cmp"
	"math"
	"slices"
)

// smallest is the share of relabellings that reach the largest |Σ w_g U_g|.
// By the rearrangement inequality that is the one with scores and weights in
// the same order, or in opposite order; within tied scores any deal does.
func (d deal) smallest(weights []float64) float64 {
	most, mostShare := d.extreme(weights, 1)
	least, leastShare := d.extreme(weights, -1)
	switch {
	case most-least <= 2*equal: // all relabellings alike
		return 1
	case math.Abs(most+least) <= equal:
		return mostShare + leastShare
	case most > -least:
		return mostShare
	}
	return leastShare
}

func (d deal) extreme(weights []float64, sign float64) (sum, share float64) {
	share = 1
	order := make([]int, len(weights))
	for g := range order {
		order[g] = g
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Compare(sign*weights[a], sign*weights[b])
	})
	for _, h := range d.strata {
		next, taken := 0, 0
		var parts [][]int
		for _, c := range classes(h.scores) {
			part := make([]int, len(weights))
			for left := c.n; left > 0; {
				for taken == h.counts[order[next]] {
					next, taken = next+1, 0
				}
				n := min(left, h.counts[order[next]]-taken)
				part[order[next]] += n
				sum += float64(n) * weights[order[next]] * c.score
				taken, left = taken+n, left-n
			}
			parts = append(parts, part)
		}
		share *= shareOf(parts, h.counts)
	}
	return sum, share
}

// shareOf is the share of all deals of whole in which the labels fall in these
// parts. Numbers of deals too large for a float are handled by logarithms.
func shareOf(parts [][]int, whole []int) float64 {
	if all := multinomial(whole); !math.IsInf(all, 0) {
		share := 1 / all
		for _, part := range parts {
			share *= multinomial(part)
		}
		return share
	}
	ln := -lnMultinomial(whole)
	for _, part := range parts {
		ln += lnMultinomial(part)
	}
	return math.Exp(ln)
}

func lnMultinomial(counts []int) float64 {
	n, ln := 0, 0.0
	for _, c := range counts {
		n += c
		f, _ := math.Lgamma(float64(c + 1))
		ln -= f
	}
	f, _ := math.Lgamma(float64(n + 1))
	return ln + f
}

// multinomial is the number of ways to split Σ counts into these counts.
func multinomial(counts []int) float64 {
	ways, n := 1.0, 0
	for _, c := range counts {
		n += c
		ways *= binomial(n, c)
	}
	return ways
}

// binomial is n over k, exact up to 2⁵³.
func binomial(n, k int) float64 {
	k = min(k, n-k)
	b := 1.0
	for i := 1; i <= k; i++ {
		b = b * float64(n-k+i) / float64(i)
	}
	if b < 1<<52 {
		b = math.Round(b)
	}
	return b
}
