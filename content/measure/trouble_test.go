package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// parsers gives each parser a common shape: what it makes of a text, written
// out, and its trouble.
var parsers = map[string]func(string) *Trouble{
	"length":      func(s string) *Trouble { _, t := ParseLength(s, Units{}); return t },
	"size":        func(s string) *Trouble { _, t := ParseSize(s, Units{}); return t },
	"temperature": func(s string) *Trouble { _, t := ParseTemperature(s, Units{}); return t },
	"humidity":    func(s string) *Trouble { _, t := ParseHumidity(s); return t },
	"share":       func(s string) *Trouble { _, t := ParseShare(s); return t },
	"hours":       func(s string) *Trouble { _, t := ParseHours(s); return t },
	"days":        func(s string) *Trouble { _, t := ParseDays(s); return t },
	"count":       func(s string) *Trouble { _, t := ParseCount(s); return t },
	"grade":       func(s string) *Trouble { _, t := ParseGrade(s); return t },
	"money":       func(s string) *Trouble { _, t := ParseMoney(s, "NOK"); return t },
	"decimal":     func(s string) *Trouble { _, t := ParseDecimal(s); return t },
	"factor":      func(s string) *Trouble { _, t := ParseFactor(s); return t },
	"yes":         func(s string) *Trouble { _, t := ParseYesNo(s); return t },
	"day":         func(s string) *Trouble { _, t := ParseDay(s); return t },
	"moment":      func(s string) *Trouble { _, t := ParseMoment(s); return t },
	"span":        func(s string) *Trouble { _, t := ParseSpan(s); return t },
	"climate":     func(s string) *Trouble { _, t := ParseClimate(s, Units{}); return t },
}

