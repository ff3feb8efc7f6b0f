package content

import (
	"fmt"
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/source"
)

// reader reads one file. Its methods report what they can't read and go on.
type reader struct {
	file     *source.File
	report   *source.Report
	kind     string // the word of the trade for this kind of file: "check-in"
	units    measure.Units
	currency string      // the diary's
	today    measure.Day // later days lie in the future
	noMoney  *bool       // whether it was told already that the diary names no currency
	searches int         // for something near, made for this file
}

// maxSearches is how many times a file gets the nearest of a diary's many
// pictures, IDs or links looked for. Beyond that the file is told what is wrong,
// without an offer: each search goes through the whole diary.
const maxSearches = 25

// search says whether another search may be made for this file.
func (rd *reader) search() bool {
	rd.searches++
	return rd.searches <= maxSearches
}

// fault reports a finding of the file.
func (rd *reader) fault(code string, at source.Span, message, expected, hint string) {
	rd.report.Add(rd.file, header.Fault(code, at, message, expected, hint))
}

// record is a map being read by a table of keys. It knows which keys there are,
// so that an unknown one is found before any is asked for; asking for a key that
// isn't in the table, or for another kind of value than the table has, is a fault
// of the program's own and panics.
type record struct {
	*reader
	keys   []format.Key
	fields []header.Field
	prefix string // "leaves.", before the names of its keys
	spans  Spans
}

// asked, where a test sets it, is told each key that is asked for.
var asked func(kind, key string)

// record begins to read a map. Unknown keys are reported; where required is not
// nil, so are required keys that are missing, at that place.
func (rd *reader) record(fields []header.Field, keys []format.Key, prefix string, required *source.Span) *record {
	c := &record{reader: rd, keys: keys, fields: fields, prefix: prefix, spans: make(Spans, 0, len(fields))}
	for i := range fields {
		f := &fields[i]
		if format.Find(keys, f.Key) == nil {
			rd.unknownKey(f, keys, prefix)
			continue
		}
		if f.Value.Kind != header.Empty {
			c.spans = append(c.spans, KeySpan{Key: prefix + f.Key, Span: f.Value.Span})
		}
	}
	if required != nil {
		for i := range keys {
			if keys[i].Required {
				c.required(&keys[i], *required)
			}
		}
	}
	return c
}

// required reports a key that must be there and isn't.
func (c *record) required(key *format.Key, at source.Span) {
	if f := c.field(key.Name); f == nil || f.Value.Kind == header.Empty && !f.Value.Faulty {
		if f != nil {
			at = f.KeySpan
		}
		c.fault("missing-key", at, fmt.Sprintf("the key %q is missing", c.prefix+key.Name), expectedOf(&key.Value), "write "+key.Name+": "+key.Example)
	}
}

// expectedOf says what a value should be: the words themselves, where it is one
// of a list.
func expectedOf(v *format.Value) string {
	if v.Kind == format.Choice {
		return strings.Join(v.WordList(), ", ")
	}
	return v.Kind.Expected()
}

// unknownKey reports a key that isn't in the table. One that another kind of file
// has is said so; for others the nearest is offered.
func (rd *reader) unknownKey(f *header.Field, keys []format.Key, prefix string) {
	what := "a " + rd.kind
	if rd.kind == "import" || rd.kind == "update" || rd.kind == "order" {
		what = "an " + rd.kind
	}
	if rd.kind == "diary" {
		what = "diary.yaml"
	}
	if prefix != "" {
		what = strings.TrimSuffix(prefix, ".")
	}
	names := format.Names(keys)
	hint := ""
	if prefix == "" {
		for _, file := range format.Files() {
			if format.Find(file.Keys, f.Key) != nil && file.Name != rd.kind {
				hint = fmt.Sprintf("leave it out, and look whether it belongs in %s", file.Path)
				break
			}
		}
	} else if format.Find(format.Entry, f.Key) != nil && format.Find(format.Seen, strings.TrimSuffix(prefix, ".")) != nil {
		hint = fmt.Sprintf("move it beside %s, not under it", strings.TrimSuffix(prefix, "."))
	}
	if n := source.Nearest(f.Key, names); n != "" && hint == "" {
		hint = "nearest: " + n
	}
	if hint == "" {
		hint = "leave it out, or put it under private"
	}
	expected := "one of " + strings.Join(names, ", ")
	if len(names) > 12 {
		expected = "a key of " + what
	}
	rd.fault("unknown-key", f.KeySpan, fmt.Sprintf("there is no key %q in %s", f.Key, what), expected, hint)
}

