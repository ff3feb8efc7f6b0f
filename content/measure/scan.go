package measure

import (
	"strconv"
	"strings"
	"unicode"
)

// scanner walks over a text character by character. It never looks at bytes, so
// that every place it reports counts characters.
type scanner struct {
	chars []rune
	at    int    // the next character
	end   int    // behind the last character that isn't space
	want  string // what is expected, for every trouble
}

// scan starts at the first character of a text that isn't space.
func scan(text, want string) *scanner {
	s := &scanner{chars: []rune(text), want: want}
	s.end = len(s.chars)
	for s.end > 0 && unicode.IsSpace(s.chars[s.end-1]) {
		s.end--
	}
	s.space()
	return s
}

// space passes over white space, no-break spaces among it.
func (s *scanner) space() {
	for s.at < s.end && unicode.IsSpace(s.chars[s.at]) {
		s.at++
	}
}

// done says whether only white space is left.
func (s *scanner) done() bool {
	s.space()
	return s.at >= s.end
}

// peek is the character n places on, or 0 behind the end.
func (s *scanner) peek(n int) rune {
	if s.at+n < 0 || s.at+n >= s.end {
		return 0
	}
	return s.chars[s.at+n]
}

// take passes over one character if it is one of those given.
func (s *scanner) take(these string) bool {
	if c := s.peek(0); c != 0 && strings.ContainsRune(these, c) {
		s.at++
		return true
	}
	return false
}

// tilde passes over the mark of an estimate.
func (s *scanner) tilde() bool {
	if !s.take("~") {
		return false
	}
	s.space()
	return true
}

// digits passes over a run of the digits 0 to 9 and gives it.
func (s *scanner) digits() string {
	from := s.at
	for isDigit(s.peek(0)) {
		s.at++
	}
	return string(s.chars[from:s.at])
}

// word passes over white space and then over the run of characters that can
// name a unit: up to the next space, digit, tilde or comma, or up to the cross
// between two measures ("12x8").
func (s *scanner) word() (word string, from, to int) {
	s.space()
	from = s.at
	for s.at < s.end {
		c := s.chars[s.at]
		if unicode.IsSpace(c) || unicode.IsDigit(c) || c == '~' || c == ',' || c == ';' || s.cross() {
			break
		}
		s.at++
	}
	return string(s.chars[from:s.at]), from, s.at
}

// cross says whether the next character stands between a length and a width.
func (s *scanner) cross() bool {
	switch s.peek(0) {
	case '×':
		return true
	case 'x', 'X':
		n := 1
		for unicode.IsSpace(s.peek(n)) {
			n++
		}
		return isDigit(s.peek(n)) || s.peek(n) == '~' || s.peek(n) == 0
	}
	return false
}

// trouble reports the characters from..to. A span is never empty unless the
// text is: there is always something to underline.
func (s *scanner) trouble(from, to int, message string) *Trouble {
	if from >= to {
		from, to = min(from, len(s.chars)), min(from+1, len(s.chars))
		if from == to && from > 0 {
			from--
		}
	}
	return &Trouble{Start: from, End: to, Message: message, Expected: s.want}
}

// mend is the whole text with the characters from..to replaced.
func (s *scanner) mend(from, to int, by string) string {
	return strings.TrimSpace(string(s.chars[:from]) + by + string(s.chars[to:s.end]))
}

// rest reports what is left where nothing more was expected.
func (s *scanner) rest() *Trouble {
	if s.done() {
		return nil
	}
	message := "unexpected " + s.quote(s.at, s.end)
	if s.cross() {
		message = "two measures where one is expected"
	}
	return s.trouble(s.at, s.end, message)
}

// quote shows the characters from..to in quotation marks, cut short where they
// are many.
func (s *scanner) quote(from, to int) string {
	const most = 24
	if to-from > most {
		return strconv.Quote(string(s.chars[from:from+most]) + "…")
	}
	return strconv.Quote(string(s.chars[from:to]))
}

func isDigit(c rune) bool { return '0' <= c && c <= '9' }

// mended reads a text; where it can't be read and a hint says what to write
// instead, the hint is read too, and mended again where it holds a second
// mistake. A hint that doesn't lead to a text that can be read is dropped: we
// never advise what we would refuse.
func mended[T any](text string, read func(string) (T, *Trouble)) (T, *Trouble) {
	const most = 4 // mistakes in one text
	value, trouble := read(text)
	if trouble == nil {
		return value, nil
	}
	for try := 0; trouble.Hint != ""; try++ {
		_, again := read(trouble.Hint)
		if again == nil {
			break
		}
		if try == most {
			trouble.Hint = ""
			break
		}
		trouble.Hint = again.Hint
	}
	var none T
	return none, trouble
}
