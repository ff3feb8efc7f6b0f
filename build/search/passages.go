package search

import (
	"regexp"
	"strings"

	"wardian/content"
	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/source"
)

// gather collects the passages of a diary.
type gather struct{ out []passage }

// passages are all words of a diary that are searched.
func passages(d *content.Diary) []passage {
	g := &gather{}
	for _, e := range d.Entries {
		g.entry(e)
	}
	for _, i := range d.Imports {
		g.page(&i.Page, Found{Kind: "import", When: measure.At(i.Day0())}, "")
	}
	for _, s := range d.Specimens {
		place := Found{Kind: "specimen", When: measure.NoMoment, Specimens: []string{s.ID}}
		g.page(&s.Page, place, "")
	}
	for _, p := range d.Places {
		g.page(&p.Page, Found{Kind: "place", When: measure.NoMoment, Place: p.ID}, "")
	}
	for _, u := range d.Updates {
		found := Found{Kind: "update", When: measure.At(u.Date)}
		g.value(&u.Page, found, "title", u.Title, u.Spans.Of("title", u.Head))
		g.page(&u.Page, found, "")
	}
	for _, s := range d.Seasons {
		g.page(&s.Page, Found{Kind: "season", When: measure.NoMoment}, "")
	}
	return g.out
}

// entry gathers what a file under check-ins says.
func (g *gather) entry(e *content.Entry) {
	base := Found{Kind: "place note", When: e.When}
	if e.Place != nil {
		base.Place = e.Place.ID
	}
	switch {
	case e.Round:
		base.Kind = "round"
	case len(e.Named) > 0:
		base.Kind = "check-in"
		base.Specimens = []string{e.Named[0].ID}
	}
	g.value(&e.Page, base, "event", e.Event, e.Spans.Of("event", e.Head))
	all := map[source.Span]bool{}
	if e.Round {
		g.facts(e, base, &e.Common, e.Spans, len(e.Common.Did), all)
		for _, p := range e.Photos {
			g.behind(&e.Page, base, "picture", p.Alt, p.Span)
		}
	}
	for _, n := range e.Named {
		own := base
		own.Specimens = []string{n.ID}
		g.facts(e, own, &n.Facts, n.Spans, len(n.Did)-len(e.Common.Did), all)
		for _, p := range n.Photos {
			g.behind(&e.Page, own, "picture", p.Alt, p.Span)
		}
	}
	g.page(&e.Page, base, base.Kind)
}

// facts gathers what is said of one plant, or by a round of all: where both have
// one span, the round's was gathered before.
func (g *gather) facts(e *content.Entry, base Found, f *content.Facts, spans content.Spans, did int, all map[source.Span]bool) {
	said := func(key, in string, texts ...string) {
		at := spans.Of(key, source.Span{})
		if at == (source.Span{}) || all[at] {
			return
		}
		all[at] = true
		for _, text := range texts {
			g.value(&e.Page, base, in, text, at)
		}
	}
	said("note", "remark", f.Note)
	said("did", "did", f.Did[:max(0, did)]...)
	said("medium", "medium", f.Medium)
	said("pests", "pests", f.Pests)
	said("cause", "cause", strings.Join(f.Cause.Words, " and "))
}

// value gathers the words behind a key.
func (g *gather) value(p *content.Page, base Found, in, text string, at source.Span) {
	if text == "" || p.File == nil {
		return
	}
	base.In, base.File = in, p.File.Path
	start, end := p.File.Offset(at.Start), p.File.Offset(at.End)
	if end-start <= 1 {
		end = len(p.File.Bytes) // a block of words goes on below
	}
	g.out = append(g.out, passage{Found: base, file: p.File, text: text, start: start, end: end})
}

// behind gathers words that stand somewhere behind a place of their own entry: a
// picture's behind its path, an amendment's behind its day.
func (g *gather) behind(p *content.Page, base Found, in, text string, at source.Span) {
	if text == "" || p.File == nil || at == (source.Span{}) {
		return
	}
	base.In, base.File = in, p.File.Path
	g.out = append(g.out, passage{Found: base, file: p.File, text: text, start: p.File.Offset(at.End), end: len(p.File.Bytes)})
}

// page gathers the words below the front matter, and amendments. In a round the
// words under a plant's heading are that plant's.
func (g *gather) page(p *content.Page, base Found, kind string) {
	if p.File == nil {
		return
	}
	for _, a := range p.Amended {
		amended := base
		amended.When = measure.At(a.Date)
		g.behind(p, amended, "amended", a.Words, p.Spans.Of("amended."+a.Date.String(), p.Head))
	}
	base.In, base.File = "words", p.File.Path
	told := map[string]int{}
	add := func(s *prose.Section, found Found, end int) {
		text := s.Plain()
		for line := range strings.Lines(text) {
			told[strings.TrimSpace(line)]++
		}
		if text != "" {
			g.out = append(g.out, passage{Found: found, file: p.File, text: text, start: p.File.Offset(s.Span.Start), end: end})
		}
	}
	sections := p.Words.Sections()
	endOf := func(i int) int {
		if i < len(sections) {
			return p.File.Offset(sections[i].Span.Start)
		}
		return len(p.File.Bytes)
	}
	if opening := p.Words.Opening(); opening != nil {
		add(opening, base, endOf(0))
	}
	for i, s := range sections {
		found := base
		if kind == "round" {
			found.Specimens = []string{strings.TrimSpace(s.Heading)}
		} else {
			g.value(p, base, "words", s.Heading, s.Span)
		}
		told[strings.Join(strings.Fields(s.Heading), " ")]++
		add(s, found, endOf(i+1))
	}
	// Footnotes stand in no section's own words.
	var notes []string
	for line := range strings.Lines(p.Words.Plain()) {
		if line = strings.TrimSpace(line); told[line] > 0 {
			told[line]--
		} else {
			notes = append(notes, line)
		}
	}
	if at := footnote.FindIndex(p.File.Bytes); at != nil && len(notes) > 0 {
		g.out = append(g.out, passage{Found: base, file: p.File, text: strings.Join(notes, "\n"), start: at[0], end: len(p.File.Bytes)})
	}
}

// footnote is the beginning of the first footnote's own words.
var footnote = regexp.MustCompile(`(?m)^ {0,3}\[\^[^\]\n]+\]:`)
