package chart

import (
	"sort"
	"strings"

	gochart "github.com/wcharczuk/go-chart/v2"
)

const (
	leastCurvePx = 170
	curvePx      = 230
	curvesPx     = 300
	countRowPx   = 36 // a row's name and its figures
	countLinePx  = 16
)

// stepCurve is a cleaned curve, ready to draw.
type stepCurve struct {
	Curve
	dec     int // decimals of a per cent that n can bear
	last    int // last day with a line at risk
	dropped int // steps left out
	dashed  int // from this day on too few are at risk; −1: never
}

// cleanCurve sorts and rounds. A step whose share isn't within 0 and 1, rises,
// or whose counts don't add up with those before it, is left out, and a note
// says so. ok is false if nobody was ever under watch.
func cleanCurve(in Curve) (c stepCurve, ok bool) {
	c = stepCurve{Curve: in, dashed: -1}
	c.Steps = nil
	if !dayOK(c.From) {
		c.From = 0
	}
	for _, s := range in.Steps {
		if !dayOK(s.Day) || s.Day < c.From || !finite(s.Share, 0, 1) || s.AtRisk < 0 || s.Lost < 0 || s.Left < 0 || s.Lost+s.Left > s.AtRisk {
			continue
		}
		if s.HasLimits && (!finite(s.Lower, 0, s.Share) || !finite(s.Upper, s.Share, 1)) {
			s.HasLimits = false
		}
		c.Steps = append(c.Steps, s)
	}
	sort.SliceStable(c.Steps, func(i, j int) bool { return c.Steps[i].Day < c.Steps[j].Day })
	if len(c.Steps) == 0 || c.Steps[0].AtRisk == 0 {
		return c, false
	}
	c.N = c.Steps[0].AtRisk
	keep, left, share, day := c.Steps[:0], c.N, 1.0, -1
	for _, s := range c.Steps {
		if s.Day > day && s.AtRisk == left && s.Share <= share+1e-9 {
			keep = append(keep, s)
			left, share, day = left-s.Lost-s.Left, s.Share, s.Day
		}
	}
	c.dropped = len(in.Steps) - len(keep)
	c.Steps = keep
	c.dec = shareDecimals(c.N)
	few := max(5, float64(c.N)/10)
	for i := range c.Steps {
		s := &c.Steps[i]
		s.Share = roundShare(s.Share, c.dec)
		if s.HasLimits {
			s.Lower, s.Upper = roundShare(s.Lower, c.dec), roundShare(s.Upper, c.dec)
		} else {
			s.Lower, s.Upper = 0, 0
		}
		c.last = s.Day
		if after := s.AtRisk - s.Lost - s.Left; c.dashed < 0 && float64(after) < few && after > 0 {
			c.dashed = s.Day
		}
	}
	if float64(c.N) < few {
		c.dashed = c.From
	}
	if c.Unit == "" {
		c.Unit = "lines"
	}
	return c, true
}

// at is the share drawn at the end of a day.
func (c stepCurve) at(day float64) float64 {
	v := 1.0
	for _, s := range c.Steps {
		if float64(s.Day) <= day {
			v = s.Share
		}
	}
	return v
}

// counts are those under watch at a day's start, those lost and those that
// left before it; together n.
func (c stepCurve) counts(day int) (atRisk, lost, left int) {
	for _, s := range c.Steps {
		if s.Day < day {
			lost += s.Lost
			left += s.Left
		}
	}
	return c.N - lost - left, lost, left
}

// line draws the steps; class gets few from where too few are at risk.
func (c *canvas) stepLine(a area, s stepCurve, class, few string) {
	x, v := float64(s.From), 1.0
	turn := func() bool { return s.dashed >= 0 && x >= float64(s.dashed) }
	name := func() string {
		if turn() {
			return class + few
		}
		return class
	}
	c.path(name())
	c.m(x, a.py(v))
	for _, st := range s.Steps {
		if x < float64(st.Day) {
			c.hto(float64(st.Day))
		}
		if st.Share != v {
			c.vto(a.py(st.Share))
		}
		was := turn()
		x, v = float64(st.Day), st.Share
		if turn() && !was && st.Day < s.last {
			c.path(name())
			c.m(x, a.py(v))
		}
	}
}

