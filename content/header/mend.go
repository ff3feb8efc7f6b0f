package header

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// entry is a line of a block as "key: value", whatever stands before the key.
type entry struct {
	lead  string // blanks, and hyphens of a list
	key   string
	value string // without the blanks before it
	at    int    // the byte of the line at which the value begins
}

var entryLine = regexp.MustCompile(`^([ \t]*(?:- +)*)("[^"]*"|'[^']*'|[^\s#:"'\[\]{},&*!|>%@` + "`" + `-][^#:]*?|[^\s#:]+|<<)[ \t]*:(?:[ \t]+(.*))?$`)

// entryOf reads a line as "key: value"; ok is false where it isn't one.
func entryOf(text string) (e entry, ok bool) {
	m := entryLine.FindStringSubmatchIndex(text)
	if m == nil {
		return entry{}, false
	}
	e = entry{lead: text[m[2]:m[3]], key: text[m[4]:m[5]], at: len(text)}
	if m[6] >= 0 {
		e.value, e.at = text[m[6]:m[7]], m[6]
	}
	return e, true
}

const mergeMessage = "<< is YAML for keys kept elsewhere, which a diary doesn't use"

var tight = regexp.MustCompile(`^([ \t]*(?:- +)*)([\pL][\pL0-9 _-]*|"[^"]*"|'[^']*'):([^\s/].*)$`)

