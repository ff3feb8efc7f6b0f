package prose

import (
	"bytes"
	"net/url"
	"strings"

	"github.com/yuin/goldmark/ast"

	"wardian/content/source"
)

// scheme gives the scheme of a destination in lower case, as a browser would
// read it; "" for a diary path and for an anchor. A destination that opens with
// two slashes goes out under the page's own scheme and is given as "//".
func scheme(dest string) string {
	if strings.HasPrefix(strings.ReplaceAll(dest, `\`, "/"), "//") {
		return "//"
	}
	i := strings.IndexAny(dest, ":/?#")
	if i < 0 || dest[i] != ':' {
		return ""
	}
	return strings.ToLower(dest[:i])
}

// leaves tells whether a destination is a link out of the diary that may be
// followed. The list names what is let out, not what isn't.
func leaves(dest string) bool {
	switch scheme(dest) {
	case "http", "https", "mailto":
		return true
	}
	return false
}

// meant gives a destination as the grower meant it.
func meant(dest []byte) string {
	d := clean(bytes.TrimSpace(resolve(dest)))
	if scheme(d) == "" {
		if plain, err := url.PathUnescape(d); err == nil {
			d = clean([]byte(plain))
		}
	}
	return d
}

func writeLink(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	l := n.(*ast.Link)
	bare := wordless(n)
	if !entering {
		if !bare {
			t.gap(piece{kind: linkClose})
		}
		return goOn
	}
	dest := meant(l.Destination)
	words := t.words(n)
	span := t.place(n, l.Destination, l.Reference != nil)
	t.doc.links = append(t.doc.links, Link{Dest: dest, Span: span, Text: words})
	switch s := scheme(dest); {
	case s != "" && !leaves(dest):
		t.warn(span, codeScheme, "a link of this kind isn't followed; its words alone are shown",
			"a diary path, or an address that opens with https:, http: or mailto:", "")
	case bare && n.FirstChild() == nil:
		t.warn(span, codeNoWords, "a link without words can't be seen", "[words]("+dest+")", "")
	}
	if !bare {
		t.gap(piece{kind: linkOpen, dest: dest, text: clean(resolve(l.Title))})
	}
	return goOn
}

func writeAutoLink(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if !entering {
		return goOn
	}
	l := n.(*ast.AutoLink)
	label := clean(l.Label(t.body))
	dest := clean(l.URL(t.body))
	if l.AutoLinkType == ast.AutoLinkEmail && scheme(dest) != "mailto" {
		dest = "mailto:" + dest
	}
	span := t.place(n, l.Label(t.body), false)
	t.doc.links = append(t.doc.links, Link{Dest: dest, Span: span, Text: label})
	if !leaves(dest) {
		t.warn(span, codeScheme, "a link of this kind isn't followed; its words alone are shown",
			"an address that opens with https:, http: or mailto:", "")
	}
	t.gap(piece{kind: linkOpen, dest: dest})
	t.WriteString(escape(label))
	t.gap(piece{kind: linkClose})
	return goOn
}

func writeImage(t *tape, n ast.Node, entering bool) ast.WalkStatus {
	if !entering {
		return goOn
	}
	i := n.(*ast.Image)
	dest := meant(i.Destination)
	words := t.words(n)
	span := t.place(n, i.Destination, i.Reference != nil)
	t.doc.links = append(t.doc.links, Link{Dest: dest, Image: true, Span: span, Alt: words})
	if scheme(dest) != "" {
		t.warn(span, codeElsewhere, "a picture from elsewhere isn't shown; its words alone are",
			"a path under photos/ in the diary", "put the picture into photos/")
	}
	t.waiting = append(t.waiting, piece{kind: picture, dest: dest, text: words})
	return skip
}

// place gives where a destination is written; where it isn't written beside the
// words (a reference), the link from its bracket on.
func (c *compiler) place(n ast.Node, dest []byte, reference bool) source.Span {
	start := c.inside(n.Pos())
	end := start
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if t, ok := n.(*ast.Text); ok && entering {
			end = max(end, c.inside(t.Segment.Stop))
		}
		return ast.WalkContinue, nil
	})
	if !reference && len(dest) > 0 {
		// Between the words and the destination stand a few marks and perhaps
		// pictures without words; the search is bounded all the same.
		near := c.body[end:min(len(c.body), end+len(dest)+256)]
		if i := bytes.Index(near, dest); i >= 0 {
			return c.span(end+i, end+i+len(dest))
		}
	}
	for end < len(c.body) && bytes.IndexByte([]byte("*_`"), c.body[end]) >= 0 {
		end++
	}
	if end < len(c.body) && c.body[end] == ']' {
		end++
	}
	return c.span(start, max(end, start+1))
}
