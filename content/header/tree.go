package header

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"wardian/content/source"
)

// faultyText stands for a value that was mended away, in the block that is
// parsed again. It is from Unicode's private area, so that no diary writes it.
const faultyText = "\ue000"

// errTooDeep is what the parser is told to stop with.
var errTooDeep = errors.New("too deep")

// limits stops the parser before a tree grows that we would refuse anyway.
type limits struct{}

func (limits) CheckDepth(depth int, _ *yaml.DepthContext) error {
	if depth > 4*maxDepth {
		return errTooDeep
	}
	return nil
}

func (limits) CheckAlias(int, int) error { return nil }

// fill reads the block that begins at a byte of the file into the header.
func (h *Header) fill(block []byte, start int, r *source.Report) {
	t := &tree{f: h.File, r: r, start: start, first: h.File.Position(start).Line, block: block}
	if len(block) > MaxHead {
		r.Add(t.f, Fault("file-too-long", h.Head, fmt.Sprintf("the front matter has %d KiB", (len(block)+1023)/1024),
			fmt.Sprintf("at most %d KiB", MaxHead>>10), "move words below the front matter"))
		return
	}
	if n := separators(block); n >= 0 {
		r.Add(t.f, Fault("control-character", t.f.SpanOf(start+n, start+n+3), "an invisible line separator stands here", "text", "delete it"))
		return
	}
	t.room = rooms.Get().(*nodes)
	defer t.room.drop()
	root, ok := t.parse()
	if !ok {
		return
	}
	h.Broken = false
	if root == nil {
		return
	}
	switch top := t.value(root, 0); {
	case top.Kind == Map:
		h.Top = top
	case top.Kind == Text && !top.Faulty && strings.Contains(top.Text, ":"):
		t.wordWithoutSpace(top)
		h.Broken = true
	case !top.Faulty:
		t.fault("not-a-map", t.topLine(top), "no key stands here", "a key, a colon, a space and a value", "write key: value")
		h.Broken = true
	default:
		h.Broken = true
	}
	h.Broken = h.Broken || t.stopped
}

// tree turns YAML's nodes into values with places.
type tree struct {
	f       *source.File
	r       *source.Report
	start   int             // byte of the file at which the block begins
	first   int             // its line
	block   []byte          // what is parsed, with lines mended
	lines   []int           // the byte at which each line of the block begins; nil: not looked for yet
	shift   map[int]int     // by line of the file: how many columns mending moved it to the right
	room    *nodes          // for those of a simple block
	mended  bool            // the block isn't what was written
	nodes   int             // met so far
	stopped bool            // a limit was reached
	told    map[string]bool // aliases, anchors and tags that were reported
	cursor  cursor          // the place last looked up
}

func (t *tree) fault(code string, at source.Span, message, expected, hint string) {
	t.r.Add(t.f, Fault(code, at, message, expected, hint))
}

// at is the place of a node in the file.
func (t *tree) at(n *yaml.Node) source.Position {
	line := t.first + n.Line - 1
	return source.Position{Line: line, Column: max(1, n.Column-t.shift[line])}
}

// topLine cuts a value's place down to its first line.
func (t *tree) topLine(v Value) source.Span {
	s := v.Span
	if s.End.Line > s.Start.Line {
		s.End = source.Position{Line: s.Start.Line, Column: s.Start.Column + utf8.RuneCountInString(t.f.Line(s.Start.Line)[t.offset(s.Start)-t.offset(source.Position{Line: s.Start.Line, Column: 1}):])}
	}
	return s
}

// value makes a value of a node.
func (t *tree) value(n *yaml.Node, depth int) Value {
	t.nodes++
	start := t.at(n)
	v := Value{Span: source.Span{Start: start, End: start}}
	switch {
	case t.stopped:
		v.Faulty = true
		return v
	case t.nodes > maxNodes:
		t.stopped, v.Faulty = true, true
		t.fault("too-deep", v.Span, fmt.Sprintf("more than %d keys and values", maxNodes), "a file kept by hand", "split it")
		return v
	case depth > maxDepth:
		t.stopped, v.Faulty = true, true
		t.fault("too-deep", v.Span, fmt.Sprintf("lists and maps stand more than %d levels deep", maxDepth), "two or three levels", "write it flatter")
		return v
	case n.Kind == yaml.AliasNode || n.Anchor != "" || n.Style&yaml.TaggedStyle != 0:
		v.Faulty = true
		t.reference(&v)
		return v
	}
	switch n.Kind {
	case yaml.ScalarNode:
		t.scalar(&v, n)
	case yaml.SequenceNode:
		v.Kind = List
		t.items(&v, n, depth)
		t.closing(&v, n)
	case yaml.MappingNode:
		v.Kind = Map
		t.fields(&v, n, depth)
		t.closing(&v, n)
	}
	return v
}

