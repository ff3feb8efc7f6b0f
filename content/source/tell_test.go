package source

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/width"
)

func at(line, from, to int) Span {
	return Span{Start: Position{Line: line, Column: from}, End: Position{Line: line, Column: to}}
}

func TestLong(t *testing.T) {
	f := Finding{File: "check-ins/a.md", Span: at(4, 1, 6), Severity: Error, Code: "unknown-key",
		Message: `there is no key "turgr" in a check-in`, Expected: "a key of a check-in", Hint: "nearest: turgor", Source: "turgr: firm"}
	assert.Equal(t, `error: there is no key "turgr" in a check-in (unknown-key)
  check-ins/a.md:4:1
  | turgr: firm
  | ^^^^^
  expected: a key of a check-in
  nearest: turgor
`, f.Long())

	f.Hint, f.Severity = "write turgor", Warning
	f.Related = []Related{{File: "check-ins/b.md", Start: Position{2, 3}, Message: "it is first written here"}}
	assert.Equal(t, `warning: there is no key "turgr" in a check-in (unknown-key)
  check-ins/a.md:4:1
  | turgr: firm
  | ^^^^^
  check-ins/b.md:2:3: it is first written here
  expected: a key of a check-in
  mend: write turgor
`, f.Long())
}

func TestLineAndJSON(t *testing.T) {
	f := Finding{File: "diary.yaml", Span: at(2, 7, 9), Severity: Error, Code: "not-a-day",
		Message: "<b> isn't a day", Expected: "a day such as 2026-04-06", Hint: "write it out"}
	assert.Equal(t, "diary.yaml:2:7: error: <b> isn't a day (write it out)", f.Line())
	assert.Equal(t, `{"file":"diary.yaml","line":2,"column":7,"severity":"error","code":"not-a-day","message":"<b> isn't a day","expected":"a day such as 2026-04-06","hint":"write it out","end-line":2,"end-column":9}`, string(f.JSON()))

	f.Message = "a\nb\x1b[31m\u202e"
	assert.NotContains(t, f.Line(), "\n")
	assert.NotContains(t, f.Long(), "\x1b")
	assert.True(t, json.Valid(f.JSON()))
	assert.NotContains(t, string(f.JSON()), "\n")
}

// columns is where the carets begin and how many columns they take, measured on
// the printed lines by the widths of Unicode's annex 11 (golang.org/x/text/width).
func columns(s string) (n int) {
	for _, r := range s {
		switch width.LookupRune(r).Kind() {
		case width.EastAsianWide, width.EastAsianFullwidth:
			n++
		}
		if r != '\u0301' {
			n++
		}
	}
	return n
}

func TestUnderlineStandsInLine(t *testing.T) {
	for _, c := range []struct{ name, line, part string }{
		{"ascii", "name: Hoya", "Hoya"},
		{"letters", "name: blåbær ørsmå", "ørsmå"},
		{"wide", "name: 着生蘭 tiny fern", "tiny"},
		{"wide part", "name: 着生蘭 tiny", "生蘭"},
		{"emoji", "note: 🌱🌱 new leaf", "new"},
		{"tab before", "name:\tHoya lacunosa", "lacunosa"},
		{"two tabs", "\tname:\tHoya", "Hoya"},
		{"tab inside", "a:\tx\ty z", "x\ty"},
		{"combining", "note: e\u0301e\u0301 leaf", "leaf"},
		{"long", strings.Repeat("word ", 200) + "HERE" + strings.Repeat(" word", 200), "HERE"},
		{"last", "place: tote", "tote"},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, _, ok := strings.Cut(c.line, c.part)
			require.True(t, ok)
			from := len([]rune(before)) + 1
			f := Finding{Source: c.line, Span: at(1, from, from+len([]rune(c.part)))}
			line, under := f.underline()
			assert.LessOrEqual(t, columns(line), shown+4)
			carets := strings.TrimLeft(under, " ")
			assert.Equal(t, strings.Repeat("^", len(carets)), carets)
			// What stands above the carets is the part, with its tabs spread out.
			lead := len(under) - len(carets)
			var above strings.Builder
			column := 0
			for _, r := range line {
				n := columns(string(r))
				if column >= lead && column < len(under) && !(n == 0 && above.Len() == 0) {
					above.WriteRune(r)
				}
				column += n
			}
			assert.Equal(t, strings.Fields(c.part), strings.Fields(above.String()))
		})
	}
}

func TestUnderlineAtTheEdges(t *testing.T) {
	for _, s := range []Span{{}, at(1, 1, 1), at(1, 5, 5), at(1, 99, 120), {Start: Position{1, 3}, End: Position{3, 1}}} {
		_, under := Finding{Source: "abcd", Span: s}.underline()
		assert.Contains(t, under, "^")
		assert.LessOrEqual(t, len(under), 6)
	}
}
