package measure

import "strings"

// ParseSpan reads a day that may be known by half only: "2026-04-06" in full,
// "2024-05" and "2024" for any day of the month or the year,
// "2024-05-10..2024-05-20" for any day from the first to the second, and
// "~2024-05-10" for about that day, which is then taken as the day. Whatever was
// written is kept, and shown so.
func ParseSpan(text string) (Span, *Trouble) {
	span, trouble := mended(text, readSpan)
	if trouble != nil {
		return NoSpan, trouble
	}
	return span, nil
}

func readSpan(text string) (Span, *Trouble) {
	s := scan(text, "a day such as 2024-05-10, or one half known: 2024-05, 2024, 2024-05-10..2024-05-20, ~2024-05-10")
	from := s.at
	span := Span{Written: string(s.chars[from:max(from, s.end)])}
	span.About = s.tilde()
	first, trouble := s.date()
	if trouble != nil {
		return NoSpan, trouble
	}
	if span.About && first.day == 0 {
		t := s.trouble(from, from+1, "a month or a year is half known without a tilde")
		t.Hint = s.mend(from, first.from, "")
		return NoSpan, t
	}
	span.First, span.Last = first.first(), first.last()
	if s.done() {
		return span, nil
	}
	dots := s.at
	if s.peek(0) != '.' || s.peek(1) != '.' {
		return NoSpan, s.behindDate()
	}
	s.at += 2
	if s.peek(0) == '.' {
		t := s.trouble(dots, s.at+1, "two points stand between two days")
		t.Hint = s.mend(dots, s.at+1, "..")
		return NoSpan, t
	}
	if span.About {
		t := s.trouble(from, from+1, "two days are half known without a tilde")
		t.Hint = s.mend(from, first.from, "")
		return NoSpan, t
	}
	if s.done() {
		return NoSpan, s.trouble(dots, s.at, "the second day is missing")
	}
	if trouble := s.noTilde("the second of two days"); trouble != nil {
		return NoSpan, trouble
	}
	last, trouble := s.date()
	if trouble == nil {
		trouble = s.rest()
	}
	if trouble != nil {
		return NoSpan, trouble
	}
	if last.last() < first.first() {
		t := s.trouble(last.from, last.to, "the second day comes before the first")
		t.Hint = string(s.chars[last.from:last.to]) + ".." + string(s.chars[first.from:first.to])
		return NoSpan, t
	}
	span.Last = last.last()
	return span, nil
}

// behindDate reports what follows a date where only ".." might.
func (s *scanner) behindDate() *Trouble {
	from := s.at
	if minute, trouble := s.clock(); trouble == nil && minute != NoMinute && s.done() {
		t := s.trouble(from, s.end, "a time of day where only a day is expected")
		t.Hint = s.mend(from, s.end, "")
		return t
	}
	s.at = from
	word, _, to := s.word()
	s.space()
	switch strings.ToLower(word) {
	case "-", "–", "to", "until", "/":
		t := s.trouble(from, to, "two points stand between two days")
		t.Hint = strings.TrimSpace(string(s.chars[:from])) + ".." + string(s.chars[s.at:s.end])
		return t
	}
	return s.trouble(from, s.end, "unexpected "+s.quote(from, s.end))
}
