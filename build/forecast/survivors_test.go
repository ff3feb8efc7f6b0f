package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// By hand: 90 over an expected 4.5, a range of 1 to 8.
func TestCostEach(t *testing.T) {
	tenth := []float64{1, 1, 1, 1, 1, 1, 1, 1, 1, 1}
	e, ok := counted(tenth).CostEach(90, 0.8)
	assert.True(t, ok)
	assert.InDelta(t, 20, e.Expected, 1e-12)
	assert.Equal(t, EachSurvivor{Expected: e.Expected, Low: 11.25, HasLow: true, High: 90, HasHigh: true}, e)

	e, ok = counted(tenth).CostEach(90, 0.95)
	assert.True(t, ok)
	assert.Equal(t, EachSurvivor{Expected: e.Expected, Low: 10, HasLow: true}, e, "none may survive")

	e, ok = counted([]float64{0.99, 0.01}).CostEach(90, 0.8)
	assert.True(t, ok)
	assert.InDelta(t, 9000, e.Expected, 1e-9)
	assert.Equal(t, EachSurvivor{Expected: e.Expected}, e, "none survived, all through the range")

	e, ok = counted(tenth).CostEach(0, 0.8)
	assert.True(t, ok)
	assert.Equal(t, EachSurvivor{HasLow: true, HasHigh: true}, e, "a gift")

	for _, no := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, ok = counted(tenth).CostEach(no, 0.8)
		assert.False(t, ok, "%v", no)
	}
	_, ok = counted([]float64{1 - 1e-9, 1e-9}).CostEach(math.MaxFloat64, 0.8)
	assert.False(t, ok)
	_, ok = Count{}.CostEach(90, 0.8)
	assert.False(t, ok, "an order of nothing")
}
