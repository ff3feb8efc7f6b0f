package chart

import (
	"strconv"
	"strings"

	gochart "github.com/wcharczuk/go-chart/v2"
)

// Several curves on one axis: no bands, since bands that lie over each other
// can't be read (the limits go to the table as whiskers); a dash each; the name
// at the end from 640 px on, in the key below that.

// dashClass are the strokes, the first the strongest.
var dashClass = [MaxCurves]string{"km", "km old dash", "km old dots", "km old long", "km old dashdot", "km old wide-dots"}

// Draw draws the curves in the order given, the first on top. Groups without a
// step that can be drawn are named in a note. Without any: "Nothing measured yet."
func (in Curves) Draw() Drawing {
	var cs []stepCurve
	var none, more []string
	last := 0
	for i, g := range in.Groups {
		c, ok := cleanCurve(g)
		if c.Name == "" {
			c.Name = "group " + strconv.Itoa(i+1)
		}
		if !ok {
			none = append(none, c.Name)
			continue
		}
		cs = append(cs, c)
		last = max(last, c.last)
	}
	if len(cs) == 0 {
		return nothing(nothingYet)
	}
	tables := []Table{cs[0].table(cs[0].Name)}
	tables[0].Caption = "Product-limit shares by group, after each day with a loss or a leaving."
	for _, c := range cs[1:] {
		tables[0].Rows = append(tables[0].Rows, c.table(c.Name).Rows...)
	}
	if len(cs) > MaxCurves {
		for _, c := range cs[MaxCurves:] {
			more = append(more, c.Name)
		}
		cs = cs[:MaxCurves]
	}
	h := in.HeightPx
	if h == 0 {
		h = curvesPx
	}
	h = min(max(leastCurvePx, h), 2000)
	const top = 14
	days := axisDays(in.Days, last)
	bottom := top + h
	var rows []countRow
	for _, c := range cs {
		rows = append(rows, countRow{c.Name, "", func(d int) int { n, _, _ := c.counts(d); return n }, c.From})
	}
	cv := newCanvas(float64(days), float64(bottom+axisPx+12)+18+countRowsPx(rows))
	cv.open("plot names", "", in.Head, curvesDesc(in, cs))
	var unnamed []bool
	cv.render(plot{top: top, height: h, hi: 1, series: []gochart.Series{series(func(cv *canvas, a area) {
		cv.shareAxis(a)
		for i := len(cs) - 1; i >= 0; i-- {
			cv.stepLine(a, cs[i], dashClass[i], " thin")
			cv.leavings(a, cs[i])
		}
		unnamed = cv.names(a, cs)
	})}})
	cv.dayAxis(float64(bottom), "arrived")
	cv.text(0, 0, float64(bottom+axisPx+24), start, "q", "under watch as those days begin")
	cv.countRows(float64(bottom+axisPx+12+18), rows)
	d := Drawing{HTML: cv.close(), Key: curvesKey(cs, unnamed), Tables: tables}
	for _, c := range cs {
		if c.dropped > 0 {
			d.Notes = append(d.Notes, c.Name+": "+plural(c.dropped, "row", "rows")+" left out, the counts don't add up")
		}
	}
	if len(none) > 0 {
		d.Notes = append(d.Notes, "nothing measured yet: "+strings.Join(none, ", "))
	}
	if len(more) > 0 {
		d.Notes = append(d.Notes, "in the table only: "+strings.Join(more, ", "))
	}
	return d
}

const (
	namePx     = 34  // two lines
	nameRoomPx = 122 // the plot's padding on the right, from 640 px on
)

// names writes each curve's name and its words at the right, dodging downwards
// in the order of the ends, and hands back which names found no room.
func (c *canvas) names(a area, cs []stepCurve) []bool {
	unnamed := make([]bool, len(cs))
	order := make([]int, len(cs))
	for i := range cs {
		order[i] = i
	}
	shareAt := func(i int) float64 { return cs[i].at(float64(cs[i].last)) }
	for i := 1; i < len(order); i++ {
		for j := i; j > 0 && shareAt(order[j]) > shareAt(order[j-1]); j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	// from above to below, then push up from the bottom what ran out of it
	ys := make([]float64, len(order))
	for k, i := range order {
		ys[k] = a.py(shareAt(i)) + 4
		if k > 0 {
			ys[k] = max(ys[k], ys[k-1]+namePx)
		}
	}
	for k := len(ys) - 1; k >= 0; k-- {
		most := a.bottom - 14
		if k+1 < len(ys) {
			most = ys[k+1] - namePx
		}
		ys[k] = min(ys[k], most)
	}
	for k, i := range order {
		s := cs[i]
		name, words := s.Name, s.EndWords
		if textWidth(name, true) > nameRoomPx+16 || textWidth(words, false) > nameRoomPx+16 {
			unnamed[i] = true
			name, words = strconv.Itoa(i+1), ""
		}
		class := "wide"
		if i == 0 {
			class = "b wide"
		}
		c.text(c.days, 12, ys[k], start, class, name)
		if words != "" {
			c.text(c.days, 12, ys[k]+15, start, "q wide", words)
		}
	}
	return unnamed
}

// curvesKey has each dash with its name below 640 px, and from there on where a
// name was too long for the margin (its number stands there).
func curvesKey(cs []stepCurve, unnamed []bool) HTML {
	var es []keyEntry
	for i, c := range cs {
		words := c.Name
		if unnamed[i] {
			words = strconv.Itoa(i+1) + ": " + words
		}
		if c.EndWords != "" {
			words += ", " + c.EndWords
		}
		until := "wide"
		if unnamed[i] {
			until = ""
		}
		es = append(es, keyEntry{icon: lineIcon(dashClass[i], ""), words: words, until: until})
	}
	for _, c := range cs {
		left := false
		for _, s := range c.Steps {
			left = left || s.Left > 0
		}
		if left {
			es = append(es, keyEntry{icon: lineIcon("km", "tick"), words: leftWords})
			break
		}
	}
	for _, c := range cs {
		if c.dashed >= 0 && c.dashed < c.last {
			es = append(es, keyEntry{icon: lineIcon("km thin", ""), words: "thin: fewer than the larger of 5 and a tenth under watch"})
			break
		}
	}
	return keyList("", es)
}

func curvesDesc(in Curves, cs []stepCurve) string {
	if in.Desc != "" {
		return in.Desc
	}
	out := "Share alive by day, in steps. "
	for _, c := range cs {
		_, lost, left := c.counts(c.last + 1)
		out += c.Name + ": of " + strconv.Itoa(c.N) + " " + c.Unit + " " + strconv.Itoa(lost) + " lost and " + strconv.Itoa(left) + " left alive up to day " + strconv.Itoa(c.last) + ". "
	}
	return out + "The table holds all numbers."
}
