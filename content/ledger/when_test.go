package ledger

import (
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
	"wardian/content/patience"
)

// Days as people write them; the arrival is 14 October 2023.
func TestDaysAsPeopleWriteThem(t *testing.T) {
	arrival := measure.On(day(t, "2023-10-14"))
	for _, c := range []struct{ written, want, rest string }{
		{"14.10.2023", "2023-10-14", ""},
		{"14.10.23", "2023-10-14", ""},
		{"14. 10. 2023", "2023-10-14", ""},
		{"2023-10-14", "2023-10-14", ""},
		{"2023-1-4", "2023-01-04", ""},
		{"2023-10", "2023-10", ""},
		{"2024/03", "2024-03", ""},
		{"2024", "2024", ""},
		{"nov 23", "2023-11", ""},
		{"Nov. 2023", "2023-11", ""},
		{"nov '23", "2023-11", ""},
		{"november 23", "2023-11", ""},
		{"28.10", "2023-10-28", ""},
		{"28.10.", "2023-10-28", ""},
		{"13.10", "2024-10-13", ""}, // the first from the arrival on
		{"10.5.", "2024-05-10", ""},
		{"ca 10.5.", "~2024-05-10", ""},
		{"ca. 10.5.", "~2024-05-10", ""},
		{"~10.5.", "~2024-05-10", ""},
		{"around 10 may", "~2024-05-10", ""},
		{"about nov 23", "2023-11", ""}, // a month is half known already
		{"10.5.?", "~2024-05-10", ""},
		{"10 May 2024", "2024-05-10", ""},
		{"10. mai 2024", "2024-05-10", ""},
		{"10th of", "", ""},
		{"may 10, 2024", "2024-05-10", ""},
		{"3 des", "2023-12-03", ""},
		{"december", "2023-12", ""},
		{"october", "2023-10", ""}, // its last day isn't over when it came
		{"26/4/2024", "2024-04-26", ""},
		{"4/26/2024", "2024-04-26", ""},
		{"28.10 rot; smelled", "2023-10-28", "rot; smelled"},
		{"28.10; Rot", "2023-10-28", "Rot"},
		{"28.10.2023 (Rot, I think)", "2023-10-28", "Rot, I think"},
		{"jan 24: mealybugs", "2024-01", "mealybugs"},
		{"2024-05-10..2024-05-20", "2024-05-10..2024-05-20", ""},
		// as spreadsheets write them out
		{"2023-10-14 00:00:00", "2023-10-14", ""},
		{"2023-10-14T00:00", "2023-10-14", ""},
		{"14.10.2023 0:00", "2023-10-14", ""},
		{"2023-11-14 18:30 rot", "2023-11-14", "18:30 rot"},
		{"26/4/2024 00:00", "2024-04-26", ""},
		{"26-04-2024", "2024-04-26", ""},
		{"Nov-23", "2023-11", ""},
		{"23-Nov", "2023-11-23", ""},
		{"23-Nov-2023", "2023-11-23", ""},
		{"okt. -23", "2023-10", ""},
		{"28.10.2023.", "2023-10-28", ""},
		{"28.10 - rot", "2023-10-28", "rot"},
		// What can't be read as one day.
		{"3-4-2024", "", ""},
		{"10-12 may", "", ""},
		{"nov-dec 23", "", ""},
		{"00.00.0000", "", ""},
		{"2023-00-10", "", ""},
		{"0.5.", "", ""},
		{"2023-10-142", "", ""},
		{"45215", "", ""},
		{"week 45", "", ""},
		{"end of nov", "", ""},
		{"28.10 or 29.10", "", ""},
		{"before christmas", "", ""},
		{"3/4/2024", "", ""},
		{"3/4", "", ""},
		{"31.2.2024", "", ""},
		{"45.13", "", ""},
		{"spring 24", "", ""},
		{"early may", "", ""},
		{"4.5 cm", "", ""},
		{"3 leaves", "", ""},
		{"nov 9", "", ""},
		{"nov 05", "", ""},
		{"marching on", "", ""},
		{"may be rot", "", ""},
		{"may: rot", "2024-05", "rot"},
		{"28.10 23", "", ""},
		{"10.5. or 12.5.", "", ""},
		{"10.5.-12.5.", "", ""},
		{"14.10.20233", "", ""},
		{"28.10x", "", ""},
		{"", "", ""},
		{"?", "", ""},
	} {
		w, _, ok := ReadWhen(c.written, arrival, slashesUnknown)
		got := ""
		if ok {
			got = w.Day.Written
		}
		assert.Equal(t, c.want, got, c.written)
		if ok {
			assert.Equal(t, c.rest, w.Rest, c.written)
		}
	}
	for written, order := range map[string]slashOrder{"3/4/2024": dayFirst, "4/3/2024": monthFirst} {
		w, _, ok := ReadWhen(written, arrival, order)
		require.True(t, ok)
		assert.Equal(t, "2024-04-03", w.Day.Written)
	}
	_, why, ok := ReadWhen("28.10", measure.NoSpan, slashesUnknown)
	assert.False(t, ok)
	assert.Contains(t, why, "year")
}

func TestTheOrderOfDaysInASheet(t *testing.T) {
	assert.Equal(t, dayFirst, orderOf([]string{"3/4/2024", "26/4"}))
	assert.Equal(t, monthFirst, orderOf([]string{"3/4/2024", "4/26/2024 rot"}))
	assert.Equal(t, slashesUnknown, orderOf([]string{"3/4/2024", "x"}))
	assert.Equal(t, slashesUnknown, orderOf([]string{"26/4", "4/26"}), "two orders are none")
}

// Any words end in time; what is read is a day that a diary reads.
func FuzzReadWhen(f *testing.F) {
	for _, s := range []string{"14.10.2023", "nov 23", "28.10", "ca 10.5.", "before christmas", "3/4/2024", "10. mai 2024 rot; smelled", "İ 1.1.", "2024-05-10..2024-05-20"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if !utf8.ValidString(text) {
			return
		}
		start := time.Now()
		w, _, ok := ReadWhen(text, measure.On(19644), slashesUnknown)
		if took := time.Since(start); took > patience.For(len(text)) {
			t.Fatalf("%d bytes took %v", len(text), took)
		}
		if !ok {
			return
		}
		again, trouble := measure.ParseSpan(w.Day.Written)
		if trouble != nil || again != w.Day {
			t.Fatalf("%q was read as %+v", text, w)
		}
	})
}
