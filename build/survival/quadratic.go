package survival

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/mathext"
)

// singular says below which fraction of the largest an eigenvalue counts as 0.
const singular = 1e-10

// square is a matrix of noughts.
func square(n int) [][]float64 {
	cells := make([]float64, n*n)
	rows := make([][]float64, n)
	for i := range rows {
		rows[i] = cells[i*n : (i+1)*n]
	}
	return rows
}

// pseudoInverse is the Moore-Penrose inverse of a symmetric matrix, and its
// rank. A covariance of counts that add up to a constant is always singular;
// this inverse spares choosing which group to leave out (any choice gives the
// same quadratic form).
func pseudoInverse(v [][]float64) (inverse [][]float64, rank int) {
	n := len(v)
	inverse = square(n)
	if n == 0 {
		return inverse, 0
	}
	symmetric := mat.NewSymDense(n, nil)
	for i := range v {
		for j := range i + 1 {
			symmetric.SetSym(i, j, (v[i][j]+v[j][i])/2)
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(symmetric, true) {
		return inverse, 0
	}
	values := eigen.Values(nil)
	var vectors mat.Dense
	eigen.VectorsTo(&vectors)
	largest := values[n-1]
	for k, value := range values {
		if largest <= 0 || value <= singular*largest {
			continue
		}
		rank++
		for i := range n {
			for j := range n {
				inverse[i][j] += vectors.At(i, k) * vectors.At(j, k) / value
			}
		}
	}
	return inverse, rank
}

// quadraticForm is u′V⁻u with the rank of V.
func quadraticForm(u []float64, v [][]float64) (float64, int) {
	inverse, rank := pseudoInverse(v)
	return formOf(u, inverse), rank
}

func formOf(u []float64, inverse [][]float64) float64 {
	q := 0.0
	for i, row := range inverse {
		for j, c := range row {
			q += u[i] * u[j] * c
		}
	}
	return math.Max(0, q)
}

// chiSquareTail is P(X ≥ x), computed as such: one minus the rest would lose
// the small ones.
func chiSquareTail(x float64, degrees int) float64 {
	if x <= 0 {
		return 1
	}
	if degrees == 1 {
		return math.Erfc(math.Sqrt(x / 2))
	}
	return mathext.GammaIncRegComp(float64(degrees)/2, x/2)
}
