package content

import (
	"strconv"
	"strings"
	"unicode"

	"wardian/content/measure"
)

// WordsEnv is what plain words need to know of the diary they stand in.
type WordsEnv struct {
	Units measure.Units // what a bare number means
	// Place finds a place by its ID. Where there is none, nearest is the ID that
	// was probably meant, or "".
	Place func(id string) (place *Place, nearest string)
}

// WordMark tells which characters of a plant's line say one thing. Key is the
// key that says the same in a map, with a dot between levels: "leaves.sizes".
// Start and End count characters from 0; End is exclusive.
type WordMark struct {
	Key        string
	Start, End int
}

// WordTrouble is a phrase that can't be read. Start and End count characters of
// the line from 0; End is exclusive and behind Start. A hint that opens with
// "write " or "nearest: " goes on with what to write in place of just these
// characters.
type WordTrouble struct {
	Start, End int
	Code       string // see the table of codes in content/format
	Message    string
	Expected   string
	Hint       string
}

// nothingSaid is the record of a line that says nothing: unlike the zero Facts,
// its days aren't known.
func nothingSaid() Facts {
	return Facts{QuarantineUntil: measure.NoDay, LastGood: measure.NoDay}
}

// ParseWords reads a plant's line in plain words: phrases with commas between
// (format.Phrases), a remark after the first semicolon. The line is cut at
// commas first, so the words of a phrase run to the comma. Phrases that can't
// be read are left out of the facts and told as trouble, all of them; no text
// makes it panic. An empty line gives no facts and no trouble.
func ParseWords(text string, env WordsEnv) (Facts, []WordMark, []WordTrouble) {
	p := &words{chars: []rune(text), env: env, facts: nothingSaid(), said: map[string]said{}}
	end := len(p.chars)
	for i, c := range p.chars {
		if c == ';' {
			p.remark(i + 1)
			end = i
			break
		}
	}
	if from, to := p.trim(0, end); from < to {
		p.line(0, end)
	}
	return p.facts, p.marks, p.troubles
}

// words is the reading of one line.
type words struct {
	chars    []rune
	env      WordsEnv
	facts    Facts
	marks    []WordMark
	troubles []WordTrouble
	told     []bool          // the characters of which trouble was told
	tried    int             // phrases read a second time
	said     map[string]said // by what may be said once: "turgor", "leaves.count"
	alone    *said           // the phrase same
	first    *said           // the first phrase that isn't
}

// said is a phrase that was read.
type said struct {
	start, end int
	words      string
}

// remark keeps what stands after the semicolon.
func (p *words) remark(from int) {
	from, to := p.trim(from, len(p.chars))
	if from == to {
		return
	}
	p.facts.Note = string(p.chars[from:to])
	p.mark("note", from, to)
}

// line cuts the characters from..to at commas and reads each phrase. A comma
// between two digits is no cut but a slip, told once, and read as what it was
// meant to be.
func (p *words) line(from, to int) {
	start, before := from, -1 // before: where the phrase before this one begins
	for i := from; i <= to; i++ {
		if i < to && p.chars[i] != ',' {
			continue
		}
		if i < to && p.slipped(start, i, to) {
			continue
		}
		if a, b := p.trim(start, i); a < b {
			p.phrase(before, a, b)
			before = a
		} else {
			p.nothingBetween(from, start, i, to)
		}
		start = i + 1
	}
}

// slipped tells of a comma inside a number or between two sizes, and mends it
// in the text that is read. Which of both it is, reading the phrase each way
// decides.
func (p *words) slipped(start, comma, end int) bool {
	if comma == start || comma+1 >= end || !digit(p.chars[comma-1]) || !digit(p.chars[comma+1]) {
		return false
	}
	stop := comma + 1
	for stop < end && p.chars[stop] != ',' {
		stop++
	}
	a, b := comma, comma+1 // the number
	for a > start && digit(p.chars[a-1]) {
		a--
	}
	for b < end && digit(p.chars[b]) {
		b++
	}
	t := WordTrouble{Start: a, End: b, Code: "comma-in-number", Message: "a comma inside a number",
		Expected: "a point before the decimals; commas stand between phrases", Hint: "leave the comma out"}
	meant := '.'
	if stop-start <= longestTried {
		meant = p.meant(&t, start, comma, stop)
	}
	p.trouble(t)
	p.chars[comma] = meant
	return true
}

