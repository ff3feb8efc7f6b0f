package survival

import "math"

// Three groups and more: the sums of all groups but the last are counted
// together, as a vector, and judged by the quadratic form U′C⁻U with
//
//	C = Σ_h [Σa²/(N_h−1)]·[diag(n_h) − n_h n_h′/N_h],
//
// the covariance of U over all relabellings (Hájek, Šidák and Sen 1999, Theory
// of Rank Tests, section 3.3). C is the same for every relabelling.

// maxVectors bounds the vectors held at a time.
const maxVectors = 1 << 18

// maxOthers is the number of groups, but for the last, that a counted vector
// may have; with more of them the test draws.
const maxOthers = 7

// place is a state of the stratum at hand with the groups' sums in units of
// same: what tells two relabellings apart.
type place struct {
	state int
	sums  [maxOthers]int64
}

// reached is what stands at a place: the ways to it and its sums unrounded.
type reached struct {
	ways float64
	sums [maxOthers]float64
}

func (d deal) quadratic() Permutation {
	p := d.result()
	p.Exists = true
	k := len(d.groups)
	inverse, _ := pseudoInverse(d.covariance())
	sums := make([]float64, k)
	for _, h := range d.strata {
		for i, g := range h.labels {
			sums[g] += h.scores[i]
		}
	}
	p.Statistic = formOf(sums, inverse)
	all, ok := d.vectors()
	if !ok || p.Relabellings == 0 {
		d.draw(&p, func(sums []float64) float64 { return formOf(sums, inverse) })
		return p
	}
	most, mostWays := 0.0, 0.0
	slack := equal * math.Max(1, p.Statistic)
	for _, r := range all {
		sums[k-1] = 0
		for g := range k - 1 {
			sums[g] = r.sums[g]
			sums[k-1] -= sums[g]
		}
		q := formOf(sums, inverse)
		if q >= p.Statistic-slack {
			p.AtLeast += r.ways
		}
		switch slack := equal * math.Max(1, most); {
		case q > most+slack:
			most, mostWays = q, r.ways
		case q >= most-slack:
			mostWays += r.ways
		}
	}
	p.Greater = p.AtLeast
	p.P = p.AtLeast / p.Relabellings
	p.PGreater = p.P
	p.SmallestP, p.HasSmallestP = mostWays/p.Relabellings, true
	return p
}

func (d deal) covariance() [][]float64 {
	c := square(len(d.groups))
	for _, h := range d.strata {
		n := float64(len(h.scores))
		if n < 2 {
			continue
		}
		squares, mean := 0.0, 0.0
		for _, s := range h.scores {
			mean += s / n
		}
		for _, s := range h.scores {
			squares += (s - mean) * (s - mean)
		}
		for g, a := range h.counts {
			for j, b := range h.counts {
				c[g][j] -= squares / (n - 1) * float64(a) * float64(b) / n
			}
			c[g][g] += squares / (n - 1) * float64(a)
		}
	}
	return c
}

// vectors counts the ways to every vector of sums; ok is false where there are
// too many.
func (d deal) vectors() (map[place]reached, bool) {
	k := len(d.groups)
	if k-1 > maxOthers {
		return nil, false
	}
	all := map[place]reached{{}: {ways: 1}}
	for _, h := range d.strata {
		dealt := 0
		for _, c := range classes(h.scores) {
			next := make(map[place]reached, len(all))
			for p, r := range all {
				splits(c.n, h.counts, h.used(p.state, dealt), func(part []int) bool {
					to, radix := place{state: p.state}, 1
					sums := r.sums
					for g := range k - 1 {
						to.state += part[g] * radix
						radix *= h.counts[g] + 1
						sums[g] += float64(part[g]) * c.score
						to.sums[g] = int64(math.Round(sums[g] / same))
					}
					there, old := next[to]
					if !old {
						there.sums = sums
					}
					there.ways += r.ways * multinomial(part)
					next[to] = there
					return len(next) <= maxVectors
				})
				if len(next) > maxVectors {
					return nil, false
				}
			}
			all, dealt = next, dealt+c.n
		}
		// The next stratum starts with no label used.
		from := make(map[place]reached, len(all))
		for p, r := range all {
			p.state = 0
			there, old := from[p]
			if !old {
				there.sums = r.sums
			}
			there.ways += r.ways
			from[p] = there
		}
		all = from
	}
	return all, true
}

// used is the labels used up in a state, dealt being their number.
func (h hand) used(state, dealt int) []int {
	used := make([]int, len(h.counts))
	last := len(used) - 1
	used[last] = dealt
	for g := range last {
		used[g] = state % (h.counts[g] + 1)
		state /= h.counts[g] + 1
		used[last] -= used[g]
	}
	return used
}
