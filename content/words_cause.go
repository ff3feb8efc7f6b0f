package content

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"wardian/content/format"
	"wardian/content/measure"
)

// lost reads lost [CAUSE].
func (p *words) lost(from, to int, rest []token) {
	var cause Cause
	if len(rest) > 0 {
		var trouble *measure.Trouble
		cause, trouble = ParseCause(string(p.chars[rest[0].from:to]))
		if trouble != nil {
			p.trouble(WordTrouble{Start: rest[0].from + trouble.Start, End: rest[0].from + trouble.End, Code: "not-a-cause",
				Message: trouble.Message, Expected: trouble.Expected, Hint: trouble.Hint})
			return
		}
	}
	if !p.once("outcome", from, to) {
		return
	}
	p.facts.Outcome, p.facts.Cause = Lost, cause
	p.mark("outcome", from, from+len("lost"))
	if len(rest) > 0 {
		p.mark("cause", rest[0].from, to)
	}
}

// ParseCause reads why a plant was lost, on one line: a listed cause, two with
// "and" between, or words of one's own that open with "other" and keep it, the
// second of two as well.
// A question mark behind either marks a doubt about the whole. Words that are
// neither listed nor behind "other" are a trouble, so that a misspelt cause
// doesn't become a row of its own; its Hint is a whole sentence.
func ParseCause(text string) (Cause, *measure.Trouble) {
	if word, doubt, trouble := parseCause(text); trouble == nil {
		return Cause{Words: []string{word}, Doubt: doubt}, nil
	} else if _, _, two := cutAnd(text); !two {
		return Cause{}, trouble
	}
	one, two, _ := cutAnd(text)
	a, doubtA, trouble := parseCause(one)
	if trouble != nil {
		return Cause{}, trouble
	}
	b, doubtB, trouble := parseCause(two)
	behind := utf8.RuneCountInString(text) - utf8.RuneCountInString(two)
	if trouble != nil {
		trouble.Start, trouble.End = trouble.Start+behind, trouble.End+behind
		return Cause{}, trouble
	}
	if a == b {
		behind += utf8.RuneCountInString(two) - utf8.RuneCountInString(strings.TrimLeftFunc(two, unicode.IsSpace))
		return Cause{}, &measure.Trouble{Start: behind, End: utf8.RuneCountInString(text),
			Message: "the same cause twice", Expected: "one cause, or two that differ", Hint: "leave one of them out"}
	}
	return Cause{Words: []string{a, b}, Doubt: doubtA || doubtB}, nil
}

// parseCause reads one cause. It may have white space at either end.
func parseCause(text string) (word string, doubt bool, _ *measure.Trouble) {
	bare := strings.TrimSpace(text)
	start := utf8.RuneCountInString(text) - utf8.RuneCountInString(strings.TrimLeftFunc(text, unicode.IsSpace))
	end := start + utf8.RuneCountInString(bare)
	if b, ok := strings.CutSuffix(bare, "?"); ok {
		bare, doubt = strings.TrimSpace(b), true
	}
	known := format.Causes
	want := strings.Join(known, ", ") + ", or other and words"
	if same := single(bare); slices.Contains(known, same) {
		return same, doubt, nil
	}
	opening, own, _ := cutSpace(bare)
	if opening == "other" && own != "" {
		return bare, doubt, nil
	}
	t := &measure.Trouble{Start: start, End: max(end, start+1), Expected: want}
	switch {
	case bare == "" || bare == "other":
		t.Message, t.Hint = "the cause isn't said", "write unknown"
	default:
		t.Message = strconv.Quote(bare) + " isn't a listed cause"
		if t.Hint = nearest(single(bare), known); t.Hint == "" {
			t.Hint = "write other " + bare
		}
	}
	return "", false, t
}

// cutSpace parts a text at its first white space.
func cutSpace(text string) (first, rest string, ok bool) {
	i := strings.IndexFunc(text, unicode.IsSpace)
	if i < 0 {
		return text, "", false
	}
	return text[:i], strings.TrimSpace(text[i:]), true
}

// cutAnd parts a text at the first "and" that stands in it on its own.
func cutAnd(text string) (before, after string, ok bool) {
	const word = "and"
	for from := 0; ; {
		i := strings.Index(text[from:], word)
		if i < 0 {
			return text, "", false
		}
		i += from
		from = i + len(word)
		left, _ := utf8.DecodeLastRuneInString(text[:i])
		right, _ := utf8.DecodeRuneInString(text[from:])
		if unicode.IsSpace(left) && unicode.IsSpace(right) {
			return text[:i], text[from:], true
		}
	}
}
