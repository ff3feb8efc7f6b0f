package chart

import (
	"math"
	"sort"
	"strconv"
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
	dec    int // decimals of a per cent that n can bear
	last   int // last day with a line at risk
	dashed int // from this day on too few are at risk; −1: never
}

// cleanCurve sorts and rounds; a step with a share or a limit that isn't within
// 0 and 1, or with counts below 0, is left out. ok is false if nobody was ever
// under watch.
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
	keep := c.Steps[:0]
	for i, s := range c.Steps {
		if i == 0 || c.Steps[i-1].Day != s.Day {
			keep = append(keep, s)
		}
	}
	c.Steps = keep
	if len(c.Steps) == 0 {
		return c, false
	}
	if c.N < c.Steps[0].AtRisk {
		c.N = c.Steps[0].AtRisk
	}
	if c.N == 0 {
		return c, false
	}
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
// 1) the band has no height.
func (c *canvas) band(a area, s stepCurve) {
	type lim struct{ day, lo, hi float64 }
	ls := []lim{{float64(s.From), 1, 1}}
	for _, st := range s.Steps {
		l := lim{float64(st.Day), st.Lower, st.Upper}
		if !st.HasLimits {
			l.lo, l.hi = st.Share, st.Share
		}
		ls = append(ls, l)
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
		{"under watch", "at the start of those days", func(d int) int { n, _, _ := c.counts(d); return n }, c.From},
		{"lost", "before those days", func(d int) int { _, n, _ := c.counts(d); return n }, c.From},
		{"left alive", "before those days", func(d int) int { _, _, n := c.counts(d); return n }, c.From},
	}
	cv := newCanvas(float64(days), float64(bottom+axisPx+12)+countRowsPx(rows))
	cv.open("", c.Head, c.desc())
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
	return Drawing{HTML: wrapPlot("", cv.close()), Key: c.key(), Tables: []Table{c.table("")}, Notes: notes}
}

// countRow is a row of counts under the axis.
type countRow struct {
	name, quiet string
	count       func(day int) int
	from        int
}

// lines are the row's name, broken where it is longer than the narrowest plot.
func (r countRow) lines() []string { return breakLines(r.name, narrowPx+padRight, true) }

// countRowsPx is the height of the rows.
func countRowsPx(rows []countRow) float64 {
	h := 0.0
	for _, r := range rows {
		h += countRowPx + float64(max(0, len(r.lines())-1))*countLinePx
	}
	return h
}

// countRows writes the rows, each under its name, on the days with words.
func (c *canvas) countRows(y float64, rows []countRow) {
	for _, r := range rows {
		lines := r.lines()
		for i, l := range lines {
			y += countLinePx
			quiet := ""
			if i == len(lines)-1 {
				quiet = r.quiet
			}
			c.textPlus(0, 0, y-4, start, "b", l, quiet)
		}
		if len(lines) == 0 {
			y += countLinePx
		}
		y += countRowPx - countLinePx
		for _, l := range dayLabels(int(c.days)) {
			if l.day < r.from {
				continue
			}
			class := ""
			if l.wide {
				class = "wide"
			}
			c.text(float64(l.day), 0, y-8, middle, class, strconv.Itoa(r.count(l.day)))
		}
	}
}

// endOfCurve writes the value and its limits where the curve can't be: under
// its end, or over it where there is no room below, or after it. A curve only
// falls, so right below its end and right above its end are free. Without such
// a place it hands back false.
func (c *canvas) endOfCurve(a area, s stepCurve) bool {
	var lines []string
	w := 0.0
	for _, t := range []string{s.EndWords, s.EndLimits} {
		if t != "" {
			lines = append(lines, t)
			w = max(w, textWidth(t, true))
		}
	}
	if len(lines) == 0 {
		return true
	}
	high := float64(len(lines)) * 16
	day := float64(s.last)
	x := day / c.days * narrowPx
	an, dx := end, 0.0
	foot := a.py(s.at(day))
	y := foot + 18
	fits := a.bottom-foot >= high+10
	switch {
	case narrowPx-x+padRight >= w+12:
		an, dx, fits = start, 12, true
		y = min(max(foot+4, 12), a.bottom-high+8)
	case x >= w-4:
		if !fits {
			y = a.py(s.at(max(0, (x-w)/narrowPx*c.days))) - high + 6
			fits = y >= 12
		}
	case w <= narrowPx+padRight:
		an, day = start, 0
	default:
		fits = false
	}
	if !fits {
		return false
	}
	for i, t := range lines {
		class := "b"
		if i > 0 || s.EndWords == "" {
			class = "q"
		}
		c.text(day, dx, y+float64(i)*16, an, class, t)
	}
	return true
}

func (c stepCurve) desc() string {
	if c.Desc != "" {
		return c.Desc
	}
	_, lost, left := c.counts(c.last + 1)
	return "Share of " + strconv.Itoa(c.N) + " " + c.Unit + " alive by day, in steps: up to day " + strconv.Itoa(c.last) + " " + strconv.Itoa(lost) + " were lost and " + strconv.Itoa(left) + " left watch alive. The table holds all numbers."
}

// leftWords is the word of the upright tick.
const leftWords = "last day watched of one still alive"

// key explains the signs that occur.
func (c stepCurve) key() HTML {
	var es []keyEntry
	for _, s := range c.Steps {
		if s.HasLimits {
			es = append(es, keyEntry{icon: `<svg class="ch ic" viewBox="0 0 22 22" aria-hidden="true"><path class="band" d="M0 3H22V19H0Z"/></svg>`, words: "95% limits"})
			break
		}
	}
	for _, s := range c.Steps {
		if s.Left > 0 {
			es = append(es, keyEntry{icon: lineIcon("km", "tick"), words: leftWords})
			break
		}
	}
	if c.dashed >= 0 && c.dashed < c.last {
		es = append(es, keyEntry{icon: lineIcon("km few", ""), words: "fewer than " + c.fewWords() + " under watch"})
	}
	return keyList("", es)
}

func (c stepCurve) fewWords() string {
	return strconv.Itoa(int(max(5, math.Ceil(float64(c.N)/10))))
}

func lineIcon(class, tick string) string {
	s := `<svg class="ch ic" viewBox="0 0 22 22" aria-hidden="true"><path class="` + class + `" d="M-2 11H24"/>`
	if tick != "" {
		s += `<path class="` + tick + `" d="M11 4V18"/>`
	}
	return s + `</svg>`
}

// table has a row a step; group is its first cell where several share a table.
func (c stepCurve) table(group string) Table {
	t := Table{Caption: "Product-limit share of " + strconv.Itoa(c.N) + " " + c.Unit + ", after each day with a loss or a leaving.", Columns: []Column{numeric("day"), numeric("under watch"), numeric("lost"), numeric("left alive"), numeric("share"), numeric("lower limit"), numeric("upper limit")}}
	if group != "" {
		t.Columns = append([]Column{text1("group")}, t.Columns...)
	}
	for _, s := range c.Steps {
		row := []string{strconv.Itoa(s.Day), strconv.Itoa(s.AtRisk), strconv.Itoa(s.Lost), strconv.Itoa(s.Left), pctWords(s.Share, c.dec), "", ""}
		if s.HasLimits {
			row[5], row[6] = pctWords(s.Lower, c.dec), pctWords(s.Upper, c.dec)
		}
		if group != "" {
			row = append([]string{group}, row...)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
