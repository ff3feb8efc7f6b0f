package readings

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
	"wardian/content/patience"
	"wardian/content/source"
)

var usual = Columns{Time: "Time", Temperature: "Temp", Humidity: "RH"}

func oslo(t testing.TB) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Oslo")
	require.NoError(t, err)
	return zone
}

// read reads a text and writes readings as "2026-04-06 18:30 25.5 98".
func read(t testing.TB, text string, columns Columns, units measure.Units) (list []string, findings []source.Finding, f *source.File) {
	t.Helper()
	f = source.New("readings/tote.csv", []byte(text))
	var report source.Report
	for _, r := range Read(f, columns, oslo(t), units, &report) {
		list = append(list, fmt.Sprintf("%s %.4g %.4g", r.Moment, float64(r.Temperature), float64(r.Humidity)))
	}
	return list, report.Findings(), f
}

func TestRead(t *testing.T) {
	two := []string{"2026-04-06 18:30 25.5 98", "2026-04-06 19:30 24 97.5"}
	for _, c := range []struct {
		name, text string
		columns    Columns
		want       []string
	}{
		{"commas", "Time,Temp,RH\n2026-04-06 18:30,25.5,98\n2026-04-06 19:30,24,97.5\n", usual, two},
		{"semicolons and decimal commas", "Time;Temp;RH\n2026-04-06 18:30;25,5;98\n2026-04-06 19:30;24,0;97,5\n", usual, two},
		{"tabs", "Time\tTemp\tRH\n2026-04-06 18:30\t25.5\t98\n2026-04-06 19:30\t24\t97,5", usual, two},
		{"quoted decimal commas", "Time,Temp,RH\n2026-04-06 18:30,\"25,5\",\"98\"\n\"2026-04-06 19:30\",24,\"97,5\"\n", usual, two},
		{"mark and CRLF", "\xef\xbb\xbfTime,Temp,RH\r\n2026-04-06 18:30,25.5,98\r\n2026-04-06 19:30,24,97.5\r\n", usual, two},
		{"other order, more columns", "No.,RH,Battery,Temp,Time\n1,98,ok,25.5,2026-04-06 18:30\n2,97.5,ok,24,2026-04-06 19:30\n", usual, two},
		{"preamble", "Logger 12\nSerial;\"no; yes\"\n\nTime,Temp,RH\n2026-04-06 18:30,25.5,98\n2026-04-06 19:30,24,97.5\n", usual, two},
		{"units in cells", "Time,Temp,RH\n2026-04-06 18:30,25.5 °C,98 %\n2026-04-06 19:30,24C,97.5% RH\n", usual, two},
		{"unsorted, and a minute twice", "Time,Temp,RH\n2026-04-06 19:30:10,24,97.5\n2026-04-06 18:30,25.5,98\n2026-04-06 19:30:40,25,97\n", usual, two},
		{"a button's row and an empty line", "Time,Temp,RH\n2026-04-06 18:30,25.5,98\n\n2026-04-06 19:00,,\n2026-04-06 19:30,24,97.5\n", usual, two},
		{"headings in other case and spaced", "time , TEMP ,rh\n2026-04-06 18:30,25.5,98\n2026-04-06 19:30,24,97.5\n", usual, two},
		{"heading in Latin-1", "Time,Temp (\xb0C),RH\n2026-04-06 18:30,25.5,98\n2026-04-06 19:30,24,97.5\n", Columns{"Time", "Temp (°C)", "RH"}, two},
		{"heading with a comma", "Time,\"Temp, °C\",RH\n2026-04-06 18:30,25.5,98\n2026-04-06 19:30,24,97.5\n", Columns{"Time", "Temp, °C", "RH"}, two},
		{"frost", "Time,Temp,RH\n2026-01-06 18:30,-3.5,80\n2026-01-06 18:31,\u22123.5,80\n", usual, []string{"2026-01-06 18:30 -3.5 80", "2026-01-06 18:31 -3.5 80"}},
		{"the ends of the ranges", "Time,Temp,RH\n2026-01-06 18:30,-40,0\n2026-01-06 18:31,70,100\n", usual, []string{"2026-01-06 18:30 -40 0", "2026-01-06 18:31 70 100"}},
		{"headings alone", "Time,Temp,RH\n", usual, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, findings, _ := read(t, c.text, c.columns, measure.Units{})
			assert.Equal(t, c.want, got)
			assert.Empty(t, findings)
		})
	}
}

