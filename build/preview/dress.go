package preview

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"slices"
)

// What the preview adds to a page as it serves it: marks, the slip (see slip.go),
// and the script and style that both need. Nothing of it is ever in a built site.

// Where the preview's own things stand. No site path opens so: pages stand in
// folders of their kind, and there is no kind of this name.
const (
	ownPlace  = "preview/"
	scriptAt  = ownPlace + "page.js"
	slipStyle = ownPlace + "slip.css"
	baseStyle = ownPlace + "look.css"
	streamAt  = ownPlace + "changes"
)

var (
	//go:embed page.js
	script []byte
	//go:embed slip.css
	style []byte
	//go:embed slip.html
	slipText string

	slipParts = template.Must(template.New("").Parse(slipText))
)

// mark writes onto a page what of it would not be in a built site: a word before
// the first heading of each such part, and a line before the page's own that
// counts them, or tells of the whole page.
func (s *sight) mark(path string, page []byte) []byte {
	s.once.Do(func() { s.page, s.part = s.site.Marks() })
	whole := s.page[path]
	marked := 0
	if len(s.part) > 0 {
		page, marked = s.markParts(page)
	}
	if whole == "" && marked == 0 {
		return page
	}
	return before(page, "<main", set("only-here", struct {
		Whole string
		Parts string
		Many  bool
	}{whole, counted(marked, "entry", "entries"), marked > 0}))
}

func (s *sight) markParts(page []byte) (out []byte, marked int) {
	const id, heading = ` id="`, "<h3>"
	for {
		at := bytes.Index(page, []byte(id))
		if at < 0 {
			return append(out, page...), marked
		}
		at += len(id)
		end := bytes.IndexByte(page[at:], '"')
		if end < 0 {
			return append(out, page...), marked
		}
		end += at
		words := s.part[string(page[at:end])]
		out, page = append(out, page[:end+1]...), page[end+1:]
		if words == "" {
			continue
		}
		marked++
		words = template.HTMLEscapeString(words)
		out = fmt.Appendf(out, ` data-only-here="%s"`, words)
		part := page // up to the next thing with an id
		if next := bytes.Index(part, []byte(id)); next >= 0 {
			part = part[:next]
		}
		if h := bytes.Index(part, []byte(heading)); h >= 0 {
			out = append(out, page[:h+len(heading)]...)
			out = fmt.Appendf(out, `<span class="preview-mark">(%s) </span>`, words)
			page = page[h+len(heading):]
		}
	}
}

// served is a page as it goes out: with script, style and slip.
func served(page []byte, print string, slip []byte) []byte {
	page = before(page, "</head>", set("head", struct{ Style, Script, Print, Stream string }{"/" + slipStyle, "/" + scriptAt, print, "/" + streamAt}))
	return before(page, "</body>", holder(slip))
}

// holder is the slip in its place, which is on every page, empty or not, since
// a screen reader tells only of what changes in a place that was there. (No
// element of a landmark may have the role of a status: ARIA in HTML.)
func holder(slip []byte) []byte {
	return slices.Concat([]byte(`<div id="preview-slip" role="status" aria-label="What is wrong in the diary">`), slip, []byte("</div>\n"))
}

// before puts something in front of the first place where a page says at; at the
// end of one that doesn't.
func before(page []byte, at string, add []byte) []byte {
	i := bytes.Index(page, []byte(at))
	if at == "</body>" { // the last: words of the page may quote one
		i = bytes.LastIndex(page, []byte(at))
	}
	if i < 0 {
		i = len(page)
	}
	return slices.Concat(page[:i], add, page[i:])
}

// bare is a page where the site has none.
func bare(title, words string) []byte {
	return set("bare", struct{ Title, Words, Look string }{title, words, "/" + baseStyle})
}

// set fills a part of slip.html.
func set(name string, data any) []byte {
	var out bytes.Buffer
	if err := slipParts.ExecuteTemplate(&out, name, data); err != nil {
		panic("preview: " + err.Error()) // our own template with our own data, into memory
	}
	return out.Bytes()
}
