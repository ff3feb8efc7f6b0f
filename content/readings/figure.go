package readings

import (
	"strconv"
	"strings"

	"wardian/content/measure"
)

// The ranges of what a logger for plants can have measured.
const (
	coldest, hottest = -40, 70 // °C
	driest, wettest  = 0, 100  // %
)

// decimal reads a number with a point or a comma. Nothing else is one: no
// exponent, no NaN, no separated thousands.
func decimal(s string) (float64, bool) {
	if strings.HasPrefix(s, "\u2212") { // the minus of typographers
		s = "-" + strings.TrimPrefix(s, "\u2212")
	}
	digits, points := 0, 0
	for i := range len(s) {
		switch c := s[i]; {
		case c >= '0' && c <= '9':
			digits++
		case c == '.' || c == ',':
			points++
		case (c == '-' || c == '+') && i == 0:
		default:
			return 0, false
		}
	}
	if digits == 0 || points > 1 || digits > 30 {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	return v, err == nil
}

// trimUnit takes one of some units off the end.
func trimUnit(s string, units ...string) (rest string, taken bool) {
	for _, u := range units {
		if len(s) >= len(u) && strings.EqualFold(s[len(s)-len(u):], u) {
			return strings.TrimSpace(s[:len(s)-len(u)]), true
		}
	}
	return s, false
}

// temperature reads a cell. Its own unit comes before the column's.
func temperature(cell string, fahrenheit bool) (measure.Temperature, bool) {
	s := strings.TrimSpace(cell)
	if rest, ok := trimUnit(s, "c"); ok {
		s, fahrenheit = rest, false
	} else if rest, ok := trimUnit(s, "f"); ok {
		s, fahrenheit = rest, true
	}
	s, _ = trimUnit(s, "°", "º", "deg", "\xb0")
	v, ok := decimal(s)
	if !ok {
		return 0, false
	}
	if fahrenheit {
		return measure.Celsius(v), true
	}
	return measure.Temperature(v), true
}

// humidity reads a cell in per cent.
func humidity(cell string) (measure.Humidity, bool) {
	s, _ := trimUnit(strings.TrimSpace(cell), "% rh", "%rh", "rh")
	s, _ = trimUnit(s, "%")
	v, ok := decimal(s)
	return measure.Humidity(v), ok
}

// inFahrenheit tells the unit of a column from its heading ("Temp (°F)",
// "temperature_C"); where that doesn't say, the diary's holds.
func inFahrenheit(heading string, units measure.Units) bool {
	for _, word := range strings.FieldsFunc(strings.ToLower(heading), func(r rune) bool { return r < 'a' || r > 'z' }) {
		switch word {
		case "f", "degf", "fahrenheit":
			return true
		case "c", "degc", "celsius", "centigrade":
			return false
		}
	}
	return units.Fahrenheit
}
