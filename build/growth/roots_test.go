package growth

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

func cm(v float64) measure.Figure[measure.Length] {
	return measure.Figure[measure.Length]{Value: measure.Length(v)}
}

// Number of roots times their mean length is the total length: how papers on
// cuttings report them (common practice).
func TestLengthOf(t *testing.T) {
	tilde := cm(4)
	tilde.Estimate = true
	for _, c := range []struct {
		name  string
		roots Roots
		want  RootLength
	}{
		{"nothing", Roots{}, RootLength{}},
		{"all three", Roots{Length: cm(14), Counted: true, Count: counted(5), Mean: cm(2), Longest: cm(4)}, RootLength{Kind: AllRoots, Length: 14}},
		{"count and mean", Roots{Counted: true, Count: counted(5), Mean: cm(2), Longest: cm(4)}, RootLength{Kind: CountTimes, Length: 10}},
		{"count and longest", Roots{Counted: true, Count: counted(5), Longest: cm(4)}, RootLength{Kind: LongestAlone, Length: 4}},
		{"mean without count", Roots{Mean: cm(2)}, RootLength{}},
		{"count alone", Roots{Counted: true, Count: counted(5)}, RootLength{}},
		{"counted as none", Roots{Counted: true}, RootLength{Kind: CountTimes}},
		{"under a centimetre", Roots{Counted: true, Count: counted(4), Mean: cm(0.5)}, RootLength{Kind: CountTimes, Length: 2}},
		{"stubs", Roots{Longest: cm(0.5)}, RootLength{Kind: LongestAlone, Length: 0.5}},
		{"length under a centimetre", Roots{Length: cm(0.5)}, RootLength{Kind: AllRoots, Length: 0.5}},
		{"mean about, count sure", Roots{Counted: true, Count: counted(4), Mean: tilde}, RootLength{Kind: CountTimes, Length: 16, Estimated: true}},
		{"longest, about", Roots{Longest: tilde}, RootLength{Kind: LongestAlone, Length: 4, Estimated: true}},
	} {
		assert.Equal(t, c.want, LengthOf(c.roots), c.name)
	}
}

func TestRunsAreOfOneKind(t *testing.T) {
	l := func(day measure.Day, kind Kind, length measure.Length) RootLength {
		return RootLength{Day: day, Kind: kind, Length: length}
	}
	runs := Runs([]RootLength{
		l(1, LongestAlone, 2), l(2, NoRootLength, 0), l(3, LongestAlone, 3), l(4, AllRoots, 20), l(5, LongestAlone, 4), l(6, LongestAlone, 5),
	})
	require.Len(t, runs, 3)
	assert.Equal(t, []RootLength{l(1, LongestAlone, 2), l(3, LongestAlone, 3)}, runs[0])
	assert.Equal(t, []RootLength{l(4, AllRoots, 20)}, runs[1])
	assert.Equal(t, []RootLength{l(5, LongestAlone, 4), l(6, LongestAlone, 5)}, runs[2])
	assert.Empty(t, Runs(nil))
}

func TestRootToLeaf(t *testing.T) {
	roots := RootLength{Day: 3, Kind: AllRoots, Length: 14}
	leaves := State{Area: 56, Estimated: true, General: true}
	assert.Equal(t, Ratio{Day: 3, Kind: AllRoots, Known: true, Value: 0.25, Estimated: true, General: true}, RootToLeaf(roots, leaves))
	assert.Equal(t, Ratio{Day: 3, Kind: AllRoots, Leafless: true}, RootToLeaf(roots, State{}))
	assert.Equal(t, Ratio{Day: 3, Kind: AllRoots}, RootToLeaf(roots, State{Why: NeverSized}))
	assert.Equal(t, Ratio{Day: 3}, RootToLeaf(RootLength{Day: 3}, leaves), "a grade alone makes no ratio")
	small := RootToLeaf(roots, State{Area: 0.5})
	assert.True(t, small.Known, "a leaf of half a square centimetre is a leaf")
	assert.InDelta(t, 28, small.Value, 1e-12)
	none := RootToLeaf(RootLength{Day: 3, Kind: CountTimes}, leaves)
	assert.True(t, none.Known, "counted as none is known")
	assert.Zero(t, none.Value)
}
