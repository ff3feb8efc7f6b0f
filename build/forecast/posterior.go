package forecast

import "math"

// fine is the number of midpoints a side of the grid; evenlyWeighed is the κ
// on which the prior is balanced (half the belief below, half above).
const (
	fine          = 64
	evenlyWeighed = 8
)

// nothing is a weight that is taken for 0: those of the whole grid together
// wouldn't change the last bit of a chance.
const nothing = 1e-20

// OneImport is what has to stand beside a forecast from one import.
const OneImport = "from one import; most of this width is the assumption that imports differ."

// NoImport is what stands in place of a forecast without a usable import.
const NoImport = "no earlier import was followed to this day, so nothing can be said of the next one."

// Posterior is what past imports leave to believe about imports: a weight for
// each point of the grid. The zero Posterior knows nothing and answers nothing.
type Posterior struct {
	// Imports is the number of imports it was learned from.
	Imports int
	points  grid
	weights []float64 // add up to 1; point i·n+j has means[i] and loads[j]
}

// grid holds the midpoints: of μ, and the κ of the midpoints of 8/(8+κ).
type grid struct {
	means, loads []float64
}

func newGrid(n int) grid {
	g := grid{make([]float64, n), make([]float64, n)}
	for i := range n {
		at := (float64(i) + 0.5) / float64(n)
		g.means[i], g.loads[i] = at, evenlyWeighed*(1-at)/at
	}
	return g
}

// lnChances gives lnBetaBinomial of y of n on every point.
func (g grid) lnChances(y, n float64) []float64 {
	all := make([]float64, 0, len(g.means)*len(g.loads))
	for _, mean := range g.means {
		for _, weight := range g.loads {
			all = append(all, lnBetaBinomial(y, n, mean, weight))
		}
	}
	return all
}

// Learn weighs the grid by what became of past imports: posterior proportional
// to the product of their beta-binomial chances, the prior being flat on the
// grid. The order of imports doesn't matter but for the last bits. ok is false
// (refuse, and say NoImport) if there is no import or if one of them couldn't be
// (its counts not those of Counted, Estimated or Followed).
func Learn(past []Import) (p Posterior, ok bool) { return learn(newGrid(fine), past) }

func learn(g grid, past []Import) (Posterior, bool) {
	evidence := make([][]float64, len(past))
	for j, i := range past {
		if !i.usable() {
			return Posterior{}, false
		}
		evidence[j] = g.lnChances(i.Alive, i.Lines)
	}
	return g.weigh(evidence)
}

// weigh adds up the logarithms of each import's chances and makes weights of
// the sums, the largest taken out first so that nothing overflows.
//
// The grid is within 1e-3 of the whole square in every P(alive ≤ y) for pasts
// of ordinary fates; where nearly all of many past plants were alive, or nearly
// all lost, it has been seen off by 0.011 (TestTheGridNearTheEdges).
func (g grid) weigh(evidence [][]float64) (Posterior, bool) {
	if len(evidence) == 0 {
		return Posterior{}, false
	}
	weights, top := make([]float64, len(g.means)*len(g.loads)), math.Inf(-1)
	for at := range weights {
		for _, e := range evidence {
			weights[at] += e[at]
		}
		top = math.Max(top, weights[at])
	}
	total := 0.0
	for at, ln := range weights {
		weights[at] = math.Exp(ln - top)
		total += weights[at]
	}
	if !(total >= 1) { // counts so large that the logarithms themselves overflow
		return Posterior{}, false
	}
	for at := range weights {
		if weights[at] /= total; weights[at] < nothing {
			weights[at] = 0
		}
	}
	return Posterior{len(evidence), g, weights}, true
}

// Caveat is OneImport for a forecast from one import, else empty.
func (p Posterior) Caveat() string {
	if p.Imports == 1 {
		return OneImport
	}
	return ""
}
