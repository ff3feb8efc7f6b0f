package header

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"wardian/content/source"
)

// The traps in this file are those that YAML reads without complaint, as
// something other than what was meant. Those that it complains of are in mend.go.

// quote puts words in the quotes that they can stand in as they are.
func quote(words string) string {
	if strings.ContainsAny(words, `"\`) {
		return "'" + strings.ReplaceAll(words, "'", "''") + "'"
	}
	return `"` + words + `"`
}

// short keeps what a message cites to the length of a message.
func short(words string) string {
	if utf8.RuneCountInString(words) <= 60 {
		return words
	}
	return string([]rune(words)[:57]) + "..."
}

// restOfLine gives what stands from a place to the end of its line, comments
// included.
func (t *tree) restOfLine(p source.Position) string {
	from := t.offset(p)
	rest := t.f.Bytes[from:]
	if n := strings.IndexByte(string(rest[:min(len(rest), 4096)]), '\n'); n >= 0 {
		rest = rest[:n]
	}
	return strings.TrimRight(string(rest), " \t\r")
}

// eaten reports a hash that turned the words behind it into a comment: "pot #3".
// A hash with a space behind it is a comment that was meant.
func (t *tree) eaten(v *Value, end source.Position) {
	at := t.offset(end)
	data := t.f.Bytes
	hash := at
	for hash < len(data) && (data[hash] == ' ' || data[hash] == '\t') {
		hash++
	}
	if hash == at || hash+1 >= len(data) || data[hash] != '#' {
		return
	}
	next, _ := utf8.DecodeRune(data[hash+1:])
	if !unicode.IsLetter(next) && !unicode.IsDigit(next) {
		return
	}
	from := t.position(hash)
	rest := t.restOfLine(from)
	written := rest
	if v.Kind != Empty {
		start := v.Span.Start
		if v.Style == Quoted {
			start = end
		}
		if start.Line == from.Line {
			written = strings.TrimSpace(t.restOfLine(start))
		}
	}
	hint := "write " + quote(short(written)) + ", or # with a space behind it for a comment"
	if v.Style == Quoted {
		hint = "put all of it in quotes, or a space behind the # for a comment"
	}
	t.fault("hash-eats-words", source.Span{Start: from, End: source.Position{Line: from.Line, Column: from.Column + utf8.RuneCountInString(rest)}},
		"YAML takes everything from the # on for a comment", "words in quotes", hint)
	v.Faulty = true
}

// colonAfter gives the place behind the colon that follows a key.
func (t *tree) colonAfter(p source.Position) source.Position {
	at := t.offset(p)
	for at < len(t.f.Bytes) && (t.f.Bytes[at] == ' ' || t.f.Bytes[at] == '\t') {
		at++
	}
	if at < len(t.f.Bytes) && t.f.Bytes[at] == ':' {
		return t.position(at + 1)
	}
	return p
}

// reference reports an alias, an anchor or a tag, each once in a file.
func (t *tree) reference(v *Value) {
	rest := t.restOfLine(v.Span.Start)
	word := rest
	if n := strings.IndexAny(rest, " \t,]}"); n > 0 {
		word = rest[:n]
	}
	v.Span.End.Column += utf8.RuneCountInString(word)
	if t.told[word] {
		return
	}
	if t.told == nil {
		t.told = map[string]bool{}
	}
	t.told[word] = true
	what := map[byte]string{'*': "a repeat of something written elsewhere", '&': "a mark to repeat something by", '!': "a tag"}
	kind := "something the diary doesn't use"
	if word != "" && what[word[0]] != "" {
		kind = what[word[0]] + ", which a diary doesn't use"
	}
	words := rest
	if n := strings.Index(rest, " #"); n > 0 {
		words = strings.TrimSpace(rest[:n])
	}
	hint := "if it is words, write " + quote(short(words))
	if strings.ContainsAny(words, ",]}") {
		hint = "if it is words, put them in quotes"
	}
	t.fault("yaml-reference", v.Span, fmt.Sprintf("%s is YAML for %s", word, kind), "words, or a value written out", hint)
}

var digits = regexp.MustCompile(`^[~]?[0-9]+$`)
var comma = regexp.MustCompile(`^[0-9]+([^0-9.].*)?$`)

// decimalComma says whether two neighbours in brackets are one figure written
// with a comma, such as 12,5x8 cm; it is then reported.
func (t *tree) decimalComma(before, after *Value) bool {
	if before.Kind != Text || after.Kind != Text || before.Style != Plain || after.Style != Plain ||
		!digits.MatchString(before.Text) || !comma.MatchString(after.Text) ||
		before.Span.End.Line != after.Span.Start.Line || before.Span.End.Column+1 != after.Span.Start.Column {
		return false
	}
	t.fault("decimal-comma", source.Span{Start: before.Span.Start, End: after.Span.End}, "in brackets and braces a comma parts two values",
		"a point in a figure", "write "+before.Text+"."+after.Text)
	before.Span.End = after.Span.End
	before.Faulty = true
	return true
}

// alone says whether a key in braces has no colon behind it, as the words behind
// a comma have: {note: sour, limp}.
func (t *tree) alone(key *Value, value *yaml.Node) bool {
	return value.Kind == yaml.ScalarNode && value.Value == "" && value.Style == 0 && value.Anchor == "" &&
		t.colonAfter(key.Span.End) == key.Span.End // {key:} is a key with nothing behind it
}

// keyAlone reports a key in braces that has no colon behind it.
func (t *tree) keyAlone(v *Value, key *Value) {
	if name, rest, ok := strings.Cut(key.Text, ":"); ok && key.Style == Plain && rest != "" && plainKey.MatchString(name) {
		at := key.Part(utf8.RuneCountInString(name), utf8.RuneCountInString(name)+1)
		t.fault("colon-without-space", at, "a colon without a space behind it doesn't end a key", "a space behind the colon", "write "+name+": "+rest)
		v.Fields = append(v.Fields, Field{Key: name, KeySpan: key.Part(0, utf8.RuneCountInString(name)), Value: Value{Kind: Empty, Span: key.Span, Faulty: true}})
		return
	}
	if len(v.Fields) == 0 {
		t.fault("key-without-value", key.Span, fmt.Sprintf("%q stands in braces without a colon and a value", short(key.Text)), "a key, a colon, a space and a value", "write "+short(key.Text)+" without braces, or a key and a colon before it")
		v.Faulty = true
		return
	}
	last := &v.Fields[len(v.Fields)-1].Value
	switch {
	case t.decimalComma(last, key):
	case last.Faulty:
		// The comma before it was reported already.
	default:
		words := key.Text
		if last.Kind == Text {
			words = last.Text + ", " + key.Text
		}
		t.fault("comma-in-words", key.Span, "in braces a comma ends the value, so that these words stand alone", "words with commas in quotes",
			"write "+v.Fields[len(v.Fields)-1].Key+": "+quote(short(words)))
		last.Faulty = true
	}
}

var plainKey = regexp.MustCompile(`^[\pL][\pL0-9 _-]*$`)

// wordWithoutSpace reports a front matter whose only key lacks the space behind
// its colon, so that YAML takes all of it for words.
func (t *tree) wordWithoutSpace(v Value) {
	name, rest, _ := strings.Cut(v.Text, ":")
	n := utf8.RuneCountInString(name)
	t.fault("colon-without-space", v.Part(n, n+1), "a colon without a space behind it doesn't end a key", "a space behind the colon", "write "+short(name+": "+rest))
}
