package prose

import (
	"bytes"
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"wardian/content/source"
)

// maxReferred bounds what links by reference may repeat: a definition written
// once can be called thousands of times.
const maxReferred = 256 << 10

// compiler makes a Document of one body.
type compiler struct {
	file   *source.File
	offset int // of the body in the file
	body   []byte
	report *source.Report
	doc    *Document
	warned int
	reached
}

// reached is the last place that was worked out. Links come in order, so that
// the next is counted from there: thousands on one long line would otherwise
// each count the line from its start.
type reached struct {
	offset int // in the file
	place  source.Position
}

// maxWarnings bounds the warnings about one body. Beyond it they repeat
// themselves, and each carries its line.
const maxWarnings = 100

// compile parses a body and takes it down as pieces. A body that overspends its
// budget is reported and gives a Document without words.
func compile(f *source.File, offset int, report *source.Report) (doc *Document) {
	c := &compiler{file: f, offset: offset, body: f.Bytes[offset:], report: report}
	c.doc = &Document{mark: markOf(f.Path)}
	defer func() {
		if r := recover(); r != nil {
			t, ours := r.(tangled)
			if !ours {
				panic(r)
			}
			refuse(f, offset+c.inside(t.at), report, t.message)
			doc = &Document{}
		}
	}()
	m := &meter{left: budget, body: c.body}
	root := parse(m)
	c.measure(root)
	c.split(root)
	c.notes(m)
	return c.doc
}

// parse gives the tree of a body, or panics with a tangled.
func parse(m *meter) ast.Node {
	pc := parser.NewContext()
	pc.Set(meterKey, m)
	return markdown.Parse(text.NewReader(m.body), parser.WithContext(pc))
}

// inside brings an offset that goldmark gave back into the body: some of its
// positions are off by a few bytes.
func (c *compiler) inside(at int) int { return min(max(at, 0), len(c.body)) }

// span gives the place of a stretch of the body.
func (c *compiler) span(start, end int) source.Span {
	start = c.inside(start)
	end = max(start, c.inside(end))
	return source.Span{Start: c.position(start), End: c.position(end)}
}

// position gives the place of a byte of the body.
func (c *compiler) position(at int) source.Position {
	at += c.offset
	from := c.reached
	if from.place.Line == 0 || at < from.offset {
		from.place, from.offset = c.file.Position(at), at
	}
	between := c.file.Bytes[from.offset:at]
	if n := bytes.Count(between, []byte("\n")); n > 0 {
		from.place = source.Position{Line: from.place.Line + n, Column: 1}
		between = between[bytes.LastIndexByte(between, '\n')+1:]
	}
	from.place.Column += utf8.RuneCount(between)
	if at == len(c.file.Bytes) || utf8.RuneStart(c.file.Bytes[at]) {
		c.reached = reached{at, from.place} // never from inside a character: it would count twice
	}
	return from.place
}

func (c *compiler) warn(span source.Span, code, message, expected, hint string) {
	if c.warned++; c.warned > maxWarnings {
		return
	}
	c.report.Add(c.file, source.Finding{
		Span: span, Severity: source.Warning, Code: code, Message: message, Expected: expected, Hint: hint,
	})
}

// measure refuses a tree that is too deep or would repeat too much.
func (c *compiler) measure(root ast.Node) {
	depth, referred := 0, 0
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			depth--
			return ast.WalkContinue, nil
		}
		if depth++; depth > 3*maxNested {
			panic(tangled{n.Pos(), "marks within marks, hundreds deep"})
		}
		switch n := n.(type) {
		case *ast.Link:
			if n.Reference != nil {
				referred += len(n.Destination) + len(n.Title)
			}
		case *ast.Image:
			if n.Reference != nil {
				referred += len(n.Destination) + len(n.Title)
			}
		}
		if referred > maxReferred {
			panic(tangled{n.Pos(), "a long link is called by reference again and again"})
		}
		return ast.WalkContinue, nil
	})
}

