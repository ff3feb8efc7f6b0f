package growth

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

type sizes = []measure.Figure[measure.Size]

func counted(n int) measure.Figure[int] { return measure.Figure[int]{Value: n} }

func about(long, wide float64) measure.Figure[measure.Size] {
	s := size(long, wide)
	s.Estimate = true
	return s
}

// known is a state with an area, by the factor 1/2.
func known(day measure.Day, n int, area measure.Area, estimated bool) State {
	return State{Day: day, Said: true, CountKnown: true, Count: n, Area: area, Estimated: estimated}
}

// Every rule of leaf area, on triangular leaves (k = 1/2) whose areas are whole
// numbers worked by hand: 12x8 is 48, 10x6 is 30, 6x4 is 12 cm².
func TestOver(t *testing.T) {
	for _, c := range []struct {
		name  string
		looks []Leaves
		want  []State // Counted and Sized are filled in from the looks
	}{
		{"all measured", []Leaves{
			{Day: 1, Counted: true, Count: counted(2), Sizes: sizes{size(12, 8), size(10, 6)}},
		}, []State{known(1, 2, 78, false)}},
		{"a part measured", []Leaves{
			{Day: 1, Counted: true, Count: counted(4), Sizes: sizes{size(12, 8), size(10, 6)}},
		}, []State{known(1, 4, 156, true)}},
		{"an estimate of one size", []Leaves{
			{Day: 1, Counted: true, Count: counted(2), Sizes: sizes{size(12, 8), about(10, 6)}},
		}, []State{known(1, 2, 78, true)}},
		{"an estimate of the count", []Leaves{
			{Day: 1, Counted: true, Count: measure.Figure[int]{Value: 1, Estimate: true}, Sizes: sizes{size(12, 8)}},
		}, []State{known(1, 1, 48, true)}},
		{"counted again, not measured", []Leaves{
			{Day: 1, Counted: true, Count: counted(2), Sizes: sizes{size(12, 8), size(10, 6)}},
			{Day: 4, Counted: true, Count: counted(3)},
		}, []State{known(1, 2, 78, false), known(4, 3, 117, true)}},
		{"the mean of the leaves measured last", []Leaves{
			{Day: 1, Counted: true, Count: counted(1), Sizes: sizes{size(12, 8)}},
			{Day: 2, Counted: true, Count: counted(1), Sizes: sizes{size(6, 4)}},
			{Day: 3, Counted: true, Count: counted(2)},
		}, []State{known(1, 1, 48, false), known(2, 1, 12, false), known(3, 2, 24, true)}},
		{"cut without a count", []Leaves{
			{Day: 1, Counted: true, Count: counted(4), Sizes: sizes{size(12, 8)}},
			{Day: 2, Cut: 1},
			{Day: 3, Dropped: 1, Cut: 1},
		}, []State{known(1, 4, 192, true), known(2, 3, 144, true), known(3, 1, 48, true)}},
		{"cut with a count", []Leaves{
			{Day: 1, Counted: true, Count: counted(2), Sizes: sizes{size(12, 8), size(10, 6)}},
			{Day: 2, Cut: 1, Counted: true, Count: counted(1)},
		}, []State{known(1, 2, 78, false), known(2, 1, 39, true)}},
		{"cut with new sizes", []Leaves{
			{Day: 1, Counted: true, Count: counted(2), Sizes: sizes{size(12, 8), size(10, 6)}},
			{Day: 2, Cut: 1, Counted: true, Count: counted(1), Sizes: sizes{size(10, 6)}},
		}, []State{known(1, 2, 78, false), known(2, 1, 30, false)}},
		{"a cut never carries the area", []Leaves{
			{Day: 1, Counted: true, Count: counted(2), Sizes: sizes{size(12, 8), size(12, 8)}},
			{Day: 2, Cut: 1, Counted: true, Count: counted(2)},
		}, []State{known(1, 2, 96, false), known(2, 2, 96, true)}},
		{"all cut", []Leaves{
			{Day: 1, Counted: true, Count: counted(2), Sizes: sizes{size(12, 8)}},
			{Day: 2, Cut: 2},
			{Day: 3, Counted: true, Count: counted(0)},
		}, []State{known(1, 2, 96, true), known(2, 0, 0, true), known(3, 0, 0, false)}},
		{"leafless from the start", []Leaves{
			{Day: 1, Counted: true, Count: counted(0)},
		}, []State{known(1, 0, 0, false)}},
		{"measured without a count, by the last count", []Leaves{
			{Day: 1, Counted: true, Count: counted(2)},
			{Day: 2, Sizes: sizes{size(12, 8), size(10, 6)}},
			{Day: 3, Sizes: sizes{size(6, 4)}},
		}, []State{
			{Day: 1, Said: true, CountKnown: true, Count: 2, Why: NeverSized},
			known(2, 2, 78, true), known(3, 2, 24, true),
		}},
		{"never counted", []Leaves{
			{Day: 1},
			{Day: 2, Sizes: sizes{size(12, 8)}},
			{Day: 3, Cut: 1},
		}, []State{
			{Day: 1, Why: NeverCounted},
			{Day: 2, Said: true, Why: NeverCounted}, {Day: 3, Said: true, Why: NeverCounted},
		}},
		{"a new leaf alone", []Leaves{
			{Day: 1, Counted: true, Count: counted(1), Sizes: sizes{size(12, 8)}},
			{Day: 2, New: true},
			{Day: 3, Dropped: 1},
			{Day: 4, Counted: true, Count: counted(2)},
			{Day: 5, New: true, Counted: true, Count: counted(3)},
		}, []State{
			known(1, 1, 48, false),
			{Day: 2, Said: true, Why: NewUncounted}, {Day: 3, Said: true, Why: NewUncounted},
			known(4, 2, 96, true), known(5, 3, 144, true),
		}},
		{"too many sizes", []Leaves{
			{Day: 1, Counted: true, Count: counted(1), Sizes: sizes{size(12, 8), size(10, 6)}},
			{Day: 2, Counted: true, Count: counted(3)},
		}, []State{
			{Day: 1, Said: true, CountKnown: true, Count: 1, Why: TooManySizes}, known(2, 3, 117, true),
		}},
		{"sizes of a leafless plant", []Leaves{
			{Day: 1, Counted: true, Count: counted(0), Sizes: sizes{size(12, 8)}},
		}, []State{{Day: 1, Said: true, CountKnown: true, Why: TooManySizes}}},
		{"too many gone", []Leaves{
			{Day: 1, Counted: true, Count: counted(1), Sizes: sizes{size(12, 8)}},
			{Day: 2, Cut: 1, Dropped: 1},
			{Day: 3, Dropped: 1},
			{Day: 4, Counted: true, Count: counted(1)},
		}, []State{
			known(1, 1, 48, false), {Day: 2, Said: true, Why: TooManyGone}, {Day: 3, Said: true, Why: CountLost}, known(4, 1, 48, true),
		}},
		{"a look that says nothing of leaves", []Leaves{
			{Day: 1, Counted: true, Count: counted(1), Sizes: sizes{size(12, 8)}},
			{Day: 2},
		}, []State{known(1, 1, 48, false), {Day: 2, CountKnown: true, Count: 1, Area: 48}}},
	} {
		got := Over(c.looks, FactorFor(Triangular, Whole))
		for i := range c.want {
			c.want[i].Counted = c.looks[i].Counted
			c.want[i].Sized = len(c.looks[i].Sizes)
		}
		assert.Equal(t, c.want, got, c.name)
	}
	assert.Empty(t, Over(nil, GeneralFactor))
}

