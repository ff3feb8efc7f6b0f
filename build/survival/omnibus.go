package survival

import "math"

// Three groups and more: the sums of all groups but the last are counted
// together, as a vector, and judged by the quadratic form U′C⁻U with
//
//	C = Σ_h [Σa²/(N_h−1)]·[diag(n_h) − n_h n_h′/N_h],
//
// the covariance of U over all relabellings (Hájek, Šidák and Sen 1999, Theory
// of Rank Tests, section 3.3). C is the same for every relabelling.

// maxVectors bounds the vectors held at a time. Beyond it the test draws.
const maxVectors = 1 << 18

// maxOthers is the number of groups, but for the last, that a counted vector
// may have; with more of them the test draws.
const maxOthers = 7

func (d deal) quadratic() Permutation {
	p := d.result()
	p.Exists = true
	k := len(d.groups)
	form := d.form()
	sums := make([]float64, k)
	for _, h := range d.strata {
		for i, g := range h.labels {
			sums[g] += h.scores[i]
		}
	}
	p.Statistic = form(sums)
	all, ok := d.vectors(maxVectors)
	if !ok || p.Relabellings == 0 {
		d.draw(&p, form)
		return p
	}
	most, mostWays := 0.0, 0.0
	slack := equal * math.Max(1, p.Statistic)
	for i, ways := range all.ways {
		sums[k-1] = 0
		for g, v := range all.at(i) {
			sums[g] = v
			sums[k-1] -= v
		}
		q := form(sums)
		if q >= p.Statistic-slack {
			p.AtLeast += ways
		}
		switch slack := equal * math.Max(1, most); {
		case q > most+slack:
			most, mostWays = q, ways
		case q >= most-slack:
			mostWays += ways
		}
	}
	p.Greater = p.AtLeast
	p.P = p.AtLeast / p.Relabellings
	p.PGreater = p.P
	p.SmallestP, p.HasSmallestP = mostWays/p.Relabellings, true
	return p
}

// form is U′C⁻U of the groups' sums, whose own sum is 0. In one stratum the
// diagonal of 1/n over the scores' variance inverts C as far as it can be: what is
// left is Σ U²/n over the variance, as in the rank test for several samples
// (Kruskal and Wallis 1952, JASA 47:583-621), and costs no matrix at each draw.
func (d deal) form() func(sums []float64) float64 {
	if len(d.strata) != 1 {
		inverse, _ := pseudoInverse(d.covariance())
		return func(sums []float64) float64 { return formOf(sums, inverse) }
	}
	h := d.strata[0]
	variance := h.variance()
	if variance == 0 {
		return func([]float64) float64 { return 0 }
	}
	weights := make([]float64, len(d.groups))
	for g, n := range h.counts {
		weights[g] = 1 / (variance * float64(n))
	}
	return func(sums []float64) float64 {
		q := 0.0
		for g, w := range weights {
			q += sums[g] * sums[g] * w
		}
		return q
	}
}

func (d deal) covariance() [][]float64 {
	c := square(len(d.groups))
	for _, h := range d.strata {
		n, variance := float64(len(h.scores)), h.variance()
		for g, a := range h.counts {
			for j, b := range h.counts {
				c[g][j] -= variance * float64(a) * float64(b) / n
			}
			c[g][g] += variance * float64(a)
		}
	}
	return c
}

// variance is Σ(a − ā)²/(N − 1) of a stratum's scores; 0 for a single one.
func (h hand) variance() float64 {
	n := float64(len(h.scores))
	if n < 2 {
		return 0
	}
	squares, mean := 0.0, 0.0
	for _, s := range h.scores {
		mean += s / n
	}
	for _, s := range h.scores {
		squares += (s - mean) * (s - mean)
	}
	return squares / (n - 1)
}
