package prose

import (
	"strconv"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"
)

func itoa(n int) string { return strconv.Itoa(n) }

// renderers write a tree onto a tape: goldmark's own for the plain nodes, ours
// where a page has a say, where HTML would be let through and where valid HTML
// needs more than the node alone (a figure can't stand in a paragraph).
var renderers = renderer.NewRenderer(renderer.WithNodeRenderers(
	util.Prioritized(html.NewRenderer(), 1000),
	util.Prioritized(ours{}, 100),
))

type ours struct{}

type writer = util.BufWriter

const (
	goOn = ast.WalkContinue
	skip = ast.WalkSkipChildren
)

// RegisterFuncs tells goldmark which nodes are ours.
func (ours) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	on := func(k ast.NodeKind, write func(t *tape, n ast.Node, entering bool) ast.WalkStatus) {
		r.Register(k, func(w writer, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
			return write(w.(*tape), n, entering), nil
		})
	}
	on(ast.KindHeading, writeHeading)
	on(ast.KindParagraph, writeParagraph)
	on(ast.KindTextBlock, writeTextBlock)
	on(ast.KindFencedCodeBlock, writeFenced)
	on(ast.KindHTMLBlock, writeHTML)
	on(ast.KindRawHTML, writeHTML)
	on(ast.KindLink, writeLink)
	on(ast.KindAutoLink, writeAutoLink)
	on(ast.KindImage, writeImage)
	on(extast.KindTable, writeTable)
	on(extast.KindTableHeader, writeTableHeader)
	on(extast.KindTableRow, writeTableRow)
	on(extast.KindTableCell, writeTableCell)
	on(extast.KindFootnote, func(*tape, ast.Node, bool) ast.WalkStatus { return goOn })
	on(extast.KindFootnoteLink, writeNoteLink)
	on(extast.KindFootnoteBacklink, writeNoteBack)
}

// hang sets the pictures that were met inside a paragraph after it.
func (t *tape) hang() {
	for _, p := range t.waiting {
		t.gap(p)
	}
	t.waiting = t.waiting[:0]
}

func writeHeading(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		t.gap(piece{kind: headOpen, n: n.(*ast.Heading).Level})
		return goOn
	}
	t.gap(piece{kind: headClose, n: n.(*ast.Heading).Level})
	t.hang()
	return goOn
}

func writeParagraph(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	bare := wordless(n)
	switch {
	case entering && !bare:
		t.WriteString("<p>")
	case !entering && !bare:
		t.WriteString("</p>\n")
	}
	if !entering {
		t.hang()
	}
	return goOn
}

func writeTextBlock(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if !entering {
		t.hang()
		if n.NextSibling() != nil && n.FirstChild() != nil {
			t.WriteByte('\n')
		}
	}
	return goOn
}

// wordless tells whether a node shows nothing but pictures.
func wordless(n ast.Node) bool {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Image, *ast.RawHTML:
		case *ast.Text:
			if !c.Segment.IsEmpty() {
				return false
			}
		case *ast.Link, *ast.Emphasis:
			if !wordless(c) {
				return false
			}
		default:
			return false
		}
	}
	return true
}

func writeFenced(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	block := n.(*ast.FencedCodeBlock)
	if entering && string(block.Language(t.body)) == "plate" {
		t.plate(block)
		return skip
	}
	if !entering {
		if string(block.Language(t.body)) != "plate" {
			t.WriteString("</code></pre>\n")
		}
		return goOn
	}
	t.WriteString("<pre><code>")
	for i := range block.Lines().Len() {
		line := block.Lines().At(i)
		t.Write(util.EscapeHTML(line.Value(t.body)))
	}
	return goOn
}

// plate takes down a call for a drawing. One that stands inside a list or a
// quotation is refused: its text is not one stretch of the file, and a drawing
// has no room there.
func (t *tape) plate(block *ast.FencedCodeBlock) {
	at := t.inside(block.Pos())
	if block.Info != nil {
		at = t.inside(block.Info.Segment.Start)
	}
	start, end := at+len("plate"), at+len("plate")
	if lines := block.Lines(); lines.Len() > 0 {
		start, end = t.inside(lines.At(0).Start), t.inside(lines.At(lines.Len()-1).Stop)
	}
	if _, top := block.Parent().(*ast.Document); !top {
		t.warn(t.span(at, at+len("plate")), codePlate, "a plate inside a list or a quotation isn't drawn",
			"a fenced block that starts at the line's beginning", "move it out, with an empty line before it")
		return
	}
	t.gap(piece{kind: plate, n: len(t.doc.plates)})
	t.doc.plates = append(t.doc.plates, Plate{
		Span: t.span(at, max(at, end)), Text: string(t.body[start:max(start, end)]), Offset: t.offset + start,
	})
}

// Tables scroll sideways by themselves where a phone is too narrow for them;
// numbers set to the right carry the class n, as everywhere on the site.
func writeTable(t *tape, _ ast.Node, entering bool) ast.WalkStatus {
	if entering {
		t.WriteString(`<div class="scroll" tabindex="0" role="region" aria-label="Table"><table>` + "\n")
	} else {
		t.WriteString("</table></div>\n")
	}
	return goOn
}

func writeTableHeader(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		t.WriteString("<thead><tr>")
		return goOn
	}
	t.WriteString("</tr></thead>\n")
	if n.NextSibling() != nil {
		t.WriteString("<tbody>\n")
	}
	return goOn
}

func writeTableRow(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		t.WriteString("<tr>")
		return goOn
	}
	t.WriteString("</tr>\n")
	if n.NextSibling() == nil {
		t.WriteString("</tbody>\n")
	}
	return goOn
}

func writeTableCell(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	head := n.Parent().Kind() == extast.KindTableHeader
	tag := "td"
	if head && !wordless(n) {
		tag = "th" // a corner without words is no heading
	}
	if !entering {
		t.hang()
		t.WriteString("</" + tag + ">")
		return goOn
	}
	t.WriteString("<" + tag)
	if tag == "th" {
		t.WriteString(` scope="col"`)
	}
	switch n.(*extast.TableCell).Alignment {
	case extast.AlignRight:
		t.WriteString(` class="n"`)
	case extast.AlignCenter:
		t.WriteString(` class="mid"`)
	}
	t.WriteString(">")
	return goOn
}

func writeNoteLink(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		t.gap(piece{kind: noteRef, n: n.(*extast.FootnoteLink).Index - 1})
	}
	return goOn
}

func writeNoteBack(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if back := n.(*extast.FootnoteBacklink); entering && back.RefIndex == 0 {
		t.gap(piece{kind: noteBack, n: back.Index - 1})
	}
	return goOn
}
