package forecast

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// outcome is a past import in plain counts: alive of n.
type outcome struct{ alive, n int }

// laboratory forecasts many times over: it keeps what lnChances answered.
// TestTheLaboratoryIsThePackage holds it to Learn and Order, which is also a
// check of Order's products against the gamma functions.
type laboratory struct {
	points grid
	ln     map[outcome][]float64
	plain  map[outcome][]float64
}

func newLaboratory() *laboratory {
	return &laboratory{newGrid(fine), map[outcome][]float64{}, map[outcome][]float64{}}
}

func (l *laboratory) lnChances(o outcome) []float64 {
	if l.ln[o] == nil {
		l.ln[o] = l.points.lnChances(float64(o.alive), float64(o.n))
	}
	return l.ln[o]
}

func (l *laboratory) chances(o outcome) []float64 {
	if l.plain[o] == nil {
		ln := l.lnChances(o)
		l.plain[o] = make([]float64, len(ln))
		for at := range ln {
			l.plain[o][at] = math.Exp(ln[at])
		}
	}
	return l.plain[o]
}

// forecaster makes a Count of past imports; the package is one, wrong models
// are others.
type forecaster func(past []outcome, planned int) Count

func (l *laboratory) evidence(past []outcome) [][]float64 {
	evidence := make([][]float64, len(past))
	for j, o := range past {
		evidence[j] = l.lnChances(o)
	}
	return evidence
}

// forecast is Learn and Order.
func (l *laboratory) forecast(past []outcome, planned int) Count {
	p, ok := l.points.weigh(l.evidence(past))
	if !ok {
		panic("nothing learned")
	}
	chances := make([]float64, planned+1)
	for y := range chances {
		f := l.chances(outcome{y, planned})
		for at, w := range p.weights {
			chances[y] += w * f[at]
		}
	}
	return counted(chances)
}

// plugIn takes the likeliest point of the grid for the truth.
func (l *laboratory) plugIn(past []outcome, planned int) Count {
	evidence, best, top := l.evidence(past), 0, math.Inf(-1)
	for at := range evidence[0] {
		sum := 0.0
		for _, e := range evidence {
			sum += e[at]
		}
		if sum > top {
			best, top = at, sum
		}
	}
	chances := make([]float64, planned+1)
	for y := range chances {
		chances[y] = l.chances(outcome{y, planned})[best]
	}
	return counted(chances)
}

// pooled takes all plants for plants of one large box: a uniform share, then
// beta-binomial with α = 1 + Σ alive, β = 1 + Σ not.
func pooled(past []outcome, planned int) Count {
	alpha, beta := 1.0, 1.0
	for _, o := range past {
		alpha += float64(o.alive)
		beta += float64(o.n - o.alive)
	}
	return counted(betaBinomial(planned, alpha/(alpha+beta), alpha+beta))
}

// betaBinomial gives the chances of 0 to n alive for a known mean and weight.
func betaBinomial(n int, mean, weight float64) []float64 {
	chances := make([]float64, n+1)
	for y := range chances {
		chances[y] = math.Exp(lnBetaBinomial(float64(y), float64(n), mean, weight))
	}
	return chances
}

// urn draws a beta-binomial count without any beta or gamma function: Pólya's
// urn, in which each plant's fate makes the next one's likelier (Eggenberger
// and Pólya 1923, Z Angew Math Mech 3:279-289, from memory).
func urn(r *rand.Rand, n int, mean, weight float64) int {
	alive := 0
	for i := range n {
		if r.Float64()*(weight+float64(i)) < mean*weight+float64(alive) {
			alive++
		}
	}
	return alive
}

func TestTheLaboratoryIsThePackage(t *testing.T) {
	past := []outcome{{9, 12}, {20, 24}, {0, 5}}
	p, ok := Learn([]Import{{9, 12}, {20, 24}, {0, 5}})
	require.True(t, ok)
	want, ok := p.Order(17)
	require.True(t, ok)
	got := newLaboratory().forecast(past, 17)
	for y := range 18 {
		require.InDelta(t, want.AtMost(y), got.AtMost(y), 1e-12)
	}
	require.InDelta(t, want.Expected, got.Expected, 1e-11)
}
