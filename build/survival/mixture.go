package survival

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// mixture is the likelihood Σ ln Σ_j member_ij·mass_j over spans, to be made as
// large as possible over masses that add up to 1. Equal spans are counted, not
// repeated.
type mixture struct {
	boxes []Box
	// from and to bound the candidates inside each distinct span: they are
	// neighbours.
	from, to []int
	weight   []float64 // how many spans are alike
	n        float64
	mass     []float64
}

func newMixture(spans []Span) *mixture {
	m := &mixture{boxes: candidates(spans), n: float64(len(spans))}
	count := map[Span]float64{}
	for _, s := range spans {
		count[s]++
	}
	for _, s := range spans { // in the order given, so that sums round alike
		c, first := count[s]
		if !first {
			continue
		}
		delete(count, s)
		from, to := len(m.boxes), 0
		for j, b := range m.boxes {
			if s.holds(b) {
				from, to = min(from, j), j+1
			}
		}
		m.from, m.to, m.weight = append(m.from, from), append(m.to, to), append(m.weight, c)
	}
	m.mass = make([]float64, len(m.boxes))
	for j := range m.mass {
		m.mass[j] = 1 / float64(len(m.mass))
	}
	return m
}

func (m *mixture) chance(i int, mass []float64) float64 {
	sum := 0.0
	for _, p := range mass[m.from[i]:m.to[i]] {
		sum += p
	}
	return sum
}

// logLikelihood is minus infinity where a span has no mass.
func (m *mixture) logLikelihood(mass []float64) float64 {
	sum := 0.0
	for i, w := range m.weight {
		sum += w * math.Log(m.chance(i, mass))
	}
	return sum
}

// gradient is the derivative towards each candidate, divided by n: 1 on the
// support and at most 1 elsewhere when the maximum is reached.
func (m *mixture) gradient() []float64 {
	g := make([]float64, len(m.mass))
	for i, w := range m.weight {
		share := w / (m.n * m.chance(i, m.mass))
		for j := m.from[i]; j < m.to[i]; j++ {
			g[j] += share
		}
	}
	return g
}

// selfConsistency repeats Turnbull's step: each span's loss is shared out over
// its candidates in proportion to their masses.
func (m *mixture) selfConsistency(rounds int) {
	for range rounds {
		g := m.gradient()
		for j := range m.mass {
			m.mass[j] *= g[j]
		}
	}
}

// activeSet brings the masses to the maximum.
func (m *mixture) activeSet() {
	// Drop what self-consistency has made small, unless a span would be left
	// without any; a box dropped in error comes back below.
	kept := make([]float64, len(m.mass))
	for j, p := range m.mass {
		if p > 1e-3/m.n {
			kept[j] = p
		}
	}
	if !math.IsInf(m.logLikelihood(kept), 0) {
		m.mass = kept
	}
	m.normalise()
	support := []int{}
	for j, p := range m.mass {
		if p > 0 {
			support = append(support, j)
		}
	}
	for range 50 * (10 + len(m.mass)) {
		moved := m.newton(&support)
		if moved > 1e-13 {
			continue
		}
		// At the maximum over the support: is another box better?
		best, at := 1e-10, -1
		for j, g := range m.gradient() {
			if m.mass[j] == 0 && g-1 > best {
				best, at = g-1, j
			}
		}
		if at < 0 {
			return
		}
		support = append(support, at)
	}
}

func (m *mixture) normalise() {
	sum := 0.0
	for _, p := range m.mass {
		sum += p
	}
	for j := range m.mass {
		m.mass[j] /= sum
	}
}

// newton takes one step over the support, no further than to the first mass
// that reaches 0 (which leaves the support) and no further than the likelihood
// rises. It says how far the masses moved.
func (m *mixture) newton(support *[]int) float64 {
	s := *support
	k := len(s)
	place := make([]int, len(m.mass)) // 1 + the place in the support
	for a, j := range s {
		place[j] = a + 1
	}
	// Curvature and slope, bordered by the condition that masses add up to 1.
	system := mat.NewDense(k+1, k+1, nil)
	right := mat.NewVecDense(k+1, nil)
	for i, w := range m.weight {
		p := m.chance(i, m.mass)
		for j := m.from[i]; j < m.to[i]; j++ {
			a := place[j] - 1
			if a < 0 {
				continue
			}
			right.SetVec(a, right.AtVec(a)+w/(m.n*p))
			for l := m.from[i]; l < m.to[i]; l++ {
				if b := place[l] - 1; b >= 0 {
					system.Set(a, b, system.At(a, b)+w/(m.n*p*p))
				}
			}
		}
	}
	trace := 0.0
	for a := range k {
		trace += system.At(a, a)
	}
	for a := range k {
		// Where the masses aren't unique the curvature is singular; this much
		// more makes it solvable and changes no maximum.
		system.Set(a, a, system.At(a, a)+1e-13*trace/float64(k))
		system.Set(a, k, 1)
		system.Set(k, a, 1)
	}
	var step mat.VecDense
	if err := step.SolveVec(system, right); err != nil {
		if _, nearly := err.(mat.Condition); !nearly {
			return 0
		}
	}
	length, first := 1.0, -1
	for a, j := range s {
		if d := step.AtVec(a); d < 0 && m.mass[j]+length*d < 0 {
			length, first = -m.mass[j]/d, a
		}
	}
	before := m.logLikelihood(m.mass)
	next := make([]float64, len(m.mass))
	for range 60 {
		for a, j := range s {
			next[j] = math.Max(0, m.mass[j]+length*step.AtVec(a))
		}
		if first >= 0 {
			next[s[first]] = 0
		}
		// Near the top the gain is below what a sum of logarithms can show.
		if after := m.logLikelihood(next); after >= before-1e-12*math.Abs(before) {
			break
		}
		length, first = length/2, -1
	}
	moved := 0.0
	for _, j := range s {
		moved = math.Max(moved, math.Abs(next[j]-m.mass[j]))
	}
	m.mass = next
	m.normalise()
	if first >= 0 {
		*support = append(s[:first:first], s[first+1:]...)
		moved = math.Max(moved, 1) // the support changed: look again
	}
	return moved
}

// unique says whether the spans tell the masses of the support apart.
func (m *mixture) unique() bool {
	var s []int
	for j, p := range m.mass {
		if p > 0 {
			s = append(s, j)
		}
	}
	rows := mat.NewDense(max(len(m.weight), len(s)), len(s), nil)
	for i := range m.weight {
		for a, j := range s {
			if j >= m.from[i] && j < m.to[i] {
				rows.Set(i, a, 1)
			}
		}
	}
	var svd mat.SVD
	if !svd.Factorize(rows, mat.SVDNone) {
		return false
	}
	return svd.Rank(1e-10) == len(s)
}
