package chart

import (
	"strconv"
	"strings"

	gochart "github.com/wcharczuk/go-chart/v2"
)

const (
	stripPx     = 80 // 0 to 100 %
	stripAirPx  = 10 // between a strip's words and its plot
	stripGapPx  = 20 // between a strip and the next one's name
	stripNamePx = 16 // a line of words
)

// Draw draws the strips from above to below, with the counts of those waiting under
// each. A strip ends on the last day with a line waiting. One without a step is
// named in a note. Without any: "Nothing measured yet."
func (in Milestones) Draw() Drawing {
	var ss []strip
	var none []string
	last := 0
	for i, m := range in.Rows {
		s, ok := cleanMilestone(m)
		if s.Name == "" {
			s.Name = "row " + strconv.Itoa(i+1)
		}
		if !ok {
			none = append(none, s.Name)
			continue
		}
		ss = append(ss, s)
		last = max(last, s.last)
	}
	if len(ss) == 0 {
		return nothing(nothingYet)
	}
	var tops []int
	var heads [][]headLine
	y := 0
	for _, s := range ss {
		head := s.head()
		y += len(head)*stripNamePx + stripAirPx
		heads, tops = append(heads, head), append(tops, y)
		y += stripPx + stripNamePx + stripGapPx
	}
	bottom := y - stripGapPx + 8
	cv := newCanvas(float64(axisDays(in.Days, last)), float64(bottom+axisPx))
	cv.open("plot", "", in.Head, milestonesDesc(in, ss))
	var plots []plot
	for i, s := range ss {
		plots = append(plots, plot{top: tops[i], height: stripPx, hi: 1, series: []gochart.Series{series(func(cv *canvas, a area) { cv.strip(a, s) })}})
	}
	cv.render(plots...)
	for i, s := range ss {
		for k, l := range heads[i] {
			cv.textPlus(0, 0, float64(tops[i]-stripAirPx-(len(heads[i])-1-k)*stripNamePx), start, l.class, l.words, l.quiet)
		}
		cv.waitingCounts(float64(tops[i]+stripPx+stripNamePx), s)
	}
	cv.dayAxis(float64(bottom), "arrived")
	d := Drawing{HTML: cv.close(), Key: milestonesKey(ss), Tables: []Table{milestonesTable(ss)}}
	for _, s := range ss {
		if s.dropped > 0 {
			d.Notes = append(d.Notes, s.Name+": "+plural(s.dropped, "row", "rows")+" left out, the counts don't add up")
		}
	}
	if len(none) > 0 {
		d.Notes = append(d.Notes, "nobody to count: "+strings.Join(none, ", "))
	}
	return d
}

// headLine is a line over a strip: its words, and quiet ones after them.
type headLine struct{ class, words, quiet string }

// head is the name with the words beside it where both fit the narrowest page, and
// the others under them.
func (s strip) head() (out []headLine) {
	const room = narrowPx + padRight
	for _, l := range breakLines(s.Name, room, true) {
		out = append(out, headLine{"b", l, ""})
	}
	words := s.Words
	if len(out) == 0 {
		out = []headLine{{"b", "", ""}} // a name of blanks alone
	}
	if last := &out[len(out)-1]; words != "" && textWidth(last.words+" ", true)+textWidth(words, false) <= room {
		last.quiet, words = words, ""
	}
	for _, w := range []string{words, s.Others} {
		for _, l := range breakLines(w, room, false) {
			out = append(out, headLine{"q", l, ""})
		}
	}
	return out
}

