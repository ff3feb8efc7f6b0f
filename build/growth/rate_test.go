package growth

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

// An area that doubles in ten days grows by ln 2 / 10 = 0.0693 a day, whatever
// its size: the definition itself, worked by hand.
func TestRates(t *testing.T) {
	looks := []Leaves{
		{Day: 0, Counted: true, Count: counted(1), Sizes: sizes{size(10, 5)}},   // 0
		{Day: 10, Counted: true, Count: counted(1), Sizes: sizes{size(10, 10)}}, // 1
		{Day: 12},            // 2 says nothing
		{Day: 15, New: true}, // 3 unknown
		{Day: 20, Counted: true, Count: counted(2), Sizes: sizes{size(10, 10), size(10, 5)}}, // 4
		{Day: 22, Cut: 1, Counted: true, Count: counted(1), Sizes: sizes{size(10, 10)}},      // 5
		{Day: 24, Counted: true, Count: counted(2)},                                          // 6 estimated
		{Day: 24, Counted: true, Count: counted(2), Sizes: sizes{size(10, 10), size(10, 9)}}, // 7 the same day
		{Day: 26, Dropped: 2}, // 8 leafless
		{Day: 30, Counted: true, Count: counted(1), Sizes: sizes{size(4, 4)}}, // 9
	}
	states := Over(looks, Own(0.5))
	rates := Rates(looks, states)
	require.Len(t, rates, 3)
	assert.Equal(t, Rate{From: 0, To: 1, Days: 10, PerDay: math.Ln2 / 10}, rates[0])
	assert.Equal(t, [2]int{1, 4}, [2]int{rates[1].From, rates[1].To}, "over a look without an area")
	assert.Equal(t, 10, rates[1].Days)
	assert.InDelta(t, math.Log(1.5)/10, rates[1].PerDay, 1e-12)
	assert.Equal(t, [2]int{5, 6}, [2]int{rates[2].From, rates[2].To}, "none over a cut")
	assert.InDelta(t, math.Ln2/2, rates[2].PerDay, 1e-12)
	assert.True(t, rates[2].Estimated)
}

// A cut at a look between two areas bars the rate, even where that look gives no
// area itself.
func TestRatesNoneOverAnUnmeasuredCut(t *testing.T) {
	looks := []Leaves{
		{Day: 0, Counted: true, Count: counted(3), Sizes: sizes{size(10, 5)}},
		{Day: 3, New: true, Cut: 1},
		{Day: 9, Counted: true, Count: counted(3)},
		{Day: 12, Counted: true, Count: counted(3)},
	}
	rates := Rates(looks, Over(looks, Own(0.5)))
	require.Len(t, rates, 1)
	assert.Equal(t, [2]int{2, 3}, [2]int{rates[0].From, rates[0].To})
	assert.Zero(t, rates[0].PerDay)
}

// Seedlings have leaves of less than a square centimetre; a single fallen leaf
// bars a rate like a cut.
func TestRatesOfSmallPlants(t *testing.T) {
	looks := []Leaves{
		{Day: 1, Counted: true, Count: counted(2), Sizes: sizes{size(1, 0.5), size(1, 0.5)}},
		{Day: 3, Counted: true, Count: counted(2), Sizes: sizes{size(1, 1), size(1, 0.8)}},
		{Day: 5, Dropped: 1, Counted: true, Count: counted(1), Sizes: sizes{size(1, 1)}},
	}
	rates := Rates(looks, Over(looks, Own(0.5)))
	require.Len(t, rates, 1)
	assert.Equal(t, 2, rates[0].Days)
	assert.InDelta(t, math.Log(1.8)/2, rates[0].PerDay, 1e-12)
}

func TestRecovered(t *testing.T) {
	said := func(n int, area float64) State { return known(0, n, measure.Area(area), false) }
	unknown := State{Said: true, Why: NewUncounted}
	silent := said(9, 900)
	silent.Said = false
	countOnly := State{Said: true, CountKnown: true, Count: 4, Why: NeverSized}
	for _, c := range []struct {
		name   string
		record Arrived
		after  []State
		at     int
		by     By
	}{
		{"by area", Arrived{true, 48, true, 2}, []State{said(3, 40), unknown, silent, said(1, 48), said(1, 49)}, 4, ByArea},
		{"a rounding is no growth", Arrived{true, 0.3, true, 2}, []State{said(2, 0.1+0.2)}, -1, ByArea},
		{"not yet", Arrived{true, 48, true, 2}, []State{said(2, 48)}, -1, ByArea},
		{"leafless on arrival", Arrived{true, 0, true, 0}, []State{said(0, 0), said(1, 2)}, 1, ByArea},
		{"by count", Arrived{false, 0, true, 3}, []State{said(3, 900), countOnly}, 1, ByCount},
		{"area on arrival, only counts after", Arrived{true, 48, true, 2}, []State{countOnly}, -1, ByArea},
		{"nothing recorded", Arrived{}, []State{said(3, 40)}, -1, Unjudged},
		{"never looked at again", Arrived{true, 48, true, 2}, nil, -1, ByArea},
	} {
		at, by := Recovered(c.record, c.after)
		assert.Equal(t, c.at, at, c.name)
		assert.Equal(t, c.by, by, c.name)
	}
	assert.Equal(t, Arrived{true, 48, true, 2}, ArrivedAs(said(2, 48)))
	assert.Equal(t, Arrived{false, 0, true, 4}, ArrivedAs(countOnly))
	assert.Equal(t, Arrived{}, ArrivedAs(unknown))
}
