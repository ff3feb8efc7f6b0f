package readings

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"wardian/content/measure"
)

func at(minute int, t measure.Temperature) Reading {
	return Reading{Moment: measure.Moment{Day: 20000 + measure.Day(minute/1440), Minute: minute % 1440}, Temperature: t, Humidity: 90}
}

func TestMergeKeepsTheEarlierPiece(t *testing.T) {
	a := []Reading{at(0, 1), at(60, 1), at(120, 1)}
	b := []Reading{at(1500, 2), at(120, 2), at(60, 1)}
	c := []Reading{at(120, 3), at(90, 3)}
	before := slices.Clone(b)
	assert.Equal(t, []Reading{at(0, 1), at(60, 1), at(90, 3), at(120, 1), at(1500, 2)}, Merge(a, b, c))
	assert.Equal(t, before, b, "the pieces stay as they were")
	assert.Equal(t, []Conflict{{at(120, 1), at(120, 2), 1}, {at(120, 1), at(120, 3), 2}}, Conflicts(a, b, c))
	assert.Empty(t, Conflicts(a, a, a))
	assert.Empty(t, Merge())
	assert.Empty(t, Merge(nil, nil))
}

func TestGaps(t *testing.T) {
	list := []Reading{at(0, 1), at(60, 1), at(60+24*60, 1), at(61+48*60, 1)}
	assert.Equal(t, []Gap{{list[2].Moment, list[3].Moment}}, Gaps(list, 24))
	assert.InDelta(t, 24+1.0/60, float64(Gaps(list, 24)[0].Hours()), 1e-9)
	assert.Len(t, Gaps(list, 23), 2)
	assert.Empty(t, Gaps(list[:1], 0))
	assert.Empty(t, Gaps(nil, 0))
}