// The wanted Celsius are the fixed points and the printed pairs of NIST's
// conversion (32 °F = 0 °C, 212 °F = 100 °C exactly: C = (F − 32) / 1.8).
func TestTheUnitOfTemperatures(t *testing.T) {
	for _, c := range []struct {
		heading, cell string
		units         measure.Units
		want          string
	}{
		{"Temp", "32", measure.Units{}, "32"},
		{"Temp", "32", measure.Units{Fahrenheit: true}, "0"},
		{"Temp (F)", "32", measure.Units{}, "0"},
		{"Temp, °F (LGR S/N: 1)", "77", measure.Units{}, "25"},
		{"temperature_fahrenheit", "77", measure.Units{}, "25"},
		{"Temp (C)", "32", measure.Units{Fahrenheit: true}, "32"},
		{"Celsius", "32", measure.Units{Fahrenheit: true}, "32"},
		{"Coffee", "32", measure.Units{}, "32"},
		{"Temp (C)", "77 °F", measure.Units{}, "25"},
		{"Temp (F)", "25 C", measure.Units{}, "25"},
	} {
		got, findings, _ := read(t, "Time;"+c.heading+";RH\n2026-04-06 18:30;"+c.cell+";50\n", Columns{"Time", c.heading, "RH"}, c.units)
		assert.Equal(t, []string{"2026-04-06 18:30 " + c.want + " 50"}, got, "%s, %s", c.heading, c.cell)
		assert.Empty(t, findings)
	}
}

func TestTimes(t *testing.T) {
	for _, c := range []struct{ written, want string }{
		{"2026-04-06 18:30", "2026-04-06 18:30"},
		{"2026-04-06T18:30:00", "2026-04-06 18:30"},
		{"2026-04-06T18:30:59.999", "2026-04-06 18:30"},
		{"2026/04/06 18:30", "2026-04-06 18:30"},
		{"06.04.2026 18:30", "2026-04-06 18:30"},
		{"6.4.26 8:30", "2026-04-06 08:30"},
		{"26/04/2026 18:30", "2026-04-26 18:30"},
		{"04/26/2026 06:30:00 PM", "2026-04-26 18:30"},
		{"04/26/26 12:05 am", "2026-04-26 00:05"},
		{"26-04-2026 12:05 p.m.", "2026-04-26 12:05"},
		{"2026-04-06T18:30Z", "2026-04-06 20:30"},
		{"2026-04-06T23:30:00Z", "2026-04-07 01:30"},
		{"2026-01-06 18:30 UTC", "2026-01-06 19:30"},
		{"2026-04-06T18:30:00+02:00", "2026-04-06 18:30"},
		{"2026-04-06 18:30 -0500", "2026-04-07 01:30"},
		{"2026-04-06 18:30+00", "2026-04-06 20:30"},
		{"2024-02-29 00:00", "2024-02-29 00:00"},
	} {
		got, findings, _ := read(t, "Time;Temp;RH\n"+c.written+";25;50\n", usual, measure.Units{})
		assert.Equal(t, []string{c.want + " 25 50"}, got, c.written)
		assert.Empty(t, findings, c.written)
	}
	for _, written := range []string{
		"2026-04-06", "18:30", "2026-04-06 24:00", "2026-04-06 18:60", "2026-04-06 18", "2026-04-06 18:30 x", "2026-04-06 18:30:00 PM", "2026-04-06 0:30 am",
		"April 6 2026 18:30", "2026-04/06 18:30", "206-04-06 18:30", "1775500200", "2026-04-06 18:30+99", "2026-02-30 18:30", "30.02.2026 18:30", "2026-13-01 10:00", "0000-01-01 00:00", "-", "2026-04-06 18:30:5",
	} {
		got, findings, f := read(t, "Time;Temp;RH\n"+written+";25;50\n", usual, measure.Units{})
		assert.Empty(t, got, written)
		require.Len(t, findings, 1, written)
		assert.Equal(t, "logger-row", findings[0].Code)
		assert.Equal(t, written, marked(f, findings[0].Span))
	}
}

func marked(f *source.File, s source.Span) string {
	return string(f.Bytes[f.Offset(s.Start):f.Offset(s.End)])
}

func TestWhichNumberIsTheDayIsForTheFileToTell(t *testing.T) {
	row := func(days ...string) string {
		text := "Time,Temp,RH\n"
		for _, d := range days {
			text += d + " 18:30,25,50\n"
		}
		return text
	}
	got, findings, _ := read(t, row("06/04/2026", "07/04/2026", "13/04/2026"), usual, measure.Units{})
	assert.Equal(t, []string{"2026-04-06 18:30 25 50", "2026-04-07 18:30 25 50", "2026-04-13 18:30 25 50"}, got)
	assert.Empty(t, findings)

	got, _, _ = read(t, row("04/06/2026", "04/13/2026"), usual, measure.Units{})
	assert.Equal(t, []string{"2026-04-06 18:30 25 50", "2026-04-13 18:30 25 50"}, got)

	got, findings, f := read(t, row("06/04/2026", "07/04/2026"), usual, measure.Units{})
	assert.Empty(t, got)
	require.Len(t, findings, 1)
	assert.Equal(t, source.Error, findings[0].Severity)
	assert.Equal(t, "logger-days", findings[0].Code)
	assert.Equal(t, "06/04/2026 18:30", marked(f, findings[0].Span))

	got, findings, f = read(t, row("06/13/2026", "06/12/2026", "13/06/2026"), usual, measure.Units{})
	assert.Empty(t, got)
	require.Len(t, findings, 1)
	assert.Equal(t, "13/06/2026 18:30", marked(f, findings[0].Span))
	require.Len(t, findings[0].Related, 1)
	assert.Equal(t, 2, findings[0].Related[0].Start.Line)
}