// The mark of the general factor is on every area above 0 that it made.
func TestOverMarksTheGeneralFactor(t *testing.T) {
	states := Over([]Leaves{
		{Day: 1, Counted: true, Count: counted(0)},
		{Day: 2, Counted: true, Count: counted(1), Sizes: sizes{size(10, 10)}},
		{Day: 3, Counted: true, Count: counted(2)},
	}, GeneralFactor)
	require.Len(t, states, 3)
	assert.False(t, states[0].General, "no leaf is no leaf, whatever its shape")
	assert.True(t, states[1].General)
	assert.InDelta(t, 69, float64(states[1].Area), 1e-9)
	assert.True(t, states[2].General)
}

// Whatever the looks say: an area is never below 0, an unknown one is 0, and
// what wasn't counted or wasn't all measured is never shown as measured.
func FuzzOver(f *testing.F) {
	f.Add([]byte{1, 2, 3, 4, 5, 6, 7, 8})
	f.Fuzz(func(t *testing.T, data []byte) {
		var looks []Leaves
		for i := 0; i+1 < len(data) && i < 200; i += 2 {
			a, b := data[i], data[i+1]
			look := Leaves{Day: measure.Day(i), Counted: a&1 > 0, New: a&2 > 0, Cut: int(a >> 2 & 3), Dropped: int(a >> 4 & 3)}
			look.Count = measure.Figure[int]{Value: int(b & 7), Estimate: a&64 > 0}
			for range b >> 3 & 3 {
				look.Sizes = append(look.Sizes, size(float64(b%9+1), float64(a%5+1)))
			}
			looks = append(looks, look)
		}
		states := Over(looks, GeneralFactor)
		if len(states) != len(looks) {
			t.Fatal("a look without a state")
		}
		for i, s := range states {
			if s.Area < 0 || !s.Known() && s.Area != 0 || s.Count < 0 {
				t.Fatalf("%d: %+v", i, s)
			}
			if s.Said && s.Known() && !s.Estimated && (!s.Counted || s.Sized != s.Count) {
				t.Fatalf("%d: measured without being measured: %+v", i, s)
			}
		}
		for _, r := range Rates(looks, states) {
			if r.Days < 1 || r.PerDay != r.PerDay {
				t.Fatalf("%+v", r)
			}
		}
	})
}
