package growth

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

// outline is a closed curve, t running from 0 to 1.
type outline func(t float64) (x, y float64)

// blade measures an outline whose midrib lies along x: its area by the shoelace
// formula, its greatest extent across, and its extent along from a given x. This
// knows no formula of any shape and is the outside check of all of them.
func blade(o outline, from float64) (area, length, width float64) {
	const n = 60000 // a multiple of 3 and 4, so that corners are points
	right, top, bottom := math.Inf(-1), math.Inf(-1), math.Inf(1)
	x0, y0 := o(0)
	for i := 1; i <= n; i++ {
		x, y := o(float64(i) / n)
		area += (x0*y - x*y0) / 2
		right, top, bottom = max(right, x), max(top, y), min(bottom, y)
		x0, y0 = x, y
	}
	return math.Abs(area), right - from, top - bottom
}

func ellipse(long, wide float64) outline {
	return func(t float64) (float64, float64) {
		return long / 2 * math.Cos(2*math.Pi*t), wide / 2 * math.Sin(2*math.Pi*t)
	}
}

// halves is ovate: two half ellipses of different lengths on one width.
func halves(base, tip, wide float64) outline {
	return func(t float64) (float64, float64) {
		x := math.Cos(2 * math.Pi * t)
		if x < 0 {
			x *= base
		} else {
			x *= tip
		}
		return x, wide / 2 * math.Sin(2*math.Pi*t)
	}
}

func polygon(points ...[2]float64) outline {
	return func(t float64) (float64, float64) {
		at := t * float64(len(points))
		i := min(int(at), len(points)-1)
		a, b, part := points[i], points[(i+1)%len(points)], at-float64(i)
		return a[0] + (b[0]-a[0])*part, a[1] + (b[1]-a[1])*part
	}
}

// cardioid is a heart with its notch at x = 0.
func cardioid(t float64) (float64, float64) {
	r := 1 + math.Cos(2*math.Pi*t)
	return r * math.Cos(2*math.Pi*t), r * math.Sin(2*math.Pi*t)
}

func TestFactorsAgainstIntegration(t *testing.T) {
	for _, c := range []struct {
		shape   Shape
		length  Measured
		outline outline
		from    float64 // where the length begins, on the midrib
		printed float64 // computed by another program, six decimals
	}{
		{Elliptic, Whole, ellipse(20, 12), -10, 0.785398},
		{Orbicular, Whole, ellipse(9, 9), -4.5, 0.785398},
		{Ovate, Whole, halves(5, 11, 8), -5, 0.785398},
		{Obovate, Whole, halves(11, 5, 8), -11, 0.785398},
		{Triangular, Whole, polygon([2]float64{0, -4}, [2]float64{14, 0}, [2]float64{0, 4}), 0, 0.5},
		{Rhombic, Whole, polygon([2]float64{-5, 0}, [2]float64{0, -3}, [2]float64{5, 0}, [2]float64{0, 3}), -5, 0.5},
		{Rhombic, Whole, polygon([2]float64{-2, 0}, [2]float64{0, -3}, [2]float64{8, 0}, [2]float64{0, 3}), -2, 0.5},
		{Cordate, Whole, cardioid, -0.25, 0.806133}, // the lobes end at x = −1/4
		{Cordate, SinusToTip, cardioid, 0, 0.906900},
	} {
		k := FactorFor(c.shape, c.length)
		area, length, width := blade(c.outline, c.from)
		assert.False(t, k.General, c.shape)
		assert.InDelta(t, c.printed, k.K, 5e-7, "%s, %s", c.shape, c.length)
		assert.InEpsilon(t, area/(length*width), k.K, 1e-6, "%s, %s", c.shape, c.length)
		assert.InEpsilon(t, area, float64(k.Leaf(size(length, width).Value)), 1e-6, c.shape)
	}
}

func size(long, wide float64) measure.Figure[measure.Size] {
	return measure.Figure[measure.Size]{Value: measure.Size{Length: measure.Length(long), Width: measure.Length(wide)}}
}

// lens is a blade of two arcs that meet at this half angle at both ends.
func lens(half float64) outline {
	return func(t float64) (float64, float64) {
		side, t := 1.0, t*2
		if t > 1 {
			side, t = -1, t-1
		}
		angle := half * (2*t - 1)
		return side * -math.Sin(angle), side * (math.Cos(angle) - math.Cos(half))
	}
}

// The general factor is that of a lens of 45°, rounded. Lenses of 30 to 90° have
// 0.67614, 0.68901, 0.70920 and 0.785398 (computed by another program). It lies
// between 1/2 and π/4, as published factors do (Shi et al. 2019, Trees).
func TestGeneralFactor(t *testing.T) {
	for degrees, printed := range map[float64]float64{30: 0.67614, 45: 0.68901, 60: 0.70920, 90: 0.785398} {
		half := degrees * math.Pi / 180
		area, length, width := blade(lens(half), -math.Sin(half))
		assert.InDelta(t, printed, area/(length*width), 6e-6, "%v°", degrees)
	}
	assert.InDelta(t, 0.68901, GeneralFactor.K, 0.005)
	assert.Greater(t, GeneralFactor.K, 0.5)
	assert.Less(t, GeneralFactor.K, math.Pi/4)
	for _, k := range []Factor{
		FactorFor("", ""), FactorFor("sagittate", Whole), FactorFor(Ovate, SinusToTip),
	} {
		assert.Equal(t, GeneralFactor, k)
		assert.True(t, k.General)
	}
	assert.Equal(t, FactorFor(Cordate, Whole), FactorFor(Cordate, ""), "whole, if nothing is said")
}

// 20 × 12 cm and the factors of published papers: Schrader et al. 2021 (0.39 to
// 0.79 over 780 taxa, abstract read); Andarini, Afza and Sutoro 2020 for taro
// (0.9462, 0.9109, 0.8860 by length over width; read). Products computed by
// another program.
func TestLeafAgainstPublishedFactors(t *testing.T) {
	for _, c := range []struct {
		k          Factor
		long, wide float64
		want       float64
	}{
		{FactorFor(Elliptic, Whole), 20, 12, 188.496}, {FactorFor(Triangular, Whole), 20, 12, 120}, {Own(2.0 / 3), 20, 12, 160},
		{Own(0.39), 20, 12, 93.6}, {Own(0.79), 20, 12, 189.6},
		{Own(0.9462), 30, 28, 794.81}, {Own(0.9109), 30, 26, 710.50}, {Own(0.8860), 30, 24, 637.92},
		{Own(0.9109), 33, 30, 901.79}, {Own(0.8860), 36, 30, 956.88},
	} {
		got := c.k.Leaf(size(c.long, c.wide).Value)
		assert.InDelta(t, c.want, float64(got), 0.0051)
		require.False(t, c.k.General)
	}
}
