package preview

import (
	"bytes"
	"cmp"
	_ "embed"
	"fmt"
	"html/template"
	"slices"
	"strings"
	"unicode"

	"wardian/content/source"
)

// What the preview adds to a page as it serves it: marks, the slip, and the
// script and style that both need. Nothing of it is ever in a built site.

// Where the preview's own things stand. No site path opens so: pages stand in
// folders of their kind, and there is no kind of this name.
const (
	ownPlace  = "preview/"
	scriptAt  = ownPlace + "page.js"
	slipStyle = ownPlace + "slip.css"
	baseStyle = ownPlace + "look.css"
	streamAt  = ownPlace + "changes"
)

var (
	//go:embed page.js
	script []byte
	//go:embed slip.css
	style []byte
	//go:embed slip.html
	slipText string

	slipParts = template.Must(template.New("").Parse(slipText))
)

// mark writes onto a page what of it would not be in a built site: on a part,
// an attribute that the style prints; for the whole, and for how many parts, a
// line before the page's own.
func (s *sight) mark(path string, page []byte) []byte {
	s.once.Do(func() { s.page, s.part = s.site.Marks() })
	whole := s.page[path]
	if whole == "" && len(s.part) == 0 {
		return page
	}
	var out bytes.Buffer
	marked, rest := 0, page
	for len(s.part) > 0 {
		const opens = ` id="`
		at := bytes.Index(rest, []byte(opens))
		if at < 0 {
			break
		}
		end := bytes.IndexByte(rest[at+len(opens):], '"')
		if end < 0 {
			break
		}
		end += at + len(opens)
		out.Write(rest[:end+1])
		if words := s.part[string(rest[at+len(opens):end])]; words != "" {
			marked++
			fmt.Fprintf(&out, ` data-only-here="%s"`, template.HTMLEscapeString(words))
		}
		rest = rest[end+1:]
	}
	out.Write(rest)
	page = out.Bytes()
	if whole == "" && marked == 0 {
		return page
	}
	return before(page, "<main", set("only-here", struct {
		Whole string
		Parts string
		Many  bool
	}{whole, counted(marked, "entry", "entries"), marked > 0}))
}

// served is a page as it goes out: with script, style and slip.
func served(page []byte, print string, slip []byte) []byte {
	page = before(page, "</head>", set("head", struct{ Style, Script, Print, Stream string }{"/" + slipStyle, "/" + scriptAt, print, "/" + streamAt}))
	return before(page, "</body>", holder(slip))
}

// holder is the slip in its place, which is on every page, empty or not, since
// a screen reader tells only of what changes in a place that was there.
func holder(slip []byte) []byte {
	return slices.Concat([]byte(`<aside id="preview-slip" role="status" aria-label="What is wrong in the diary">`), slip, []byte("</aside>\n"))
}

// before puts something in front of the first place where a page says at; at the
// end of one that doesn't.
func before(page []byte, at string, add []byte) []byte {
	i := bytes.Index(page, []byte(at))
	if at == "</body>" { // the last: words of the page may quote one
		i = bytes.LastIndex(page, []byte(at))
	}
	if i < 0 {
		i = len(page)
	}
	return slices.Concat(page[:i], add, page[i:])
}

// bare is a page where the site has none.
func bare(title, words string) []byte {
	return set("bare", struct{ Title, Words, Look string }{title, words, "/" + baseStyle})
}

// set fills a part of slip.html.
func set(name string, data any) []byte {
	var out bytes.Buffer
	if err := slipParts.ExecuteTemplate(&out, name, data); err != nil {
		panic("preview: " + err.Error()) // our own template with our own data, into memory
	}
	return out.Bytes()
}

// told is a finding as the slip tells it.
type told struct {
	Severity, Message, File  string
	Line, Column             int // 0 where the finding has no line
	Before, Spot, After      string
	Expected, HintWord, Hint string
	Related                  []told
}

// most is how many findings a slip tells at length.
const most = 6

// slip is what lies over every page in a state; nothing where nothing is wrong.
// gone says that the page asked for is no longer made.
func (s *state) slip(gone bool) []byte {
	var list []told
	errors := 0
	sorted := slices.Clone(s.findings)
	slices.SortStableFunc(sorted, func(a, b source.Finding) int { return cmp.Compare(b.Severity, a.Severity) })
	for _, f := range sorted {
		if f.Severity == source.Error {
			errors++
		}
		if len(list) < most {
			list = append(list, tell(f))
		}
	}
	if len(list) == 0 && s.err == nil && !gone {
		return nil
	}
	words := ""
	if s.err != nil {
		words = plain(s.err.Error())
	}
	return set("slip", struct {
		Says     string
		Fault    string
		Gone     bool
		Stays    bool // the page is the last good one
		Open     bool
		Findings []told
		More     int
	}{says(errors, len(sorted)-errors), words, gone, s.sight != nil && s.stale, errors > 0 || s.err != nil || gone, list, len(sorted) - len(list)})
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
