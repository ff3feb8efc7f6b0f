package content

import (
	"slices"
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/source"
)

// facts reads what is said of one plant, photos apart.
func (c *record) facts(l *loader) Facts {
	f := nothingSaid()
	f.To = c.placeAt(l, "to")
	f.Medium = c.line("medium")
	f.Roots = c.roots()
	f.Leaves = c.leaves()
	f.Turgor = Turgor(c.choice("turgor"))
	f.Resting = c.yes("resting")
	f.Rot = c.choice("rot")
	f.Pests = c.line("pests")
	f.Soak = c.hours("soak")
	f.Did = c.texts("did")
	f.Note = c.text("note")
	f.Outcome = Outcome(c.choice("outcome"))
	f.Cause = c.cause("cause")
	if format.Find(c.keys, "cut-into") != nil {
		f.CutInto = c.pieces("cut-into")
	}
	f.Arrival = c.yes("arrival")
	f.QuarantineUntil, f.LastGood = c.day("quarantine-until"), c.day("last-good")
	return f
}

func (c *record) roots() *Roots {
	r := c.under("roots")
	if r == nil {
		return nil
	}
	out := &Roots{Longest: r.length("longest"), Mean: r.length("mean"), Count: r.count("count"), Length: r.length("length"), New: r.yes("new"), Cut: r.share("cut")}
	if g, ok := scalar(r, "grade", format.Grade, measure.ParseGrade); ok {
		out.Grade = &g
	}
	return out
}

func (c *record) leaves() *Leaves {
	r := c.under("leaves")
	if r == nil {
		return nil
	}
	out := &Leaves{Count: r.count("count"), New: r.yes("new"), Cut: r.whole("cut", 0), Dropped: r.whole("dropped", 0)}
	items, want := r.each("sizes")
	for i := range items {
		if items[i].Faulty {
			continue
		}
		size, ok := parse(r.reader, &items[i], want, func(s string) (measure.Figure[measure.Size], *measure.Trouble) {
			return measure.ParseSize(s, r.units)
		})
		if ok {
			out.Sizes = append(out.Sizes, size)
		}
	}
	return out
}

// cause reads why a plant was lost: a listed word, two of them, or "other ...";
// a question mark behind it marks a doubt.
func (c *record) cause(name string) Cause {
	v, _ := c.value(name, format.Cause)
	if v == nil {
		return Cause{}
	}
	parts := []header.Value{*v}
	switch {
	case v.Kind == header.Map:
		c.wrongKind(v, &format.Value{Kind: format.Cause}, "rot")
		return Cause{}
	case v.Kind == header.List && len(v.Items) > 2:
		c.fault("not-a-cause", v.Span, "more than two causes stand here", "one listed word, or two in brackets", keepTwo(v.Items))
		return Cause{}
	case v.Kind == header.List:
		parts = v.Items
	}
	var out Cause
	for i := range parts {
		p := &parts[i]
		if p.Faulty {
			continue
		}
		text, ok := c.scalarText(p, &format.Value{Kind: format.Text})
		if !ok {
			continue
		}
		word := strings.TrimSpace(strings.TrimSuffix(text, "?"))
		out.Doubt = out.Doubt || word != text
		switch {
		case slices.Contains(format.Causes, word), otherWords(word) && word != "other":
			if slices.Contains(out.Words, word) {
				c.fault("not-a-cause", p.Span, quoted(word)+" is named twice", "two causes that differ", "leave one out")
				continue
			}
			out.Words = append(out.Words, word)
		default:
			hint := nearest(word, format.Causes)
			if word == "other" {
				hint = "write other and words, such as other slugs"
			} else if hint == "" {
				hint = "write other " + word
				if first, second, ok := strings.Cut(word, ", "); ok {
					hint = "write [" + first + ", " + second + "]"
				} else if first, second, ok := strings.Cut(word, " and "); ok {
					hint = "write [" + first + ", " + second + "]"
				}
			}
			c.fault("not-a-cause", p.Span, quoted(word)+" isn't a listed cause", strings.Join(format.Causes, ", ")+", or other and words", hint)
		}
	}
	return out
}

