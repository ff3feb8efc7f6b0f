package content

import (
	"regexp"
	"slices"
	"strings"
)

// edit is a text with the stretch that a finding underlines. Lines are those of
// the file; at is the underlined one, from and to are in its characters.
type edit struct {
	lines    []string
	at       int
	from, to int
	message  string
}

func newEdit(text string, f printed) *edit {
	e := &edit{lines: strings.Split(text, "\n"), at: max(f.Line, 1) - 1, from: max(f.Column, 1) - 1, to: max(f.EndColumn, 1) - 1, message: f.Message}
	if e.at < len(e.lines) {
		chars := len([]rune(e.lines[e.at]))
		e.from = min(e.from, chars)
		if f.EndLine != f.Line {
			e.to = chars
		}
		e.to = min(max(e.to, e.from), chars)
	}
	return e
}

func (e *edit) chars() []rune { return []rune(e.lines[e.at]) }

func (e *edit) text() string { return strings.Join(e.lines, "\n") }

// line gives the text with another line in place of the underlined one; NUL takes
// it out.
func (e *edit) line(with string) string {
	if with == "\x00" {
		return strings.Join(slices.Delete(slices.Clone(e.lines), e.at, e.at+1), "\n")
	}
	lines := slices.Clone(e.lines)
	lines[e.at] = with
	return strings.Join(lines, "\n")
}

func (e *edit) cut(from, to int, with string) string {
	c := e.chars()
	return e.line(string(c[:from]) + with + string(c[to:]))
}

func (e *edit) replace(with string) string { return e.cut(e.from, e.to, with) }

func (e *edit) indentOf(line int) string {
	if line < 0 {
		return ""
	}
	return e.lines[line][:len(e.lines[line])-len(strings.TrimLeft(e.lines[line], " "))]
}

// keyed is a line, or a piece of one, that is a key with a value.
var keyed = regexp.MustCompile(`^(\s*(?:- )?)([A-Za-z0-9-]+):(?: +|$)(.*)$`)

// item gives the stretch between two commas, brackets or line ends that holds the
// underlined one, where it stands in brackets or braces.
func (e *edit) item() (from, to int, inside bool) {
	c := e.chars()
	depth := 0
	for from = e.from; from > 0; from-- {
		switch c[from-1] {
		case ']', '}':
			depth++
		case '[', '{':
			depth--
		}
		if depth < 0 || depth == 0 && c[from-1] == ',' {
			break
		}
	}
	if from == 0 {
		return 0, len(c), false
	}
	depth = 0
	for to = e.from; to < len(c); to++ {
		if depth == 0 && to >= e.to && strings.ContainsRune(",]}", c[to]) {
			break
		}
		switch c[to] {
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		}
		if depth < 0 {
			break
		}
	}
	for from < to && c[from] == ' ' {
		from++
	}
	return from, to, strings.ContainsAny(string(c[:from]), "[{")
}

// value gives the stretch of the value that the underlined one is part of: behind
// the key of its item or of its line.
func (e *edit) value() (from, to int) {
	from, to, inside := e.item()
	c := e.chars()
	if !inside && !keyed.MatchString(string(c)) && strings.ContainsAny(string(c), ";\t") { // a row of a table
		for from = e.from; from > 0 && c[from-1] != ';' && c[from-1] != '\t'; from-- {
		}
		for to = e.to; to < len(c) && c[to] != ';' && c[to] != '\t'; to++ {
		}
		return from, to
	}
	if !inside {
		from, to = 0, len(c)
		if at := strings.Index(string(c), " #"); at > 0 && len([]rune(string(c)[:at])) >= e.to {
			to = len([]rune(string(c)[:at]))
		}
	}
	if m := keyed.FindStringSubmatchIndex(string(c[from:to])); m != nil && m[6] >= 0 {
		from += len([]rune(string(c[from:to])[:m[6]]))
	}
	for to > from && c[to-1] == ' ' {
		to--
	}
	return from, to
}

