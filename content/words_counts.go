package content

import (
	"cmp"
	"slices"
	"strconv"

	"wardian/content/format"
	"wardian/content/measure"
	"wardian/content/source"
)

// leafCount reads leaves N [LxW ...].
func (p *words) leafCount(from, to int, rest []token) {
	const want = "leaves N, as in leaves 3 or leaves 3 13x6 12x6"
	if len(rest) == 0 {
		p.missing(from, to, want)
		return
	}
	groups := p.measures(rest)
	counted := groups[0]
	if p.crossed(counted) {
		p.trouble(WordTrouble{Start: counted.from, End: counted.to, Code: "phrase-unfinished",
			Message: "the number of leaves is missing before their sizes", Expected: want, Hint: "as in leaves 3 13x6 12x6"})
		return
	}
	n, trouble := measure.ParseCount(counted.text)
	if trouble != nil {
		p.figure(format.Count, counted.from, trouble)
		return
	}
	var sizes []measure.Figure[measure.Size]
	for _, g := range groups[1:] {
		size, trouble := measure.ParseSize(g.text, p.env.Units)
		if trouble != nil {
			p.figure(format.Size, g.from, trouble)
			return
		}
		sizes = append(sizes, size)
	}
	if !p.once("leaves.count", from, to) {
		return
	}
	p.leaves().Count, p.leaves().Sizes = &n, sizes
	p.mark("leaves.count", counted.from, counted.to)
	if len(groups) > 1 {
		p.mark("leaves.sizes", groups[1].from, to)
	}
}

// measures joins tokens that belong to one figure: a tilde and its number, a
// number and its unit, a length and its width.
func (p *words) measures(tokens []token) []token {
	var out []token
	for _, t := range tokens {
		first := []rune(t.text)[0]
		opens := digit(first) || first == '~' || first == '-' || first == '.'
		if n := len(out); n > 0 {
			last := p.chars[out[n-1].to-1]
			if !opens || last == '~' || last == 'x' || last == 'X' || last == '×' {
				out[n-1].to = t.to
				continue
			}
		}
		out = append(out, t)
	}
	for i, t := range out {
		out[i].text = string(p.chars[t.from:t.to])
	}
	return out
}

// crossed says whether a figure is written like a length and a width.
func (p *words) crossed(t token) bool {
	_, trouble := measure.ParseSize(t.text, p.env.Units)
	return trouble == nil
}

// dropped reads dropped N.
func (p *words) dropped(from, to int, rest []token) {
	const want = "dropped N, as in dropped 1"
	if len(rest) == 0 {
		p.missing(from, to, want)
		return
	}
	if last := rest[len(rest)-1]; len(rest) > 1 && (last.text == "leaf" || last.text == "leaves") {
		p.trouble(WordTrouble{Start: last.from, End: last.to, Code: "words-after-phrase",
			Message: "what dropped is leaves already", Expected: want, Hint: "leave it out: dropped " + joined(rest[:len(rest)-1])})
		return
	}
	n, ok := p.whole(rest[0].from, to)
	if ok && p.once("leaves.dropped", from, to) {
		p.leaves().Dropped = n
		p.mark("leaves.dropped", rest[0].from, to)
	}
}

// whole reads a count that is no estimate.
func (p *words) whole(from, to int) (int, bool) {
	text := string(p.chars[from:to])
	n, trouble := measure.ParseCount(text)
	if trouble == nil && n.Estimate {
		trouble = &measure.Trouble{Start: 0, End: 1, Message: "a count of leaves cut or dropped takes no tilde",
			Expected: "a whole number such as 3", Hint: strconv.Itoa(n.Value)}
	}
	if trouble != nil {
		p.figure(format.Whole, from, trouble)
		return 0, false
	}
	return n.Value, true
}

