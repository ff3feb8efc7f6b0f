package page

import (
	"cmp"
	"html/template"
	"strings"

	"wardian/build/address"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/prose"
)

// dayEntry is one entry under "Day by day".
type dayEntry struct {
	Anchor  string
	Day     string
	Date    string
	Icon    template.HTML
	Title   template.HTML
	Words   []template.HTML // the grower's, of this plant
	Of      template.HTML   // the grower's, of the whole round; may be ""
	Got     string          // figures, in a line
	Figures []figure
	Amended []content.Amendment
	// SetRight says what was: nothing where it was the plant's own entry
	SetRight string
}

// html sets an entry.
func (e *dayEntry) html(v view) template.HTML {
	var m markup
	size := 512 + len(e.Icon) + len(e.Title) + len(e.Of) + len(e.Got)
	for _, words := range e.Words {
		size += len(words)
	}
	m.Grow(size)
	m.WriteString("\n<li id=\"")
	m.say(e.Anchor)
	m.WriteString(`"><p class="day"><b>`)
	m.say(e.Day)
	m.WriteString("</b>")
	m.say(e.Date)
	m.WriteString(`</p><div class="body`)
	if len(e.Figures) > 0 {
		m.WriteString(" with")
	}
	m.WriteString(`"><span class="at">`)
	m.put(e.Icon)
	m.WriteString("</span>\n<h3>")
	m.put(e.Title)
	m.WriteString("</h3>")
	if len(e.Words) > 0 {
		m.WriteString(`<div class="said">`)
		for _, words := range e.Words {
			m.put(words)
		}
		m.WriteString("</div>")
	}
	if e.Of != "" {
		m.WriteString(`<div class="said of-all"><p class="measured">Of the whole round:</p>`)
		m.put(e.Of)
		m.WriteString("</div>")
	}
	if e.Got != "" {
		m.WriteString(`<p class="got">`)
		m.say(e.Got)
		m.WriteString("</p>")
	}
	for _, a := range e.Amended {
		m.WriteString(`<p class="amended">`)
		m.say(cmp.Or(e.SetRight, "Set right"))
		m.WriteString(" on ")
		m.say(a.Date.InWords())
		m.WriteString(": ")
		m.say(a.Words)
		m.WriteString("</p>")
	}
	if len(e.Figures) > 0 {
		m.WriteString(`<div class="pics">`)
		for _, f := range e.Figures {
			m.WriteString(v.fill("figure", f))
		}
		m.WriteString("</div>")
	}
	m.WriteString("</div></li>")
	return m.html()
}

// told is one thing of a plant's timeline: a look, a run of looks that had
// nothing to add, or a note of the place where it stood.
type told struct {
	look *content.Look
	same []*content.Look
	note *content.Entry
}

// timeline gathers a part's timeline, oldest first.
func (s *site) timeline(p *cohort.Part) []told {
	var out []told
	notes := s.notesOf(p)
	before := func(m measure.Moment) {
		for len(notes) > 0 && !m.Before(notes[0].When) {
			out = append(out, told{note: notes[0]})
			notes = notes[1:]
		}
	}
	for i, l := range p.Looks {
		before(l.When)
		if nothingToAdd(l) {
			if moreSaid(p.Looks, i) {
				continue
			}
			if n := len(out); n > 0 && out[n-1].same != nil {
				out[n-1].same = append(out[n-1].same, l)
			} else {
				out = append(out, told{same: []*content.Look{l}})
			}
			continue
		}
		out = append(out, told{look: l})
	}
	for _, n := range notes {
		out = append(out, told{note: n})
	}
	return out
}

// notesOf are the notes of places while a part stood there, but for those of a
// round that looked at it, which stand with the look.
func (s *site) notesOf(p *cohort.Part) []*content.Entry {
	var out []*content.Entry
	looked := map[*content.Entry]bool{}
	for _, l := range p.Looks {
		looked[l.Entry] = true
	}
	end := p.Specimen.Import.Day0() + measure.Day(p.End())
	for _, e := range s.Cohort.Times.Notes {
		if e.When.Day <= end && !e.When.Before(p.Timeline.Begins) && p.PlaceBefore(e.When) == e.Place && e.Place != nil && !looked[e] {
			out = append(out, e)
		}
	}
	return out
}

