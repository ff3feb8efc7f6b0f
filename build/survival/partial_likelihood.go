package survival

import (
	"fmt"
	"math"
	"slices"
)

// Ties says how losses on one day share a term of the partial likelihood.
type Ties int

const (
	// Efron averages over the orders in which they may have come (Efron 1977,
	// J Am Stat Assoc 72:557-565); good to ties of any usual size.
	Efron Ties = iota
	// Breslow lets each be lost from the whole risk set (Breslow 1974,
	// Biometrics 30:89-99).
	Breslow
	// Exact is the discrete conditional likelihood (Cox 1972, J R Stat Soc B
	// 34:187-220), by the recursion of Gail, Lubin and Rubinstein 1981,
	// Biometrika 68:703-707.
	Exact
)

// Observation is a subject with its covariates, compared within its stratum.
type Observation struct {
	Subject
	Stratum int
	X       []float64
}

// Indicators turns groups into covariates, one for every group but the
// reference, ascending: 1 for its members, 0 for others. It gives the groups
// that the covariates stand for.
func Indicators(members []Member, reference int) (observations []Observation, groups []int) {
	for _, m := range members {
		if m.Group != reference {
			groups = append(groups, m.Group)
		}
	}
	slices.Sort(groups)
	groups = slices.Compact(groups)
	for _, m := range members {
		o := Observation{Subject: m.Subject, Stratum: m.Stratum, X: make([]float64, len(groups))}
		if g, ok := slices.BinarySearch(groups, m.Group); ok {
			o.X[g] = 1
		}
		observations = append(observations, o)
	}
	return observations, groups
}

// partialLikelihood is the data made ready: by stratum, the latest time first,
// covariates centred (which changes nothing but the rounding).
type partialLikelihood struct {
	ties    Ties
	p       int // covariates
	n, lost int
	strata  [][]Observation
	// spread is each covariate's standard deviation, the scale on which a
	// coefficient is large or small.
	spread []float64
}

func newPartialLikelihood(observations []Observation, ties Ties) *partialLikelihood {
	l := &partialLikelihood{ties: ties, n: len(observations)}
	if l.n == 0 {
		return l
	}
	l.p = len(observations[0].X)
	mean := make([]float64, l.p)
	for _, o := range observations {
		checkTime(o.Time)
		if len(o.X) != l.p {
			panic("survival: every observation needs the same covariates")
		}
		for j, x := range o.X {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				panic(fmt.Sprintf("survival: a covariate can't be %v", x))
			}
			mean[j] += x / float64(l.n)
		}
		if o.Lost {
			l.lost++
		}
	}
	l.spread = make([]float64, l.p)
	byStratum := map[int][]Observation{}
	for _, o := range observations {
		x := make([]float64, l.p)
		for j := range x {
			x[j] = o.X[j] - mean[j]
			l.spread[j] += x[j] * x[j] / float64(max(1, l.n-1))
		}
		o.X = x
		byStratum[o.Stratum] = append(byStratum[o.Stratum], o)
	}
	for j := range l.spread {
		l.spread[j] = math.Sqrt(l.spread[j])
	}
	var order []int
	for s := range byStratum {
		order = append(order, s)
	}
	slices.Sort(order)
	for _, s := range order {
		o := byStratum[s]
		slices.SortStableFunc(o, func(a, b Observation) int {
			switch {
			case a.Time > b.Time:
				return -1
			case a.Time < b.Time:
				return 1
			}
			return 0
		})
		l.strata = append(l.strata, o)
	}
	return l
}

// slopes is the log partial likelihood at some coefficients with its
// derivatives: the score, the information (minus the second), and how the
// information changes with each coefficient.
type slopes struct {
	value       float64
	score       []float64
	information [][]float64
	change      [][][]float64 // by coefficient; nil unless asked for
}

func (l *partialLikelihood) newSlopes(third bool) *slopes {
	s := &slopes{score: make([]float64, l.p), information: square(l.p)}
	if third {
		for range l.p {
			s.change = append(s.change, square(l.p))
		}
	}
	return s
}

// at evaluates the likelihood.
func (l *partialLikelihood) at(beta []float64, third bool) *slopes {
	s := l.newSlopes(third)
	for _, o := range l.strata {
		if l.ties == Exact {
			l.exactStratum(s, o, beta)
		} else {
			l.stratum(s, o, beta)
		}
	}
	return s
}

// moments are weighted sums of 1, x, xx′ and xxx over a risk set.
type moments struct {
	s0 float64
	s1 []float64
	s2 [][]float64
	s3 [][][]float64
}

