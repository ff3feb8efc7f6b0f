package measure

import (
	"math"
	"strconv"
)

// What stands here writes a figure as a grower would, in the fewest digits that
// read back as the same figure, to the last bit. It is for diaries, data and
// records; rounding for the eye is the page's business.

// Written puts the tilde before a figure's text if it is an estimate.
func (f Figure[T]) Written(text string) string {
	if f.Estimate {
		return "~" + text
	}
	return text
}

// In writes the length in the diary's unit: "4 cm", "7 in". A length that no
// decimal of inches gives exactly is written in centimetres.
func (l Length) In(u Units) string {
	if u.Inches {
		if text, ok := shortest(l.Inches(), float64(l), lengths(u).units[1].kept); ok {
			return text + " in"
		}
	}
	return plain(float64(l)) + " cm"
}

// In writes the size in the diary's unit: "12x8 cm".
func (s Size) In(u Units) string {
	if u.Inches {
		inches := lengths(u).units[1].kept
		long, ok := shortest(s.Length.Inches(), float64(s.Length), inches)
		wide, too := shortest(s.Width.Inches(), float64(s.Width), inches)
		if ok && too {
			return long + "x" + wide + " in"
		}
	}
	return plain(float64(s.Length)) + "x" + plain(float64(s.Width)) + " cm"
}

// In writes the temperature in the diary's unit: "24 C", "75 F". A temperature
// that no decimal of degrees Fahrenheit gives exactly is written in Celsius.
func (t Temperature) In(u Units) string {
	if u.Fahrenheit {
		if text, ok := shortest(t.Fahrenheit(), float64(t), temperatures(u).units[1].kept); ok {
			return text + " F"
		}
	}
	return plain(float64(t)) + " C"
}

// String writes the humidity: "98%".
func (h Humidity) String() string { return plain(float64(h)) + "%" }

// String writes the share in per cent: "50%". The few shares that no decimal of
// per cent gives exactly are written in the nearest.
func (s Share) String() string {
	text, _ := shortest(float64(s)*100, float64(s), shares.units[0].kept)
	return text + "%"
}

// String writes the span of time in hours, or in minutes where these are whole
// and the hours aren't: "24 h", "90 min".
func (h Hours) String() string {
	if m := math.Round(float64(h) * 60); math.Mod(float64(h), 1) != 0 && m/60 == float64(h) {
		return plain(m) + " min"
	}
	return plain(float64(h)) + " h"
}

// In writes the reading in the diary's unit: "25.5 C 98%".
func (c Climate) In(u Units) string {
	return c.Temperature.Written(c.Temperature.Value.In(u)) + " " + c.Humidity.Written(c.Humidity.Value.String())
}

// plain writes a number in the fewest digits that read back, never with an
// exponent.
func plain(v float64) string {
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// shortest looks for the shortest decimal near v that the conversion turns into
// kept, bit for bit. Where none does, ok is false and the text is v's own.
func shortest(v, kept float64, convert func(float64) float64) (text string, ok bool) {
	for _, near := range []float64{v, math.Nextafter(v, math.Inf(-1)), math.Nextafter(v, math.Inf(1))} {
		for digits := 1; digits <= 17; digits++ {
			rounded, _ := strconv.ParseFloat(strconv.FormatFloat(near, 'g', digits, 64), 64)
			if convert(rounded) == kept {
				return plain(rounded), true
			}
		}
	}
	return plain(v), false
}