// nothingToAdd tells whether a look only saw that all was as before.
func nothingToAdd(l *content.Look) bool {
	f := l.Facts
	return !l.Cutting && f.To == nil && f.Medium == "" && f.Roots == nil && f.Leaves == nil && f.Turgor == "" && !f.Resting && f.Rot == "" &&
		f.Pests == "" && f.Soak == nil && len(f.Did) == 0 && f.Note == "" && f.Outcome == "" && len(f.CutInto) == 0 &&
		!f.Arrival && len(f.Photos) == 0 && l.Entry.Event == "" && wordsOf(l) == nil && !(l.Named && l.Entry.Opening != nil) && len(l.Entry.Amended) == 0
}

// moreSaid tells whether another look of the same day has something to add: the
// one that hasn't would only repeat the day.
func moreSaid(looks []*content.Look, i int) bool {
	for j, l := range looks {
		if j != i && l.When.Day == looks[i].When.Day && (j < i || !nothingToAdd(l)) {
			return true
		}
	}
	return false
}

// dayByDay sets a part's timeline, oldest first.
func (v view) dayByDay(p *cohort.Part) []template.HTML {
	items := v.s.timeline(p)
	events := map[*content.Look][]chart.Event{}
	for _, h := range happenings(p) {
		events[h.look] = append(events[h.look], h.Event)
	}
	points := map[*content.Look]*cohort.Point{}
	for i := range p.Points {
		points[p.Points[i].Look] = &p.Points[i]
	}
	withdrawn := map[*content.Look]bool{}
	for _, l := range p.Withdrawn {
		withdrawn[l] = true
	}
	out := make([]template.HTML, len(items))
	for i, item := range items {
		var e dayEntry
		switch {
		case item.look != nil:
			e = v.lookEntry(p, item.look, points[item.look], events[item.look], withdrawn[item.look])
		case item.note != nil:
			e = v.noteEntry(p, item.note)
		default:
			e = v.sameEntry(item.same)
		}
		out[i] = e.html(v)
	}
	return out
}

func (v view) lookEntry(p *cohort.Part, l *content.Look, pt *cohort.Point, events []chart.Event, withdrawn bool) dayEntry {
	e := dayEntry{
		Anchor: address.Anchor(l.Entry), Day: dayWord(l.Day), Date: shortDate(l.When.Day), Icon: template.HTML(chart.Icon(markOf(l, events))),
		Title: v.titleOf(p, l, events, withdrawn), Amended: l.Entry.Amended,
	}
	e.Got = v.s.got(l, pt, said.Lower(string(e.Title)))
	if l.Entry.Round && len(l.Entry.Amended) > 0 {
		e.SetRight = "The round was set right"
	}
	if l.Note != "" {
		e.Words = append(e.Words, template.HTML("<p>"+template.HTMLEscapeString(said.Upper(stop(l.Note)))+"</p>"))
	}
	if own := wordsOf(l); own != nil {
		e.Words = append(e.Words, v.words(own, 2))
	}
	if l.Named && l.Entry.Opening != nil {
		set := v.words(l.Entry.Opening, 2)
		if l.Entry.Round && len(l.Entry.Named) > 1 {
			e.Of = set
		} else {
			e.Words = append(e.Words, set)
		}
	}
	for _, photo := range l.Facts.Photos {
		if f, ok := v.shown(photo, altOf(p, l)); ok {
			f.Later = true
			e.Figures = append(e.Figures, f)
		}
	}
	return e
}

// wordsOf is the section of an entry's body that is a plant's own; nil where
// there is none.
func wordsOf(l *content.Look) *prose.Section { return l.Entry.WordsOf[l.Timeline.Specimen.ID] }

func (v view) noteEntry(p *cohort.Part, n *content.Entry) dayEntry {
	day := int(n.When.Day - p.Specimen.Import.Day0())
	e := dayEntry{
		Anchor: address.Anchor(n), Day: dayWord(day), Date: shortDate(n.When.Day), Icon: template.HTML(chart.Icon(chart.PlaceNote)),
		Title:   template.HTML(template.HTMLEscapeString(noteTitle(n)) + ` <a href="` + v.Href(address.Place(n.Place.ID)) + `">` + template.HTMLEscapeString(n.Place.Name) + "</a>"),
		Amended: n.Amended,
	}
	if n.Opening != nil {
		e.Words = append(e.Words, v.words(n.Opening, 2))
	}
	if n.Since.Known() {
		e.Got = "since " + n.Since.String()
	}
	return e
}

// noteTitle says what a place's note is about, before the place's name.
func noteTitle(n *content.Entry) string {
	if n.Event == "" {
		return "A note of"
	}
	return said.Upper(eventWords(n)) + " at"
}

