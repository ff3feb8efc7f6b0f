package measure

// Length is in centimetres.
type Length float64

// Area is in square centimetres, one side of a leaf.
type Area float64

// Temperature is in degrees Celsius.
type Temperature float64

// Humidity is relative humidity in per cent, 0 to 100.
type Humidity float64

// Pressure is in kilopascals.
type Pressure float64

// Share is a part of a whole, 0 to 1.
type Share float64

// Hours is a span of time in hours.
type Hours float64

// Units are the units a bare number takes in one diary.
type Units struct {
	Inches     bool // lengths in inches instead of centimetres
	Fahrenheit bool // temperatures in degrees Fahrenheit instead of Celsius
}

// CentimetresPerInch is exact by definition (international yard and pound
// agreement, 1959).
const CentimetresPerInch = 2.54

// Inches gives the length in inches.
func (l Length) Inches() float64 { return float64(l) / CentimetresPerInch }

// Fahrenheit gives the temperature in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(t)*9/5 + 32 }

// Celsius makes a temperature from degrees Fahrenheit.
func Celsius(fahrenheit float64) Temperature { return Temperature((fahrenheit - 32) * 5 / 9) }

// Size is a leaf's length and greatest width.
type Size struct {
	Length, Width Length
}