// byteOf turns a column (from 1, in characters) into a byte of a line.
func byteOf(text string, column int) int {
	at := 0
	for ; column > 1 && at < len(text); column-- {
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	return at
}

// diagnose finds out why YAML gave up. It looks for what the people who write
// diaries do, and only at last repeats what YAML said.
func (t *tree) diagnose(bad trouble) diagnosis {
	if strings.Contains(bad.message, errTooDeep.Error()) {
		return diagnosis{code: "too-deep", span: t.span(max(bad.line, 1), t.text(max(bad.line, 1)), 0, 0),
			message: fmt.Sprintf("lists and maps stand more than %d levels deep", maxDepth), expected: "two or three levels", hint: "write it flatter"}
	}
	if strings.Contains(bad.message, "expected single document") {
		return t.secondDocument()
	}
	if bad.line == 0 {
		return t.plain(bad)
	}
	// A bracket or a quote that stays open carries the error far below its line.
	for _, line := range []int{bad.from, bad.line, t.entryAbove(bad.line)} {
		if d, ok := t.openQuote(line); line > 0 && ok {
			return d
		}
	}
	text := t.text(bad.line)
	at := byteOf(text, bad.column)
	rest := text[min(at, len(text)):]
	switch {
	case strings.Contains(bad.message, "tab character"), strings.HasPrefix(strings.TrimLeft(text, " "), "\t"):
		return t.tab(bad.line, text)
	case strings.HasPrefix(bad.message, "did not find expected ',' or"):
		return t.flow(bad, text, at)
	case bad.message == "mapping values are not allowed in this context":
		return t.colon(bad, text, at)
	case strings.HasPrefix(bad.message, "could not find expected ':'"):
		return t.noColon(bad)
	case strings.HasPrefix(bad.message, "did not find expected comment or line break"):
		if bad.from > 0 {
			return t.openingMark(bad.from, t.text(bad.from), byteOf(t.text(bad.from), bad.fromAt))
		}
	case bad.message == "did not find expected key", bad.message == "did not find expected '-' indicator":
		return t.strayWords(bad, text, at)
	case strings.HasPrefix(bad.message, "found unknown escape character") && at < len(text):
		return t.faultyValue(bad.line, text, diagnosis{code: "not-yaml", span: t.span(bad.line, text, at-1, at+1),
			message: "in double quotes a backslash and a letter stand for something else, and these two for nothing", expected: "words in single quotes", hint: "put single quotes round the words"})
	}
	if bad.from > 0 {
		// A star, an ampersand or an exclamation mark begins something that has no name.
		opening := t.text(bad.from)
		if n := byteOf(opening, bad.fromAt); n < len(opening) && strings.IndexByte("*&!", opening[n]) >= 0 {
			return t.openingMark(bad.from, opening, n)
		}
	}
	if rest != "" && strings.ContainsRune("*&!@%>|[]{},?-`", rune(rest[0])) {
		return t.openingMark(bad.line, text, at)
	}
	return t.plain(bad)
}

// faultyValue is a diagnosis about the value on a line, which is mended away.
func (t *tree) faultyValue(line int, text string, d diagnosis) diagnosis {
	e, ok := entryOf(text)
	switch {
	case ok:
		d.line, d.with = line, text[:e.at]+sep(text[:e.at])+`"`+faultyText+`"`
	case strings.HasPrefix(strings.TrimLeft(text, " "), "- "):
		lead := text[:strings.Index(text, "- ")+2]
		d.line, d.with = line, lead+`"`+faultyText+`"`
	}
	return d
}

// sep is the blank that must stand behind a colon at a line's end.
func sep(before string) string {
	if strings.HasSuffix(before, ":") {
		return " "
	}
	return ""
}

// plain repeats what YAML said.
func (t *tree) plain(bad trouble) diagnosis {
	line := max(bad.line, 1)
	text := t.text(line)
	at := byteOf(text, bad.column)
	return diagnosis{code: "not-yaml", span: t.span(line, text, at, at+1),
		message:  "this can't be read as YAML: " + strings.TrimPrefix(bad.message, "yaml: "),
		expected: "a key, a colon, a space and a value on each line", hint: "put the words in quotes"}
}

// tab reports a tab before the first character of a line.
func (t *tree) tab(line int, text string) diagnosis {
	n := len(text) - len(strings.TrimLeft(text, " \t"))
	from := strings.IndexByte(text[:n], '\t')
	to := from + len(text[from:n]) - len(strings.TrimLeft(text[from:n], "\t"))
	indent := "  "
	for above := line - 1; above > 0; above-- {
		if t := t.text(above); strings.TrimSpace(t) != "" {
			if t[0] == ' ' {
				indent = t[:len(t)-len(strings.TrimLeft(t, " "))]
			}
			break
		}
	}
	d := diagnosis{code: "tab", span: t.span(line, text, from, to), message: "a tab sets this line in", expected: "spaces", hint: "write two spaces for each tab",
		line: line, with: indent + text[n:]}
	if t.shift == nil {
		t.shift = map[int]int{}
	}
	t.shift[t.first+line-1] += len(indent) - n
	return d
}

// entryAbove is the nearest line above one that has a key, or 0.
func (t *tree) entryAbove(line int) int {
	for above := line - 1; above > 0 && above > line-40; above-- {
		if _, ok := entryOf(t.text(above)); ok {
			return above
		}
	}
	return 0
}

// openQuote reports a quote that opens a value and isn't closed on its line,
// with another key on the next.
func (t *tree) openQuote(line int) (diagnosis, bool) {
	text := t.text(line)
	e, ok := entryOf(text)
	if !ok || e.value == "" || e.value[0] != '"' && e.value[0] != '\'' {
		return diagnosis{}, false
	}
	if end := endOfQuoted([]byte(e.value), 0); end < len(e.value) || e.value[len(e.value)-1] == e.value[0] && len(e.value) > 1 {
		return diagnosis{}, false
	}
	next := t.text(line + 1)
	if _, ok := entryOf(next); !ok && strings.TrimSpace(next) != "" {
		return diagnosis{}, false
	}
	return t.faultyValue(line, text, diagnosis{code: "quote-open", span: t.span(line, text, e.at, e.at+1),
		message: "the quote that opens here is never closed", expected: "a quote at each end of the words", hint: "write " + short(e.value) + e.value[:1]}), true
}

// openingMark reports a value that opens with a character that means something
// to YAML.
func (t *tree) openingMark(line int, text string, at int) diagnosis {
	at = min(at, max(0, len(text)-1))
	words := text[at:]
	if n := strings.Index(words, " #"); n > 0 {
		words = words[:n]
	}
	words = strings.TrimRight(words, " ")
	hint := "write " + quote(short(words))
	e, ok := entryOf(text)
	if ok && e.key == "<<" {
		return diagnosis{code: "yaml-reference", span: t.span(line, text, len(e.lead), len(e.lead)+2), message: mergeMessage, expected: "a key of the diary's", hint: "leave it out, and write the keys themselves",
			line: line, with: "#"}
	}
	if !ok || e.at != at {
		if strings.ContainsAny(words, ",]}") {
			hint = "put the words in quotes"
		}
	}
	return t.faultyValue(line, text, diagnosis{code: "opening-mark", span: t.span(line, text, at, at+1),
		message: fmt.Sprintf("words can't open with %s unless they stand in quotes", text[at:min(at+1, len(text))]), expected: "words in quotes", hint: hint})
}

// colon reports a colon that YAML didn't expect.
func (t *tree) colon(bad trouble, text string, at int) diagnosis {
	if e, ok := entryOf(text); ok && at >= e.at {
		return t.colonInWords(bad.line, text, at, e.value)
	}
	// The line is sound: the one above runs into it.
	for above := bad.line - 1; above > 0; above-- {
		line := t.text(above)
		if strings.TrimSpace(line) == "" || strings.HasPrefix(strings.TrimSpace(line), "#") {
			continue
		}
		if m := tight.FindStringSubmatch(line); m != nil {
			return t.tightColon(above, line, m)
		}
		if _, ok := entryOf(line); ok {
			break
		}
		return t.lineAlone(above, line)
	}
	return t.indentation(bad.line, text)
}

func (t *tree) colonInWords(line int, text string, at int, words string) diagnosis {
	if n := strings.Index(words, " #"); n > 0 {
		words = strings.TrimSpace(words[:n])
	}
	hint := ""
	switch e, _ := entryOf(text); {
	case strings.HasPrefix(words, "{"), strings.HasPrefix(words, "["):
		// A comma that was forgotten looks the same as words with a colon.
		words = between(text, at)
		hint = "write " + quote(short(words))
		before := strings.Fields(strings.TrimSpace(text[:at]))
		if key := before[len(before)-1]; strings.Contains(words, " "+key+":") {
			hint = "write " + short(strings.Replace(words, " "+key+":", ", "+key+":", 1)) + ", or " + quote(short(words))
		}
	case mapKeys[e.key]:
		hint = "write " + e.key + ": {" + short(words) + "}"
	default:
		hint = "write " + quote(short(words))
	}
	return t.faultyValue(line, text, diagnosis{code: "colon-in-words", span: t.span(line, text, at, at+1),
		message: "words can't hold a colon with a space behind it unless they stand in quotes", expected: "words in quotes", hint: hint})
}

// between gives the words round a byte of a line, from the last colon, comma or
// bracket before it to the next comma or bracket.
func between(text string, at int) string {
	from := 0
	for _, mark := range []string{": ", ",", "{", "["} {
		if n := strings.LastIndex(text[:at], mark); n >= 0 {
			from = max(from, n+len(mark))
		}
	}
	to := len(text)
	if n := strings.IndexAny(text[at:], ",]}"); n >= 0 {
		to = at + n
	}
	return strings.TrimSpace(text[from:to])
}

func (t *tree) tightColon(line int, text string, m []string) diagnosis {
	at := len(m[1]) + len(m[2])
	message, rest := "a colon without a space behind it doesn't end a key", m[3]
	if after, ok := strings.CutPrefix(rest, "\u00a0"); ok {
		message, rest = "the space behind this colon is a no-break space, which doesn't end a key", after
	}
	return diagnosis{code: "colon-without-space", span: t.span(line, text, at, at+1),
		message: message, expected: "a space behind the colon", hint: "write " + short(m[2]+": "+rest),
		line: line, with: m[1] + m[2] + `: "` + faultyText + `"`}
}

// noColon reports a line that has no key.
func (t *tree) noColon(bad trouble) diagnosis {
	line := bad.from
	if line == 0 {
		line = bad.line
	}
	text := t.text(line)
	if m := tight.FindStringSubmatch(text); m != nil {
		return t.tightColon(line, text, m)
	}
	return t.lineAlone(line, text)
}

func (t *tree) lineAlone(line int, text string) diagnosis {
	words := strings.TrimSpace(text)
	start := strings.Index(text, words)
	return diagnosis{code: "line-without-key", span: t.span(line, text, start, start+len(words)),
		message: "this line has no colon", expected: "a key, a colon, a space and a value", hint: "write # " + short(words) + " to keep it for yourself alone, or a key and a colon before it, or set it in under the words it goes on with",
		line: line, with: "#"}
}

func (t *tree) indentation(line int, text string) diagnosis {
	n := len(text) - len(strings.TrimLeft(text, " "))
	return diagnosis{code: "indentation", span: t.span(line, text, 0, n),
		message: "this line stands neither under nor beside the one above", expected: "the same number of spaces before keys that stand beside each other", hint: "set it in as far as its neighbours"}
}

// strayWords reports what stands behind a value that has ended: behind a quote
// or a bracket that closes early.
func (t *tree) strayWords(bad trouble, text string, at int) diagnosis {
	e, ok := entryOf(text)
	if !ok || at <= e.at {
		if lead := strings.TrimLeft(text, " "); strings.HasPrefix(lead, "- ") && at > len(text)-len(lead)+2 {
			e = entry{value: strings.TrimLeft(lead[2:], " ")}
			e.at = len(text) - len(e.value)
		} else {
			return t.indentation(bad.line, text)
		}
	}
	if e.value == "" {
		return t.indentation(bad.line, text)
	}
	switch e.value[0] {
	case '"', '\'':
		end := e.at + endOfQuoted([]byte(e.value), 0)
		return t.faultyValue(bad.line, text, diagnosis{code: "quote-closes-early", span: t.span(bad.line, text, end-1, end),
			message: "the quote closes here, and words go on behind it", expected: "quotes round all of the words", hint: "write " + quote(short(e.value))})
	default:
		return t.openingMark(bad.line, text, e.at)
	}
}

// flow reports what is wrong between brackets or braces.
func (t *tree) flow(bad trouble, text string, at int) diagnosis {
	opening := t.text(bad.from)
	from := byteOf(opening, bad.fromAt)
	if bad.line == bad.from && at < len(text) {
		before := strings.TrimRight(text[:at], " ")
		switch {
		case text[at] == ':' && strings.HasPrefix(text[at:], ": "), text[at] == ':' && at+1 == len(text):
			e, _ := entryOf(text)
			return t.colonInWords(bad.line, text, at, e.value)
		case strings.HasSuffix(before, `"`), strings.HasSuffix(before, "'"):
			n := len(before)
			return t.faultyValue(bad.line, text, diagnosis{code: "quote-closes-early", span: t.span(bad.line, text, n-1, n),
				message: "the quote closes here, and words go on behind it", expected: "quotes round all of the words", hint: "use the other kind of quote round all of the words"})
		}
	}
	if n := hashIn(opening, from); n >= 0 {
		return t.faultyValue(bad.from, opening, diagnosis{code: "hash-eats-words", span: t.span(bad.from, opening, n, len(opening)),
			message: "YAML takes everything from the # on for a comment", expected: "words in quotes", hint: "put the words with the # in quotes"})
	}
	close := "]"
	if from < len(opening) && opening[from] == '{' {
		close = "}"
	}
	return t.faultyValue(bad.from, opening, diagnosis{code: "bracket-open", span: t.span(bad.from, opening, from, from+1),
		message: fmt.Sprintf("the %s that opens here is never closed", opening[from:min(from+1, len(opening))]), expected: "a " + close + " at the end", hint: "write " + close + " behind the last value, or put words in quotes"})
}

// hashIn finds a hash that opens a comment without a space behind it.
func hashIn(text string, from int) int {
	for i := from; i+2 < len(text); i++ {
		if text[i] == ' ' && text[i+1] == '#' && text[i+2] != ' ' {
			return i + 1
		}
	}
	return -1
}

// secondDocument reports a line that begins a second document, in a file that is
// YAML from end to end.
func (t *tree) secondDocument() diagnosis {
	seen := false
	for line := 1; line <= bytes.Count(t.block, []byte("\n"))+1; line++ {
		text := t.text(line)
		words := strings.TrimSpace(text)
		switch {
		case seen && (text == "..." || strings.HasPrefix(text, "---")):
			return diagnosis{code: "second-document", span: t.span(line, text, 0, len(text)), message: "a second document begins here", expected: "one, from the first line to the last",
				hint: "delete the line", line: line, with: "#"}
		case words != "" && words[0] != '#' && !strings.HasPrefix(text, "---"):
			seen = true
		}
	}
	return diagnosis{code: "second-document", span: t.span(1, t.text(1), 0, 0), message: "the file holds two documents", expected: "one", hint: "delete the second"}
}