// band draws the limits, edge to edge; where there are none (the share is 0 or
// 1) the band has no height, without any there is none.
func (c *canvas) band(a area, s stepCurve) {
	type lim struct{ day, lo, hi float64 }
	any := false
	ls := []lim{{float64(s.From), 1, 1}}
	for _, st := range s.Steps {
		l := lim{float64(st.Day), st.Lower, st.Upper}
		any = any || st.HasLimits
		if !st.HasLimits {
			l.lo, l.hi = st.Share, st.Share
		}
		ls = append(ls, l)
	}
	if !any {
		return
	}
	c.path("band")
	c.m(ls[0].day, a.py(1))
	for i, l := range ls[1:] {
		c.hto(l.day)
		if i < len(ls)-2 {
			c.vto(a.py(l.hi))
		}
	}
	for i := len(ls) - 2; i >= 0; i-- {
		c.vto(a.py(ls[i].lo))
		c.hto(ls[i].day)
	}
	c.z()
}

// leavings are upright ticks where some left watch alive, or were watched still
// on their last day; short ones where there are too many to tell apart.
func (c *canvas) leavings(a area, s stepCurve) {
	n, half, class := 0, 7.0, "tick"
	for _, st := range s.Steps {
		if st.Left > 0 {
			n++
		}
	}
	if n > 40 {
		half, class = 3.5, "tick fine"
	}
	for _, st := range s.Steps {
		if st.Left > 0 {
			c.path(class)
			c.m(float64(st.Day), a.py(st.Share)-half)
			c.vto(a.py(st.Share) + half)
		}
	}
}

// shareAxis draws 0 to 100 %, unbroken.
func (c *canvas) shareAxis(a area) {
	var ys []float64
	for _, v := range [...]float64{1, .75, .5, .25, 0} {
		ys = append(ys, a.py(v))
	}
	c.levels(ys, []string{"100%", "75", "50", "25", "0"})
}

// Draw draws one curve: band, steps, ticks for those who left, dashed where
// fewer than the larger of 5 and a tenth of n are at risk, and beneath, on
// their days, how many are under watch, lost and left. It ends on the last day
// with a line at risk. Without a step that can be drawn: "Nothing measured yet."
func (in Curve) Draw() Drawing {
	c, ok := cleanCurve(in)
	if !ok {
		return nothing(nothingYet)
	}
	days := axisDays(c.Days, c.last)
	h := max(leastCurvePx, c.HeightPx)
	if c.HeightPx == 0 {
		h = curvePx
	}
	h = min(h, 2000)
	const top = 14
	var notes []string
	bottom := top + h
	rows := []countRow{
		{"under watch", "as those days begin", func(d int) int { n, _, _ := c.counts(d); return n }, c.From},
		{"lost", "before those days", func(d int) int { _, n, _ := c.counts(d); return n }, c.From},
		{"left alive", "before those days", func(d int) int { _, _, n := c.counts(d); return n }, c.From},
	}
	cv := newCanvas(float64(days), float64(bottom+axisPx+12)+countRowsPx(rows))
	cv.open("plot", "", c.Head, c.desc())
	cv.render(plot{top: top, height: h, hi: 1, series: []gochart.Series{series(func(cv *canvas, a area) {
		cv.band(a, c)
		cv.shareAxis(a)
		cv.stepLine(a, c, "km", " few")
		cv.leavings(a, c)
		if !cv.endOfCurve(a, c) {
			notes = []string{strings.TrimSpace(c.EndWords + " " + c.EndLimits)}
		}
	})}})
	cv.dayAxis(float64(bottom), "arrived")
	cv.countRows(float64(bottom+axisPx+12), rows)
	if c.dropped > 0 {
		notes = append(notes, plural(c.dropped, "row", "rows")+" left out: the counts don't add up")
	}
	return Drawing{HTML: cv.close(), Key: c.key(), Tables: []Table{c.table("")}, Notes: notes}
}
