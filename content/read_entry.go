package content

import (
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/prose"
	"wardian/content/source"
)

// entry reads a file under check-ins/: a check-in of one specimen, a round of
// several, or a place note. Which of them it is, its keys say.
func (l *loader) entry(f *source.File) *Entry {
	o := l.open(f)
	c := l.top(o, &format.CheckIn, format.Entry)
	e := &Entry{Path: strings.TrimSuffix(f.Path, ".md"), When: c.moment("date"), By: c.line("by"), Since: c.moment("since")}
	e.Round = c.field("specimens") != nil || c.field("others") != nil || c.field("not-seen") != nil
	own := c.field("specimen") != nil && !e.Round
	switch {
	case e.Round:
		c.kind = format.Round.Name
	case !own && c.has("place"):
		c.kind = format.PlaceNote.Name
	}
	e.Place = c.placeAt(l, "place")
	e.Reading = c.climate("reading")
	e.Event = c.line("event")
	l.belongs(c, o, e, own)

	facts := c.facts(l)
	facts.Photos, e.Photos = nil, c.photos(l, "photos")
	switch {
	case own:
		facts.Photos, e.Photos = e.Photos, nil
		if m, ok := c.id("specimen"); ok {
			e.Named = []*CheckIn{{Entry: e, Mention: m, Facts: facts}}
		}
	default:
		c.value("specimen", format.ID)
		e.Common = facts
		e.Others, e.asked = l.others(c)
		e.NotSeen = c.mentions("not-seen")
		e.Named = l.lines(c, e)
	}
	e.Page = c.page(o)
	e.unread = o.header.Broken
	for _, name := range []string{"specimen", "specimens"} {
		if f := c.field(name); f != nil {
			e.unread = e.unread || f.Value.Faulty || name == "specimens" && f.Value.Kind == header.Text
		}
	}
	for _, n := range e.Named {
		if own {
			n.Spans = c.spans
		}
		l.coherent(c, n)
	}
	e.Opening = e.Words.Opening()
	if e.Round {
		l.headings(c, e)
	}
	return e
}

// others reads what a round says of those it doesn't name. Empty, as a scaffold
// leaves it, it is a question to be answered.
func (l *loader) others(c *record) (o Others, asked bool) {
	f := c.field("others")
	asked = f != nil && f.Value.Kind == header.Empty && !f.Value.Faulty
	if asked {
		c.fault("empty-others", f.KeySpan, "nothing is said of the others: same, or not seen?", "same, if you looked at all of them, or not seen", "write others: same, or others: not seen, or delete the line")
	}
	switch c.choice("others") {
	case "same":
		return OthersSame, asked
	case "not seen":
		return OthersNotSeen, asked
	}
	return OthersUnsaid, asked
}

// mentions reads a list of IDs.
func (c *record) mentions(name string) []Mention {
	items, want := c.each(name)
	var out []Mention
	for i := range items {
		if items[i].Faulty {
			continue
		}
		if m, ok := c.idOf(&items[i], want); ok {
			out = append(out, m)
		}
	}
	return out
}

// lines reads the plants' lines of a round, each merged with what the round says
// of all.
func (l *loader) lines(c *record, e *Entry) []*CheckIn {
	fields, want := c.table("specimens")
	var out []*CheckIn
	if f := c.field("specimens"); f != nil && f.Value.Kind == header.List {
		// A list of IDs was reported; who is in it was looked at all the same.
		for _, item := range f.Value.Items {
			if item.Kind == header.Text && !item.Faulty {
				out = append(out, &CheckIn{Entry: e, Mention: Mention{ID: item.Text, Span: item.Span}, Facts: nothingSaid()})
			}
		}
	}
	for i := range fields {
		f := &fields[i]
		n := &CheckIn{Entry: e, Mention: Mention{ID: f.Key, Span: f.KeySpan}, Facts: nothingSaid()}
		switch v := &f.Value; {
		case v.Faulty:
		case v.Kind == header.Empty, v.Kind == header.Map && len(v.Fields) == 0, v.Kind == header.Text && v.Text == "":
			n.Empty = true
		case v.Kind == header.Text:
			l.plainWords(c, n, v)
		case v.Kind == header.Map:
			r := c.reader.record(v.Fields, want.Item.Keys, "specimens."+f.Key+".", nil)
			n.Facts = r.facts(l)
			n.Facts.Photos = r.photos(l, "photos")
			n.Spans = r.spans
			for k := range n.Spans {
				n.Spans[k].Key = strings.TrimPrefix(n.Spans[k].Key, r.prefix)
			}
			if len(r.spans) == 0 && len(v.Fields) > 0 {
				n.Empty = r.allEmpty()
			}
		default:
			c.wrongKind(v, want.Item, "firm, new root")
		}
		if !n.Empty {
			merge(n, &e.Common, c.spans)
		}
		out = append(out, n)
	}
	return out
}

// allEmpty says whether no key of a map has anything behind it.
func (c *record) allEmpty() bool {
	for i := range c.fields {
		if c.fields[i].Value.Kind != header.Empty || c.fields[i].Value.Faulty {
			return false
		}
	}
	return true
}