// quoted gives the text with the whole value in quotes, of a kind that doesn't
// stand in it.
func (e *edit) quoted(quote string) string {
	from, to := e.value()
	text := string(e.chars()[from:to])
	if quote == "'" { // in place of the double ones
		text = strings.Trim(text, `"`)
	} else if quote = "'"; strings.Contains(text, quote) {
		quote = `"`
	}
	return e.cut(from, to, quote+text+quote)
}

// belowKeys puts a line below the last line that is a key or belongs to one.
func (e *edit) belowKeys(line string) string {
	last := 0
	for i := 1; i < len(e.lines); i++ {
		if !keyed.MatchString(e.lines[i]) && !strings.HasPrefix(e.lines[i], " ") {
			break
		}
		last = i
	}
	return strings.Join(slices.Insert(slices.Clone(e.lines), last+1, line), "\n")
}

// place puts words where they belong. A key with its value takes the place of the
// one that is underlined, where the keys or the values are alike, else it comes
// beside it; other words take the place of that stretch round the underlined one
// that has most letters in common with them.
func (e *edit) place(x string) string {
	if x == "" || strings.HasPrefix(x, "a ") {
		return e.text()
	}
	if m := keyed.FindStringSubmatch(x); m != nil {
		return e.placeKey(x, m[2], m[3])
	}
	c := e.chars()
	from, to := e.value()
	from, to = min(from, e.from), max(to, e.to)
	best, bestFrom, bestTo := apart(string(c[e.from:e.to]), x), e.from, e.to
	for i := from; i <= e.from; i++ {
		if i > from && i != e.from && word(c[i-1]) && word(c[i]) {
			continue
		}
		for j := e.to; j <= to; j++ {
			if j < to && j != e.to && word(c[j-1]) && word(c[j]) {
				continue
			}
			if d := apart(string(c[i:j]), x); d < best || d == best && j-i < bestTo-bestFrom {
				best, bestFrom, bestTo = d, i, j
			}
		}
	}
	return e.cut(bestFrom, bestTo, x)
}

// placeValue puts an example in place of the whole value, in plain words in place
// of the underlined ones.
func (e *edit) placeValue(x string) string {
	from, to := e.value()
	if e.to < from { // a key
		return e.replace(x)
	}
	if strings.Contains(string(e.chars()[from:to]), ", ") {
		return e.place(x)
	}
	return e.cut(min(from, e.from), max(to, e.to), x)
}

// add puts plain words before those of the line or item that the underlined key
// opens.
func (e *edit) add(x string) string {
	from, to, inside := e.item()
	c := e.chars()
	if !inside {
		from, to = 0, len(c)
	}
	m := anyKey.FindStringSubmatchIndex(string(c[from:to]))
	if m == nil {
		return e.text()
	}
	words := string(c[from:to])[m[6]:]
	switch {
	case words == "" || words[0] == '#' || words[0] == ';':
		x += " "
	case words[0] == '{':
		return e.text()
	default:
		x += ", "
	}
	if words = x + words; inside && strings.Contains(words, ",") { // in braces a comma ends the value
		words = `"` + words + `"`
	}
	return e.cut(from, to, strings.TrimRight(string(c[from:to])[:m[6]], " ")+" "+words)
}

// unbraced puts words in place of the braces round the underlined stretch.
func (e *edit) unbraced(x string) string {
	c := e.chars()
	from, to := e.from, e.to
	for from > 0 && c[from] != '{' {
		from--
	}
	for to < len(c) && c[to] != '}' {
		to++
	}
	return e.cut(from, min(to+1, len(c)), x)
}

func word(r rune) bool { return !strings.ContainsRune(" ,;:[]{}\"'", r) }

