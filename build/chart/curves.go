package chart

import (
	"sort"
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
	tables[0].Caption = "Product-limit shares by group, after each day with a loss or a leaving; under watch as the day begins, limits log-log."
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
	cv := newCanvas(float64(days), float64(bottom+axisPx+groupGapPx)+groupCountsPx(cs))
	cv.open("plot names", "", in.Head, curvesDesc(in, cs))
	var named []endName
	cv.render(plot{top: top, height: h, hi: 1, series: []gochart.Series{series(func(cv *canvas, a area) {
		cv.shareAxis(a)
		for i := len(cs) - 1; i >= 0; i-- {
			cv.stepLine(a, cs[i], dashClass[i], " thin")
			cv.leavings(a, cs[i])
		}
		named = cv.names(a, cs)
	})}})
	cv.dayAxis(float64(bottom), "arrived")
	cv.groupCounts(float64(bottom+axisPx+groupGapPx), cs)
	d := Drawing{HTML: cv.close(), Key: curvesKey(cs, named), Tables: tables}
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
	nameLinePx = 15  // a line beside a curve's end
	nameAirPx  = 4   // between two of them
	nameRoomPx = 138 // the plot's padding on the right, from 640 px on
)

// endName is what stands beside a curve's end: lines, the name's first. Numbered: the
// key has the name, and its number stands there. Short: the key has its words.
type endName struct {
	name, words     []string
	numbered, short bool
}

func (n endName) px() float64 { return float64(len(n.name)+len(n.words))*nameLinePx + nameAirPx }

// nameEnd breaks a curve's name and words to the room beside the plot. What takes
// more than its share of the height goes to the key: first the words, then the name.
func nameEnd(c stepCurve, number int, most float64) endName {
	n := endName{name: breakLines(c.Name, nameRoomPx-12, true), words: breakLines(c.EndWords, nameRoomPx-12, false)}
	if n.px() > most {
		n.words, n.short = nil, len(n.words) > 0
	}
	if n.px() > most || len(n.name) > 2 || len(n.name) == 0 {
		n = endName{name: []string{strconv.Itoa(number)}, numbered: true}
	}
	return n
}

// names writes each curve's name and its words at the right, dodging downwards in
// the order of the ends, and hands back how each is named.
func (c *canvas) names(a area, cs []stepCurve) []endName {
	named := make([]endName, len(cs))
	order := make([]int, len(cs))
	for i, s := range cs {
		named[i] = nameEnd(s, i+1, (a.bottom-a.top+nameLinePx)/float64(len(cs)))
		order[i] = i
	}
	shareAt := func(i int) float64 { return cs[i].at(float64(cs[i].last)) }
	sort.SliceStable(order, func(x, y int) bool { return shareAt(order[x]) > shareAt(order[y]) })
	// from above to below, then push up from the bottom what ran out of it
	ys := make([]float64, len(order))
	for k, i := range order {
		ys[k] = a.py(shareAt(i)) + 4
		if k > 0 {
			ys[k] = max(ys[k], ys[k-1]+named[order[k-1]].px())
		}
	}
	for k := len(ys) - 1; k >= 0; k-- {
		most := a.bottom + nameLinePx
		if k+1 < len(ys) {
			most = ys[k+1]
		}
		ys[k] = min(ys[k], most-named[order[k]].px())
	}
	for k, i := range order {
		class := "wide"
		if i == 0 {
			class = "b wide"
		}
		y := ys[k]
		for _, l := range named[i].name {
			c.text(c.days, 12, y, start, class, l)
			y += nameLinePx
		}
		for _, l := range named[i].words {
			c.text(c.days, 12, y, start, "q wide", l)
			y += nameLinePx
		}
	}
	return named
}

// curvesKey has each dash with its name below 640 px, and from there on where the
// margin had no room for the name (its number stands there) or for its words.
func curvesKey(cs []stepCurve, named []endName) HTML {
	var es []keyEntry
	for i, c := range cs {
		words := c.Name
		if named[i].numbered {
			words = strconv.Itoa(i+1) + ": " + words
		}
		if c.EndWords != "" {
			words += ", " + c.EndWords
		}
		until := "wide"
		if named[i].numbered || named[i].short {
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
