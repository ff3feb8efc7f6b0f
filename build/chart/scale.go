package chart

import (
	"math"
	"sort"
	"unicode"
)

// Widths of the plot, in px, at which labels are placed. narrowPx is what a
// page of 320 px leaves after its gutters and the plot's padding; words that
// show at every width must fit it. widePx is what a figure of 640 px leaves:
// words of class "wide" show from there on. broadPx is what one of 1024 px
// leaves, for words of class "broad".
const (
	narrowPx = 236.0
	widePx   = 562.0
	broadPx  = 946.0
	// padLeft is how far words may reach out of the plot at narrowPx without
	// leaving the page: padding and gutter.
	padLeft, padRight = 50.0, 28.0
)

const (
	textPx   = 13  // the size of all words
	textEm   = .56 // em a letter; the reader's font may be wide
	boldEm   = .6
	maxDay   = 36500 // a hundred years; later days are taken for a slip
	maxCells = 20000 // day values in one drawing
)

// textWidth reckons the px of words set in 13 px.
func textWidth(s string, bold bool) float64 {
	em := textEm
	if bold {
		em = boldEm
	}
	w := 0.0
	for _, r := range s {
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case r >= 0x1100 && (r <= 0x115f || r >= 0x2e80 && r <= 0xa4cf || r >= 0xac00 && r <= 0xd7a3 || r >= 0xf900 && r <= 0xfaff || r >= 0xfe30 && r <= 0xfe6f || r >= 0xff00 && r <= 0xff60 || r >= 0x1f300):
			w += textPx
		default:
			w += em * textPx
		}
	}
	return w
}

// NiceDays is the end of a day axis that holds day d: the next whole week, at
// least 14; from 84 on the next second week, from 364 on the next fourth.
func NiceDays(d int) int {
	d = min(d, maxDay)
	up := func(k int) int { return (d + k - 1) / k * k }
	switch {
	case d <= 14:
		return 14
	case d <= 84:
		return up(7)
	case d <= 364:
		return up(14)
	}
	return up(28)
}

// axisDays is the axis that was asked for, or a nice one if that is too short.
func axisDays(asked, last int) int {
	if asked >= last && asked >= 7 && asked <= maxDay {
		return asked
	}
	return NiceDays(last)
}

// dayLabel is a day with words on the axis.
type dayLabel struct {
	day  int
	wide bool // only from 640 px
}

// dayLabels picks the days that get words: each n weeks, n doubling until the
// words can't touch, and the last day always.
func dayLabels(days int) []dayLabel {
	const room = 58 // px for "week 12" and air
	step := func(px float64) int {
		s := 7
		for float64(s)/float64(days)*px < room && s < days {
			s *= 2
		}
		return s
	}
	keep := func(d, s int, px float64) bool {
		return d == days || d%s == 0 && (float64(days-d)/float64(days)*px >= room || d == 0)
	}
	ns, ws := step(narrowPx), step(widePx)
	var out []dayLabel
	for d := 0; d <= days; d++ {
		if keep(d, ns, narrowPx) {
			out = append(out, dayLabel{d, false})
		} else if keep(d, ws, widePx) {
			out = append(out, dayLabel{d, true})
		}
	}
	return out
}

// niceStep is a round step (1, 2 or 5 times a power of ten) that cuts a range
// of hi into at most n pieces.
func niceStep(hi float64, n int) float64 {
	if hi <= 0 {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(hi/float64(n))))
	for _, k := range []float64{1, 2, 5, 10} {
		if hi/(k*p) <= float64(n)+1e-9 {
			return k * p
		}
	}
	return 10 * p
}

// ticks are the multiples of step from step up to hi.
func ticks(hi, step float64) []float64 {
	var out []float64
	for i := 1; float64(i)*step <= hi*(1+1e-9) && i < 50; i++ {
		out = append(out, float64(i)*step)
	}
	return out
}

// finite says that v is a number within lo and hi.
func finite(v, lo, hi float64) bool { return v >= lo && v <= hi }

// round rounds to 1/per.
func round(v, per float64) float64 {
	r := math.Round(v*per) / per
	if r == 0 {
		return 0 // no -0
	}
	return r
}

func dayOK(d int) bool { return d >= 0 && d <= maxDay }

// cleanValues keeps figures that can be drawn, rounded to 1/per, one a day
// (the last given), by day.
func cleanValues(in []DayValue, lo, hi, per float64) []DayValue {
	out := make([]DayValue, 0, len(in))
	sorted := true
	for _, v := range in {
		if dayOK(v.Day) && finite(v.Value, lo, hi) {
			if n := len(out); n > 0 && out[n-1].Day >= v.Day {
				sorted = false
			}
			out = append(out, DayValue{v.Day, round(v.Value, per)})
		}
	}
	if !sorted {
		sort.SliceStable(out, func(i, j int) bool { return out[i].Day < out[j].Day })
		keep := out[:0]
		for i, v := range out {
			if i+1 < len(out) && out[i+1].Day == v.Day {
				continue
			}
			keep = append(keep, v)
		}
		out = keep
	}
	return out[:min(len(out), maxCells)]
}