// plainWords reads a plant's line in plain words.
func (l *loader) plainWords(c *record, n *CheckIn, v *header.Value) {
	facts, marks, troubles := ParseWords(v.Text, WordsEnv{Units: c.units, Place: l.findPlace})
	n.Facts = facts
	n.Spans = make(Spans, 0, len(marks))
	for _, m := range marks {
		n.Spans = append(n.Spans, KeySpan{Key: m.Key, Span: v.Part(m.Start, m.End)})
	}
	for _, t := range troubles {
		c.fault(t.Code, v.Part(t.Start, t.End), t.Message, t.Expected, t.Hint)
	}
}

// findPlace finds a place by its ID, or the nearest ID there is.
func (l *loader) findPlace(id string) (*Place, string) {
	if p := l.diary.Place(id); p != nil {
		return p, ""
	}
	return nil, source.Nearest(id, l.placeIDs())
}

// placeAt reads the ID of a place, which must be there.
func (c *record) placeAt(l *loader, name string) *Place {
	m, ok := c.id(name)
	if !ok {
		return nil
	}
	p := l.diary.Place(m.ID)
	if p == nil {
		l.unknownID(c.file, m, "place", l.placeIDs())
	}
	return p
}

// askFor is the hint of an entry that lacks the ID of what it is about.
func askFor(key string) string {
	return "write " + key + ": and its ID, such as " + key + ": " + format.Find(format.Entry, key).Example
}

// belongs reports keys that don't belong beside each other.
func (l *loader) belongs(c *record, o opened, e *Entry, own bool) {
	if o.header.Broken {
		return
	}
	elsewhere := func(key, message, expected, hint string) {
		c.fault("key-elsewhere", c.keyOf(key), message, expected, hint)
	}
	if own && !c.has("specimen") {
		c.fault("missing-key", c.keyOf("specimen"), "which specimen it was isn't said", "the ID of a file in specimens/", askFor("specimen")+", or delete the line")
	}
	if e.Round && c.has("specimen") {
		elsewhere("specimen", "specimen stands in a round", "a line of its own under specimens", "move it under specimens")
	}
	for _, key := range []string{"others", "not-seen"} {
		if c.has(key) && !c.has("place") {
			c.fault("others-without-place", c.keyOf(key), key+" stands without a place", "the place whose plants are meant", askFor("place"))
			break
		}
	}
	switch {
	case e.Round:
		if c.has("cut-into") {
			elsewhere("cut-into", "cut-into stands beside specimens", "cut-into on the line of the plant that was cut", "move it to the parent's line, as a map")
		}
	case own:
		for _, key := range []string{"event", "since"} {
			if c.has(key) {
				elsewhere(key, key+" stands in a check-in of one specimen", "an event in a place note, or in a round at one place", "move it to a place note: a file with place and event, without specimen")
			}
		}
	case c.has("place"):
		for _, key := range format.Seen {
			if c.has(key.Name) && format.Find(format.PlaceNote.Keys, key.Name) == nil {
				elsewhere(key.Name, key.Name+" stands in an entry that names no specimen", "specimen, specimens or others beside it", askFor("specimen"))
			}
		}
	default:
		c.fault("missing-key", o.header.Head, "neither a specimen nor a place is named", "specimen, specimens, or place", askFor("specimen"))
	}
	if own {
		return
	}
	if c.has("event") && !c.has("place") && (e.Round || c.has("place")) {
		elsewhere("event", "event stands without a place", "the place that it befell", askFor("place"))
	}
	if c.has("since") && !c.has("event") {
		elsewhere("since", "since stands without an event", "event beside it", "write event: and what happened, such as event: "+format.Find(format.PlaceNote.Keys, "event").Example)
	}
	if e.Since.Known() && e.When.Known() && e.When.Before(e.Since) && (e.When.Timed() || e.Since.Day > e.When.Day) {
		c.fault("later-than-entry", c.spanOf("since"), "the event began after the entry's date", "a moment up to "+e.When.String(), "look at both days")
	}
}

// headings ties the words under "## ID" to the plants of a round. Whether the
// round speaks for them is known when it is known who stood there.
func (l *loader) headings(c *record, e *Entry) {
	for _, s := range e.Words.Sections() {
		id := strings.TrimSpace(s.Heading)
		if e.WordsOf[id] != nil {
			c.fault("heading-twice", s.Span, quoted(id)+" has words under two headings", "one heading for each plant", "put both under the first")
			continue
		}
		if e.WordsOf == nil {
			e.WordsOf = map[string]*prose.Section{}
		}
		e.WordsOf[id] = s
	}
}

// coherent reports what can't be true together in one look.
func (l *loader) coherent(c *record, n *CheckIn) {
	at := n.Span
	if len(n.Cause.Words) > 0 && n.Outcome != Lost {
		c.fault("key-elsewhere", n.Spans.Of("cause", at), "a cause stands without a loss", "outcome: lost beside it", "write outcome: lost, or leave the cause out")
	}
	if leaves := n.Leaves; leaves != nil && leaves.Count != nil && len(leaves.Sizes) > leaves.Count.Value {
		c.fault("more-sizes-than-leaves", n.Spans.Of("leaves.sizes", at), "more leaves were measured than there are",
			"as many sizes as leaves, or fewer", "look at leaves.count")
	}
	if n.LastGood.Known() && n.Entry.When.Known() && n.LastGood > n.Entry.When.Day {
		c.fault("later-than-entry", n.Spans.Of("last-good", at), "last-good lies after the entry's date", "a day up to "+n.Entry.When.Day.String(), "look at both days")
	}
}
