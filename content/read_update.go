package content

import (
	"slices"
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/source"
)

// update reads a file under updates/.
func (l *loader) update(f *source.File, slug string) *Update {
	o := l.open(f)
	c := l.top(o, &format.Update, format.Update.Keys)
	u := &Update{Slug: slug, Title: c.line("title"), Date: c.day("date")}
	if m, ok := c.id("import"); ok {
		if u.Import = l.diary.Import(m.ID); u.Import == nil {
			l.unknownID(f, m, "import", l.importIDs())
		}
	}
	u.Page = c.page(o)
	for _, block := range o.words.Plates() {
		h := header.Fenced(f, block.Offset, block.Offset+len(block.Text), l.report)
		h.Head = source.Span{Start: block.Span.Start, End: source.Position{Line: block.Span.Start.Line, Column: block.Span.Start.Column + len("plate")}}
		p := l.plate(l.top(opened{header: h}, &format.Plate, format.Plate.Keys), h, u.Import)
		p.Block = block
		u.Plates = append(u.Plates, p)
	}
	return u
}

// plateKeys tells which key a drawing can't do without, and which it can take.
var plateKeys = map[string]struct {
	needed  string
	allowed []string
}{
	"survival": {"", []string{"import", "by"}}, "milestones": {"", []string{"import", "by"}}, "causes": {"", []string{"import", "by"}},
	"rows": {"import", []string{"import"}}, "soil-lines": {"import", []string{"import"}}, "root-to-leaf": {"specimen", []string{"specimen"}},
	"place": {"place", []string{"place", "import"}}, "then-and-now": {"specimen", []string{"specimen"}}, "table": {"", []string{"import", "by"}},
}

// plate reads a block that calls in a drawing. One of all plants of an import is
// of the update's own where it names none.
func (l *loader) plate(c *record, h *header.Header, own *Import) Plate {
	p := Plate{Show: c.choice("show"), By: c.line("by")}
	if m, ok := c.id("import"); ok {
		if p.Import = l.diary.Import(m.ID); p.Import == nil {
			l.unknownID(c.file, m, "import", l.importIDs())
		}
	}
	if m, ok := c.id("specimen"); ok {
		if p.Specimen = l.diary.Specimen(m.ID); p.Specimen == nil {
			l.unknownID(c.file, m, "specimen", l.specimenIDs())
		}
	}
	if m, ok := c.id("place"); ok {
		if p.Place = l.diary.Place(m.ID); p.Place == nil {
			l.unknownID(c.file, m, "place", l.placeIDs())
		}
	}
	n, known := plateKeys[p.Show]
	if !known || h.Broken {
		return p
	}
	if n.needed == "import" && !c.has("import") {
		p.Import = own
	}
	if n.needed != "" && !c.has(n.needed) && p.Import == nil {
		key := format.Find(c.keys, n.needed)
		c.fault("missing-key", c.spanOf("show"), "a plate of "+p.Show+" needs the key "+quoted(n.needed), key.Value.Kind.Expected(), "write "+n.needed+": "+key.Example)
	}
	for _, name := range []string{"import", "specimen", "place", "by"} {
		if c.has(name) && !slices.Contains(n.allowed, name) {
			c.fault("key-elsewhere", c.keyOf(name), quoted(name)+" means nothing to a plate of "+p.Show, "show alone, or with "+strings.Join(n.allowed, ", "), "leave it out")
		}
	}
	return p
}

// season reads a file under seasons/.
func (l *loader) season(f *source.File, slug string) *SeasonWords {
	o := l.open(f)
	c := l.top(o, &format.Season, format.Season.Keys)
	s := &SeasonWords{Slug: slug, Season: c.line("season")}
	s.Page = c.page(o)
	if s.Season != "" {
		l.knownSeason(s, c.spanOf("season"))
	}
	return s
}
