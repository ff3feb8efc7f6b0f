package content

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"wardian/content/format"
	"wardian/content/measure"
)

// token is a run of characters without white space.
type token struct {
	from, to int
	text     string
}

func (p *words) tokens(from, to int) []token {
	var out []token
	for i := from; i < to; {
		if unicode.IsSpace(p.chars[i]) {
			i++
			continue
		}
		start := i
		for i < to && !unicode.IsSpace(p.chars[i]) {
			i++
		}
		out = append(out, token{start, i, string(p.chars[start:i])})
	}
	return out
}

// leads are the words that phrases open with, by how many words that is.
var leads = [4][]string{1: format.PhraseLeads(1), 2: format.PhraseLeads(2), 3: format.PhraseLeads(3)}

// glued are the words that may have been meant by so many: as many, or one more
// where a space was forgotten.
var glued = [4][]string{1: slices.Concat(leads[1], leads[2]), 2: slices.Concat(leads[2], leads[3]), 3: leads[3]}

// lead gives the words a phrase opens with, as they stand in format.Phrases,
// and the tokens behind them; "" where it opens with none.
func lead(tokens []token) (string, []token) {
	for n := min(3, len(tokens)); n > 0; n-- {
		if opening := joined(tokens[:n]); slices.Contains(leads[n], opening) {
			return opening, tokens[n:]
		}
	}
	return "", tokens
}

func joined(tokens []token) string {
	texts := make([]string, len(tokens))
	for i, t := range tokens {
		texts[i] = t.text
	}
	return strings.Join(texts, " ")
}

// phrase reads the phrase at from..to, which isn't empty and has no space at
// either end. before is where the phrase in front begins, or -1.
func (p *words) phrase(before, from, to int) {
	tokens := p.tokens(from, to)
	opening, rest := lead(tokens)
	end := tokens[max(len(tokens)-len(rest), 1)-1].to
	f := &p.facts
	switch opening {
	case "":
		p.unknown(before, from, to)
	case "same":
		if p.fixed("same", from, end, rest) {
			f.Same = true
		}
	case "firm", "soft", "limp":
		if p.fixed("turgor", from, end, rest) {
			f.Turgor = Turgor(opening)
		}
	case "resting":
		if p.fixed("resting", from, end, rest) {
			f.Resting = true
		}
	case "new root":
		if p.fixed("roots.new", from, end, rest) {
			p.roots().New = true
		}
	case "new leaf", "new leaves":
		if p.fixed("leaves.new", from, end, rest) {
			p.leaves().New = true
		}
	case "no rot":
		if p.fixed("rot", from, end, rest) {
			f.Rot = "none"
		}
	case "no pests":
		if p.fixed("pests", from, end, rest) {
			f.Pests = "none"
		}
	case "established", "passed on", "alive after all":
		if p.fixed("outcome", from, end, rest) {
			f.Outcome = Outcome(opening)
		}
	case "leaves", "leaf":
		p.leafCount(from, to, rest)
	case "dropped":
		p.dropped(from, to, rest)
	case "cut":
		p.cut(from, to, rest)
	case "roots":
		p.rootGrade(from, to, rest)
	case "rot":
		p.rot(from, to, rest)
	case "pests":
		p.pests(from, to, rest)
	case "medium":
		if words, ok := p.free("medium", from, to, rest, "medium WORDS, as in medium sphagnum moss"); ok {
			f.Medium = words
		}
	case "to":
		p.move(from, to, rest)
	case "lost":
		p.lost(from, to, rest)
	default:
		panic("content: the phrase " + opening + " of the table isn't read")
	}
}

func (p *words) roots() *Roots {
	if p.facts.Roots == nil {
		p.facts.Roots = &Roots{}
	}
	return p.facts.Roots
}

func (p *words) leaves() *Leaves {
	if p.facts.Leaves == nil {
		p.facts.Leaves = &Leaves{}
	}
	return p.facts.Leaves
}

// fixed reads a phrase that has no words of its own behind its lead, which ends
// at a character.
func (p *words) fixed(key string, from, end int, rest []token) bool {
	if len(rest) > 0 {
		a, b := rest[0].from, rest[len(rest)-1].to
		opening, more := string(p.chars[from:end]), string(p.chars[a:b])
		hint := "put a remark at the end: " + opening + "; " + more
		if known, _ := lead(rest); known != "" {
			hint = "put a comma between: " + opening + ", " + more
		}
		p.trouble(WordTrouble{Start: a, End: b, Code: "words-after-phrase",
			Message:  "words behind " + p.quote(from, end),
			Expected: "a comma before the next phrase, or a semicolon before a remark", Hint: hint})
	}
	if !p.once(key, from, end) {
		return false
	}
	p.mark(key, from, end)
	return true
}

// free reads a phrase whose words run to the comma.
func (p *words) free(key string, from, to int, rest []token, want string) (string, bool) {
	if len(rest) == 0 {
		p.missing(from, to, want)
		return "", false
	}
	if !p.once(key, from, to) {
		return "", false
	}
	p.mark(key, rest[0].from, to)
	return string(p.chars[rest[0].from:to]), true
}

