package climate

import (
	"math"

	"wardian/content/measure"
)

// The coefficients of FAO-56 eq. 11. A common misprint has 273.3 for 237.3.
const (
	tetensA = 0.6108 // kPa
	tetensB = 17.27
	tetensC = 237.3 // °C
)

// Saturation is the saturation vapour pressure over water at a temperature:
// 0.6108·exp(17.27·T/(T + 237.3)) kPa, FAO-56 eq. 11. Meant for -60 to 90 °C,
// what measure.ParseTemperature lets in; checked against measured values from
// 1 to 32 °C. For a day it is the mean over readings, never the saturation at
// the mean temperature: the curve is convex.
func Saturation(t measure.Temperature) measure.Pressure {
	return measure.Pressure(tetensA * math.Exp(tetensB*float64(t)/(float64(t)+tetensC)))
}

// Vapour is the actual vapour pressure of air: saturation times RH/100, in kPa.
func Vapour(t measure.Temperature, rh measure.Humidity) measure.Pressure {
	return Saturation(t) * measure.Pressure(rh/100)
}

// Deficit is the vapour pressure deficit of one reading: es(T)·(1 − RH/100), in
// kPa, never below 0 for a humidity of 0 to 100. Both figures must come from one
// moment.
func Deficit(t measure.Temperature, rh measure.Humidity) measure.Pressure {
	return Saturation(t) * measure.Pressure(1-rh/100)
}

// Offset is by how many degrees a leaf is warmer (above 0) or cooler (below 0)
// than the air. It is measured or it is 0; no offset is ever assumed.
type Offset float64

// LeafDeficit is the deficit between a leaf and the air: es(T + offset) −
// RH/100·es(T), in kPa. Where that is below 0 the leaf is cooler than the dew
// point: water condenses on it, and the deficit is 0.
func LeafDeficit(t measure.Temperature, rh measure.Humidity, leaf Offset) (d measure.Pressure, condensation bool) {
	if leaf == 0 {
		return Deficit(t, rh), false
	}
	d = Saturation(t+measure.Temperature(leaf)) - Vapour(t, rh)
	if d < 0 {
		return 0, true
	}
	return d, false
}

// DewPoint is the temperature at which air of this temperature and humidity
// would be saturated: 237.3·a/(17.27 − a) with a = ln(ea/0.6108), the exact
// inverse of eq. 11. FAO's own eq. 3-11 rounds its coefficients and differs by
// less than 0.01 °C. Air without any vapour has no dew point: ok is false.
func DewPoint(t measure.Temperature, rh measure.Humidity) (dew measure.Temperature, ok bool) {
	if rh <= 0 {
		return 0, false
	}
	a := math.Log(float64(Vapour(t, rh)) / tetensA)
	return measure.Temperature(tetensC * a / (tetensB - a)), true
}

// HumidityFor is the relative humidity at which air of this temperature has the
// deficit asked for. ok is false where there is none: a deficit below 0 or above
// saturation.
func HumidityFor(t measure.Temperature, d measure.Pressure) (rh measure.Humidity, ok bool) {
	es := Saturation(t)
	if !(d >= 0 && d <= es) {
		return 0, false
	}
	return measure.Humidity(100 * (1 - d/es)), true
}
