package survival

import "math"

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
