package header

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"wardian/content/source"
)

// Reading goes on behind a line that isn't YAML: what is wrong with the line is
// found out, reported, and mended in a copy of the block, which is parsed again.
// The other way, to stop at the first such line, would hide the file's other
// faults until the next run, and report keys as missing that stand below it.
// The price, a parse of one file for each of its faults, is paid by broken files
// alone and has a limit.

// parse gives the root of the block's tree, nil for a block without keys; ok is
// false where it couldn't be read, which is then reported.
func (t *tree) parse() (root *yaml.Node, ok bool) {
	if root, ok := simple(t.block, t.room); ok {
		return root, true
	}
	var last source.Position
	for mends := 0; ; mends++ {
		root, err := load(t.block)
		if err == nil {
			return root, true
		}
		bad := t.trouble(err)
		at := source.Position{Line: bad.line, Column: bad.column}
		if mends == maxMends || mends > 0 && at == last {
			return nil, false
		}
		last = at
		d := t.diagnose(bad)
		t.fault(d.code, d.span, d.message, d.expected, d.hint)
		if d.line == 0 {
			return nil, false
		}
		t.mend(d)
	}
}

// load parses a block into nodes. A block without any is no error.
func load(block []byte) (*yaml.Node, error) {
	var doc yaml.Node
	err := yaml.Load(block, &doc, yaml.WithPlugin(limits{}))
	if err != nil {
		if strings.Contains(err.Error(), "no documents in stream") {
			return nil, nil
		}
		return nil, err
	}
	if doc.Kind == yaml.DocumentNode {
		if len(doc.Content) == 0 {
			return nil, nil
		}
		root := doc.Content[0]
		if root.Kind == yaml.ScalarNode && root.Value == "" && root.Style == 0 && root.Anchor == "" {
			return nil, nil
		}
		return root, nil
	}
	return &doc, nil
}

// trouble is what YAML said, with places in lines of the block.
type trouble struct {
	message      string
	line, column int // where it gave up; 0 where it didn't say
	from, fromAt int // where the thing began that it was reading
}

func (t *tree) trouble(err error) trouble {
	var le *yaml.LoadError
	if !errors.As(err, &le) {
		return trouble{message: err.Error()}
	}
	bad := trouble{message: le.Message, line: le.Mark.Line, column: le.Mark.Column, from: le.ContextMark.Line, fromAt: le.ContextMark.Column}
	// YAML gives the end of a text without a last line end on a line of its own.
	t.bounds(1)
	if last := len(t.lines); bad.line > last {
		bad.line, bad.column = last, utf8.RuneCountInString(t.text(last))+1
	}
	bad.from = min(bad.from, len(t.lines))
	return bad
}

// diagnosis is a finding about a line, and how to mend the line in memory.
type diagnosis struct {
	code                    string
	span                    source.Span
	message, expected, hint string
	line                    int    // of the block, to be mended; 0: it can't be
	with                    string // what to put in its place, without a line end
}

// mend puts another line in the place of one of the block's.
func (t *tree) mend(d diagnosis) {
	start, end := t.bounds(d.line)
	t.block = bytes.Join([][]byte{t.block[:start], []byte(d.with), t.block[end:]}, nil)
	t.mended, t.lines = true, nil
}

// bounds gives the bytes between which a line of the block stands, without its
// line end.
func (t *tree) bounds(line int) (start, end int) {
	if t.lines == nil {
		t.lines = []int{0}
		for i, c := range t.block {
			if c == '\n' {
				t.lines = append(t.lines, i+1)
			}
		}
	}
	if line < 1 || line > len(t.lines) {
		return len(t.block), len(t.block)
	}
	start, end = t.lines[line-1], len(t.block)
	if line < len(t.lines) {
		end = t.lines[line] - 1
	}
	return start, start + len(bytes.TrimRight(t.block[start:end], "\r"))
}

// text gives a line of the block.
func (t *tree) text(line int) string {
	start, end := t.bounds(line)
	return string(t.block[start:end])
}

// span is the place of some characters of a line of the block, from start up to,
// not including, end, counted in bytes of the line.
func (t *tree) span(line int, text string, start, end int) source.Span {
	start, end = min(max(start, 0), len(text)), min(max(end, 0), len(text))
	fileLine := t.first + line - 1
	first := 1
	if line == 1 {
		first = t.f.Position(t.start).Column
	}
	from := first + utf8.RuneCountInString(text[:start]) - t.shift[fileLine]
	return source.Span{
		Start: source.Position{Line: fileLine, Column: max(1, from)},
		End:   source.Position{Line: fileLine, Column: max(1, from+utf8.RuneCountInString(text[start:max(start, end)]))},
	}
}
