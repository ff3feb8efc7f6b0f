package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/survival"
)

func TestCounted(t *testing.T) {
	i, ok := Counted(9, 12)
	assert.True(t, ok)
	assert.Equal(t, Import{9, 12}, i)
	for _, no := range [][2]int{{0, 0}, {-1, 3}, {4, 3}, {0, -1}} {
		_, ok := Counted(no[0], no[1])
		assert.False(t, ok, "%v", no)
	}
}

// By hand: n* = share(1−share)/variance, y* = n*·share.
func TestEstimated(t *testing.T) {
	for _, c := range []struct {
		name            string
		share, variance float64
		known           int
		want            Import
		ok              bool
	}{
		{"a binomial share is its own count", 0.75, 0.75 * 0.25 / 12, 12, Import{9, 12}, true},
		{"more variance, fewer plants", 0.5, 0.05, 99, Import{2.5, 5}, true},
		{"all alive", 1, 0, 7, Import{7, 7}, true},
		{"all lost", 0, 0, 7, Import{0, 7}, true},
		{"all alive, nobody known", 1, 0, 0, Import{}, false},
		{"no variance", 0.5, 0, 7, Import{}, false},
		{"a variance too small to be one", 0.5, math.SmallestNonzeroFloat64, 7, Import{}, false},
		{"no number", math.NaN(), 0.1, 7, Import{}, false},
		{"no number for a variance", 0.5, math.NaN(), 7, Import{}, false},
		{"above 1", 1.1, 0.1, 7, Import{}, false},
		{"below 0", -0.1, 0.1, 7, Import{}, false},
	} {
		got, ok := Estimated(c.share, c.variance, c.known)
		require.Equal(t, c.ok, ok, c.name)
		if ok {
			assert.InDelta(t, c.want.Alive, got.Alive, 1e-12, c.name)
			assert.InDelta(t, c.want.Lines, got.Lines, 1e-12, c.name)
		}
	}
}

func lines(n int, time float64, lost bool) []survival.Subject {
	var all []survival.Subject
	for range n {
		all = append(all, survival.Subject{Time: time, Lost: lost})
	}
	return all
}

func TestFollowed(t *testing.T) {
	join := func(parts ...[]survival.Subject) (all []survival.Subject) {
		for _, p := range parts {
			all = append(all, p...)
		}
		return all
	}
	for _, c := range []struct {
		name  string
		lines []survival.Subject
		want  Import
		ok    bool
	}{
		{"nobody", nil, Import{}, false},
		{"nobody unknown", join(lines(3, 9, true), lines(9, 84, false)), Import{9, 12}, true},
		{"lost on the day, left alive on it, lost after it", join(lines(2, 42, true), lines(3, 42, false), lines(4, 50, true)), Import{7, 9}, true},
		{"all lost by it", lines(4, 20, true), Import{0, 4}, true},
		{"all alive, two unknown", join(lines(2, 10, false), lines(5, 60, false)), Import{5, 5}, true},
		{"all alive, all unknown", lines(6, 10, false), Import{}, false},
		{"the last one followed was lost", join(lines(1, 10, false), lines(5, 30, true)), Import{0, 5}, true},
		{"nobody followed so far", join(lines(2, 5, true), lines(5, 30, false)), Import{}, false},
		// The six lines of survival's TestSixLines: share 5/8 after day 5 of 6,
		// 4 at risk. Greenwood of the six: Σ d/(n(n−d)) = 1/30 + 1/12 = 7/60, so
		// n* = (3/8)/((5/8)·7/60) = 36/7 and y* = 45/14.
		{"some unknown", []survival.Subject{{Time: 0, Lost: true}, {Time: 0}, {Time: 5, Lost: true}, {Time: 49, Lost: true}, {Time: 49}, {Time: 70}}, Import{45.0 / 14, 36.0 / 7}, true},
	} {
		got, ok := Followed(c.lines, 42)
		require.Equal(t, c.ok, ok, c.name)
		if ok {
			assert.InDelta(t, c.want.Alive, got.Alive, 1e-12, c.name)
			assert.InDelta(t, c.want.Lines, got.Lines, 1e-12, c.name)
		}
	}
}

// With nobody unknown Greenwood's variance is the binomial one, so both ways
// lead to the plain counts.
func TestEstimatedAgreesWithCounts(t *testing.T) {
	curve := survival.ProductLimit(append(lines(3, 4, true), append(lines(2, 30, true), lines(8, 84, false)...)...))
	at := curve.At(42)
	got, ok := Estimated(at.Share, at.StdError*at.StdError, 13)
	require.True(t, ok)
	assert.InDelta(t, 8, got.Alive, 1e-12)
	assert.InDelta(t, 13, got.Lines, 1e-12)
}
