package prose

import (
	"html"
	"strings"

	"github.com/yuin/goldmark/util"
)

// Renderer says how a page fills the gaps in a document. Any field may be left
// out: links to diary paths are then their words alone, pictures their
// alternative words, plates nothing.
type Renderer struct {
	// Link gives the address that a diary path (or "#anchor") has from the page;
	// ok is false where it leads nowhere, and the words alone are shown.
	Link func(dest string) (href string, ok bool)
	// Image gives the whole HTML of a picture, a figure that stands between
	// paragraphs.
	Image func(dest, alt string) string
	// Plate gives the whole HTML of the document's i-th plate.
	Plate func(i int) string
	// Lower is how many levels headings are lowered by; none goes below 6.
	Lower int
}

// HTML gives the whole document, its footnotes at the end.
func (d *Document) HTML(r Renderer) string {
	if d == nil || d.opening == nil {
		return ""
	}
	p := &player{Renderer: r, doc: d, mark: d.mark}
	p.play(d.opening.body)
	for _, s := range d.sections {
		p.play(s.head)
		p.play(s.body)
	}
	p.playNotes()
	return p.out.String()
}

// HTML gives a section's words without its heading, the footnotes that it calls
// at the end.
func (s *Section) HTML(r Renderer) string {
	if s.Empty() {
		return ""
	}
	if len(s.body) == 1 && s.body[0].kind == ready {
		return s.body[0].text // nothing is left to fill in
	}
	p := &player{Renderer: r, doc: s.doc, mark: s.mark}
	p.play(s.body)
	p.playNotes()
	return p.out.String()
}

// player fills the gaps of one document or section for one page.
type player struct {
	Renderer
	doc    *Document
	mark   string
	out    strings.Builder
	links  int   // how many links are open: only the outermost is written
	shown  bool  // whether it is
	held   []int // footnotes called inside a link, set after it
	order  []int // footnotes in the order of their first call
	number map[int]int
}

func escape(s string) string { return html.EscapeString(s) }

func (p *player) play(pieces []piece) {
	for _, g := range pieces {
		switch g.kind {
		case ready:
			p.out.WriteString(g.text)
		case linkOpen:
			if p.links++; p.links == 1 {
				p.shown = p.openLink(g)
			}
		case linkClose:
			if p.links--; p.links == 0 {
				if p.shown {
					p.out.WriteString("</a>")
				}
				for _, n := range p.held {
					p.call(n)
				}
				p.held = p.held[:0]
			}
		case picture:
			p.picture(g)
		case plate:
			if p.Plate != nil {
				p.out.WriteString(p.Plate(g.n))
			}
		case headOpen:
			p.out.WriteString("<h" + itoa(p.level(g.n)) + ">")
		case headClose:
			p.out.WriteString("</h" + itoa(p.level(g.n)) + ">\n")
		case noteRef:
			if p.links > 0 {
				p.held = append(p.held, g.n)
			} else {
				p.call(g.n)
			}
		case noteBack:
			n := itoa(p.number[g.n])
			p.out.WriteString(` <a href="#noted-` + p.mark + "-" + n + `" role="doc-backlink" aria-label="back to the words of note ` + n + `">↩</a>`)
		}
	}
}

func (p *player) level(n int) int { return min(max(n+p.Lower, 1), 6) }

func (p *player) openLink(g piece) bool {
	href, rel := "", ""
	switch {
	case leaves(g.dest):
		href, rel = encode(g.dest), ` rel="external noopener"`
	case scheme(g.dest) != "" || p.Link == nil:
		return false
	default:
		var ok bool
		if href, ok = p.Link(g.dest); !ok {
			return false
		}
	}
	p.out.WriteString(`<a href="` + escape(href) + `"` + rel)
	if g.text != "" {
		p.out.WriteString(` title="` + escape(g.text) + `"`)
	}
	p.out.WriteString(">")
	return true
}

func (p *player) picture(g piece) {
	if scheme(g.dest) == "" && p.Image != nil {
		p.out.WriteString(p.Image(g.dest, g.text))
	} else if g.text != "" {
		p.out.WriteString("<p>" + escape(g.text) + "</p>\n")
	}
}

// call writes the raised number of a footnote. Only its first call can be gone
// back to.
func (p *player) call(note int) {
	n, again := p.number[note]
	id := ""
	if !again {
		if p.number == nil {
			p.number = map[int]int{}
		}
		p.order = append(p.order, note)
		n = len(p.order)
		p.number[note] = n
		id = ` id="noted-` + p.mark + "-" + itoa(n) + `"`
	}
	p.out.WriteString(`<sup><a href="#note-` + p.mark + "-" + itoa(n) + `"` + id + ` role="doc-noteref" aria-label="note ` + itoa(n) + `">` + itoa(n) + "</a></sup>")
}

// playNotes writes the footnotes that were called; one may call another.
func (p *player) playNotes() {
	if len(p.order) == 0 {
		return
	}
	p.out.WriteString(`<section class="notes" role="doc-endnotes" aria-label="Notes"><ol>` + "\n")
	for i := 0; i < len(p.order); i++ {
		p.out.WriteString(`<li id="note-` + p.mark + "-" + itoa(i+1) + `">`)
		p.play(p.doc.notes[p.order[i]])
		p.out.WriteString("</li>\n")
	}
	p.out.WriteString("</ol></section>\n")
}

// encode makes an address of a destination: characters that an address can't
// hold are percent-encoded, what is encoded already stays.
func encode(dest string) string { return string(util.URLEscape([]byte(dest), false)) }
