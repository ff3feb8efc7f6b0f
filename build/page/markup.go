package page

import (
	"html/template"
	"strings"

	"wardian/build/chart"
)

// Two parts of a page are written here and not in a template: the tables under
// drawings and the entries day by day. A template looks every value up by its
// name when it runs, and a site has tens of thousands of entries and ten times as
// many cells: they took more time than all else that a build does. What a string
// may hold is escaped as the templates escape it, so that a page reads the same
// whichever wrote it; a test holds the one to the other.

// markup is HTML while it is put together.
type markup struct{ strings.Builder }

// say writes words, escaped.
func (m *markup) say(words string) { escaper.WriteString(m, words) }

// put writes what is HTML.
func (m *markup) put(html template.HTML) { m.WriteString(string(html)) }

// html is what was written.
func (m *markup) html() template.HTML { return template.HTML(m.String()) }

// escaper puts into text and quoted attributes what html/template would.
var escaper = strings.NewReplacer("\x00", "\uFFFD", `"`, "&#34;", "&", "&amp;", "'", "&#39;", "+", "&#43;", "<", "&lt;", ">", "&gt;")

// tableHTML sets a table that something was drawn from. Its first column names
// the row; numbers are set right.
func tableHTML(t chart.Table) template.HTML {
	var m markup
	m.Grow(512 + 32*len(t.Columns)*(len(t.Rows)+1))
	m.WriteString(`<div class="scroll" tabindex="0" role="region" aria-label="`)
	m.say(t.Caption)
	m.WriteString(`"><table><caption>`)
	m.say(t.Caption)
	m.WriteString("</caption>\n<thead><tr>")
	for _, c := range t.Columns {
		m.WriteString(`<th scope="col"`)
		m.cell(c, c.Name, "</th>")
	}
	m.WriteString("</tr></thead>\n<tbody>")
	for _, row := range t.Rows {
		m.WriteString("<tr>")
		for i, cell := range row {
			if i == 0 {
				m.WriteString(`<th scope="row"`)
				m.cell(t.Columns[i], cell, "</th>")
				continue
			}
			m.WriteString("<td")
			m.cell(t.Columns[i], cell, "</td>")
		}
		m.WriteString("</tr>")
	}
	m.WriteString("</tbody></table></div>")
	return m.html()
}

// cell ends a cell that was opened.
func (m *markup) cell(c chart.Column, words, end string) {
	if c.Numeric {
		m.WriteString(` class="n"`)
	}
	m.WriteString(">")
	m.say(words)
	m.WriteString(end)
}