// strip draws one stack: areas, hairlines, limits, edges.
func (c *canvas) strip(a area, s strip) {
	from, to := float64(s.From), float64(s.last)
	// steps walks an edge; share gives its level after a step
	steps := func(level float64, share func(Reaching) float64) {
		for _, st := range s.Steps {
			if v := share(st); v != level {
				c.hto(float64(st.Day))
				c.vto(a.py(v))
				level = v
			}
		}
		c.hto(to)
	}
	reached := func(st Reaching) float64 { return st.Share }
	lost := func(st Reaching) float64 { return st.lostFrom }
	c.path("band")
	c.m(from, a.py(0))
	steps(0, reached)
	c.vto(a.py(0))
	c.z()
	c.path("gone")
	c.m(from, a.py(1))
	steps(1, lost)
	c.vto(a.py(1))
	c.z()
	c.levels([]float64{a.py(1), a.py(.5), a.py(0)}, []string{"100%", "50", "0"})
	c.limits(a, s)
	c.path("gone-edge")
	c.m(from, a.py(1))
	steps(1, lost)
	c.path("ln")
	c.m(from, a.py(0))
	steps(0, reached)
}

// limits draws the limits of those who reached it, where there are any: a line
// over and one under the edge, from the step that has them to the next.
func (c *canvas) limits(a area, s strip) {
	for i, st := range s.Steps {
		end := float64(s.last)
		if i+1 < len(s.Steps) {
			end = float64(s.Steps[i+1].Day)
		}
		if !st.HasLimits || float64(st.Day) == end {
			continue
		}
		c.path("lim")
		for _, v := range [...]float64{st.Lower, st.Upper} {
			c.m(float64(st.Day), a.py(v))
			c.hto(end)
		}
	}
}

func (c *canvas) waitingCounts(y float64, s strip) {
	for _, l := range dayLabels(int(c.days)) {
		if l.day < s.From {
			continue
		}
		class := "q"
		if l.wide {
			class = "q wide"
		}
		c.text(float64(l.day), 0, y, middle, class, strconv.Itoa(s.waiting(l.day)))
	}
}

func milestonesKey(ss []strip) HTML {
	square := func(class string) string {
		return `<svg class="ch ic" viewBox="0 0 22 22" aria-hidden="true"><path class="` + class + `" d="M0 3H22V19H0Z"/></svg>`
	}
	es := []keyEntry{
		{icon: square("band"), words: "reached it"},
		{icon: square("g"), words: "still waiting; how many, under the strip, as those days begin"},
		{icon: square("gone"), words: "lost without it"},
	}
	for _, s := range ss {
		for _, st := range s.Steps {
			if st.HasLimits {
				return keyList("", append(es, keyEntry{icon: lineIcon("lim", ""), words: "95% limits (log-log) of those who reached it"}))
			}
		}
	}
	return keyList("", es)
}

func milestonesDesc(in Milestones, ss []strip) string {
	if in.Desc != "" {
		return in.Desc
	}
	out := "Stacked shares by day: reached it from below, lost without it from above, waiting between them. "
	for _, s := range ss {
		reached, lost := 0, 0
		for _, st := range s.Steps {
			reached, lost = reached+st.Reached, lost+st.Lost
		}
		out += s.Name + ": up to day " + strconv.Itoa(s.last) + " " + strconv.Itoa(reached) + " of " + strconv.Itoa(s.n) + " reached it, " + strconv.Itoa(lost) + " lost without it. "
	}
	return out + "The table holds all numbers."
}

func milestonesTable(ss []strip) Table {
	t := Table{Caption: "Shares after each day with a reaching, a loss or a leaving; the three shares of a row make up all lines.", Columns: []Column{
		text1("of"), numeric("day"), numeric("waiting before"), numeric("reached it"), numeric("lost"), numeric("left alive"),
		numeric("share reached"), numeric("lower limit"), numeric("upper limit"), numeric("share waiting"), numeric("share lost")}}
	for _, s := range ss {
		for _, st := range s.Steps {
			row := []string{s.Name, strconv.Itoa(st.Day), strconv.Itoa(st.Waiting), strconv.Itoa(st.Reached), strconv.Itoa(st.Lost), strconv.Itoa(st.Left),
				pctWords(st.Share, s.dec), "", "", pctWords(st.between, s.dec), pctWords(1-st.lostFrom, s.dec)}
			if st.HasLimits {
				row[7], row[8] = pctWords(st.Lower, s.dec), pctWords(st.Upper, s.dec)
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}