// items reads a list.
func (t *tree) items(v *Value, n *yaml.Node, depth int) {
	v.Items = make([]Value, 0, len(n.Content))
	for i, c := range n.Content {
		item := t.value(c, depth+1)
		if n.Style&yaml.FlowStyle != 0 && i > 0 && t.decimalComma(&v.Items[len(v.Items)-1], &item) {
			continue
		}
		t.eaten(&item, item.Span.End)
		v.Items = append(v.Items, item)
	}
}

// fields reads a map: its keys must be words, each once.
func (t *tree) fields(v *Value, n *yaml.Node, depth int) {
	v.Fields = make([]Field, 0, len(n.Content)/2)
	var seen map[string]int
	for i := 0; i+1 < len(n.Content); i += 2 {
		kn := n.Content[i]
		if kn.Tag == "!!merge" {
			at := t.at(kn)
			t.fault("yaml-reference", source.Span{Start: at, End: source.Position{Line: at.Line, Column: at.Column + 2}},
				mergeMessage, "a key of the diary's", "leave it out, and write the keys themselves")
			continue
		}
		if kn.Kind != yaml.ScalarNode {
			at := t.at(kn)
			t.fault("not-a-map", source.Span{Start: at, End: at}, "a list or a map stands where a key should", "a key, a colon, a space and a value", "write key: value")
			continue
		}
		key := t.value(kn, depth+1)
		if key.Faulty {
			continue
		}
		if n.Style&yaml.FlowStyle != 0 && t.alone(&key, n.Content[i+1]) {
			// Words behind further commas belong to the same finding.
			words := []string{key.Text}
			for i+3 < len(n.Content) && n.Content[i+2].Kind == yaml.ScalarNode && key.Style == Plain {
				next := t.value(n.Content[i+2], depth+1)
				if next.Faulty || !t.alone(&next, n.Content[i+3]) || strings.Contains(next.Text, ":") {
					break
				}
				words = append(words, next.Text)
				key.Span.End, key.exact = next.Span.End, false
				i += 2
			}
			key.Text = strings.Join(words, ", ")
			t.keyAlone(v, &key)
			continue
		}
		f := Field{Key: key.Text, KeySpan: key.Span, Value: t.value(n.Content[i+1], depth+1)}
		if f.Value.Kind == Empty && !f.Value.Faulty {
			f.Value.Span = f.KeySpan
			t.eaten(&f.Value, t.colonAfter(f.KeySpan.End))
		} else if f.Value.Kind == Text {
			t.eaten(&f.Value, f.Value.Span.End)
		}
		if first := t.again(v, f.Key, &seen); first != nil {
			finding := Fault("duplicate-key", f.KeySpan, fmt.Sprintf("%q is written twice", f.Key), "each key once", "keep one of the two")
			finding.Related = []source.Related{{File: t.f.Path, Start: first.KeySpan.Start, Message: "it is first written here"}}
			t.r.Add(t.f, finding)
			continue
		}
		v.Fields = append(v.Fields, f)
	}
}

// again gives the field that bears a key already. Small maps are looked through;
// large ones get an index.
func (t *tree) again(v *Value, key string, seen *map[string]int) *Field {
	if len(v.Fields) < 16 {
		return v.Field(key)
	}
	if *seen == nil {
		*seen = make(map[string]int, 2*len(v.Fields))
		for i, f := range v.Fields {
			(*seen)[f.Key] = i
		}
	}
	if i, ok := (*seen)[key]; ok {
		return &v.Fields[i]
	}
	(*seen)[key] = len(v.Fields)
	return nil
}

