package readings

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"wardian/content/measure"
	"wardian/content/source"
)

// row is one row as it was read; its time is placed once the file has told in
// which order its days are written.
type row struct {
	stamp       stamp
	temperature measure.Temperature
	humidity    measure.Humidity
	line, from  int // line of the file, and byte in it, of the time's cell
	written     string
}

// Read reads one file of a logger. Findings go to the report, with the rows' own
// lines and columns. The readings come in order of time, no two in one minute;
// none where the file as a whole can't be read. zone is the diary's (nil: UTC),
// units hold for a temperature that doesn't say its own.
func Read(f *source.File, columns Columns, zone *time.Location, units measure.Units, report *source.Report) []Reading {
	if zone == nil {
		zone = time.UTC
	}
	if source.NotText(f.Bytes) {
		report.Add(f, source.Finding{
			Span: f.SpanOf(0, 0), Severity: source.Error, Code: "logger-not-text",
			Message: "this file isn't UTF-8", Expected: "a CSV in UTF-8", Hint: "open it in a spreadsheet and save it as CSV, UTF-8",
		})
		return nil
	}
	l := layoutOf(f.Bytes, columns)
	if l.missing() > 0 {
		noColumns(f, l, columns, report)
		return nil
	}
	r := &reader{file: f, layout: l, report: report, fahrenheit: inFahrenheit(l.headings[l.column[temperatureColumn]], units), zone: zone}
	r.rows()
	slashes, ok := r.turn()
	if !ok {
		return nil
	}
	return r.readings(slashes)
}

type reader struct {
	layout
	file       *source.File
	report     *source.Report
	fahrenheit bool
	zone       *time.Location
	read       []row
	nonsense   run
	runs       int
}

// rows cuts the file into rows and reads their cells.
func (r *reader) rows() {
	first := true
	r.file.EachRow(r.start, r.comma, func(cut source.TableRow) {
		if !first { // the first row holds the headings
			r.row(cut.Cells, cut.At)
		}
		first = false
	})
	r.tell()
}

// row reads the cells of one row; at gives the place of a cell.
func (r *reader) row(record []string, at func(int) (line, from int)) {
	cell := func(which int) string {
		if i := r.column[which]; i < len(record) {
			return strings.TrimSpace(record[i])
		}
		return ""
	}
	when, t, h := cell(timeColumn), cell(temperatureColumn), cell(humidityColumn)
	if t == "" && h == "" {
		return
	}
	wrong := func(which int, written, message, expected string) {
		line, from := at(r.column[which])
		r.wrong(which, line, from, written, message, expected)
	}
	stamp, ok := parseStamp(when)
	if !ok {
		wrong(timeColumn, when, notA("a day and a time", when), "a day and a time such as 2026-04-06 18:30")
		return
	}
	temp, ok := temperature(t, r.fahrenheit)
	if !ok {
		wrong(temperatureColumn, t, notA("a temperature", t), "a number such as 25.5")
		return
	}
	if temp < coldest || temp > hottest {
		wrong(temperatureColumn, t, fmt.Sprintf("%s is %.1f °C, which no logger of plants measures", quote(t), float64(temp)), "−40 to 70 °C")
		return
	}
	rh, ok := humidity(h)
	if !ok {
		wrong(humidityColumn, h, notA("a humidity", h), "a number such as 98")
		return
	}
	if rh < driest || rh > wettest {
		wrong(humidityColumn, h, "no air has a humidity of "+quote(h), "0 to 100 %")
		return
	}
	r.tell()
	line, from := at(r.column[timeColumn])
	r.read = append(r.read, row{stamp, temp, rh, line, from, when})
}

// turn tells in which order the file writes days that don't say it themselves.
// Where the file allows both or contradicts itself, ok is false.
func (r *reader) turn() (slashes turn, ok bool) {
	var day, month, first *row
	for i := range r.read {
		w := &r.read[i]
		if w.stamp.turn != unsaid {
			continue
		}
		if first == nil {
			first = w
		}
		if w.stamp.a > 12 && day == nil {
			day = w
		}
		if w.stamp.b > 12 && month == nil {
			month = w
		}
	}
	switch {
	case first == nil:
		return yearFirst, true
	case day != nil && month != nil:
		later, other := day, month
		if month.line > day.line {
			later, other = month, day
		}
		span := r.span(later.line, later.from, later.written)
		r.report.Add(r.file, source.Finding{
			Span: span, Severity: source.Error, Code: "logger-days",
			Message:  "days are written in two orders in this file",
			Expected: "day first or month first, throughout",
			Hint:     "have the logger write days as 2026-04-06",
			Related:  []source.Related{{File: r.file.Path, Start: r.span(other.line, other.from, other.written).Start, Message: quote(other.written) + " is in the other order"}},
		})
		return 0, false
	case day != nil:
		return dayFirst, true
	case month != nil:
		return monthFirst, true
	}
	r.report.Add(r.file, source.Finding{
		Span: r.span(first.line, first.from, first.written), Severity: source.Error, Code: "logger-days",
		Message:  "day first or month first? nothing in this file tells",
		Expected: "days written as 2026-04-06 or 06.04.2026, or one row after the twelfth of a month",
		Hint:     "have the logger write days as 2026-04-06, or read out a longer piece",
	})
	return 0, false
}

// readings places the rows in time, in order, one a minute.
func (r *reader) readings(slashes turn) []Reading {
	type placed struct {
		Reading
		second int
		row    *row
	}
	all := make([]placed, 0, len(r.read))
	for i := range r.read {
		w := &r.read[i]
		m, second, ok := w.stamp.moment(slashes, r.zone)
		if !ok {
			r.wrong(timeColumn, w.line, w.from, w.written, "the calendar has no such day as "+quote(w.written), "a day of the calendar")
			continue
		}
		r.tell()
		all = append(all, placed{Reading{m, w.temperature, w.humidity}, second, w})
	}
	r.tell()
	slices.SortStableFunc(all, func(a, b placed) int {
		if c := order(a.Reading, b.Reading); c != 0 {
			return c
		}
		return a.second - b.second
	})
	out := make([]Reading, 0, len(all))
	for i := range all {
		p := &all[i]
		if len(out) == 0 || out[len(out)-1].Moment != p.Moment {
			out = append(out, p.Reading)
			r.tell()
			continue
		}
		before := &all[i-1]
		if p.second == before.second && p.Reading != before.Reading && !doubled(p.Moment, r.zone) {
			r.wrong(twice, p.row.line, p.row.from, p.row.written, quote(p.row.written)+" stands twice with different figures; the first is kept", "one row for each time")
		}
	}
	r.tell()
	return out
}

// span marks a cell of the file.
func (r *reader) span(line, from int, written string) source.Span {
	return r.file.Part(line, from, written)
}

func notA(what, written string) string {
	if written == "" {
		return what + " is missing"
	}
	return quote(written) + " isn't " + what
}

// quote shows what was written, shortened, and whole characters only.
func quote(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	if utf8.RuneCountInString(s) > 40 {
		s = string([]rune(s)[:40]) + "…"
	}
	return fmt.Sprintf("%q", s)
}