// keepTwo is the hint of a cause with too many words.
func keepTwo(items []header.Value) string {
	hint := "keep the two that mattered most"
	if len(items) > 1 && items[0].Kind == header.Text && items[1].Kind == header.Text {
		hint = "write [" + short(items[0].Text) + ", " + short(items[1].Text) + "], or whichever two mattered most"
	}
	return hint
}

// pieces reads the sections that a cut made.
func (c *record) pieces(name string) []Piece {
	fields, want := c.table(name)
	var out []Piece
	for i := range fields {
		f := &fields[i]
		if code, message, mend := idTrouble(f.Key); code != "" {
			hint := "give the section another ID"
			if mend != "" {
				hint = "write " + mend
			}
			c.fault(code, f.KeySpan, message, "an ID of lower-case letters, digits and hyphens that is no word of the diary's", hint)
			continue
		}
		p := Piece{ID: f.Key, Span: f.KeySpan}
		switch {
		case f.Value.Faulty:
		case f.Value.Kind == header.Empty:
			c.fault("unknown-word", f.KeySpan, "which part "+quoted(f.Key)+" is isn't said", strings.Join(want.Item.WordList(), ", "), "write "+f.Key+": "+want.Item.Words[0].Word)
		default:
			p.Position = c.choiceOf(&f.Value, want.Item)
		}
		out = append(out, p)
	}
	return out
}

// pictures are the kinds of picture that are read.
var pictures = []string{".jpg", ".jpeg", ".png", ".webp", ".heic"}

// picture says whether a path is that of a picture.
func picture(path string) bool {
	dot := strings.LastIndexByte(path, '.')
	return dot >= 0 && slices.Contains(pictures, strings.ToLower(path[dot:]))
}

// photos reads the pictures that an entry names.
func (c *record) photos(l *loader, name string) []Photo {
	items, want := c.each(name)
	var out []Photo
	for i := range items {
		v := &items[i]
		p := Photo{Taken: measure.NoDay}
		switch {
		case v.Faulty, v.Kind == header.Empty:
			continue
		case v.Kind == header.List:
			c.wrongKind(v, want, "2026/04/b26-03.jpg")
			continue
		case v.Kind == header.Map:
			m := c.reader.record(v.Fields, want.Keys, "photos.", &v.Span)
			p.Path, p.Alt, p.Taken, p.Span = m.text("file"), m.line("alt"), m.day("taken"), m.spanOf("file")
		default:
			p.Path, _ = c.scalarText(v, &format.Value{Kind: format.Text})
			p.Span = v.Span
		}
		if p.Path != "" && l.photoThere(c.reader, &p) {
			out = append(out, p)
		}
	}
	return out
}

