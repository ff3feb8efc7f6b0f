package preview

import (
	"strings"
	"unicode"

	"wardian/content/source"
)

// told is a finding as the slip tells it.
type told struct {
	Severity, Message, File  string
	Line, Column             int // 0 where the finding has no line
	Before, Spot, After      string
	Expected, HintWord, Hint string
	Related                  []told
}

// most is how many errors, and how many warnings, a slip tells at length.
const most = 6

// slip is what lies over every page in a state; nothing where nothing is wrong.
// gone says that the page asked for is no longer made.
func (s *state) slip(gone bool) []byte {
	var errors, warnings []source.Finding
	for _, f := range s.findings {
		if f.Severity == source.Error {
			errors = append(errors, f)
		} else {
			warnings = append(warnings, f)
		}
	}
	if len(s.findings) == 0 && s.err == nil && !gone {
		return nil
	}
	words := ""
	if s.err != nil {
		words = plain(s.err.Error())
	}
	return set("slip", struct {
		Says             string
		Fault            string
		Gone             bool
		Stays            bool // the page is the last good one
		Open             bool
		Errors, Warnings listed
	}{
		says(len(errors), len(warnings)), words, gone, s.sight != nil && s.stale,
		len(errors) > 0 || s.err != nil || gone, firstOf(errors), firstOf(warnings),
	})
}

// listed are findings, the first few at length.
type listed struct {
	Findings []told
	Says     string
	More     int
}

func firstOf(findings []source.Finding) listed {
	l := listed{Says: counted(len(findings), "warning", "warnings"), More: max(0, len(findings)-most)}
	for _, f := range findings[:min(most, len(findings))] {
		l.Findings = append(l.Findings, tell(f))
	}
	return l
}

// says counts what is wrong.
func says(errors, warnings int) string {
	var parts []string
	if errors > 0 {
		parts = append(parts, counted(errors, "error", "errors"))
	}
	if warnings > 0 {
		parts = append(parts, counted(warnings, "warning", "warnings"))
	}
	return strings.Join(parts, ", ")
}

func tell(f source.Finding) told {
	t := told{Severity: f.Severity.String(), Message: plain(f.Message), File: plain(f.File), Line: f.Span.Start.Line, Column: f.Span.Start.Column, Expected: plain(f.Expected)}
	t.Before, t.Spot, t.After = spot(f)
	if f.Hint != "" {
		t.HintWord, t.Hint = "mend", plain(f.Hint)
		if near, ok := strings.CutPrefix(f.Hint, "nearest: "); ok {
			t.HintWord, t.Hint = "nearest", plain(near)
		}
	}
	for _, r := range f.Related {
		t.Related = append(t.Related, told{File: plain(r.File), Line: r.Start.Line, Column: r.Start.Column, Message: plain(r.Message)})
	}
	return t
}

// around is how many characters of a line are told on either side of the spot.
const around = 60

// spot parts a finding's source line into what is before the fault, the fault,
// and what is after it. The fault is never empty where there is a line: a place
// between two characters is the one after it.
func spot(f source.Finding) (before, spot, after string) {
	line := []rune(f.Source)
	if len(line) == 0 {
		return "", "", ""
	}
	from := min(max(f.Span.Start.Column-1, 0), len(line))
	to := len(line)
	if f.Span.End.Line == f.Span.Start.Line {
		to = min(max(f.Span.End.Column-1, from), len(line))
	}
	if to == from {
		to = min(from+1, len(line))
	}
	start, end, opens, ends := max(0, from-around), min(len(line), to+around), "", ""
	if start > 0 {
		opens = "… "
	}
	if to-from > 4*around {
		to = from + 4*around
		end = to
	}
	if end < len(line) {
		ends = " …"
	}
	spot = plain(string(line[from:to]))
	if strings.TrimSpace(spot) == "" {
		spot += " "
	}
	return opens + plain(string(line[start:from])), spot, plain(string(line[to:end])) + ends
}

// plain takes out of a text what could turn its letters about or hide them.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\t' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)) {
			return '�'
		}
		return r
	}, text)
}
