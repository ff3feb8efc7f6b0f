package measure

import (
	"strings"
	"unicode"
)

// number is a decimal number as it was written: an optional minus, digits, and
// where there is a point, digits behind it. Nothing else is a number in a
// diary: no exponent, no hexadecimal, no underscore, no comma, no NaN.
type number struct {
	text     string
	from, to int
}

// decimals counts the digits behind the point.
func (n number) decimals() int {
	_, after, _ := strings.Cut(n.text, ".")
	return len(after)
}

// whole gives the digits before the point; ok is false where anything but
// noughts stands behind it.
func (n number) whole() (digits string, ok bool) {
	before, after, _ := strings.Cut(n.text, ".")
	return before, strings.Trim(after, "0") == ""
}

// number reads a number. Each of the ways in which people write numbers that
// aren't understood here has its own trouble, and a hint where only one thing
// can have been meant.
func (s *scanner) number() (number, *Trouble) {
	from := s.at
	minus := s.take("-")
	if !isDigit(s.peek(0)) {
		s.at = from
		return number{}, s.noNumber()
	}
	if c := s.peek(1); s.peek(0) == '0' && (c == 'x' || c == 'X') && isHex(s.peek(2)) {
		for s.at += 2; isHex(s.peek(0)); s.at++ {
		}
		return number{}, s.trouble(from, s.at, "a number in hexadecimal")
	}
	text := s.digits()
	before := len(text)
	if s.peek(0) == '.' && s.peek(1) != '.' {
		s.at++
		after := s.digits()
		if after == "" {
			t := s.trouble(s.at-1, s.at, "a point without a digit behind it")
			t.Hint = s.mend(s.at-1, s.at, "")
			return number{}, t
		}
		text += "." + after
	}
	n := number{text: text, from: from, to: s.at}
	if minus {
		n.text = "-" + text
	}
	return n, s.afterNumber(text, before)
}

// noNumber says what stands where a number should.
func (s *scanner) noNumber() *Trouble {
	if s.at >= s.end {
		if len(s.chars) == 0 || s.at == 0 {
			return s.trouble(0, len(s.chars), "nothing is written here")
		}
		return s.trouble(0, s.end, "the figure is missing")
	}
	from := s.at
	c, next := s.peek(0), s.peek(1)
	mend := func(to int, message, by string) *Trouble {
		t := s.trouble(from, to, message)
		t.Hint = s.mend(from, to, by)
		return t
	}
	switch {
	case (c == '−' || c == '–') && isDigit(next):
		return mend(from+1, "a minus sign is written with the hyphen", "-")
	case c == '+' && isDigit(next):
		return mend(from+1, "a plus sign isn't needed", "")
	case c == '.' && isDigit(next), c == ',' && isDigit(next):
		return mend(from+1, "a number begins with a digit", "0.")
	case c == '≈':
		return mend(from+1, "an estimate is marked with a tilde", "~")
	}
	for _, about := range []string{"approximately", "approx.", "approx", "about", "around", "circa", "ca.", "ca", "c."} {
		if to := from + len(about); to < s.end && strings.EqualFold(string(s.chars[from:to]), about) &&
			(unicode.IsSpace(s.chars[to]) || isDigit(s.chars[to])) {
			for unicode.IsSpace(s.chars[to]) {
				to++
			}
			return mend(to, "an estimate is marked with a tilde", "~")
		}
	}
	to := from + 1
	for to < s.end && !unicode.IsSpace(s.chars[to]) {
		to++
	}
	return s.trouble(from, to, s.quote(from, to)+" isn't a number")
}

// afterNumber looks at what follows a number's last digit. text is the number
// without its sign, before the count of its digits before the point.
func (s *scanner) afterNumber(text string, before int) *Trouble {
	c, next := s.peek(0), s.peek(1)
	switch {
	case c == ',' && isDigit(next):
		return s.comma(text, before)
	case c == '_' && isDigit(next):
		t := s.trouble(s.at, s.at+1, "an underscore inside a number")
		t.Hint = s.mend(s.at, s.at+1, "")
		return t
	case (c == 'e' || c == 'E') && (isDigit(next) || (next == '-' || next == '+') && isDigit(s.peek(2))):
		return s.trouble(s.at, s.run(s.at+2), "a number with an exponent")
	case c == '.' && isDigit(next):
		return s.trouble(s.at, s.run(s.at+1), "two points in one number")
	case (c == '-' || c == '–') && isDigit(next):
		return s.trouble(s.at, s.run(s.at+1), "a range where one figure is expected")
	case c == '.' && next == '.':
		return s.trouble(s.at, s.run(s.at+2), "a range where one figure is expected")
	case c == ':' && isDigit(next):
		return s.trouble(s.at, s.run(s.at+1), "a time of day where a figure is expected")
	case c == '/' && isDigit(next):
		return s.trouble(s.at, s.run(s.at+1), "a fraction where a decimal is expected")
	}
	return nil
}

// comma tells a decimal comma from a comma between thousands, where it can.
func (s *scanner) comma(text string, before int) *Trouble {
	behind := s.run(s.at+1) - s.at - 1
	t := s.trouble(s.at, s.at+1, "a comma inside a number")
	switch {
	case len(text) > before: // 1.250,00: the comma came second
		t.Hint = s.mend(s.at-len(text), s.at+1, strings.Replace(text, ".", "", 1)+".")
	case behind == 3 && text != "0" && s.at+4 < s.end && s.chars[s.at+4] == '.': // 1,250.00
		t.Hint = s.mend(s.at, s.at+1, "")
	case behind != 3 || text == "0":
		t.Hint = s.mend(s.at, s.at+1, ".")
	}
	return t // 1,250 may be either: no hint
}

// run is the place behind the digits that begin at a place.
func (s *scanner) run(at int) int {
	for at < s.end && isDigit(s.chars[at]) {
		at++
	}
	return at
}

func isHex(c rune) bool {
	return isDigit(c) || 'a' <= c && c <= 'f' || 'A' <= c && c <= 'F'
}