func (c *record) field(name string) *header.Field {
	for i := range c.fields {
		if c.fields[i].Key == name {
			return &c.fields[i]
		}
	}
	return nil
}

// has says whether a key is written with something behind it, read or not.
func (c *record) has(name string) bool {
	f := c.field(name)
	return f != nil && (f.Value.Kind != header.Empty || f.Value.Faulty)
}

// spanOf is the place of a key's value; of the key where nothing stands behind
// it; the zero place where it isn't written.
func (c *record) spanOf(name string) source.Span {
	if f := c.field(name); f != nil {
		return f.Value.Span
	}
	return source.Span{}
}

// keyOf is the place of a key; the zero place where it isn't written.
func (c *record) keyOf(name string) source.Span {
	if f := c.field(name); f != nil {
		return f.KeySpan
	}
	return source.Span{}
}

// value gives what stands behind a key, of one of the kinds of the table; nil
// where nothing does, or nothing that says anything.
func (c *record) value(name string, kinds ...format.Kind) (*header.Value, *format.Key) {
	key := format.Find(c.keys, name)
	if key == nil {
		panic(fmt.Sprintf("content: %q is no key of a %s", c.prefix+name, c.kind))
	}
	ok := false
	for _, k := range kinds {
		ok = ok || k == key.Value.Kind
	}
	if !ok {
		panic(fmt.Sprintf("content: the key %q of a %s is of another kind", c.prefix+name, c.kind))
	}
	if asked != nil {
		asked(c.kind, c.prefix+name)
	}
	f := c.field(name)
	if f == nil || f.Value.Faulty || f.Value.Kind == header.Empty {
		return nil, key
	}
	return &f.Value, key
}

// written is the text of a value as it stands in its line, quotes and brackets
// included; "" where it runs over lines.
func (rd *reader) written(v *header.Value) string {
	if v.Span.Start.Line != v.Span.End.Line {
		return ""
	}
	return string(rd.file.Bytes[rd.file.Offset(v.Span.Start):rd.file.Offset(v.Span.End)])
}

// scalarText gives the text of a value that must be one piece of text; a list or
// a map there is reported.
func (rd *reader) scalarText(v *header.Value, want *format.Value) (string, bool) {
	switch v.Kind {
	case header.Text:
		if v.Text == "" {
			rd.fault("wrong-kind", v.Span, "nothing stands between the quotes", expectedOf(want), "leave the key out, or write it")
			return "", false
		}
		return v.Text, true
	case header.Empty:
		return "", false
	}
	rd.wrongKind(v, want, "")
	return "", false
}

// wrongKind reports a list or a map where something else is wanted, or the
// other way round. The example is one of the key's, or "".
func (rd *reader) wrongKind(v *header.Value, want *format.Value, example string) {
	what := map[header.Kind]string{header.Text: "words stand", header.List: "a list stands", header.Map: "a map stands", header.Empty: "nothing stands"}[v.Kind]
	hint := "look at what wardian help tells of it"
	written := rd.written(v)
	switch {
	case want.Kind == format.Text && written != "" && (written[0] == '[' || written[0] == '{'):
		hint = "if it is words, write \"" + written + "\""
		if strings.Contains(written, `"`) {
			hint = "if it is words, put quotes round all of them"
		}
	case v.Kind == header.List && len(v.Items) == 1 && v.Items[0].Kind == header.Text && (want.Kind.Scalar() || want.Kind == format.Plant):
		hint = "write " + v.Items[0].Text
	case v.Kind == header.List && want.Kind.Scalar():
		hint = "keep one of them, without brackets"
	case v.Kind == header.Map && want.Kind.Scalar():
		hint = "keep one value, without braces"
		if len(v.Fields) == 1 && v.Fields[0].Value.Kind == header.Text {
			hint = "write " + v.Fields[0].Value.Text
		}
	case v.Kind == header.Text && want.Kind == format.Map && len(want.Keys) > 0 && !want.Keys[0].Required:
		hint = fmt.Sprintf("write {%s: %s}", want.Keys[0].Name, v.Text)
	case example != "":
		hint = "write it like " + example
	}
	rd.fault("wrong-kind", v.Span, what+" where "+wanted(want)+" should", expectedOf(want), hint)
}

// wanted names what a value should be, without its example.
func wanted(want *format.Value) string {
	switch want.Kind {
	case format.Choice:
		return "one word"
	case format.Plant:
		return "plain words or a map"
	case format.Cause:
		return "a cause"
	}
	words, _, _ := strings.Cut(want.Kind.Expected(), " such as")
	words, _, _ = strings.Cut(words, ":")
	return words
}
