package measure

import (
	"fmt"
	"math"
	"time"
)

// Day is a calendar day in the diary's time zone, counted from 1970-01-01 = 0.
// Days are whole: two days apart means two dates apart, whatever the hours.
type Day int

// NoDay stands for a day that isn't known. It is far below every real day.
const NoDay Day = math.MinInt32

// Date makes a day of a year, a month and a day of the month; ok is false where
// the calendar has no such day.
func Date(year, month, day int) (d Day, ok bool) {
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if t.Year() != year || int(t.Month()) != month || t.Day() != day {
		return NoDay, false
	}
	return Day(t.Unix() / 86400), true
}

// DayOf gives the calendar day on which a time falls in its own time zone.
func DayOf(t time.Time) Day {
	d, _ := Date(t.Year(), int(t.Month()), t.Day())
	return d
}

// Known says whether the day is known.
func (d Day) Known() bool { return d != NoDay }

// Time is midnight of the day, in UTC; for formatting only.
func (d Day) Time() time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// String writes the day as 2026-04-06, or nothing where it isn't known.
func (d Day) String() string {
	if !d.Known() {
		return ""
	}
	return d.Time().Format("2006-01-02")
}

// InWords writes the day as "6 April 2026".
func (d Day) InWords() string {
	if !d.Known() {
		return "a day not known"
	}
	return d.Time().Format("2 January 2006")
}

// NoMinute marks a moment whose time of day isn't known.
const NoMinute = -1

// Moment is a day with, where it was written, the time of day.
type Moment struct {
	Day    Day
	Minute int // minutes since midnight, 0 to 1439, or NoMinute
}

// NoMoment is a moment that wasn't given.
var NoMoment = Moment{Day: NoDay, Minute: NoMinute}

// At makes a moment without a time of day.
func At(d Day) Moment { return Moment{Day: d, Minute: NoMinute} }

// Known says whether the moment was given.
func (m Moment) Known() bool { return m.Day.Known() }

// Timed says whether the time of day is known.
func (m Moment) Timed() bool { return m.Minute != NoMinute }

// Before orders moments; on one day, a moment without a time comes before one
// with a time.
func (m Moment) Before(o Moment) bool {
	if m.Day != o.Day {
		return m.Day < o.Day
	}
	return m.Minute < o.Minute
}

// HoursUntil is the time from m to o; ok is false where either lacks its time
// of day. Clock changes are ignored: at most one hour, twice a year.
func (m Moment) HoursUntil(o Moment) (h Hours, ok bool) {
	if !m.Known() || !o.Known() || !m.Timed() || !o.Timed() {
		return 0, false
	}
	return Hours(float64(o.Day-m.Day)*24 + float64(o.Minute-m.Minute)/60), true
}

// String writes "2026-04-06" or "2026-04-06 18:30".
func (m Moment) String() string {
	if !m.Known() {
		return ""
	}
	if !m.Timed() {
		return m.Day.String()
	}
	return fmt.Sprintf("%s %02d:%02d", m.Day, m.Minute/60, m.Minute%60)
}

// Span is a day that may be known only by half: First and Last are the first
// and the last day it can have been. A day known in full has First == Last.
type Span struct {
	First, Last Day
	About       bool   // written with a tilde: taken as the day, shown as written
	Written     string // as the grower wrote it
}

// NoSpan is a day that wasn't given.
var NoSpan = Span{First: NoDay, Last: NoDay}

// On makes a span of one day known in full.
func On(d Day) Span { return Span{First: d, Last: d, Written: d.String()} }

// Known says whether anything is known of the day.
func (s Span) Known() bool { return s.First.Known() }

// Half says whether the day is only half known.
func (s Span) Half() bool { return s.First != s.Last }

// Width is the number of days by which the day is uncertain; 0 in full.
func (s Span) Width() int { return int(s.Last - s.First) }