// split takes the tree down, section by section.
func (c *compiler) split(root ast.Node) {
	t := &tape{compiler: c, buf: make([]byte, 0, len(c.body)+len(c.body)/8+64)}
	start := len(c.body) - len(bytes.TrimLeft(c.body, " \t\r\n"))
	current := &Section{doc: c.doc, mark: c.doc.mark + "-0", Span: c.span(start, start+1)}
	c.doc.opening = current
	for n := root.FirstChild(); n != nil; n = n.NextSibling() {
		switch n := n.(type) {
		case *ast.Heading:
			if n.Level != 2 {
				c.write(t, n)
				continue
			}
			current.body = t.done()
			current = c.section(n)
			c.doc.sections = append(c.doc.sections, current)
			c.write(t, n)
			current.head = t.done()
		case *extast.FootnoteList:
			// Kept apart: each section carries the notes that it calls.
		default:
			c.write(t, n)
		}
	}
	current.body = t.done()
	for n := root.LastChild(); n != nil; n = n.PreviousSibling() {
		if list, ok := n.(*extast.FootnoteList); ok {
			c.doc.notes = make([][]piece, list.Count)
			for note := list.FirstChild(); note != nil; note = note.NextSibling() {
				c.write(t, note)
				c.doc.notes[note.(*extast.Footnote).Index-1] = t.done()
			}
			break
		}
	}
	slices.SortStableFunc(c.doc.links, func(a, b Link) int {
		return cmp.Or(cmp.Compare(a.Span.Start.Line, b.Span.Start.Line), cmp.Compare(a.Span.Start.Column, b.Span.Start.Column))
	})
}

func (c *compiler) write(t *tape, n ast.Node) {
	// The tape never fails to write, and no renderer of ours or goldmark's
	// errs by itself: an error here is a promise broken.
	if err := renderers.Render(t, c.body, n); err != nil {
		panic(err)
	}
}

func (c *compiler) section(h *ast.Heading) *Section {
	start, end := h.Pos(), h.Pos()
	if lines := h.Lines(); lines.Len() > 0 {
		start, end = lines.At(0).Start, lines.At(lines.Len()-1).Stop
		trimmed := strings.TrimRight(string(c.body[c.inside(start):c.inside(end)]), " \t\r\n")
		end = start + len(trimmed)
	}
	return &Section{
		Heading: c.words(h), Span: c.span(start, end), doc: c.doc,
		mark: c.doc.mark + "-" + itoa(len(c.doc.sections)+1),
	}
}

// notes reports footnotes that nobody calls and calls that find none.
func (c *compiler) notes(m *meter) {
	for _, note := range m.notes {
		if note.Index < 0 {
			at := c.inside(note.Pos())
			c.warn(c.span(at, at+len(note.Ref)+3), codeNoteUnused,
				"nothing in the words above calls this footnote, so it isn't shown",
				"[^"+string(note.Ref)+"] where the footnote belongs", "")
		}
	}
	for _, at := range m.unknown {
		label := string(c.body[c.inside(at[0]):c.inside(at[1])])
		c.warn(c.span(at[0], at[1]), codeNoNote, "there is no such footnote", "a line of its own that opens with "+label+":", "")
	}
}

// words gives the words of a node, without marks and pictures; white space runs
// to one space.
func (c *compiler) words(n ast.Node) string {
	var b strings.Builder
	c.gather(&b, n)
	return strings.Join(strings.Fields(clean([]byte(b.String()))), " ")
}

func (c *compiler) gather(b *strings.Builder, n ast.Node) {
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		switch child := child.(type) {
		case *ast.Text:
			if child.IsRaw() {
				b.Write(child.Segment.Value(c.body))
			} else {
				b.Write(resolve(child.Segment.Value(c.body)))
			}
			if child.SoftLineBreak() || child.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.String:
			b.Write(child.Value)
		case *ast.AutoLink:
			b.Write(child.Label(c.body))
		case *ast.Image:
		default:
			c.gather(b, child)
		}
	}
}

// resolve gives what a stretch of Markdown means: without the backslashes before
// marks, with character references as characters.
func resolve(b []byte) []byte {
	return util.UnescapePunctuations(util.ResolveEntityNames(util.ResolveNumericReferences(b)))
}
