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
