package readings

import (
	"fmt"

	"wardian/content/source"
)

// twice is the trouble of a time that stands twice, beside those of the columns.
const twice = humidityColumn + 1

// maxRuns is how many runs of rows a file is told about. A sensor that is dying
// can break off thousands of times.
const maxRuns = 100

// run is a run of neighbouring rows with the same trouble: one warning, at the
// first.
type run struct {
	rows    int
	trouble int
	last    int // line of the last row
	finding source.Finding
}

// wrong takes a row with a trouble into the run at hand, or begins another.
func (r *reader) wrong(trouble, line, from int, written, message, expected string) {
	if n := &r.nonsense; n.rows > 0 && n.trouble == trouble {
		n.rows++
		n.last = line
		return
	}
	r.tell()
	if r.runs++; r.runs > maxRuns {
		if r.runs == maxRuns+1 {
			r.report.Add(r.file, source.Finding{
				Span: r.span(line, from, written), Severity: source.Warning, Code: "logger-row",
				Message: "this file has more rows like those above; the rest are left out untold", Expected: "a log that can be read",
			})
		}
		return
	}
	code := "logger-row"
	if trouble == twice {
		code = "logger-twice"
	}
	r.nonsense = run{rows: 1, trouble: trouble, last: line, finding: source.Finding{
		Span: r.span(line, from, written), Severity: source.Warning, Code: code, Message: message, Expected: expected,
	}}
}

// tell ends the run at hand and reports it.
func (r *reader) tell() {
	n := &r.nonsense
	if n.rows == 0 {
		return
	}
	switch {
	case n.rows == 2:
		n.finding.Message += fmt.Sprintf("; the same on line %d", n.last)
	case n.rows > 2:
		n.finding.Message += fmt.Sprintf("; %d rows of the kind, down to line %d", n.rows, n.last)
	}
	r.report.Add(r.file, n.finding)
	r.nonsense = run{}
}