// scalar reads a text and finds where it ends in the file.
func (t *tree) scalar(v *Value, n *yaml.Node) {
	switch {
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		v.Kind, v.Style, v.Text = Text, Block, strings.TrimRight(n.Value, "\n ")
		v.Span.End = source.Position{Line: v.Span.Start.Line, Column: v.Span.Start.Column + 1}
		return
	case n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0:
		v.Kind, v.Style, v.Text = Text, Quoted, n.Value
		if t.mended && n.Value == faultyText {
			v.Faulty = true
			return
		}
		from := t.offset(v.Span.Start)
		end := endOfQuoted(t.f.Bytes, from)
		v.Span.End = t.position(end)
		v.exact = end-from == len(n.Value)+2 && v.Span.End.Line == v.Span.Start.Line
	case n.Value == "" || n.Value == "~":
		v.Span.End.Column += len(n.Value)
		return
	default:
		v.Kind, v.Text = Text, n.Value
		from := t.offset(v.Span.Start)
		if startsWith(t.f.Bytes, from, n.Value) {
			v.exact = true
			v.Span.End.Column += utf8.RuneCountInString(n.Value)
		} else {
			v.Span.End = t.position(endOfPlain(t.f.Bytes, from, n.Value))
		}
	}
	if t := strings.TrimSpace(v.Text); t != v.Text {
		v.exact = v.exact && strings.HasPrefix(v.Text, t)
		v.Text = t
	}
	if v.exact {
		v.chars = utf8.RuneCountInString(v.Text)
	}
}

// endOfQuoted gives the byte after the quote that closes a text in quotes.
func endOfQuoted(data []byte, from int) int {
	if from >= len(data) {
		return len(data)
	}
	quote := data[from]
	for i := from + 1; i < len(data); i++ {
		switch {
		case quote == '"' && data[i] == '\\':
			i++
		case data[i] == quote && quote == '\'' && i+1 < len(data) && data[i+1] == '\'':
			i++
		case data[i] == quote:
			return i + 1
		}
	}
	return len(data)
}

// endOfPlain gives the byte after a text without quotes that runs over lines:
// its words stand in the file in the same order, with white space between.
func endOfPlain(data []byte, from int, text string) int {
	at := from
	for word := range strings.FieldsSeq(text) {
		next := at
		for next < len(data) && strings.IndexByte(" \t\r\n", data[next]) >= 0 {
			next++
		}
		if !startsWith(data, next, word) {
			return at
		}
		at = next + len(word)
	}
	return at
}

// startsWith says whether a text stands at a byte.
func startsWith(data []byte, at int, text string) bool {
	return at+len(text) <= len(data) && string(data[at:at+len(text)]) == text
}

// closing puts the end of a list or map behind its last part, and behind the
// bracket that closes it.
func (t *tree) closing(v *Value, n *yaml.Node) {
	for i := range v.Items {
		v.Span.End = v.Items[i].Span.End
	}
	for i := range v.Fields {
		v.Span.End = v.Fields[i].Value.Span.End
	}
	if n.Style&yaml.FlowStyle == 0 {
		return
	}
	at := t.offset(v.Span.End)
	if len(v.Items)+len(v.Fields) == 0 {
		at++
	}
	data := t.f.Bytes
	for at < len(data) && strings.IndexByte(" \t\r\n,:", data[at]) >= 0 {
		at++
	}
	if at < len(data) && (data[at] == ']' || data[at] == '}') {
		v.Span.End = t.position(at + 1)
	}
}

// cursor is a place with its byte. Places are looked up in the order of the
// file, nearly always, so that each look-up goes on from the one before: a line
// of 64 KiB with thousands of values would else be counted thousands of times.
type cursor struct {
	source.Position
	offset int
}

// offset is the byte of a place.
func (t *tree) offset(p source.Position) int {
	c := &t.cursor
	if p.Line != c.Line || p.Column < c.Column {
		*c = cursor{source.Position{Line: p.Line, Column: 1}, t.f.Offset(source.Position{Line: p.Line, Column: 1})}
	}
	data := t.f.Bytes
	for c.Column < p.Column && c.offset < len(data) && data[c.offset] != '\n' {
		_, size := utf8.DecodeRune(data[c.offset:])
		c.offset += size
		c.Column++
	}
	return c.offset
}

// position is the place of a byte.
func (t *tree) position(offset int) source.Position {
	c := &t.cursor
	offset = min(offset, len(t.f.Bytes))
	if c.Line == 0 || offset < c.offset || bytes.IndexByte(t.f.Bytes[c.offset:offset], '\n') >= 0 {
		*c = cursor{t.f.Position(offset), offset}
		return c.Position
	}
	c.Column += utf8.RuneCount(t.f.Bytes[c.offset:offset])
	c.offset = offset
	return c.Position
}
