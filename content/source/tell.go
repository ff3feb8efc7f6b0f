package source

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// This file is how a finding is told. There are three forms: a long one for a
// person at a terminal, one line for editors and build servers, and a line of
// JSON for programs. None of them prints a character that could steer a
// terminal: a diary's files can hold anything.

// shown is how many columns of a source line the long form prints at most.
const shown = 96

// Long tells the finding at length: what is wrong and where, the line with the
// place underlined, what would be right, and what to write instead. It ends with
// a line end.
//
//	error: there is no key "turgr" in a check-in (unknown-key)
//	  check-ins/2026-04-06.md:4:1
//	  | turgr: firm
//	  | ^^^^^
//	  expected: a key of a check-in
//	  nearest: turgor
func (f Finding) Long() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s (%s)\n", f.Severity, plain(f.Message), f.Code)
	fmt.Fprintf(&b, "  %s\n", f.place())
	if f.Source != "" {
		line, under := f.underline()
		fmt.Fprintf(&b, "  | %s\n  | %s\n", line, under)
	}
	for _, r := range f.Related {
		fmt.Fprintf(&b, "  %s: %s\n", plain(fmt.Sprintf("%s:%d:%d", r.File, r.Start.Line, r.Start.Column)), plain(r.Message))
	}
	if f.Expected != "" {
		fmt.Fprintf(&b, "  expected: %s\n", plain(f.Expected))
	}
	if f.Hint != "" {
		if strings.HasPrefix(f.Hint, "nearest: ") {
			fmt.Fprintf(&b, "  %s\n", plain(f.Hint))
		} else {
			fmt.Fprintf(&b, "  mend: %s\n", plain(f.Hint))
		}
	}
	return b.String()
}

// Line tells the finding in one line, as editors read it:
// "file:line:column: severity: message".
func (f Finding) Line() string {
	line := fmt.Sprintf("%s: %s: %s", f.place(), f.Severity, plain(f.Message))
	if f.Hint != "" {
		line += " (" + plain(f.Hint) + ")"
	}
	return line
}

// JSON tells the finding as one line of JSON, without a line end. Keys are only
// ever added to it.
func (f Finding) JSON() []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	end := f.Span.End
	if end.Line == 0 { // a place, not a stretch
		end = f.Span.Start
	}
	err := e.Encode(struct {
		File     string `json:"file"`
		Line     int    `json:"line"`
		Column   int    `json:"column"`
		Severity string `json:"severity"`
		Code     string `json:"code"`
		Message  string `json:"message"`
		Expected string `json:"expected"`
		Hint     string `json:"hint"`
		EndLine  int    `json:"end-line"`
		EndCol   int    `json:"end-column"`
	}{f.File, f.Span.Start.Line, f.Span.Start.Column, f.Severity.String(), f.Code, f.Message, f.Expected, f.Hint,
		end.Line, end.Column})
	if err != nil {
		// Strings and numbers always encode.
		panic("source: " + err.Error())
	}
	return bytes.TrimRight(b.Bytes(), "\n")
}

func (f Finding) place() string {
	if f.Span.Start.Line == 0 {
		return plain(f.File)
	}
	return plain(fmt.Sprintf("%s:%d:%d", f.File, f.Span.Start.Line, f.Span.Start.Column))
}

// underline gives the source line as it is printed, and carets under the
// finding's place. Tabs become spaces up to the next fourth column, wide
// characters count two columns and combining marks none, so that the carets stand
// in line; of a long line, the part round the place is printed.
func (f Finding) underline() (line, under string) {
	source, skipped := near(f.Source, f.Span.Start.Column-1)
	chars := []rune(source)
	from := min(max(f.Span.Start.Column-1-skipped, 0), len(chars))
	to := len(chars)
	if f.Span.End.Line == f.Span.Start.Line {
		to = min(max(f.Span.End.Column-1-skipped, from), len(chars))
	}
	start, dots := 0, ""
	if skipped > 0 || from > shown/2 && len(chars) > shown {
		start, dots = max(0, from-shown/3), "… "
	}
	var l, u strings.Builder
	l.WriteString(dots)
	column := len([]rune(dots))
	u.WriteString(strings.Repeat(" ", column))
	for i := start; i < len(chars); i++ {
		text, n := cell(chars[i], column)
		if column+n > shown {
			l.WriteString(" …")
			break
		}
		l.WriteString(text)
		column += n
		switch {
		case i < from:
			u.WriteString(strings.Repeat(" ", n))
		case i < to:
			u.WriteString(strings.Repeat("^", n))
		}
	}
	line, under = strings.TrimRight(l.String(), " "), u.String()
	if !strings.Contains(under, "^") {
		under += "^"
	}
	return line, under
}

// near cuts a very long line down to what can be printed round a character, and
// says how many characters it left out in front.
func near(line string, at int) (part string, skipped int) {
	if len(line) <= 16*shown {
		return line, 0
	}
	skip := max(0, at-shown)
	from, n := 0, 0
	for i := range line {
		if n == skip {
			from = i
		}
		if n == at+2*shown {
			return line[from:i], skip
		}
		n++
	}
	if n <= skip {
		return line, 0
	}
	return line[from:], skip
}

// cell is how a character is printed, and how many columns it takes.
func cell(r rune, column int) (string, int) {
	switch {
	case r == '\t':
		n := 4 - column%4
		return strings.Repeat(" ", n), n
	case steers(r):
		return "�", 1
	case unicode.In(r, unicode.Mn, unicode.Me) || r == 0x200b || r == 0x200d || r >= 0xfe00 && r <= 0xfe0f:
		return string(r), 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return string(r), 2
	}
	return string(r), 1
}

// steers says whether a character could steer a terminal or turn the order of
// letters about: control characters and the bidirectional marks.
func steers(r rune) bool {
	return unicode.IsControl(r) || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0xfeff
}

// plain takes characters that could steer a terminal out of a text.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		if steers(r) {
			return '�'
		}
		return r
	}, text)
}