func newMoments(p int, third bool) *moments {
	m := &moments{s1: make([]float64, p), s2: square(p)}
	if third {
		for range p {
			m.s3 = append(m.s3, square(p))
		}
	}
	return m
}

func (m *moments) add(w float64, x []float64) {
	m.s0 += w
	for i, a := range x {
		m.s1[i] += w * a
		for j, b := range x {
			m.s2[i][j] += w * a * b
			if m.s3 != nil {
				for k, c := range x {
					m.s3[i][j][k] += w * a * b * c
				}
			}
		}
	}
}

// stratum adds one stratum's terms, Efron's or Breslow's.
func (l *partialLikelihood) stratum(s *slopes, o []Observation, beta []float64) {
	third := s.change != nil
	shift := largestPredictor(o, beta)
	risk := newMoments(l.p, third)
	for i := 0; i < len(o); {
		gone := newMoments(l.p, third)
		d := 0
		j := i
		for ; j < len(o) && o[j].Time == o[i].Time; j++ {
			eta := dot(beta, o[j].X) - shift
			w := math.Exp(eta)
			risk.add(w, o[j].X)
			if o[j].Lost {
				d++
				gone.add(w, o[j].X)
				s.value += eta
				for k, x := range o[j].X {
					s.score[k] += x
				}
			}
		}
		for k := range d {
			less := 0.0
			if l.ties == Efron {
				less = float64(k) / float64(d)
			}
			s.term(risk, gone, less)
		}
		i = j
	}
}

// term subtracts the logarithm of one denominator, risk − less·gone, and its
// derivatives: the mean, covariance and third central moment of the
// covariates in the risk set.
func (s *slopes) term(risk, gone *moments, less float64) {
	s0 := risk.s0 - less*gone.s0
	s.value -= math.Log(s0)
	p := len(s.score)
	mean := make([]float64, p)
	for a := range p {
		mean[a] = (risk.s1[a] - less*gone.s1[a]) / s0
		s.score[a] -= mean[a]
	}
	second := square(p)
	for a := range p {
		for b := range p {
			second[a][b] = (risk.s2[a][b] - less*gone.s2[a][b]) / s0
			s.information[a][b] += second[a][b] - mean[a]*mean[b]
		}
	}
	if s.change == nil {
		return
	}
	for a := range p {
		for b := range p {
			for c := range p {
				m3 := (risk.s3[a][b][c] - less*gone.s3[a][b][c]) / s0
				s.change[c][a][b] += m3 - mean[a]*second[b][c] - mean[b]*second[a][c] - mean[c]*second[a][b] +
					2*mean[a]*mean[b]*mean[c]
			}
		}
	}
}

// exactStratum adds the terms of the discrete likelihood: of the d lost
// against all ways to choose d from the risk set.
func (l *partialLikelihood) exactStratum(s *slopes, o []Observation, beta []float64) {
	shift := largestPredictor(o, beta)
	for i := 0; i < len(o); {
		j, d := i, 0
		for ; j < len(o) && o[j].Time == o[i].Time; j++ {
			if o[j].Lost {
				d++
				s.value += dot(beta, o[j].X) - shift
				for k, x := range o[j].X {
					s.score[k] += x
				}
			}
		}
		if d > 0 {
			s.choices(o[:j], d, beta, shift)
		}
		i = j
	}
}

// choices subtracts the logarithm of the elementary symmetric polynomial of
// degree d of the risk set's weights, and its derivatives, by the recursion
// that takes or leaves one member at a time.
func (s *slopes) choices(risk []Observation, d int, beta []float64, shift float64) {
	p := len(s.score)
	sums := make([]*moments, d+1) // s0 the polynomial, s1 and s2 its derivatives
	for k := range sums {
		sums[k] = newMoments(p, false)
	}
	sums[0].s0 = 1
	for _, o := range risk {
		w := math.Exp(dot(beta, o.X) - shift)
		for k := d; k > 0; k-- {
			to, from := sums[k], sums[k-1]
			to.s0 += w * from.s0
			for a, x := range o.X {
				to.s1[a] += w * (x*from.s0 + from.s1[a])
				for b, y := range o.X {
					to.s2[a][b] += w * (x*y*from.s0 + x*from.s1[b] + y*from.s1[a] + from.s2[a][b])
				}
			}
		}
	}
	s.term(sums[d], sums[d], 0)
}

func largestPredictor(o []Observation, beta []float64) float64 {
	largest := math.Inf(-1)
	for i := range o {
		largest = math.Max(largest, dot(beta, o[i].X))
	}
	return largest
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}
