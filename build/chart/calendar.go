package chart

import (
	"math"
	"strconv"
	"time"
)

// calendar turns days since First into dates; no clock and no zone is read.
type calendar struct {
	first time.Time
	days  int
	marks []dayLabel // days with words
}

func newCalendar(d Date, days int) calendar {
	c := calendar{first: time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC), days: days}
	c.marks = c.pickMarks()
	return c
}

func (c calendar) on(day int) time.Time { return c.first.AddDate(0, 0, day) }
func (c calendar) iso(day int) string   { return c.on(day).Format("2006-01-02") }
func (c calendar) words(day int) string { return c.on(day).Format("2 January") }

// pickMarks picks the days with words: the first of months, thinned until they can't
// touch; where no month begins, or the plot is short, each n-th day.
func (c calendar) pickMarks() (out []dayLabel) {
	const room = 46
	pick := func(ok func(int) bool, px float64) map[int]bool {
		m := map[int]bool{}
		last := math.Inf(-1)
		for d := 0; d <= c.days; d++ {
			if x := float64(d) / float64(c.days) * px; ok(d) && x-last >= room {
				m[d] = true
				last = x
			}
		}
		return m
	}
	var is func(int) bool
	switch {
	case c.days > 75:
		every := max(1, int(math.Ceil(float64(c.days)/30.44*room/narrowPx)))
		if every > 1 { // so that the months kept are the same each year
			for 12%every != 0 && every < 12 {
				every++
			}
		}
		is = func(d int) bool {
			t := c.on(d)
			return t.Day() == 1 && (every > 12 && t.Month() == 1 || every <= 12 && int(t.Month()-1)%every == 0)
		}
	case c.days > 21:
		is = func(d int) bool { return d%14 == 0 }
	default:
		is = func(d int) bool { return d%7 == 0 }
	}
	narrow := pick(is, narrowPx)
	crowded := func(d int) bool {
		for n := range narrow {
			if math.Abs(float64(n-d))/float64(c.days)*widePx < room {
				return true
			}
		}
		return false
	}
	wide := pick(func(d int) bool {
		return (is(d) || c.days > 75 && c.on(d).Day() == 1) && !crowded(d)
	}, widePx)
	for d := 0; d <= c.days; d++ {
		if narrow[d] || wide[d] {
			out = append(out, dayLabel{d, !narrow[d]})
		}
	}
	return out
}

func (c calendar) uprights(cv *canvas, y0, y1 float64) {
	cv.path("g")
	for _, l := range c.marks {
		cv.m(float64(l.day), y0)
		cv.vto(y1)
	}
}

// axis writes days and months, and the year under the first and each January.
func (c calendar) axis(cv *canvas, y float64) {
	cv.path("ax")
	cv.m(0, y)
	cv.hto(cv.days)
	ms := c.marks
	for _, l := range ms {
		cv.m(float64(l.day), y)
		cv.vto(y + 7)
	}
	year := 0
	for _, l := range ms {
		t := c.on(l.day)
		q := ""
		if l.wide {
			q = "wide"
		}
		cv.text(float64(l.day), 0, y+20, middle, q, t.Format("2 Jan"))
		if !l.wide && t.Year() != year {
			year = t.Year()
			cv.text(float64(l.day), 0, y+36, middle, "q", strconv.Itoa(year))
		}
	}
}
