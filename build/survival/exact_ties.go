package survival

import "math"

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