// cut reads cut N leaves and cut N% roots.
func (p *words) cut(from, to int, rest []token) {
	const want = "cut N leaves or cut N% roots"
	if len(rest) < 2 {
		p.missing(from, to, want)
		return
	}
	what, a, b := rest[len(rest)-1], rest[0].from, rest[len(rest)-2].to
	switch what.text {
	case "leaf", "leaves":
		if n, ok := p.whole(a, b); ok && p.once("leaves.cut", from, to) {
			p.leaves().Cut = n
			p.mark("leaves.cut", a, b)
		}
	case "roots":
		share, trouble := measure.ParseShare(string(p.chars[a:b]))
		if trouble != nil {
			p.figure(format.Share, a, trouble)
		} else if p.once("roots.cut", from, to) {
			p.roots().Cut = &share
			p.mark("roots.cut", a, b)
		}
	default:
		t := WordTrouble{Start: what.from, End: what.to, Code: "unknown-word",
			Message: strconv.Quote(what.text) + " can't be cut", Expected: want, Hint: cmp.Or(nearest(what.text, []string{"leaves", "leaf", "roots"}), "write it as a remark at the end, after a semicolon")}
		if slices.Contains([]string{"leaf", "leaves", "roots"}, rest[0].text) {
			t.Start, t.Message = a, "the figure stands before what was cut"
			t.Hint = "write " + joined(rest[1:]) + " " + rest[0].text
		}
		p.trouble(t)
	}
}

// rootParts are the measures of a roots phrase, as the table of keys has them.
var rootParts = []string{"longest", "mean", "count", "length"}

// rootGrade reads roots GRADE [longest L] [mean L] [count N] [length L].
func (p *words) rootGrade(from, to int, rest []token) {
	const want = "roots GRADE with a grade from 0 to 5, then longest, mean, count or length"
	if len(rest) == 0 {
		p.missing(from, to, want)
		return
	}
	if slices.Contains(rootParts, rest[0].text) {
		p.trouble(WordTrouble{Start: rest[0].from, End: rest[0].to, Code: "phrase-unfinished",
			Message: "the grade is missing", Expected: want, Hint: "as in roots 2 longest 4 cm"})
		return
	}
	parts := split(rest)
	grade, trouble := measure.ParseGrade(p.textOf(parts[0]))
	if trouble != nil {
		p.figure(format.Grade, parts[0][0].from, trouble)
		return
	}
	got, marks := Roots{}, []WordMark{{"roots.grade", parts[0][0].from, parts[0][len(parts[0])-1].to}}
	for _, part := range parts[1:] {
		if !p.rootPart(&got, part) {
			return
		}
		key := "roots." + part[0].text
		if slices.ContainsFunc(marks, func(m WordMark) bool { return m.Key == key }) {
			p.trouble(WordTrouble{Start: part[0].from, End: part[len(part)-1].to, Code: "phrase-twice",
				Message: part[0].text + " is given twice", Expected: "each thing said once", Hint: "leave one of them out"})
			return
		}
		marks = append(marks, WordMark{key, part[1].from, part[len(part)-1].to})
	}
	if !p.once("roots.grade", from, to) {
		return
	}
	r := p.roots()
	r.Grade, r.Longest, r.Mean, r.Count, r.Length = &grade, got.Longest, got.Mean, got.Count, got.Length
	p.marks = append(p.marks, marks...)
}

// split parts tokens before each that opens with a letter and isn't a unit: the
// grade, then each measure with its name in front.
func split(tokens []token) [][]token {
	var out [][]token
	for i, t := range tokens {
		named := slices.Contains(rootParts, t.text) || source.Nearest(t.text, rootParts) != ""
		if i == 0 || named {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], t)
	}
	return out
}

func (p *words) textOf(part []token) string {
	return string(p.chars[part[0].from:part[len(part)-1].to])
}

// rootPart reads one measure behind the grade.
func (p *words) rootPart(r *Roots, part []token) bool {
	name := part[0]
	if !slices.Contains(rootParts, name.text) {
		p.trouble(WordTrouble{Start: name.from, End: name.to, Code: "unknown-word",
			Message: strconv.Quote(name.text) + " is no measure of roots", Expected: anyOf(rootParts), Hint: nearest(name.text, rootParts)})
		return false
	}
	if len(part) == 1 {
		p.missing(name.from, name.to, name.text+" with its figure")
		return false
	}
	text := p.textOf(part[1:])
	if name.text == "count" {
		n, trouble := measure.ParseCount(text)
		if trouble != nil {
			p.figure(format.Count, part[1].from, trouble)
			return false
		}
		r.Count = &n
		return true
	}
	l, trouble := measure.ParseLength(text, p.env.Units)
	if trouble != nil {
		p.figure(format.Length, part[1].from, trouble)
		return false
	}
	switch name.text {
	case "longest":
		r.Longest = &l
	case "mean":
		r.Mean = &l
	case "length":
		r.Length = &l
	}
	return true
}
