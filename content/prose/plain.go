package prose

import (
	"html"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Plain gives the words only, a block a line: for searching, feeds and
// summaries. Headings and footnotes are among them; pictures, plates and the
// numbers of footnotes are not.
func (d *Document) Plain() string {
	if d == nil || d.opening == nil {
		return ""
	}
	parts := [][]piece{d.opening.body}
	for _, s := range d.sections {
		parts = append(parts, s.head, s.body)
	}
	return plain(append(parts, d.notes...)...)
}

// Plain gives a section's words only, without its heading and its footnotes.
func (s *Section) Plain() string {
	if s.Empty() {
		return ""
	}
	return plain(s.body)
}

// FirstParagraph gives the words of the first paragraph, in the opening or under
// the first heading that has one; "" where there is none.
func (d *Document) FirstParagraph() string {
	if d == nil || d.opening == nil {
		return ""
	}
	for _, s := range slices.Concat([]*Section{d.opening}, d.sections) {
		if words := s.FirstParagraph(); words != "" {
			return words
		}
	}
	return ""
}

// FirstParagraph gives the words of the section's first paragraph.
func (s *Section) FirstParagraph() string {
	if s.Empty() {
		return ""
	}
	for i := range s.body {
		at := strings.Index(s.body[i].text, "<p>")
		if s.body[i].kind != ready || at < 0 {
			continue
		}
		rest := slices.Clone(s.body[i:])
		rest[0].text = rest[0].text[at:]
		for j := range rest {
			if end := strings.Index(rest[j].text, "</p>"); rest[j].kind == ready && end >= 0 {
				rest[j].text = rest[j].text[:end]
				return plain(rest[:j+1])
			}
		}
	}
	return ""
}

// FirstSentence gives the first sentence of the first paragraph.
func (d *Document) FirstSentence() string { return sentence(d.FirstParagraph()) }

// FirstSentence gives the first sentence of the section's first paragraph.
func (s *Section) FirstSentence() string { return sentence(s.FirstParagraph()) }

// plain takes the tags out of pieces. Only our own renderers and goldmark's
// wrote them, so that a "<" always opens a tag and a ">" closes it.
func plain(parts ...[]piece) string {
	var b strings.Builder
	for _, pieces := range parts {
		for _, p := range pieces {
			if p.kind == headClose {
				b.WriteByte('\n')
			}
			if p.kind != ready {
				continue
			}
			for text := p.text; text != ""; {
				words, rest, tagged := strings.Cut(text, "<")
				b.WriteString(strings.ReplaceAll(words, "\n", " ")) // inside a block, a line's end is a space
				if !tagged {
					break
				}
				tag, after, _ := strings.Cut(rest, ">")
				name := strings.TrimSpace(strings.Trim(tag, "/"))
				if name, _, _ = strings.Cut(name, " "); breaks(name) {
					b.WriteByte('\n')
				} else if name == "td" || name == "th" || name == "br" {
					b.WriteByte(' ')
				}
				text = after
			}
		}
		b.WriteByte('\n')
	}
	return lines(html.UnescapeString(b.String()))
}

// breaks tells whether a tag begins or ends a block.
func breaks(name string) bool {
	switch name {
	case "p", "li", "ul", "ol", "blockquote", "pre", "table", "tr", "div", "hr":
		return true
	}
	return false
}

// lines runs white space inside a line to one space and drops empty lines.
func lines(s string) string {
	var kept []string
	for _, line := range strings.Split(s, "\n") {
		if line = strings.Join(strings.Fields(line), " "); line != "" {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}

// shortened are words whose full stop ends no sentence: botany's and the
// language's own. From memory.
var shortened = map[string]bool{
	"cf": true, "aff": true, "sp": true, "spp": true, "ssp": true, "subsp": true, "var": true, "cv": true, "syn": true,
	"ca": true, "approx": true, "e.g": true, "i.e": true, "vs": true, "no": true, "nr": true, "fig": true, "dr": true, "st": true,
}

// sentence cuts a text after its first sentence: a full stop, question or
// exclamation mark (a closing quote or bracket may follow), white space, and
// then no small letter. The stop of a shortened word or of a single letter
// ("H. wayetii") ends none.
func sentence(s string) string {
	for i, r := range s {
		if r != '.' && r != '!' && r != '?' && r != '…' {
			continue
		}
		end := i + utf8.RuneLen(r)
		for end < len(s) {
			q, size := utf8.DecodeRuneInString(s[end:])
			if !strings.ContainsRune(`"')]”’»`, q) {
				break
			}
			end += size
		}
		if end == len(s) {
			return s
		}
		next, size := utf8.DecodeRuneInString(s[end:])
		if !unicode.IsSpace(next) {
			continue
		}
		if after, _ := utf8.DecodeRuneInString(s[end+size:]); unicode.IsLower(after) {
			continue
		}
		if r == '.' {
			word := s[strings.LastIndexAny(s[:i], " \n(")+1 : i]
			if utf8.RuneCountInString(word) == 1 && !unicode.IsDigit([]rune(word)[0]) && word != "I" || shortened[strings.ToLower(word)] {
				continue
			}
		}
		return s[:end]
	}
	return s
}
