package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rats: tumours among control rats of 71 earlier groups, count and size. Tarone
// 1982, Biometrics 38:215-220; Gelman et al., Bayesian Data Analysis, chapter 5
// (both from memory; their sums, 267 of 1739, are held below).
var rats = []struct{ y, n, times float64 }{
	{0, 20, 7}, {0, 19, 4}, {0, 18, 2}, {0, 17, 1}, {1, 20, 4}, {1, 19, 2}, {1, 18, 2},
	{2, 25, 1}, {2, 24, 1}, {2, 23, 1}, {2, 20, 6}, {1, 10, 1}, {5, 49, 1}, {2, 19, 1},
	{5, 46, 1}, {3, 27, 1}, {2, 17, 1}, {7, 49, 1}, {7, 47, 1}, {3, 20, 2}, {2, 13, 1},
	{9, 48, 1}, {10, 50, 1}, {4, 20, 7}, {10, 48, 1}, {4, 19, 3}, {5, 22, 1}, {11, 46, 1},
	{12, 49, 1}, {5, 20, 2}, {6, 23, 1}, {5, 19, 1}, {6, 22, 1}, {6, 20, 3}, {16, 52, 1},
	{15, 47, 1}, {15, 46, 1}, {9, 24, 1}, {4, 14, 1},
}

func ratsLikelihood(alpha, beta float64) (ln float64) {
	for _, r := range rats {
		ln += r.times * lnBetaBinomial(r.y, r.n, alpha/(alpha+beta), alpha+beta)
	}
	return ln
}

// TestRats: the marginal likelihood is largest at α 2.3416, β 14.1148 (R 4.2.2,
// optim on lbeta, gives 2.3416148 and 14.1148058), and with a prior of
// (α+β)^(−5/2) the posterior means are 2.40 and 14.32 (the book prints 2.4 and
// 14.3, from memory).
func TestRats(t *testing.T) {
	groups, y, n := 0.0, 0.0, 0.0
	for _, r := range rats {
		groups += r.times
		y += r.times * r.y
		n += r.times * r.n
	}
	require.Equal(t, [3]float64{71, 267, 1739}, [3]float64{groups, y, n})

	// Compass search: a step that finds nothing better is halved.
	alpha, beta, best := 2.0, 14.0, ratsLikelihood(2, 14)
	for step := 0.5; step > 1e-7; {
		moved := false
		for _, d := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 6}, {-1, -6}} {
			if ln := ratsLikelihood(alpha+step*d[0], beta+step*d[1]); ln > best {
				alpha, beta, best, moved = alpha+step*d[0], beta+step*d[1], ln, true
			}
		}
		if !moved {
			step /= 2
		}
	}
	assert.InDelta(t, 2.3416, alpha, 5e-5)
	assert.InDelta(t, 14.1148, beta, 5e-5)

	// Midpoints in ln(α/β), ln(α+β), where the element of area is αβ dα/α dβ/β.
	total, meanAlpha, meanBeta := 0.0, 0.0, 0.0
	const points = 60
	for i := range points {
		for j := range points {
			odds, size := math.Exp(-2.5+1.5*(float64(i)+0.5)/points), math.Exp(1+5*(float64(j)+0.5)/points)
			a := size * odds / (1 + odds)
			b := size - a
			w := math.Exp(ratsLikelihood(a, b)-best) * math.Pow(a+b, -2.5) * a * b
			total += w
			meanAlpha += w * a
			meanBeta += w * b
		}
	}
	assert.InDelta(t, 2.40, meanAlpha/total, 0.005)
	assert.InDelta(t, 14.32, meanBeta/total, 0.005)
}

// By hand, in fractions: α = β = 1 makes every count as likely as another
// (Bayes 1763), and small ones follow from Γ(x+1) = xΓ(x).
func TestBetaBinomialByHand(t *testing.T) {
	for y := range 10 {
		assert.InDelta(t, math.Log(0.1), lnBetaBinomial(float64(y), 9, 0.5, 2), 1e-13)
	}
	// α = 2, β = 1, n = 2: αα′/κκ′ for both alive = 2·3/(3·4), one 2·2·1/12, none 1·2/12.
	for y, want := range []float64{2.0 / 12, 4.0 / 12, 6.0 / 12} {
		assert.InDelta(t, want, math.Exp(lnBetaBinomial(float64(y), 2, 2.0/3, 3)), 1e-14)
	}
	// The mean is n·mean, the variance n·m(1−m)·(κ+n)/(κ+1), whatever the weight.
	for _, c := range []struct{ n, mean, weight float64 }{{7, 0.3, 0.06}, {12, 0.9, 5}, {24, 0.5, 1000}} {
		sum, first, second := 0.0, 0.0, 0.0
		for y, f := range betaBinomial(int(c.n), c.mean, c.weight) {
			sum += f
			first += float64(y) * f
			second += float64(y*y) * f
		}
		assert.InDelta(t, 1, sum, 1e-11)
		assert.InDelta(t, c.n*c.mean, first, 1e-9)
		assert.InDelta(t, c.n*c.mean*(1-c.mean)*(c.weight+c.n)/(c.weight+1), second-first*first, 1e-9)
	}
}