func TestTroubles(t *testing.T) {
	for _, c := range []struct {
		kind, text string
		start, end int
		hint       string
		message    string // a part of it
	}{
		{"length", "", 0, 0, "", "nothing is written"},
		{"length", "   ", 0, 3, "", "nothing is written"},
		{"length", "4,5 cm", 1, 2, "4.5 cm", "comma"},
		{"length", "0,125", 1, 2, "0.125", "comma"},
		{"length", "1,250", 1, 2, "", "comma"}, // 1.25 or 1250?
		{"length", "about 4,5 cm", 0, 6, "~4.5 cm", "tilde"},
		{"length", "ca. 4 cm", 0, 4, "~4 cm", "tilde"},
		{"length", "≈4 cm", 0, 1, "~4 cm", "tilde"},
		{"length", "cm", 0, 2, "", "isn't a number"},
		{"length", "~", 0, 1, "", "missing"},
		{"length", "4 kg", 2, 4, "", "isn't a unit of length"},
		{"length", "4 C", 2, 3, "", "isn't a unit of length"},
		{"length", "4 cm 5", 5, 6, "", "unexpected"},
		{"length", "12x8 cm", 2, 7, "", "two measures"},
		{"length", "0 cm", 0, 1, "", "at least"},
		{"length", "-4 cm", 0, 2, "", "at least"},
		{"length", "501 cm", 0, 3, "", "at most 5 m"},
		{"length", "6 m", 0, 1, "", "at most 5 m"},
		{"length", "1e3 cm", 1, 3, "", "exponent"},
		{"length", "1E-3", 1, 4, "", "exponent"},
		{"length", "0x1F cm", 0, 4, "", "hexadecimal"},
		{"length", "1_000", 1, 2, "", "underscore"}, // 1000 is over 5 m: no hint
		{"length", "NaN", 0, 3, "", "isn't a number"},
		{"length", "Inf cm", 0, 3, "", "isn't a number"},
		{"length", "-Inf", 0, 4, "", "isn't a number"},
		{"length", "+4 cm", 0, 1, "4 cm", "plus"},
		{"length", ".5 cm", 0, 1, "0.5 cm", "begins with a digit"},
		{"length", "5. cm", 1, 2, "5 cm", "point"},
		{"length", "1.2.3", 3, 5, "", "two points"},
		{"length", "12-14 cm", 2, 5, "", "range"},
		{"length", "12..14", 2, 6, "", "range"},
		{"length", "1/2 in", 1, 3, "", "fraction"},
		{"length", "٤ cm", 0, 1, "", "isn't a number"}, // an Arabic four
		{"size", "12 cm", 0, 5, "", "width is missing"},
		{"size", "12 x", 3, 4, "", "width is missing"},
		{"size", "12x8x3 cm", 4, 9, "", "two measures"},
		{"size", "12 by 8", 3, 5, "", "isn't a unit of length"},
		{"size", "12,5x8 cm", 2, 3, "12.5x8 cm", "comma"},
		{"size", "12x8,5", 4, 5, "12x8.5", "comma"},
		{"size", "0x8 cm", 0, 1, "", "at least"},
		{"size", "12x0 cm", 3, 4, "", "at least"},
		{"size", "12x~8", 3, 4, "~12x8", "tilde"},
		{"size", "~12x~8", 4, 5, "~12x8", "tilde"},
		{"size", "12 in x 8 cm", 9, 12, "", "two different units"},
		{"temperature", "24 K", 3, 4, "", "isn't a unit of temperature"},
		{"temperature", "91 C", 0, 2, "", "between -60 C and 90 C"},
		{"temperature", "-61", 0, 3, "", "between -60 C and 90 C"},
		{"temperature", "300 F", 0, 3, "", "between -60 C and 90 C"},
		{"temperature", "−5 C", 0, 1, "-5 C", "hyphen"},
		{"temperature", "24,5 C", 2, 3, "24.5 C", "comma"},
		{"humidity", "101%", 0, 3, "", "between 0% and 100%"},
		{"humidity", "-1%", 0, 2, "", "between 0% and 100%"},
		{"humidity", "98 C", 3, 4, "", "isn't a unit of humidity"},
		{"share", "50", 0, 2, "50%", "needs its %"},
		{"share", "1.5", 0, 3, "1.5%", "needs its %"},
		{"share", "1", 0, 1, "", "needs its %"},   // all or a hundredth?
		{"share", "0.5", 0, 3, "", "needs its %"}, // a half or half a per cent?
		{"share", "120%", 0, 3, "", "between 0% and 100%"},
		{"hours", "3 moons", 2, 7, "", "isn't a unit of time"},
		{"hours", "-1 h", 0, 2, "", "between 0"},
		{"hours", "18:30", 2, 5, "", "time of day"},
		{"days", "1.5 days", 0, 3, "", "whole number"},
		{"days", "3.0 days", 0, 3, "3 days", "whole number"},
		{"days", "36 h", 3, 4, "", "isn't days or weeks"},
		{"days", "~3 days", 0, 1, "3 days", "tilde"},
		{"days", "-3 days", 0, 2, "", "between 0 and 36500"},
		{"days", "9999 weeks", 0, 4, "", "between 0 and 36500"},
		{"count", "-1", 0, 2, "", "between 0 and 100000"},
		{"count", "100001", 0, 6, "", "between 0 and 100000"},
		{"count", "99999999999999999999", 0, 20, "", "between 0 and 100000"},
		{"count", "3 leaves", 2, 8, "", "unexpected"},
		{"count", "three", 0, 5, "", "isn't a number"},
		{"count", "2-3", 1, 3, "", "range"},
		{"grade", "6", 0, 1, "", "between 0 and 5"},
		{"grade", "~3", 0, 1, "3", "tilde"},
		{"money", "45,00", 2, 3, "45.00", "comma"},
		{"money", "1,250.00 USD", 1, 2, "1250.00 USD", "comma"},
		{"money", "1.250,00", 5, 6, "1250.00", "comma"},
		{"money", "45 eur", 3, 6, "45 EUR", "three capital letters"},
		{"money", "45 €", 3, 4, "45 EUR", "three capital letters"},
		{"money", "EUR 45.00", 0, 3, "45.00 EUR", "follows"},
		{"money", "€45", 0, 1, "45 EUR", "follows"},
		{"money", "$45", 0, 1, "", "follows"}, // which dollar?
		{"money", "45.005", 5, 6, "", "decimals"},
		{"money", "2000000000", 0, 10, "", "within"},
		{"money", "~45", 0, 1, "45", "tilde"},
		{"money", "free", 0, 4, "", "isn't a number"},
		{"decimal", "0", 0, 1, "", "above 0"},
		{"decimal", "-1.5", 0, 4, "", "above 0"},
		{"decimal", "10,52", 2, 3, "10.52", "comma"},
		{"decimal", "0.1234567890123", 0, 15, "", "12 decimals"},
		{"factor", "69", 0, 2, "", "between 0.1 and 1.5"},
		{"yes", "y", 0, 1, "yes", "neither"},
		{"yes", "off", 0, 3, "no", "neither"},
		{"yes", "maybe", 0, 5, "", "neither"},
		{"yes", "", 0, 0, "", "nothing is written"},
		{"day", "2026-02-30", 8, 10, "", "February 2026 has 28 days"},
		{"day", "2026-04-31", 8, 10, "", "April 2026 has 30 days"},
		{"day", "2026-04-00", 8, 10, "", "no day 00"},
		{"day", "2026-13-01", 5, 7, "", "no month 13"},
		{"day", "1899-12-31", 0, 4, "", "between 1900 and 2200"},
		{"day", "2201-01-01", 0, 4, "", "between 1900 and 2200"},
		{"day", "2026-4-6", 0, 8, "2026-04-06", "isn't a date"},
		{"day", "2026/04/06", 0, 10, "2026-04-06", "isn't a date"},
		{"day", "20260406", 0, 8, "2026-04-06", "isn't a date"},
		{"day", "16.4.2026", 0, 9, "2026-04-16", "isn't a date"},
		{"day", "6 April 2026", 0, 12, "2026-04-06", "isn't a date"},
		{"day", "16/4/2026", 0, 9, "2026-04-16", "isn't a date"},
		{"day", "6/4/2026", 0, 8, "", "isn't a date"}, // April or June?
		{"day", "yesterday", 0, 9, "", "isn't a date"},
		{"day", "2026-04", 0, 7, "", "a month where a day"},
		{"day", "2026", 0, 4, "", "a year where a day"},
		{"day", "~2026-04-06", 0, 1, "2026-04-06", "tilde"},
		{"day", "2026-04-06 18:30", 11, 16, "2026-04-06", "time of day"},
		{"day", "2026-04-06 noon", 11, 15, "", "unexpected"},
		{"day", "2026-04-06-07", 0, 13, "", "isn't a date"},
		{"moment", "18:30", 0, 5, "", "without its day"},
		{"moment", "2026-04-06 24:00", 11, 16, "", "no hour 24"},
		{"moment", "2026-04-06 18:60", 14, 16, "", "no minute 60"},
		{"moment", "2026-04-06 18.30", 13, 14, "2026-04-06 18:30", "colon"},
		{"moment", "2026-04-06 18:30:15", 16, 19, "2026-04-06 18:30", "to the minute"},
		{"moment", "2026-04-06 6:30 pm", 11, 18, "2026-04-06 18:30", "24 hours"},
		{"moment", "2026-04-06 12 am", 11, 16, "2026-04-06 00:00", "24 hours"},
		{"moment", "2026-04-06 18:30Z", 16, 17, "", "time zone"},
		{"moment", "2026-04-06 18:30:", 16, 17, "", "unexpected"},
		{"moment", "2026-04-06 18:3", 14, 15, "", "two digits"},
		{"moment", "2026-04-06 18", 11, 13, "", "isn't a time of day"},
		{"moment", "2026-04-06 evening", 11, 18, "", "unexpected"},
		{"moment", "2026-4-6 18:30", 0, 8, "2026-04-06 18:30", "isn't a date"},
		{"span", "~2024-05", 0, 1, "2024-05", "without a tilde"},
		{"span", "~2024-05-10..2024-05-20", 0, 1, "2024-05-10..2024-05-20", "without a tilde"},
		{"span", "2024-05-20..2024-05-10", 12, 22, "2024-05-10..2024-05-20", "before the first"},
		{"span", "2024-05-10..", 10, 12, "", "second day is missing"},
		{"span", "2024-05-10...2024-05-20", 10, 13, "2024-05-10..2024-05-20", "two points"},
		{"span", "2024-05-10 to 2024-05-20", 11, 13, "2024-05-10..2024-05-20", "two points"},
		{"span", "2024-05-10 – 2024-05-20", 11, 12, "2024-05-10..2024-05-20", "two points"},
		{"span", "2024-05-10 18:30", 11, 16, "2024-05-10", "time of day"},
		{"span", "2024-02-30..2024-03-01", 8, 10, "", "February 2024 has 29 days"},
		{"span", "spring", 0, 6, "", "isn't a date"},
		{"climate", "25.5 C", 0, 6, "", "humidity is missing"},
		{"climate", "98%", 0, 3, "", "temperature is missing"},
		{"climate", "98% 25.5 C", 0, 3, "25.5 C 98%", "comes before"},
		{"climate", "25.5 C, 98%", 6, 7, "25.5 C 98%", "a space stands"},
		{"climate", "25,5 C 98%", 2, 3, "25.5 C 98%", "comma"},
		{"climate", "25.5 C 101%", 7, 10, "", "between 0% and 100%"},
		{"climate", "25.5 C 98% 3", 11, 12, "", "unexpected"},
	} {
		t.Run(c.kind+" "+c.text, func(t *testing.T) {
			trouble := parsers[c.kind](c.text)
			require.NotNil(t, trouble, "accepted")
			assert.Contains(t, trouble.Message, c.message)
			assert.Equal(t, [2]int{c.start, c.end}, [2]int{trouble.Start, trouble.End}, trouble.Message)
			assert.Equal(t, c.hint, trouble.Hint)
			assert.NotEmpty(t, trouble.Expected)
			assert.Contains(t, trouble.Error(), trouble.Expected)
		})
	}
}

// A text from a table full of odd characters is quoted, escaped and cut short.
func TestTroubleQuotes(t *testing.T) {
	_, trouble := ParseCount("\x00\x1b[31m")
	require.NotNil(t, trouble)
	assert.Equal(t, `"\x00\x1b[31m" isn't a number`, trouble.Message)
	_, trouble = ParseCount("aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa")
	require.NotNil(t, trouble)
	assert.Equal(t, `"aaaaaaaaaaaaaaaaaaaaaaaa…" isn't a number`, trouble.Message)
	assert.Equal(t, 44, trouble.End)
}