// photoThere says whether a picture is among the diary's, and makes its path a
// diary path; one that isn't is reported.
func (l *loader) photoThere(rd *reader, p *Photo) bool {
	written := p.Path
	p.Path = "photos/" + written
	switch {
	case l.photos[p.Path]:
		return true
	case l.photos[written]:
		rd.fault("missing-photo", p.Span, "there is no picture "+quoted(p.Path), "a path that starts at photos/, without it", "write "+strings.TrimPrefix(written, "photos/"))
	case l.photos["photos/"+strings.ReplaceAll(written, `\`, "/")]:
		rd.fault("missing-photo", p.Span, "the folders of a path are parted by /", "a picture under photos/", "write "+strings.ReplaceAll(written, `\`, "/"))
	case !picture(written):
		rd.fault("not-a-picture", p.Span, quoted(written)+" isn't a picture", "a file ending in "+strings.Join(pictures, ", "), "export it as JPEG, or leave it out")
	default:
		hint := "put the picture there, or leave it out"
		if rd.search() {
			if near := l.nearestPhoto(written); near != "" {
				hint = "nearest: " + near
			}
		}
		rd.fault("missing-photo", p.Span, "there is no picture "+quoted(p.Path), "a picture under photos/", hint)
	}
	return false
}

// nearestPhoto finds the picture that was probably meant: one whose path is
// near, or whose name is the same, or near, in another folder.
func (l *loader) nearestPhoto(written string) string {
	paths := make([]string, 0, len(l.diary.Photos))
	names := make([]string, 0, len(l.diary.Photos))
	name := written[strings.LastIndexByte(written, '/')+1:]
	for _, p := range l.diary.Photos {
		p = strings.TrimPrefix(p, "photos/")
		base := p[strings.LastIndexByte(p, '/')+1:]
		if base == name {
			return p
		}
		paths, names = append(paths, p), append(names, base)
	}
	if near := source.Nearest(written, paths); near != "" {
		return near
	}
	if base := source.Nearest(name, names); base != "" {
		return paths[slices.Index(names, base)]
	}
	return ""
}

// merge adds to a plant's own facts what the round says of all: each key that
// the plant's line doesn't write, and the items of lists.
func merge(n *CheckIn, all *Facts, spans Spans) {
	own := &n.Facts
	said := func(key string) bool {
		return slices.ContainsFunc(n.Spans, func(k KeySpan) bool { return k.Key == key || strings.HasPrefix(k.Key, key+".") })
	}
	if own.To == nil && !said("to") {
		own.To = all.To
	}
	take(&own.Medium, all.Medium)
	take(&own.Turgor, all.Turgor)
	take(&own.Rot, all.Rot)
	take(&own.Pests, all.Pests)
	take(&own.Note, all.Note)
	take(&own.Soak, all.Soak)
	if !said("resting") {
		own.Resting = all.Resting
	}
	if !said("arrival") {
		own.Arrival = all.Arrival
	}
	if !own.QuarantineUntil.Known() {
		own.QuarantineUntil = all.QuarantineUntil
	}
	if !own.LastGood.Known() {
		own.LastGood = all.LastGood
	}
	if own.Outcome == "" && !said("outcome") {
		own.Outcome = all.Outcome
	}
	if len(own.Cause.Words) == 0 && own.Outcome == Lost {
		own.Cause = all.Cause
	}
	own.Did = slices.Concat(own.Did, all.Did)
	own.Roots = mergeRoots(own.Roots, all.Roots, said)
	own.Leaves = mergeLeaves(own.Leaves, all.Leaves, said)
	for _, k := range spans {
		if n.Spans.Of(k.Key, source.Span{}) == (source.Span{}) && format.Find(format.Seen, rootKey(k.Key)) != nil {
			n.Spans = append(n.Spans, k)
		}
	}
}

// take keeps a value, or takes another where there is none.
func take[T comparable](own *T, all T) {
	var none T
	if *own == none {
		*own = all
	}
}

func mergeRoots(own, all *Roots, said func(string) bool) *Roots {
	if all == nil {
		return own
	}
	out := *all
	if own != nil {
		out = *own
		take(&out.Grade, all.Grade)
		take(&out.Longest, all.Longest)
		take(&out.Mean, all.Mean)
		take(&out.Count, all.Count)
		take(&out.Length, all.Length)
		take(&out.Cut, all.Cut)
		out.New = own.New || all.New && !said("roots.new")
	}
	return &out
}

func mergeLeaves(own, all *Leaves, said func(string) bool) *Leaves {
	if all == nil {
		return own
	}
	out := *all
	if own != nil {
		out = *own
		take(&out.Count, all.Count)
		take(&out.Cut, all.Cut)
		take(&out.Dropped, all.Dropped)
		out.Sizes = slices.Concat(own.Sizes, all.Sizes)
		out.New = own.New || all.New && !said("leaves.new")
	}
	return &out
}

// rootKey is the first part of a key with dots.
func rootKey(key string) string {
	first, _, _ := strings.Cut(key, ".")
	return first
}

// sortTraits puts traits in the order of their words.
func sortTraits(t []Trait) {
	slices.SortFunc(t, func(a, b Trait) int { return strings.Compare(a.Word, b.Word) })
}

// parseFactor reads a leaf's shape factor.
func parseFactor(s string) (float64, *measure.Trouble) { return measure.ParseFactor(s) }
