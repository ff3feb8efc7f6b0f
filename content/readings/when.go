package readings

import (
	"strings"
	"time"

	"wardian/content/measure"
)

// turn is the order in which a date's three numbers stand.
type turn int

const (
	yearFirst turn = iota
	dayFirst
	monthFirst
	unsaid // day or month first: the file must tell
)

// stamp is a time as a logger wrote it.
type stamp struct {
	a, b, c int // the date's numbers, as they stand
	turn    turn
	seconds int  // of the day
	offset  int  // seconds east of Greenwich
	zoned   bool // whether an offset was written
}

// cursor reads a text byte by byte.
type cursor struct {
	s string
	i int
}

func (c *cursor) peek() byte {
	if c.i < len(c.s) {
		return c.s[c.i]
	}
	return 0
}

func (c *cursor) take(chars string) byte {
	if b := c.peek(); b != 0 && strings.IndexByte(chars, b) >= 0 {
		c.i++
		return b
	}
	return 0
}

// number reads digits, at least one and at most most.
func (c *cursor) number(most int) (n, digits int) {
	for digits < most && c.peek() >= '0' && c.peek() <= '9' {
		n = n*10 + int(c.peek()-'0')
		digits++
		c.i++
	}
	return n, digits
}

// word takes a word in any case.
func (c *cursor) word(w string) bool {
	if len(c.s)-c.i >= len(w) && strings.EqualFold(c.s[c.i:c.i+len(w)], w) {
		c.i += len(w)
		return true
	}
	return false
}

// parseStamp reads a date and a time of day. ok is false for anything else.
func parseStamp(text string) (s stamp, ok bool) {
	c := &cursor{s: strings.TrimSpace(text)}
	if !s.date(c) || c.take(" T\tt,") == 0 {
		return s, false
	}
	for c.take(" ") != 0 {
	}
	if !s.clock(c) || !s.zone(c) {
		return s, false
	}
	return s, c.i == len(c.s)
}

func (s *stamp) date(c *cursor) bool {
	var first, second, third int
	s.a, first = c.number(4)
	separator := c.take("-/.")
	if separator == 0 {
		return false
	}
	s.b, second = c.number(2)
	if c.take(string(separator)) == 0 {
		return false
	}
	s.c, third = c.number(4)
	switch {
	case second == 0:
		return false
	case first == 4 && (third == 1 || third == 2):
		s.turn = yearFirst
	case (first == 1 || first == 2) && (third == 4 || third == 2):
		if third == 2 {
			s.c += 2000
		}
		s.turn = unsaid
		if separator == '.' {
			s.turn = dayFirst
		}
	default:
		return false
	}
	return true
}

func (s *stamp) clock(c *cursor) bool {
	hour, digits := c.number(2)
	if digits == 0 || c.take(":") == 0 {
		return false
	}
	minute, digits := c.number(2)
	if digits != 2 || minute > 59 {
		return false
	}
	second := 0
	if c.take(":") != 0 {
		if second, digits = c.number(2); digits != 2 || second > 59 {
			return false
		}
		if c.take(".,") != 0 {
			if _, digits = c.number(9); digits == 0 {
				return false
			}
		}
	}
	mark := c.i
	for c.take(" ") != 0 {
	}
	half := ""
	for _, w := range []string{"a.m.", "am", "p.m.", "pm"} {
		if c.word(w) {
			half = w[:1]
			break
		}
	}
	if half == "" {
		c.i = mark
		s.seconds = hour*3600 + minute*60 + second
		return hour < 24
	}
	if hour < 1 || hour > 12 {
		return false
	}
	hour %= 12
	if half == "p" {
		hour += 12
	}
	s.seconds = hour*3600 + minute*60 + second
	return true
}

// zone reads Z, UTC, GMT or an offset such as +02:00, +0200 or +02.
func (s *stamp) zone(c *cursor) bool {
	for c.take(" ") != 0 {
	}
	if c.i == len(c.s) {
		return true
	}
	s.zoned = true
	if c.word("utc") || c.word("gmt") || c.word("z") {
		if c.i == len(c.s) {
			return true
		}
	}
	sign := c.take("+-")
	if sign == 0 {
		return false
	}
	hours, digits := c.number(2)
	if digits == 0 || hours > 14 {
		return false
	}
	minutes := 0
	if c.i < len(c.s) {
		c.take(":")
		if minutes, digits = c.number(2); digits != 2 || minutes > 59 {
			return false
		}
	}
	s.offset = hours*3600 + minutes*60
	if sign == '-' {
		s.offset = -s.offset
	}
	return true
}

// moment places a stamp in a time zone. slashes says in which order the file
// writes days that don't say it themselves. second is its place on the clock,
// seconds included, and tells rows of one minute apart. ok is false where the
// calendar has no such day.
func (s stamp) moment(slashes turn, zone *time.Location) (m measure.Moment, second int, ok bool) {
	year, month, day := s.a, s.b, s.c
	order := s.turn
	if order == unsaid {
		order = slashes
	}
	switch order {
	case dayFirst:
		year, month, day = s.c, s.b, s.a
	case monthFirst:
		year, month, day = s.c, s.a, s.b
	}
	d, ok := measure.Date(year, month, day)
	if !ok || year < 1 {
		return measure.NoMoment, 0, false
	}
	if s.zoned {
		t := time.Unix(int64(d)*86400+int64(s.seconds)-int64(s.offset), 0).In(zone)
		d = measure.DayOf(t)
		s.seconds = t.Hour()*3600 + t.Minute()*60 + t.Second()
	}
	return measure.Moment{Day: d, Minute: s.seconds / 60}, s.seconds, true
}

// doubled tells whether a time comes twice on the clocks of a zone, as an hour
// does when summer time ends.
func doubled(m measure.Moment, zone *time.Location) bool {
	day := m.Day.Time()
	t := time.Date(day.Year(), day.Month(), day.Day(), 0, m.Minute, 0, 0, zone)
	for _, shift := range []time.Duration{time.Hour, -time.Hour} {
		if o := t.Add(shift); o.Hour() == t.Hour() && o.Minute() == t.Minute() {
			return true
		}
	}
	return false
}
