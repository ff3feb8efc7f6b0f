package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// ParseMoment reads a day with or without its time of day: "2026-04-06",
// "2026-04-06 18:30". The time is the clock's in the diary's time zone, 00:00 to
// 23:59; a T may stand instead of the space.
func ParseMoment(text string) (Moment, *Trouble) {
	m, trouble := mended(text, func(text string) (Moment, *Trouble) {
		s := scan(text, "a day such as 2026-04-06 or a moment such as 2026-04-06 18:30")
		if clock, from, to := s.clockAlone(); clock {
			return NoMoment, s.trouble(from, to, "a time of day without its day")
		}
		d, trouble := s.day()
		if trouble != nil {
			return NoMoment, trouble
		}
		minute, trouble := s.clock()
		if trouble == nil {
			trouble = s.rest()
		}
		return Moment{Day: d, Minute: minute}, trouble
	})
	if trouble != nil {
		return NoMoment, trouble
	}
	return m, nil
}

// clockAlone says whether the text is a time of day and nothing else.
func (s *scanner) clockAlone() (ok bool, from, to int) {
	from = s.at
	hour := s.digits()
	ok = hour != "" && len(hour) <= 2 && s.take(":") && len(s.digits()) == 2 && s.done()
	to, s.at = s.at, from
	return ok, from, to
}

// clock reads the time of day behind a day, or NoMinute where the text ends.
func (s *scanner) clock() (int, *Trouble) {
	if s.done() {
		return NoMinute, nil
	}
	if s.peek(0) == 'T' && isDigit(s.peek(1)) {
		s.at++
	}
	from := s.at
	hourText := s.digits()
	if hourText == "" || len(hourText) > 2 {
		s.at = from
		return NoMinute, s.trouble(from, s.end, "unexpected "+s.quote(from, s.end))
	}
	point := s.at
	if !s.take(":") {
		return NoMinute, s.noColon(from, point, hourText)
	}
	minuteFrom := s.at
	minuteText := s.digits()
	if len(minuteText) != 2 {
		return NoMinute, s.trouble(minuteFrom, s.at, "a time of day has two digits for the minutes")
	}
	hour, _ := strconv.Atoi(hourText)
	minute, _ := strconv.Atoi(minuteText)
	if minute > 59 {
		return NoMinute, s.trouble(minuteFrom, s.at, "there is no minute "+minuteText)
	}
	return s.afterClock(from, hour, minute)
}

// noColon reports an hour that no colon follows.
func (s *scanner) noColon(from, point int, hour string) *Trouble {
	if s.take(".") && len(s.digits()) == 2 && s.done() {
		t := s.trouble(point, point+1, "a time of day is written with a colon")
		t.Hint = s.mend(point, point+1, ":")
		return t
	}
	s.at = point
	word, _, to := s.word()
	if after, ok := noon(word); ok && s.done() {
		h, _ := strconv.Atoi(hour)
		return s.twelve(from, to, h, 0, after)
	}
	return s.trouble(from, s.end, s.quote(from, s.end)+" isn't a time of day")
}

// afterClock looks at what stands behind hour and minute.
func (s *scanner) afterClock(from, hour, minute int) (int, *Trouble) {
	behind := s.at
	if s.peek(0) == ':' && isDigit(s.peek(1)) {
		s.at++
		s.digits()
		t := s.trouble(behind, s.at, "a time of day goes to the minute")
		t.Hint = s.mend(behind, s.at, "")
		return NoMinute, t
	}
	word, wordFrom, to := s.word()
	if after, ok := noon(word); ok {
		return NoMinute, s.twelve(from, to, hour, minute, after)
	}
	if word != "" {
		return NoMinute, s.trouble(wordFrom, s.end, "a time of day is the clock's in the diary's time zone; unexpected "+s.quote(wordFrom, s.end))
	}
	s.at = behind
	if hour > 23 {
		return NoMinute, s.trouble(from, behind, fmt.Sprintf("there is no hour %d in a day", hour))
	}
	return hour*60 + minute, nil
}

// noon says whether a word is am or pm, and whether it is after noon.
func noon(word string) (after, ok bool) {
	switch strings.ReplaceAll(strings.ToLower(word), ".", "") {
	case "am":
		return false, true
	case "pm":
		return true, true
	}
	return false, false
}

// twelve reports a time of twelve hours.
func (s *scanner) twelve(from, to, hour, minute int, after bool) *Trouble {
	t := s.trouble(from, to, "a time of day counts to 24 hours")
	if hour < 1 || hour > 12 {
		return t
	}
	hour %= 12
	if after {
		hour += 12
	}
	t.Hint = s.mend(from, to, fmt.Sprintf("%02d:%02d", hour, minute))
	return t
}