func TestNonsenseIsToldOnceARun(t *testing.T) {
	text := "Time,Temp,RH\n" +
		"2026-04-06 10:00,25,50\n" +
		"2026-04-06 11:00,25,100.1\n" + // line 3
		"2026-04-06 12:00,25,-1\n" +
		"2026-04-06 13:00,25,\"1e2\"\n" +
		"2026-04-06 14:00,25,50\n" +
		"2026-04-06 15:00,25,999\n" + // line 7
		"2026-04-06 16:00,-40.1,50\n" + // line 8
		"2026-04-06 17:00,70.1,50\n" +
		"2026-04-06 18:00,NaN,50\n" +
		"2026-04-06 19:00\n" + // nothing was measured
		"2026-04-06 20:00,25\n" + // line 12
		"yesterday,25,50\n" // line 13
	got, findings, f := read(t, text, usual, measure.Units{})
	assert.Equal(t, []string{"2026-04-06 10:00 25 50", "2026-04-06 14:00 25 50"}, got)
	type told struct {
		line  int
		place string
		says  string
	}
	var seen []told
	for _, x := range findings {
		assert.Equal(t, source.Warning, x.Severity)
		assert.Equal(t, "logger-row", x.Code)
		assert.NotEmpty(t, x.Expected)
		seen = append(seen, told{x.Span.Start.Line, marked(f, x.Span), x.Message})
	}
	assert.Equal(t, []told{
		{3, "100.1", `no air has a humidity of "100.1"; 3 rows of the kind, down to line 5`},
		{7, "999", `no air has a humidity of "999"`},
		{8, "-40.1", `"-40.1" is -40.1 °C, which no logger of plants measures; 3 rows of the kind, down to line 10`},
		{12, "", "a humidity is missing"},
		{13, "yesterday", `"yesterday" isn't a day and a time`},
	}, seen)
}

func TestWarningsAreBounded(t *testing.T) {
	var b strings.Builder
	b.WriteString("Time,Temp,RH\n")
	for i := range 1000 {
		fmt.Fprintf(&b, "2026-04-06 %02d:%02d,25,50\n2026-04-07 00:00,x,50\n", i/60, i%60)
	}
	got, findings, _ := read(t, b.String(), usual, measure.Units{})
	assert.Len(t, got, 1000)
	assert.Len(t, findings, maxRuns+1)
}

func TestATimeThatStandsTwice(t *testing.T) {
	got, findings, f := read(t, "Time,Temp,RH\n2026-04-06 10:00,25,50\n2026-04-06 10:00,25,50\n2026-04-06 10:00,26,50\n", usual, measure.Units{})
	assert.Equal(t, []string{"2026-04-06 10:00 25 50"}, got)
	require.Len(t, findings, 1)
	assert.Equal(t, "logger-twice", findings[0].Code)
	assert.Equal(t, source.Warning, findings[0].Severity)
	assert.Equal(t, 4, findings[0].Span.Start.Line)
	assert.Equal(t, "2026-04-06 10:00", marked(f, findings[0].Span))

	// In Norway clocks went back from 03:00 to 02:00 on 26 October 2025 (IANA's
	// time zone database).
	got, findings, _ = read(t, "Time,Temp,RH\n2025-10-26 02:30,25,50\n2025-10-26 02:30,26,50\n", usual, measure.Units{})
	assert.Equal(t, []string{"2025-10-26 02:30 25 50"}, got)
	assert.Empty(t, findings)
}

