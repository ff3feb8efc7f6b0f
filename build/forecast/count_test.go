package forecast

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Ten counts of a tenth each: P(alive ≤ 0) is just 0.1 and P(alive ≤ 8) just
// 0.9, the case in which > and ≥ of the rule differ.
func TestRangeByHand(t *testing.T) {
	tenth := make([]float64, 10)
	for y := range tenth {
		tenth[y] = 0.1
	}
	even := counted(tenth)
	assert.Equal(t, Range{1, 8}, even.Range(0.8))
	assert.Equal(t, Range{0, 9}, even.Range(0.95))
	assert.Equal(t, Range{4, 5}, even.Range(0.1))
	assert.InDelta(t, 4.5, even.Expected, 1e-12)
	for _, c := range []struct {
		chances []float64
		want    Range
	}{
		{[]float64{1}, Range{0, 0}},
		{[]float64{1, 0, 0}, Range{0, 0}},
		{[]float64{0, 0, 1}, Range{2, 2}},
		{[]float64{0.05, 0.9, 0.05}, Range{1, 1}},
		{[]float64{0.2, 0.6, 0.2}, Range{0, 2}},
		{[]float64{3, 6, 3}, Range{0, 2}}, // only their ratio counts
	} {
		assert.Equal(t, c.want, counted(c.chances).Range(0.8), "%v", c.chances)
	}
}

func TestCountAnswers(t *testing.T) {
	c := counted([]float64{0.5, 0.25, 0.25})
	assert.Equal(t, 2, c.Planned)
	for alive, want := range map[int][3]float64{
		-1: {0, 1, 0}, 0: {0.5, 1, 0.5}, 1: {0.75, 0.5, 0.25}, 2: {1, 0.25, 0.25}, 3: {1, 0, 0},
	} {
		assert.InDelta(t, want[0], c.AtMost(alive), 1e-15)
		assert.InDelta(t, want[1], c.AtLeast(alive), 1e-15)
		assert.InDelta(t, want[2], c.Chance(alive), 1e-15)
	}
	assert.Equal(t, Range{}, Count{}.Range(0.8), "an order of nothing")
	for _, no := range []float64{0, 1, -1, math.NaN()} {
		assert.Panics(t, func() { c.Range(no) })
	}
}

// No import, however odd, and no order brings out anything but numbers; ranges
// hold what they say and lie in one another.
func TestNothingButNumbers(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	pasts := [][]Import{{{0, 1}}, {{1, 1}}, {{0, 1e6}}, {{1e6, 1e6}}, {{0, 1e-9}}, {{5e5, 1e6}, {0, 1e6}}, times(40, Import{0, 30})}
	for range 12 {
		var past []Import
		for range 1 + r.IntN(5) {
			n := 1 + 30*r.Float64()
			past = append(past, Import{n * r.Float64(), n})
		}
		pasts = append(pasts, past)
	}
	for _, past := range pasts {
		p, ok := Learn(past)
		require.True(t, ok, "%v", past)
		for _, planned := range []int{1, 2, 13, 60} {
			c, ok := p.Order(planned)
			require.True(t, ok)
			assert.True(t, c.Expected > 0 && c.Expected < float64(planned), "%v: %v of %d", past, c.Expected, planned)
			sum := 0.0
			for y := range planned + 1 {
				assert.True(t, c.Chance(y) >= 0 && c.Chance(y) <= 1)
				sum += c.Chance(y)
			}
			assert.InDelta(t, 1, sum, 1e-12)
			narrow, wide := c.Range(0.8), c.Range(0.95)
			assert.True(t, 0 <= wide.Low && wide.Low <= narrow.Low && narrow.Low <= narrow.High && narrow.High <= wide.High && wide.High <= planned)
			for confidence, r := range map[float64]Range{0.8: narrow, 0.95: wide} {
				assert.GreaterOrEqual(t, c.AtMost(r.High)-c.AtMost(r.Low-1), confidence-1e-11)
			}
			e, ok := c.CostEach(100, 0.8)
			assert.True(t, ok)
			for _, v := range []float64{e.Expected, e.Low, e.High} {
				assert.False(t, math.IsNaN(v) || math.IsInf(v, 0))
			}
		}
	}
}

func TestOrdersThatAreNone(t *testing.T) {
	p, _ := Learn([]Import{{9, 12}})
	for _, planned := range []int{-1, 0, Most + 1, math.MaxInt} {
		_, ok := p.Order(planned)
		assert.False(t, ok, "%d", planned)
	}
}