// placeKey puts a key with its value.
func (e *edit) placeKey(x, key, value string) string {
	c := e.chars()
	from, to, inside := e.item()
	if !inside {
		from, to = 0, len(c)
		for from < to && c[from] == ' ' {
			from++
		}
	}
	if before := string(c[:e.from]); inside && strings.Contains(before, key+": ") && strings.Contains(x, ",") {
		return e.cut(len([]rune(before[:strings.LastIndex(before, key+": ")])), e.to, x) // commas cut its words off
	}
	if marked := string(c[e.from:e.to]); strings.HasPrefix(marked, "{") && strings.HasSuffix(marked, "}") && len(marked) > 2 {
		return e.cut(e.to-1, e.to-1, ", "+x)
	}
	own := string(c[from:to])
	have := keyed.FindStringSubmatch(own)
	switch {
	case strings.HasPrefix(own, key) || have != nil && have[3] == value, have == nil && apart(own, x) <= len(x)/4, strings.Contains(own, key+":"):
		// what stands there is the key, or means it
		at := strings.Index(own, key+":")
		if at > 0 {
			from += len([]rune(own[:at]))
		}
		return e.cut(from, to, x)
	case inside:
		if strings.TrimSpace(own) == "" {
			return e.cut(from, to, x)
		}
		return e.cut(to, to, ", "+x)
	}
	// A line of its own, below the underlined one where that opens the keys, else
	// above it.
	below := e.at
	if strings.HasPrefix(e.lines[e.at], "---") || strings.HasPrefix(e.lines[e.at], "```") {
		below++
	}
	return strings.Join(slices.Insert(slices.Clone(e.lines), below, e.indentOf(e.at)+x), "\n")
}

// apart counts the letters that two texts don't have in common, in any order.
func apart(a, b string) int {
	counts := map[rune]int{}
	for _, r := range a {
		counts[r]++
	}
	for _, r := range b {
		counts[r]--
	}
	n := 0
	for _, k := range counts {
		n += max(k, -k)
	}
	return n
}

// anyKey is keyed with any words for a key.
var anyKey = regexp.MustCompile(`^(\s*(?:- )?)([^:]+):(?: +|$)(.*)$`)

// leaveOut takes out what is underlined, or the key that the hint names: an item
// with its comma, a phrase with its comma, or a key with all that is set in under
// it.
func (e *edit) leaveOut(way string) string {
	for _, word := range strings.Fields(way)[1:] { // "leave parcel out"
		if word == "out" {
			break
		}
		for i, l := range e.lines {
			if m := keyed.FindStringSubmatch(l); m != nil && m[2] == word {
				e.at, e.from, e.to = i, 0, len([]rune(l))
			}
		}
	}
	c := e.chars()
	from, to, inside := e.item()
	line := string(c)
	m := anyKey.FindStringSubmatchIndex(line)
	if !inside && m != nil {
		valueFrom := len([]rune(line[:m[6]]))
		keyEnd := len([]rune(line[:m[5]]))
		end := len([]rune(strings.TrimRight(line, " ")))
		if e.from < keyEnd || e.from <= valueFrom && e.to >= end {
			last := e.at + 1
			for last < len(e.lines) && len(e.indentOf(last)) > len(e.indentOf(e.at)) {
				last++
			}
			return strings.Join(slices.Delete(slices.Clone(e.lines), e.at, last), "\n")
		}
		from, to = e.from, e.to
		for from > valueFrom && c[from-1] != ',' {
			from--
		}
		for to < len(c) && c[to] != ',' && c[to] != ';' && c[to] != '#' {
			to++
		}
		if phrase := strings.TrimSpace(string(c[from:to])); !strings.HasPrefix(phrase, strings.TrimSpace(string(c[e.from:e.to]))) { // a part of a phrase
			return e.cut(e.from, e.to, "")
		}
	} else if !inside {
		if strings.HasPrefix(strings.TrimSpace(line), "- ") {
			return e.line("\x00")
		}
		return e.replace("")
	}
	switch { // with one comma
	case to < len(c) && c[to] == ',':
		to++
		for to < len(c) && c[to] == ' ' {
			to++
		}
	case from > 0:
		for from > 0 && (c[from-1] == ' ' || c[from-1] == ',') {
			from--
			if c[from] == ',' {
				break
			}
		}
	}
	return e.cut(from, to, "")
}