func TestColumnsThatAreNotThere(t *testing.T) {
	got, findings, f := read(t, "Logger 5\nTime,Temp (C),RH %,Battery\n2026-04-06 10:00,25,50,ok\n", Columns{"Time", "Temp(C)", "Dew point"}, measure.Units{})
	assert.Empty(t, got)
	require.Len(t, findings, 2)
	for _, x := range findings {
		assert.Equal(t, "logger-column", x.Code)
		assert.Equal(t, source.Error, x.Severity)
		assert.Equal(t, "Time,Temp (C),RH %,Battery", marked(f, x.Span))
		assert.Equal(t, "one of the headings: Time, Temp (C), RH %, Battery", x.Expected)
	}
	assert.Equal(t, `no column is headed "Dew point"`, findings[0].Message)
	assert.Equal(t, "nearest: Temp (C)", findings[1].Hint)

	for _, text := range []string{"", "words", "\n\n\n", "\xef\xbb\xbf", "a\rb\rc"} {
		got, findings, _ = read(t, text, usual, measure.Units{})
		assert.Empty(t, got)
		assert.Len(t, findings, 3, "%q", text)
	}
}

func TestTwoHeadingsAlikeButForCaseAreNoneOfThem(t *testing.T) {
	_, findings, _ := read(t, "Time,temp,TEMP,RH\n", usual, measure.Units{})
	assert.Len(t, findings, 1)
	_, findings, _ = read(t, "Time,temp,TEMP,Temp,RH\n", usual, measure.Units{})
	assert.Empty(t, findings)
}

func TestUTF16IsRefused(t *testing.T) {
	for _, text := range []string{"\xff\xfeT\x00i\x00", "\xfe\xff\x00T\x00i", "T\x00i\x00m\x00e\x00,\x00"} {
		got, findings, _ := read(t, text, usual, measure.Units{})
		assert.Empty(t, got)
		require.Len(t, findings, 1)
		assert.Equal(t, "logger-not-text", findings[0].Code)
		assert.Equal(t, source.Error, findings[0].Severity)
	}
}

func TestFindingsStandBehindAPreambleAndAMark(t *testing.T) {
	_, findings, f := read(t, "\xef\xbb\xbfTime,Temp,RH\nå,1,2\n", usual, measure.Units{})
	require.Len(t, findings, 1)
	assert.Equal(t, "å", marked(f, findings[0].Span))
	_, findings, f = read(t, "Löggér\n\n\nÅ;Time;Temp;RH\nå;2026-04-06 10:00;x;5\n", usual, measure.Units{})
	require.Len(t, findings, 1)
	assert.Equal(t, "x", marked(f, findings[0].Span))
	assert.Equal(t, source.Position{Line: 5, Column: 20}, findings[0].Span.Start)
}

var limit = patience.For(0)

func FuzzRead(f *testing.F) {
	f.Add([]byte("Time,Temp,RH\n2026-04-06 18:30,25.5,98\n"))
	f.Add([]byte("\xef\xbb\xbfTime;Temp;RH\r\n06/04/2026 18:30 PM;25,5;98 %\r\n13/04/2026 18:30;\"25,5;98\r\n"))
	f.Add([]byte("Time\tTemp\tRH\n6.4.26 1:02Z\t-3\t5\n2026-10-25T02:30:00+02:00\t1\t2\n"))
	f.Add([]byte("x\nTime,Temp,RH\n\"2026\n-04-06\",\"\",\"\"\"\n"))
	zone := oslo(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 64<<10 {
			return
		}
		var took time.Duration
		var list []Reading
		var findings []source.Finding
		file := source.New("readings/tote.csv", data)
		for try := range 3 { // on a busy machine a clock counts other people's work
			start := time.Now()
			var report source.Report
			list = Read(file, usual, zone, measure.Units{}, &report)
			findings = report.Findings()
			if once := time.Since(start); try == 0 || once < took {
				took = once
			}
			if took < limit {
				break
			}
		}
		assert.Less(t, took, limit)
		for i, r := range list {
			require.True(t, r.Temperature >= coldest && r.Temperature <= hottest && r.Humidity >= driest && r.Humidity <= wettest, "%v", r)
			require.True(t, r.Moment.Known() && r.Moment.Minute >= 0 && r.Moment.Minute < 1440, "%v", r)
			require.True(t, i == 0 || order(list[i-1], r) < 0, "in order, one a minute")
		}
		require.LessOrEqual(t, len(findings), maxRuns+4)
		for _, x := range findings {
			for _, p := range []source.Position{x.Span.Start, x.Span.End} {
				require.True(t, p.Line >= 1 && p.Column >= 1 && p.Line <= file.Lines(), "%v", x)
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var text strings.Builder
	text.WriteString("Time,Temp,RH\n")
	for i := range 10000 {
		fmt.Fprintf(&text, "2026-%02d-%02d %02d:%02d,25.5,98.2\n", 1+i/2400%12, 1+i/96%25, i/4%24, i%4*15)
	}
	f := source.New("readings/tote.csv", []byte(text.String()))
	b.SetBytes(int64(text.Len()))
	b.ReportAllocs()
	for b.Loop() {
		Read(f, usual, time.UTC, measure.Units{}, &source.Report{})
	}
}
