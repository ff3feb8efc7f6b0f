package measure

import (
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// FirstYear and LastYear bound the years of a diary, both included. What lies
// outside is a slip of the pen.
const (
	FirstYear = 1900
	LastYear  = 2200
)

const wantDay = "a day such as 2026-04-06"

// date is what stands in a text where a date is expected: a year, perhaps a
// month, perhaps a day of it.
type date struct {
	year, month, day int // month and day are 0 where they aren't written
	from, to         int
}

// first and last bound the days that a date can mean.
func (d date) first() Day {
	day, _ := Date(d.year, max(d.month, 1), max(d.day, 1))
	return day
}

func (d date) last() Day {
	month, of := d.month, d.day
	if month == 0 {
		month = 12
	}
	if of == 0 {
		of = daysIn(d.year, month)
	}
	day, _ := Date(d.year, month, of)
	return day
}

// daysIn counts the days of a month: the last is the day before the next first.
func daysIn(year, month int) int {
	return time.Date(year, time.Month(month)+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// date reads 2026, 2026-04 or 2026-04-06. Years, months and days that the
// calendar doesn't have are troubles of their own, each under its own digits.
func (s *scanner) date() (date, *Trouble) {
	from := s.at
	if s.at >= s.end {
		return date{}, s.noNumber()
	}
	token := s.token()
	to := s.at
	parts := strings.Split(token, "-")
	if !looksLikeDate(parts) {
		t := s.trouble(from, to, s.quote(from, to)+" isn't a date")
		if day, ok := otherDate(string(s.chars[from:s.end])); ok {
			t.End, t.Hint = s.end, s.mend(from, s.end, day.String())
		} else if day, ok := otherDate(token); ok {
			t.Hint = s.mend(from, to, day.String())
		}
		return date{}, t
	}
	d := date{from: from, to: to}
	d.year, _ = strconv.Atoi(parts[0])
	if d.year < FirstYear || d.year > LastYear {
		return date{}, s.trouble(from, from+4, fmt.Sprintf("a year is between %d and %d", FirstYear, LastYear))
	}
	if len(parts) > 1 {
		d.month, _ = strconv.Atoi(parts[1])
		if d.month < 1 || d.month > 12 {
			return date{}, s.trouble(from+5, from+7, "there is no month "+parts[1])
		}
	}
	if len(parts) > 2 {
		d.day, _ = strconv.Atoi(parts[2])
		if most := daysIn(d.year, d.month); d.day < 1 || d.day > most {
			return date{}, s.trouble(from+8, from+10,
				fmt.Sprintf("there is no day %s: %s %d has %d days", parts[2], time.Month(d.month), d.year, most))
		}
	}
	return d, nil
}

// token passes over the characters that belong to one date: up to a space, to
// "..", or to the T before a time of day.
func (s *scanner) token() string {
	from := s.at
	for s.at < s.end && !unicode.IsSpace(s.chars[s.at]) {
		if s.peek(0) == '.' && s.peek(1) == '.' {
			break
		}
		if s.peek(0) == 'T' && s.at > from && isDigit(s.peek(-1)) && isDigit(s.peek(1)) {
			break
		}
		s.at++
	}
	return string(s.chars[from:s.at])
}

// looksLikeDate says whether the parts are of 4, 2 and 2 digits.
func looksLikeDate(parts []string) bool {
	if len(parts) > 3 {
		return false
	}
	for i, part := range parts {
		want := 2
		if i == 0 {
			want = 4
		}
		if len(part) != want || strings.Trim(part, "0123456789") != "" {
			return false
		}
	}
	return true
}

// otherDate reads a day in the other forms in which people write one, for hints
// only. 3/4/2026 means two days, and gets none.
func otherDate(text string) (Day, bool) {
	if len(text) > 24 {
		return NoDay, false
	}
	found, ok := NoDay, false
	for _, layout := range []string{
		"2006-1-2", "2006/1/2", "2006.1.2", "20060102", "2.1.2006", "2. January 2006",
		"2 January 2006", "January 2, 2006", "January 2 2006", "2 Jan 2006", "Jan 2, 2006", "Jan 2 2006",
		"2-Jan-2006", "2/1/2006", "1/2/2006", "2-1-2006", "1-2-2006",
	} {
		t, err := time.Parse(layout, text)
		if err != nil || t.Year() < FirstYear || t.Year() > LastYear {
			continue
		}
		if d := DayOf(t); ok && d != found {
			return NoDay, false
		} else {
			found, ok = d, true
		}
	}
	return found, ok
}

// day reads a date that is known to the day.
func (s *scanner) day() (Day, *Trouble) {
	if trouble := s.noTilde("a day that is known in full"); trouble != nil {
		return NoDay, trouble
	}
	d, trouble := s.date()
	if trouble != nil {
		return NoDay, trouble
	}
	if d.day == 0 {
		what := "a month"
		if d.month == 0 {
			what = "a year"
		}
		return NoDay, s.trouble(d.from, d.to, what+" where a day is expected")
	}
	return d.first(), nil
}

// ParseDay reads a day, 1900 to 2200: "2026-04-06".
func ParseDay(text string) (Day, *Trouble) {
	return mended(text, func(text string) (Day, *Trouble) {
		s := scan(text, wantDay)
		d, trouble := s.day()
		if trouble != nil {
			return NoDay, trouble
		}
		s.space()
		from := s.at
		if m, again := s.clock(); again == nil && m != NoMinute && s.done() {
			t := s.trouble(from, s.end, "a time of day where only a day is expected")
			t.Hint = d.String()
			return NoDay, t
		}
		s.at = from
		return d, s.rest()
	})
}
