package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The obvious way: orders of 1, 2, 3 … until one is large enough.
func TestNeededAgainstTheObvious(t *testing.T) {
	for _, past := range [][]Import{
		{{9, 12}}, {{11, 12}, {14, 16}, {20, 20}}, {{6, 12}, {7, 12}, {5, 12}, {6, 12}}, {{7.3, 11.2}, {8.75, 9.5}},
	} {
		p, ok := Learn(past)
		require.True(t, ok)
		for _, want := range []int{1, 4, 10} {
			for _, chance := range []float64{0.5, 0.8} {
				before := 0.0
				for planned := 1; ; planned++ {
					c, ok := p.Order(planned)
					require.True(t, ok)
					now := c.AtLeast(want)
					require.GreaterOrEqual(t, now, before-1e-12, "a larger order has no smaller chance")
					if before = now; now >= chance-1e-12 { // a mirrored past has P(1 of 1) = ½ to the last bit but one
						got, ok := p.Needed(want, chance)
						assert.True(t, ok)
						assert.Equal(t, planned, got, "%v: %d with %v", past, want, chance)
						break
					}
					if planned == 100 {
						if got, ok := p.Needed(want, chance); ok {
							assert.Greater(t, got, 100)
						}
						break
					}
				}
			}
		}
	}
}

// Where hundreds are wanted the first terms are too small for a double, and
// still the answer is Order's.
func TestNeededOfVeryMany(t *testing.T) {
	p, ok := Learn(times(12, Import{250, 1000}))
	require.True(t, ok)
	planned, ok := p.Needed(700, 0.8)
	require.True(t, ok)
	for _, at := range []struct {
		planned int
		reached bool
	}{{planned - 1, false}, {planned, true}} {
		c, ok := p.Order(at.planned)
		require.True(t, ok)
		assert.Equal(t, at.reached, c.AtLeast(700) >= 0.8, "%d: %v", at.planned, c.AtLeast(700))
	}
}

func TestNeededRefuses(t *testing.T) {
	p, _ := Learn([]Import{{9, 12}})
	for _, alive := range []int{0, -1, Most + 1, math.MaxInt} {
		_, ok := p.Needed(alive, 0.8)
		assert.False(t, ok, "%d", alive)
	}
	hopeless, _ := Learn(times(12, Import{0, 20}))
	_, ok := hopeless.Needed(10, 0.8)
	assert.False(t, ok, "after 240 of 240 were lost no order is large enough")
	for _, no := range []float64{0, 1, -1, math.NaN()} {
		assert.Panics(t, func() { p.Needed(10, no) })
	}
}
