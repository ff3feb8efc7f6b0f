package survival

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestThinFrom(t *testing.T) {
	day := func(days ...float64) (subjects []Subject) {
		for _, d := range days {
			subjects = append(subjects, Subject{d, true})
		}
		return subjects
	}
	at, ok := ProductLimit(day(1, 2, 3, 4, 5, 6)).ThinFrom() // 5 left after day 1, 4 after day 2
	assert.True(t, ok)
	assert.Equal(t, 2.0, at)
	at, ok = ProductLimit(day(1, 2, 3)).ThinFrom()
	assert.True(t, ok)
	assert.Equal(t, 0.0, at, "thin from the start")
	var many []Subject
	for i := range 100 {
		many = append(many, Subject{float64(i + 1), false})
	}
	at, ok = ProductLimit(many).ThinFrom()
	assert.True(t, ok)
	assert.Equal(t, 91.0, at, "9 of 100 are left after day 91")
	_, ok = ProductLimit(day(7, 7, 7, 7, 7)).ThinFrom()
	assert.False(t, ok)
	_, ok = Curve{}.ThinFrom()
	assert.False(t, ok)
}

func TestOneMoreLoss(t *testing.T) {
	c := ProductLimit([]Subject{{3, true}, {5, true}, {9, false}, {9, false}})
	for day, want := range map[float64]float64{0: 1. / 4, 3: 1. / 4, 4: 0.75 / 3, 9: 0.5 / 2} {
		fall, ok := c.OneMoreLoss(day)
		assert.True(t, ok)
		assert.InDelta(t, want, fall, 1e-15, "day %v", day)
	}
	_, ok := c.OneMoreLoss(10)
	assert.False(t, ok)
	// It is what one more loss does: another lost of those at risk on day 9.
	d := ProductLimit([]Subject{{3, true}, {5, true}, {9, true}, {9, false}})
	fall, _ := c.OneMoreLoss(9)
	assert.InDelta(t, c.At(9).Share-fall, d.At(9).Share, 1e-15)
}