// eventWords is what happened at a place, in the grower's words.
func eventWords(e *content.Entry) string { return strings.TrimPrefix(e.Event, "other ") }

func (v view) sameEntry(same []*content.Look) dayEntry {
	last := same[len(same)-1]
	e := dayEntry{Anchor: address.Anchor(last.Entry), Day: dayWord(last.Day), Date: shortDate(last.When.Day), Icon: template.HTML(chart.Icon(chart.CheckIn))}
	if len(same) == 1 {
		e.Title = "Seen, nothing to add"
		return e
	}
	days := make([]string, len(same))
	for i, l := range same {
		days[i] = dayWord(l.Day)[len("day "):]
	}
	e.Title = template.HTML("Seen " + times(len(same)) + ", nothing to add")
	e.Got = "days " + said.List(days)
	return e
}

// titleOf says in a line what happened at a look.
func (v view) titleOf(p *cohort.Part, l *content.Look, events []chart.Event, withdrawn bool) template.HTML {
	var parts []string
	add := func(words string) { parts = append(parts, template.HTMLEscapeString(words)) }
	if l.Arrival {
		add("as received")
	}
	if l.Cutting {
		add("cut from " + p.Parent.Specimen.ID)
	}
	switch l.Outcome {
	case content.Lost:
		words := "lost"
		if cause := causeWords(l.Cause); cause != "" {
			words += ": " + cause
			if l.Cause.Doubt {
				words += ", perhaps"
			}
		}
		if withdrawn {
			words += " (taken back later: it was alive)"
		}
		add(words)
	case content.PassedOn, content.AliveAfterAll, content.Established:
		add(string(l.Outcome))
	}
	for _, e := range events {
		switch e.Mark {
		case chart.MoveDrier, chart.MoveWetter, chart.Established:
		case chart.FirstNewLeaf, chart.FirstNewRoot:
			add(e.Mark.Word())
		case chart.SectionCut:
			parts = append(parts, template.HTMLEscapeString(e.Words)+": "+v.pieceLinks(l))
		default:
			add(e.Words)
		}
	}
	if l.To != nil {
		words := "moved to " + l.To.Name
		for _, m := range p.Moves {
			if m.Look == l {
				if demand := demandWords(m); demand != "" {
					words += ", " + demand
				}
			}
		}
		add(words)
	}
	if l.Entry.Event != "" {
		add(eventWords(l.Entry))
	}
	if len(parts) == 0 {
		leaf, root := l.Facts.Leaves != nil && l.Facts.Leaves.New, l.Facts.Roots != nil && l.Facts.Roots.New
		switch {
		case leaf && root:
			add("a new leaf and a new root")
		case leaf:
			add("a new leaf")
		case root:
			add("a new root")
		case l.Facts.Resting:
			add("resting")
		case l.Turgor != "":
			add(string(l.Turgor))
		case len(l.Did) > 0:
			add(said.List(l.Did))
		default:
			add("seen")
		}
	}
	return template.HTML(upperHTML(strings.Join(parts, "; ")))
}

// upperHTML makes the first letter large where the text starts with one.
func upperHTML(s string) string {
	if strings.HasPrefix(s, "<") || strings.HasPrefix(s, "&") {
		return s
	}
	return said.Upper(s)
}

// pieceLinks are links to the sections cut at a look.
func (v view) pieceLinks(l *content.Look) string {
	var links []string
	for _, piece := range l.CutInto {
		if piece.ID != l.Timeline.Specimen.ID {
			links = append(links, `<a href="`+v.Href(address.Specimen(piece.ID))+`">`+template.HTMLEscapeString(piece.ID)+"</a>")
		}
	}
	return said.List(links)
}

// markOf is the mark of a look on the upright soil line: what ended the watch,
// else the first of what happened.
func markOf(l *content.Look, events []chart.Event) chart.Mark {
	switch l.Outcome {
	case content.Lost:
		return chart.Lost
	case content.PassedOn:
		return chart.PassedOn
	case content.Established:
		return chart.Established
	}
	for _, e := range events {
		if e.Mark != chart.NoMark {
			return e.Mark
		}
	}
	if l.Arrival {
		return chart.Arrived
	}
	return chart.CheckIn
}

// shortDate is a day without its year: "12 April".
func shortDate(d measure.Day) string { return d.Time().Format("2 January") }

// stop ends a sentence that the grower left open.
func stop(s string) string {
	if s == "" || strings.ContainsAny(s[len(s)-1:], ".!?:;,") || strings.HasSuffix(s, "…") {
		return s
	}
	return s + "."
}
