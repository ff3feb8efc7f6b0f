package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Seconds since 1970-01-01 00:00 UTC, divided by 86400, give the day's number:
// 951782400 is 2000-02-29 and 1000000000 falls on 2001-09-09 (both well known
// to users of Unix clocks; from memory). 1900-01-01 is 25567 days before 1970:
// 70 years of 365 days and 17 leap days.
func TestParseDay(t *testing.T) {
	for text, want := range map[string]Day{
		"1970-01-01":   0,
		"2000-02-29":   951782400 / 86400,
		"2001-09-09":   1000000000 / 86400,
		"1900-01-01":   -(70*365 + 17),
		" 2200-12-31 ": 231*365 + 56 - 1, // 1972 to 2200: 58 fourth years, less 2100 and 2200
	} {
		got, trouble := ParseDay(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, want, got, text)
		assert.Equal(t, got, mustDay(t, got.String()))
	}
}

func mustDay(t *testing.T, text string) Day {
	t.Helper()
	d, trouble := ParseDay(text)
	require.Nil(t, trouble, text)
	return d
}

func TestParseMoment(t *testing.T) {
	d := mustDay(t, "2026-04-06")
	for text, want := range map[string]Moment{
		"2026-04-06":        {d, NoMinute},
		"2026-04-06 18:30":  {d, 18*60 + 30},
		"2026-04-06T18:30":  {d, 18*60 + 30},
		"2026-04-06  08:05": {d, 8*60 + 5},
		"2026-04-06 8:05":   {d, 8*60 + 5},
		"2026-04-06 00:00":  {d, 0},
		"2026-04-06 23:59":  {d, 23*60 + 59},
	} {
		got, trouble := ParseMoment(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, want, got, text)
	}
}

func TestParseSpan(t *testing.T) {
	for _, c := range []struct {
		text, first, last string
		about             bool
	}{
		{"2024-05-10", "2024-05-10", "2024-05-10", false},
		{"~2024-05-10", "2024-05-10", "2024-05-10", true},
		{"2024-05", "2024-05-01", "2024-05-31", false},
		{"2024-02", "2024-02-01", "2024-02-29", false},
		{"2100-02", "2100-02-01", "2100-02-28", false}, // no leap year
		{"2024-12", "2024-12-01", "2024-12-31", false},
		{"2024", "2024-01-01", "2024-12-31", false},
		{"2024-05-10..2024-05-20", "2024-05-10", "2024-05-20", false},
		{"2024-05-10 .. 2024-05-20", "2024-05-10", "2024-05-20", false},
		{"2024-05-10..2024-05-10", "2024-05-10", "2024-05-10", false},
		{"2024-05..2024-06", "2024-05-01", "2024-06-30", false},
	} {
		got, trouble := ParseSpan(c.text)
		require.Nil(t, trouble, c.text)
		assert.Equal(t, Span{mustDay(t, c.first), mustDay(t, c.last), c.about, c.text}, got)
	}
}

// A date in another form gives a hint only if it is one day, in the years of a
// diary, and short.
func TestOtherFormsOfADay(t *testing.T) {
	for text, want := range map[string]string{
		"3.4.2026": "2026-04-03", "3 April 2026": "2026-04-03", "April 3, 2026": "2026-04-03", "20260403": "2026-04-03",
		"2026/4/3": "2026-04-03", "13/4/2026": "2026-04-13", "4/4/2026": "2026-04-04", "30-Nov-2025": "2025-11-30",
		"3/4/2026": "", "3 April 1203": "", "3 April 9026": "", "2026-13-40": "", "": "", "soon": "",
		"the third of April, in the year 2026": "", "3 April 2026             ": "",
	} {
		got, ok := otherDate(text)
		assert.Equal(t, want != "", ok, text)
		if want != "" {
			assert.Equal(t, want, got.String(), text)
		} else {
			assert.Equal(t, NoDay, got, text)
		}
	}
}