// missing tells of a phrase that ends too early.
func (p *words) missing(from, to int, want string) {
	t := WordTrouble{Start: from, End: to, Code: "phrase-unfinished",
		Message: p.quote(from, to) + " lacks the words that belong to it", Expected: want, Hint: "leave it out where it isn't known"}
	opening, _ := lead(p.tokens(from, to))
	for _, known := range format.Phrases {
		if slices.Contains(known.Leads, opening) {
			t.Hint = "as in " + known.Example
			break
		}
	}
	p.trouble(t)
}

// figure tells of a figure of a kind that can't be read, which stands at an
// offset.
func (p *words) figure(kind format.Kind, at int, t *measure.Trouble) {
	hint := t.Hint
	if hint != "" {
		hint = "write " + hint
	} else {
		hint = "leave it out where it isn't known"
	}
	p.trouble(WordTrouble{Start: at + t.Start, End: at + max(t.End, t.Start+1), Code: codeFor[kind],
		Message: t.Message, Expected: t.Expected, Hint: hint})
}

// rot reads rot WHERE.
func (p *words) rot(from, to int, rest []token) {
	known := format.RotWhere
	want := anyOf(known)
	if len(rest) == 0 {
		p.missing(from, to, "rot and where: "+want)
		return
	}
	where, a := joined(rest), rest[0].from
	switch {
	case where == "none":
		p.trouble(WordTrouble{Start: from, End: to, Code: "unknown-word", Message: `"rot none" is written in maps only`, Expected: "no rot", Hint: "write no rot"})
	case !slices.Contains(known, where):
		p.trouble(WordTrouble{Start: a, End: to, Code: "unknown-word", Message: "rot isn't told apart at " + p.quote(a, to),
			Expected: want, Hint: cmp.Or(nearest(where, known), "write it as a remark at the end, after a semicolon")})
	case p.once("rot", from, to):
		p.facts.Rot = where
		p.mark("rot", a, to)
	}
}

// pests reads pests WORDS.
func (p *words) pests(from, to int, rest []token) {
	if len(rest) == 1 && (rest[0].text == "none" || rest[0].text == "no") {
		p.trouble(WordTrouble{Start: from, End: to, Code: "unknown-word",
			Message: p.quote(from, to) + " is written otherwise", Expected: "no pests", Hint: "write no pests"})
		return
	}
	if words, ok := p.free("pests", from, to, rest, "pests WORDS, as in pests thrips"); ok {
		p.facts.Pests = words
	}
}

// move reads to PLACE.
func (p *words) move(from, to int, rest []token) {
	if len(rest) == 0 {
		p.missing(from, to, "to PLACE, as in to cabinet")
		return
	}
	a := rest[0].from
	id := string(p.chars[a:to])
	place, nearest := p.env.Place(id)
	if place == nil {
		t := WordTrouble{Start: a, End: to, Code: "unknown-id", Message: "there is no place " + p.quote(a, to), Expected: "the ID of a place", Hint: "begin a file places/" + id + ".md"}
		if strings.ContainsAny(id, " \t") {
			t.Hint = "an ID is the name of a file in places/, without .md"
		}
		if nearest != "" {
			t.Hint = "nearest: " + nearest
		}
		p.trouble(t)
		return
	}
	if p.once("to", from, to) {
		p.facts.To = place
		p.mark("to", a, to)
	}
}

// unknown tells of a phrase that opens with no lead that we know.
func (p *words) unknown(before, from, to int) {
	tokens := p.tokens(from, to)
	t := WordTrouble{Start: from, End: to, Code: "unknown-phrase", Message: p.quote(from, to) + " isn't a phrase",
		Expected: "one of the phrases, such as firm, new root or leaves 3; a remark stands after a semicolon"}
	switch {
	case (digit(p.chars[from]) || p.chars[from] == '~') && before >= 0:
		if mended := p.together(before, from, to); mended != "" {
			t.Message, t.Expected, t.Hint = "a comma inside a phrase", "commas between phrases only", "leave the comma out: "+mended
		}
	case tokens[0].text == "no" && len(tokens) == 2 && tokens[1].text == "roots":
		t.Hint = "write roots 0"
	case tokens[0].text == "no" && len(tokens) == 2 && (tokens[1].text == "leaves" || tokens[1].text == "leaf"):
		t.Hint = "write leaves 0"
	default:
		for n := 1; n <= min(3, len(tokens)) && t.Hint == ""; n++ {
			if t.Hint = nearest(joined(tokens[:n]), glued[n]); t.Hint != "" {
				t.End = tokens[n-1].to
			}
		}
		if t.Hint == "" {
			t.Hint = "put a remark at the end, after a semicolon"
			if text := string(p.chars[from:min(to, from+40)]); to-from <= 40 {
				t.Hint = "put it at the end as a remark: ; " + text
			}
		}
	}
	p.trouble(t)
}

// together tries whether the figure at from..to belongs to the phrase before
// the comma, and gives both as they should be written.
func (p *words) together(before, from, to int) string {
	if to-before > longestTried {
		return ""
	}
	end := from - 1
	for end > before && p.chars[end] != ',' {
		end--
	}
	_, end = p.trim(before, end)
	for _, between := range []string{".", " "} {
		if between == "." && !(digit(p.chars[end-1]) && digit(p.chars[from])) {
			continue
		}
		text := string(p.chars[before:end]) + between + string(p.chars[from:to])
		if chars := []rune(text); p.reads(chars, 0, len(chars)) {
			return text
		}
	}
	return ""
}
