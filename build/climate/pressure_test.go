package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

type (
	celsius = measure.Temperature
	percent = measure.Humidity
	kPa     = measure.Pressure
)

// saturationRows are eq. 11 in three decimals, computed in double precision by
// another program. FAO-56 Annex 2, Table 2.3 is remembered as the same figures;
// the printed table was not seen.
var saturationRows = map[celsius]float64{
	1: 0.657, 2: 0.706, 3: 0.758, 4: 0.813, 5: 0.872, 5.5: 0.903, 6: 0.935, 6.5: 0.968, 7: 1.002, 8: 1.073, 8.5: 1.110,
	9: 1.148, 10: 1.228, 10.5: 1.270, 11: 1.313, 11.5: 1.357, 12: 1.403, 12.5: 1.449, 13: 1.498, 13.5: 1.547, 14: 1.599, 14.5: 1.651,
	15: 1.705, 15.5: 1.761, 16: 1.818, 16.5: 1.877, 17: 1.938, 17.5: 2.000, 18: 2.064, 18.5: 2.130, 19: 2.197, 19.5: 2.267, 20: 2.338,
	21: 2.487, 21.5: 2.564, 22: 2.644, 22.5: 2.726, 23: 2.809, 23.5: 2.896, 24: 2.984, 24.5: 3.075, 25: 3.168, 26: 3.361, 26.5: 3.462,
	27: 3.565, 27.5: 3.671, 28: 3.780, 28.5: 3.891, 29: 4.006, 29.5: 4.123, 30: 4.243, 31: 4.493, 32: 4.755, 33: 5.030, 35: 5.623,
}

func TestSaturationRows(t *testing.T) {
	require.Len(t, saturationRows, 55)
	for at, want := range saturationRows {
		assert.InDelta(t, want, float64(Saturation(at)), 0.0005, "%v °C", at)
	}
}

// Handbook of Chemistry and Physics, 1992–93 (read in a copy of the page): vapour
// pressure of water as measured, in kPa. An equation can't be its own witness;
// this is one that doesn't know it.
func TestSaturationAgainstMeasured(t *testing.T) {
	for at, want := range map[celsius]float64{
		1: 0.65716, 5: 0.8726, 10: 1.2281, 15: 1.7056, 18: 2.0644, 20: 2.3388, 22: 2.6447, 24: 2.985, 25: 3.169, 26: 3.3629,
		28: 3.7818, 30: 4.2455, 32: 4.7578,
	} {
		assert.InEpsilon(t, want, float64(Saturation(at)), 0.0007, "%v °C", at)
	}
}

// Other published formulae at 15 to 32 °C, computed by another program: Buck
// 1981 (coefficients from memory), Buck 1996, WMO/CIMO Guide No. 8 (2008) and
// Sonntag 1994 (the last three read). All lie within 0.32 % of eq. 11.
func TestSaturationAmongFormulae(t *testing.T) {
	for at, others := range map[celsius][]float64{
		15: {1.70457, 1.70517, 1.70167, 1.70571},
		20: {2.33728, 2.33834, 2.33260, 2.33925},
		25: {3.16703, 3.16853, 3.16006, 3.16990},
		30: {4.24351, 4.24513, 4.23372, 4.24703},
		32: {4.75610, 4.75755, 4.74505, 4.75968},
	} {
		for _, want := range others {
			assert.InEpsilon(t, want, float64(Saturation(at)), 0.0032, "%v °C", at)
		}
	}
}

// A common misprint has 273.3 for 237.3; a public test file asserts its figures
// 1.983074, 5.539641 and 0.316988 at 20, 40 and −10 °C. They must not be ours.
func TestSaturationIsNotTheMisprint(t *testing.T) {
	for at, wrong := range map[celsius]float64{20: 1.983074, 40: 5.539641, -10: 0.316988} {
		misprint := 0.6108 * math.Exp(17.27*float64(at)/(float64(at)+273.3))
		require.InDelta(t, wrong, misprint, 5e-7, "the misprint is what we take it for")
		assert.Greater(t, math.Abs(float64(Saturation(at))-wrong)/wrong, 0.09, "%v °C", at)
	}
}

