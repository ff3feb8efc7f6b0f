package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

// The three worked steps of the project's own definitions: at least ×11
// (11.898), ×8.0 (7.975), at most ×0.085, with differences of 1.1 and 1.0 kPa.
// 0.0597 and 1.1898 kPa, and 19.94 for the ratio that isn't floored, were
// computed by another program.
func TestDemand(t *testing.T) {
	bin, damp, room := Deficit(24, 98), Deficit(24, 95), Deficit(22, 55)
	require.InDelta(t, 0.0597, float64(bin), 5e-5)
	require.InDelta(t, 1.1898, float64(room), 5e-5)
	require.InDelta(t, 19.94, float64(room/bin), 0.005)
	for _, c := range []struct {
		name       string
		old, new   Side
		bound      Bound
		exact      float64
		digits     string
		difference float64
		withArea   bool
	}{
		{"bin to room", Side{Deficit: bin}, Side{Deficit: room}, AtLeast, 11.898, "11", 1.1301, false},
		{"from 95 %", Side{Deficit: damp}, Side{Deficit: room}, About, 7.975, "8.0", 1.0406, false},
		{"room to bin", Side{Deficit: room}, Side{Deficit: bin}, AtMost, 0.08405, "0.085", -1.1301, false},
		{"within the bin", Side{Deficit: bin}, Side{Deficit: 0.02}, NoStep, 0, "", -0.0397, false},
		// Halving the leaf halves the step.
		{"half the leaf cut", Side{damp, 200, true}, Side{room, 100, true}, About, 3.9876, "4.0", 1.0406, true},
		{"an area unknown", Side{damp, 200, true}, Side{room, 0, false}, About, 7.975, "8.0", 1.0406, false},
		{"leafless before", Side{damp, 0, true}, Side{room, 100, true}, NoRatio, 0, "", 1.0406, false},
		{"leafless after, before unknown", Side{damp, 0, false}, Side{room, 0, true}, NoRatio, 0, "", 1.0406, false},
		{"at the floor itself", Side{Deficit: 0.1}, Side{Deficit: 0.25}, About, 2.5, "2.5", 0.15, false},
		{"no change", Side{Deficit: room}, Side{Deficit: room}, About, 1, "1.0", 0, false},
		{"a great step", Side{Deficit: 0}, Side{Deficit: 12.46}, AtLeast, 124.6, "120", 12.46, false},
		{"areas make the bound", Side{bin, 100, true}, Side{room, 33, true}, AtLeast, 3.9263, "3.9", 1.1301, true},
	} {
		s := Demand(c.old, c.new)
		assert.Equal(t, c.bound, s.Bound, c.name)
		assert.InDelta(t, c.exact, s.Exact, 5e-4, c.name)
		assert.Equal(t, c.digits, s.Digits(), c.name)
		assert.InDelta(t, c.difference, float64(s.Difference), 5e-5, c.name)
		assert.Equal(t, c.withArea, s.WithArea, c.name)
		assert.Equal(t, c.bound == NoRatio, s.Leafless, c.name)
	}
}

func TestMoveWithUnknownAir(t *testing.T) {
	s := Move(Air{}, Air{Source: Measured, Deficit: 1}, 0, 0, false, false)
	assert.Equal(t, Step{Bound: NoRatio}, s)
	s = Move(Air{Source: TypicalValue, Deficit: 0.5}, Air{Source: Measured, Deficit: 1}, 10, 20, true, true)
	assert.Equal(t, About, s.Bound)
	assert.Equal(t, "4.0", s.Digits())
}

// A bound must never be on the wrong side, and never more than one unit of its
// second digit away.
func TestTwoDigits(t *testing.T) {
	for _, c := range []struct {
		ratio          float64
		down, near, up float64
	}{
		{11.898, 11, 12, 12}, {9.96, 9.9, 10, 10}, {9.91, 9.9, 9.9, 10}, {0.08405, 0.084, 0.084, 0.085},
		{1, 1, 1, 1}, {0.3 / 0.1, 3, 3, 3}, {99.5001, 99, 100, 100}, {100, 100, 100, 100}, {101, 100, 100, 110},
		{0.0999, 0.099, 0.1, 0.1}, {7.975, 7.9, 8, 8},
	} {
		assert.Equal(t, c.down, twoDigits(c.ratio, AtLeast), "%v down", c.ratio)
		assert.Equal(t, c.near, twoDigits(c.ratio, About), "%v nearest", c.ratio)
		assert.Equal(t, c.up, twoDigits(c.ratio, AtMost), "%v up", c.ratio)
	}
	for i := 1; i < 20000; i++ {
		v := math.Exp(float64(i)/1000 - 10)
		down, up := twoDigits(v, AtLeast), twoDigits(v, AtMost)
		require.LessOrEqual(t, down, v*(1+1e-9))
		require.GreaterOrEqual(t, up, v*(1-1e-9))
		require.Less(t, up-down, 0.11*v)
	}
}

func TestBelowFloor(t *testing.T) {
	assert.True(t, BelowFloor(Deficit(25, 97)))
	assert.False(t, BelowFloor(Floor))
	// The floor is what 3 % of humidity are worth at 25 °C, rounded up.
	assert.InDelta(t, 0.095, float64(Deficit(25, 95)-Deficit(25, 98)), 0.0005)
}

func FuzzDemand(f *testing.F) {
	f.Add(0.06, 1.19, 100.0, 50.0)
	f.Add(0.0, 0.0, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, old, new, a1, a2 float64) {
		for _, v := range []float64{old, new, a1, a2} {
			if !(v >= 0 && v <= 1e6) {
				t.Skip()
			}
		}
		s := Demand(Side{kPa(old), measure.Area(a1), true}, Side{kPa(new), measure.Area(a2), true})
		if math.IsNaN(s.Ratio) || math.IsInf(s.Exact, 0) && a1 > 1e-290 || s.Ratio < 0 {
			t.Fatalf("%+v", s)
		}
		if (s.Bound == NoStep || s.Bound == NoRatio) != (s.Digits() == "") && s.Exact > 1e-290 {
			t.Fatalf("%+v has digits %q", s, s.Digits())
		}
	})
}