// meant tries what the comma of a trouble should have been, and hints at it.
func (p *words) meant(t *WordTrouble, start, comma, stop int) rune {
	from, to := t.Start, t.End // the figure: a number, or a length and a width
	for from > start && !unicode.IsSpace(p.chars[from-1]) {
		from--
	}
	for to < stop && !unicode.IsSpace(p.chars[to]) {
		to++
	}
	for _, c := range []rune{'.', ' '} {
		mended := append([]rune{}, p.chars[start:stop]...)
		mended[comma-start] = c
		if !p.reads(mended, from-start, to-start) {
			continue
		}
		if c == '.' {
			t.Hint = "write " + string(mended[t.Start-start:t.End-start])
		} else {
			t.Start, t.End = comma, comma+1
			t.Message, t.Expected = "a comma between the measures of one phrase", "a space; commas stand between phrases"
			t.Hint = "leave the comma out: " + string(mended[from-start:to-start])
		}
		return c
	}
	return '.'
}

// longestTried and mostTried bound the phrases that are read a second time to
// find out what was meant, so that a line of commas takes no longer than its
// length.
const (
	longestTried = 200
	mostTried    = 100
)

// reads says whether the phrase of another text is read without a fault among
// its characters a..b.
func (p *words) reads(chars []rune, a, b int) bool {
	if p.tried++; p.tried > mostTried || len(chars) > longestTried {
		return false
	}
	try := &words{chars: chars, env: p.env, facts: nothingSaid(), said: map[string]said{}}
	from, to := try.trim(0, len(chars))
	try.phrase(-1, from, to)
	for _, t := range try.troubles {
		if t.Start < b && a < t.End {
			return false
		}
	}
	return true
}

// nothingBetween tells of a comma with nothing before or behind it.
func (p *words) nothingBetween(from, start, stop, to int) {
	comma := start - 1 // the comma in front, which is one too many
	if start == from {
		comma = stop
	}
	if comma < from || comma >= to {
		return
	}
	p.trouble(WordTrouble{Start: comma, End: comma + 1, Code: "empty-phrase", Message: "a comma with no phrase beside it",
		Expected: "one comma between two phrases", Hint: "leave the comma out"})
}

// trouble adds a trouble, unless one was told of the same characters already:
// one cause, one finding.
func (p *words) trouble(t WordTrouble) {
	if p.told == nil {
		p.told = make([]bool, len(p.chars))
	}
	for i := t.Start; i < t.End; i++ {
		if p.told[i] {
			return
		}
	}
	for i := t.Start; i < t.End; i++ {
		p.told[i] = true
	}
	p.troubles = append(p.troubles, t)
}

// quote shows the characters from..to in quotation marks, cut short where they
// are many.
func (p *words) quote(from, to int) string {
	const most = 40
	if to-from > most {
		return strconv.Quote(string(p.chars[from:from+most]) + "…")
	}
	return strconv.Quote(string(p.chars[from:to]))
}

// mark notes where a key's value stands.
func (p *words) mark(key string, from, to int) {
	p.marks = append(p.marks, WordMark{Key: key, Start: from, End: to})
}

// once says whether what is told under a key wasn't told before in this line.
func (p *words) once(key string, from, to int) bool {
	now := said{from, to, p.quote(from, to)}
	if had, ok := p.said[key]; ok {
		message := now.words + " is given twice"
		if had.words != now.words {
			message = now.words + " beside " + had.words
		}
		p.trouble(WordTrouble{Start: from, End: to, Code: "phrase-twice", Message: message,
			Expected: "each thing said once", Hint: "leave one of them out"})
		return false
	}
	p.said[key] = now
	if key == "same" {
		p.alone = &now
	} else if p.first == nil {
		p.first = &now
	}
	if p.alone != nil && p.first != nil {
		p.trouble(WordTrouble{Start: p.alone.start, End: p.alone.end, Code: "same-beside-more",
			Message:  "same beside " + p.first.words,
			Expected: "same alone, or what was seen", Hint: "leave out same"})
		p.facts.Same = false
		return key != "same"
	}
	return true
}

// trim leaves white space out at both ends.
func (p *words) trim(from, to int) (int, int) {
	for from < to && unicode.IsSpace(p.chars[from]) {
		from++
	}
	for from < to && unicode.IsSpace(p.chars[to-1]) {
		to--
	}
	return from, to
}

func digit(c rune) bool { return '0' <= c && c <= '9' }

// single sets white space inside words to one space.
func single(s string) string { return strings.Join(strings.Fields(s), " ") }