// FAO-56 example 3: 24.5 and 15.0 °C give 3.075 and 1.705 (read), their mean
// 2.39; saturation at the mean temperature, 2.30, is the wrong way (both from
// memory and recomputed: 2.38999, 2.30234).
func TestExample3(t *testing.T) {
	hot, cold := float64(Saturation(24.5)), float64(Saturation(15))
	assert.InDelta(t, 3.07465, hot, 5e-6)
	assert.InDelta(t, 1.70535, cold, 5e-6)
	assert.InDelta(t, 2.38999, (hot+cold)/2, 1e-5) // 2.3899976: cut off, not rounded
	assert.InDelta(t, 2.30234, float64(Saturation(19.75)), 5e-6)
}

// FAO-56 examples 5, 6 and 18, daily extremes. Example 5: 18 °C 82 % and 25 °C
// 54 % give a vapour pressure of 1.70 by eq. 17 (read; 1.70154 recomputed) and
// 1.78 by eq. 19 (read; 1.77880), with dew points 14.96 and 15.65 (read).
// Example 6: deficit 0.91 (from memory; recomputed 0.91435). Example 18: 12.3 °C
// 84 %, 21.5 °C 63 %: es 1.997, ea 1.409 (read; 1.99749, 1.40862 recomputed).
func TestExamples5And6And18(t *testing.T) {
	pair := func(min, max celsius, rhMax, rhMin percent) (es, ea float64) {
		return float64(Saturation(min)+Saturation(max)) / 2, float64(Vapour(min, rhMax)+Vapour(max, rhMin)) / 2
	}
	es, ea := pair(18, 25, 82, 54)
	assert.InDelta(t, 2.61588, es, 5e-6)
	assert.InDelta(t, 1.70154, ea, 5e-6)
	assert.InDelta(t, 1.77880, es*0.68, 5e-6)
	assert.InDelta(t, 1.69247, float64(Vapour(18, 82)), 5e-6, "eq. 18")
	assert.InDelta(t, 0.91435, es-ea, 5e-6)
	// The mean of the two readings' deficits is the same sum, taken apart.
	assert.InDelta(t, 0.91435, float64(Deficit(18, 82)+Deficit(25, 54))/2, 5e-6)
	es, ea = pair(12.3, 21.5, 84, 63)
	assert.InDelta(t, 1.99749, es, 5e-6)
	assert.InDelta(t, 1.40862, ea, 5e-6)
}

// Deficits computed in double precision by another program, three decimals.
func TestDeficitGrid(t *testing.T) {
	humidities := []percent{99, 95, 90, 80, 70, 60, 55, 50, 40}
	for at, row := range map[celsius][]float64{
		18: {0.021, 0.103, 0.206, 0.413, 0.619, 0.826, 0.929, 1.032, 1.238},
		20: {0.023, 0.117, 0.234, 0.468, 0.701, 0.935, 1.052, 1.169, 1.403},
		22: {0.026, 0.132, 0.264, 0.529, 0.793, 1.058, 1.190, 1.322, 1.586},
		24: {0.030, 0.149, 0.298, 0.597, 0.895, 1.194, 1.343, 1.492, 1.790},
		25: {0.032, 0.158, 0.317, 0.634, 0.950, 1.267, 1.425, 1.584, 1.901},
		26: {0.034, 0.168, 0.336, 0.672, 1.008, 1.345, 1.513, 1.681, 2.017},
		28: {0.038, 0.189, 0.378, 0.756, 1.134, 1.512, 1.701, 1.890, 2.268},
		30: {0.042, 0.212, 0.424, 0.849, 1.273, 1.697, 1.909, 2.122, 2.546},
	} {
		for i, want := range row {
			assert.InDelta(t, want, float64(Deficit(at, humidities[i])), 0.0005, "%v °C %v", at, humidities[i])
		}
	}
	assert.Zero(t, Deficit(25, 100))
	assert.Equal(t, Saturation(25), Deficit(25, 0))
}

