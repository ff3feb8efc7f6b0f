package prose

import (
	"bytes"

	"github.com/yuin/goldmark/ast"
)

// writeHTML lets no raw HTML through. A comment vanishes, as its writer meant;
// anything else vanishes with a warning, and so does everything behind a comment
// that is never closed.
func writeHTML(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if !entering {
		return goOn
	}
	start, end := -1, -1
	closed := true
	switch n := n.(type) {
	case *ast.RawHTML:
		if s := n.Segments; s.Len() > 0 {
			start, end = s.At(0).Start, s.At(s.Len()-1).Stop
		}
	case *ast.HTMLBlock:
		if s := n.Lines(); s.Len() > 0 {
			start, end = s.At(0).Start, s.At(s.Len()-1).Stop
		}
		closed = n.HasClosure()
	}
	start, end = t.inside(start), t.inside(end)
	text := bytes.TrimLeft(t.body[start:max(start, end)], " \t")
	start = max(start, end) - len(text)
	first, _, _ := bytes.Cut(text, []byte("\n"))
	if bytes.HasPrefix(text, []byte("<!--")) {
		if rest := text[len("<!--"):]; closed || bytes.Contains(rest, []byte("-->")) || bytes.HasPrefix(rest, []byte(">")) {
			return skip
		}
		t.warn(t.span(start, start+len("<!--")), codeRawHTML,
			"this comment is never closed and hides everything below it", "-->", "close it with -->")
		return skip
	}
	if _, inline := n.(*ast.RawHTML); inline && bytes.HasPrefix(text, []byte("</")) {
		return skip // told at the opening tag
	}
	first = bytes.TrimRight(first, " \t\r")
	t.warn(t.span(start, start+len(first)), codeRawHTML,
		"raw HTML isn't passed through", "Markdown", `a backslash before "<" shows it as it stands`)
	return skip
}