// The humidity for 0.3 and 1.0 kPa, computed by another program, one decimal.
func TestHumidityFor(t *testing.T) {
	temperatures := []celsius{18, 20, 22, 24, 26, 28}
	for d, row := range map[kPa][]float64{
		0.3: {85.5, 87.2, 88.7, 89.9, 91.1, 92.1},
		1.0: {51.6, 57.2, 62.2, 66.5, 70.3, 73.5},
	} {
		for i, want := range row {
			rh, ok := HumidityFor(temperatures[i], d)
			require.True(t, ok)
			assert.InDelta(t, want, float64(rh), 0.0501, "%v °C %v kPa", temperatures[i], d)
			assert.InDelta(t, float64(d), float64(Deficit(temperatures[i], rh)), 1e-12)
		}
	}
	rh, ok := HumidityFor(20, 0)
	assert.True(t, ok)
	assert.Equal(t, percent(100), rh)
	rh, ok = HumidityFor(20, Saturation(20))
	assert.True(t, ok)
	assert.Zero(t, rh)
	for _, d := range []kPa{-0.1, 2.4, kPa(math.NaN())} {
		_, ok := HumidityFor(20, d)
		assert.False(t, ok, "%v kPa at 20 °C", d)
	}
}

// Dew points by the exact inverse, computed by another program; beside them FAO
// eq. 3-11 (coefficients from memory), which the exact one must stay within
// 0.01 °C of, and which gives FAO's printed 14.96 and 15.65 for example 5.
func TestDewPoint(t *testing.T) {
	rounded := func(ea float64) float64 {
		return (116.91 + 237.3*math.Log(ea)) / (16.78 - math.Log(ea))
	}
	for _, c := range []struct {
		t           celsius
		rh          percent
		exact, fao  float64
		description string
	}{
		{25, 60, 16.696, 16.688, "25 °C 60 %"},
		{22, 50, 11.106, 11.099, "22 °C 50 %"},
		{20, 80, 16.445, 16.437, "20 °C 80 %"},
		{24, 98, 23.664, 23.655, "24 °C 98 %"},
		{18, 100 * 1.70154 / 2.0639893, 14.965, 14.958, "example 5, eq. 17"},
		{18, 100 * 1.77880 / 2.0639893, 15.657, 15.649, "example 5, eq. 19"},
	} {
		dew, ok := DewPoint(c.t, c.rh)
		require.True(t, ok)
		ea := float64(Vapour(c.t, c.rh))
		assert.InDelta(t, c.exact, float64(dew), 0.00051, c.description)
		assert.InDelta(t, c.fao, rounded(ea), 0.00051, c.description)
		assert.InDelta(t, rounded(ea), float64(dew), 0.01, c.description)
		assert.InDelta(t, ea, float64(Saturation(dew)), 1e-12, "the inverse is exact")
	}
	assert.InDelta(t, 14.96, rounded(1.70154), 0.0051)
	assert.InDelta(t, 15.65, rounded(1.77880), 0.0051)
	dew, ok := DewPoint(24, 100)
	require.True(t, ok)
	assert.InDelta(t, 24, float64(dew), 1e-9)
	_, ok = DewPoint(24, 0.5)
	assert.True(t, ok)
	_, ok = DewPoint(24, 0)
	assert.False(t, ok, "dry air has no dew point")
}

// Leaf to air, computed by another program; the formula also stands in the
// documentation of an R package on leaf gas exchange, and a trade article prints
// the same 2.121 and 1.658 (both read).
func TestLeafDeficit(t *testing.T) {
	for _, c := range []struct {
		air  celsius
		rh   percent
		leaf Offset
		want float64
	}{
		{26, 60, -2, 0.967}, {30, 50, -2, 1.658}, {25, 60, -2, 0.909}, {25, 60, -1, 1.083}, {25, 60, 1, 1.461},
		{24, 99, 0.5, 0.121}, {24, 98, 1, 0.244}, {24, 90, -1, 0.124},
		{26, 60, 0, 1.345}, {30, 50, 0, 2.121}, {24, 99, 0, 0.030},
	} {
		got, condensation := LeafDeficit(c.air, c.rh, c.leaf)
		assert.False(t, condensation)
		assert.InDelta(t, c.want, float64(got), 0.0006, "%v °C %v leaf %+v", c.air, c.rh, c.leaf)
	}
	got, condensation := LeafDeficit(24, 99, -1)
	assert.True(t, condensation, "a leaf below the dew point")
	assert.Zero(t, got)
	assert.Equal(t, Deficit(24, 98), func() kPa { d, _ := LeafDeficit(24, 98, 0); return d }(), "no offset is assumed")
}
