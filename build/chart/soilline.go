package chart

import (
	"math"
	"strconv"

	gochart "github.com/wcharczuk/go-chart/v2"
)

// The soil line. From above to below: lanes of labels, leaf area, the line
// with its marks, the fringe with labels under it, the water level with the
// names of the places, the deficit, the day axis. Without a single area or
// length there is no scale to share: then leaf counts and root grades stand as
// dots with their figures, and nothing is joined.

const (
	soilPx      = 345 // leaf and root together
	maxPxPerCm  = 8   // a tiny plant isn't blown up beyond this
	leastUp     = 40  // room for marks
	leastDown   = 40
	headPx      = 24 // over the tallest leaf: the last figure
	deficitPx   = 92
	unseenAfter = 14 // days; "roots not seen since" is written from then on
)

// Draw draws the root-to-leaf chart: leaf area on the line, roots under it,
// marks on it, and on the same days the water level and the deficit. Missing
// deficit days are blank. A figure that isn't a number counts as not known;
// with no figure, stay, mark or deficit at all the drawing is the words
// "Nothing measured yet."
func (s SoilLine) Draw() Drawing {
	s.Looks, s.Events, s.Stays, s.End = cleanLooks(s.Looks), cleanEvents(s.Events), cleanStays(s.Stays), cleanEnd(s.End)
	s.DeficitKPa = cleanDeficit(s.DeficitKPa)
	leaf, roots := leafRuns(s.Looks), rootRuns(s.Looks)
	figures := len(leaf)+len(roots) > 0
	for _, l := range s.Looks {
		figures = figures || l.Counted || l.Graded
	}
	if !figures && len(s.Events)+len(s.Stays)+len(s.DeficitKPa) == 0 {
		return nothing(nothingYet)
	}
	return newSoilPicture(s, leaf, roots).draw()
}

// soilPicture is a soil line being laid out.
type soilPicture struct {
	s       SoilLine
	leaf    []leafRun
	roots   []rootRun
	strands []strand
	days    float64

	u                float64 // px per cm² and per cm; 0 without either
	maxLeaf, maxRoot float64
	up, down         int // px above and below the line

	signs     []sign
	labels    []label
	labelMark []Mark // of each label
	stays     []stayLabel
	ends      []endWords
	lanes     int
	below     float64 // px under the line that labels take
}

// endWords is a figure written at the end of leaf or root.
type endWords struct {
	day   float64
	class string
	words string
	a     anchor
	dx, y float64 // y from the line, negative above
}

func newSoilPicture(s SoilLine, leaf []leafRun, roots []rootRun) *soilPicture {
	last := lastDay(s.Looks, s.Events, s.Stays, s.End)
	if n := len(s.DeficitKPa); n > 0 {
		last = max(last, s.DeficitKPa[n-1].Day)
	}
	p := &soilPicture{s: s, leaf: leaf, roots: roots, days: float64(axisDays(s.Days, last))}
	for _, r := range leaf {
		for _, q := range r {
			p.maxLeaf = max(p.maxLeaf, q.v)
		}
	}
	for _, r := range roots {
		for _, q := range r.pts {
			p.maxRoot = max(p.maxRoot, q.v)
		}
	}
	p.up, p.down = leastUp, leastDown
	if sum := p.maxLeaf + p.maxRoot; sum > 0 {
		p.u = min(maxPxPerCm, soilPx/sum)
		p.up = max(leastUp, int(math.Ceil(p.maxLeaf*p.u)))
		p.down = max(leastDown, int(math.Ceil(p.maxRoot*p.u)))
	}
	if len(leaf) == 0 && p.hasCounts() {
		p.up = dotsUp
	}
	if len(roots) == 0 && p.hasGrades() {
		p.down = dotsDown
	}
	for _, r := range roots {
		p.strands = append(p.strands, r.strands(p.u)...)
	}
	p.placeMarks()
	p.placeEnds()
	p.placeLabels()
	p.stays = placeStays(s.Stays, p.days)
	return p
}

func (p *soilPicture) draw() Drawing {
	laneH := p.lanes * lanePx
	top := laneH + headPx
	for _, e := range p.ends { // a figure over high marks needs more room
		if need := int(math.Ceil(-e.y)) + 14 - p.up; need > top-laneH {
			top = laneH + need
		}
	}
	soil := top + p.up
	y := soil + max(p.down, int(math.Ceil(p.below))) // the lowest of the fringe and its words
	unseen := p.unseen()
	unseenY := 0
	if unseen != "" {
		y += 18
		unseenY = y
	}
	grades, gradeY := p.gradesBeside(), 0
	if len(grades) > 0 {
		y += 38
		gradeY = y
	}
	waterY := 0
	if len(p.s.Stays) > 0 {
		y += 20 + 24
		waterY = y
		y += 36
	}
	deficitTop := 0
	if len(p.s.DeficitKPa) > 0 {
		y += 34
		deficitTop = y
		y += deficitPx
	} else {
		y += 8
	}
	c := newCanvas(p.days, float64(y+axisPx))
	class := ""
	if p.lanes > 0 {
		class = "lanes" + strconv.Itoa(p.lanes)
	}
	c.open("plot", class, p.s.Head, p.desc())
	plots := []plot{{top: top, height: p.up + p.down, lo: -float64(p.down), hi: float64(p.up), series: []gochart.Series{
		series(func(c *canvas, a area) { p.drawGround(c, a, float64(laneH), float64(y)) }),
		series(p.drawFigures), series(p.drawLabels), series(p.drawLine)}}}
	if waterY > 0 {
		plots = append(plots, plot{top: waterY - 24, height: 24, hi: 1, series: []gochart.Series{series(func(c *canvas, a area) {
			c.water(p.s.Stays, a.bottom, 1)
			c.soil("soil thin", 0, float64(p.lastLine()), a.bottom)
			c.stayWords(p.stays, a.bottom)
		})}})
	}
	if deficitTop > 0 {
		hi, step := deficitScale(p.s.DeficitKPa)
		plots = append(plots, plot{top: deficitTop, height: deficitPx, hi: hi, series: []gochart.Series{series(func(c *canvas, a area) {
			c.deficit(a, p.s.DeficitKPa, step, func(d int) Stage { return stageOn(p.s.Stays, d) })
		})}})
	}
	c.render(plots...)
	if unseen != "" {
		c.text(0, 0, float64(unseenY), start, "q hal", unseen)
	}
	if len(grades) > 0 {
		c.text(0, 0, float64(gradeY-16), start, "b root hal", "root grade")
		c.figures(grades, "", "hal", float64(gradeY))
	}
	c.dayAxis(float64(y), "arrived")
	return Drawing{HTML: c.close(), Key: keyList("days", p.key()), Tables: p.tables(), Notes: p.notes()}
}

// lastLine is the last day of the soil line: that of watching, else the axis's.
func (p *soilPicture) lastLine() int {
	if p.s.End.Mark != NoMark {
		return p.s.End.Day
	}
	return min(int(p.days), max(1, lastDay(p.s.Looks, p.s.Events, p.s.Stays, p.s.End)))
}

// drawGround draws what lies under the figures: uprights, levels and their
// numbers. The plot's range is px here, so that leaf and root share one.
func (p *soilPicture) drawGround(c *canvas, a area, y0, y1 float64) {
	c.uprights(y0+8, y1)
	if p.u == 0 {
		c.text(0, -8, a.py(0)+4, end, "q", "0")
		return
	}
	step := niceStep(max(p.maxLeaf, p.maxRoot), int(max(1, max(p.maxLeaf, p.maxRoot)*p.u/60)))
	ys, words := []float64{}, []string{}
	for _, v := range ticks(p.maxLeaf, step) {
		ys, words = append(ys, a.py(v*p.u)), append(words, f2(v))
	}
	for _, v := range ticks(p.maxRoot, step) {
		ys, words = append(ys, a.py(-v*p.u)), append(words, f2(v))
	}
	c.levels(ys, words)
	c.text(0, -8, a.py(0)+4, end, "q", "0")
}

// drawFigures draws leaf and root, or the dots that stand for them.
func (p *soilPicture) drawFigures(c *canvas, a area) {
	px := a
	if p.u > 0 { // the same place in cm² and cm
		y := newScale(a.y.Min/p.u, a.y.Max/p.u)
		y.SetDomain(a.y.Domain)
		px.y = y
	}
	if len(p.leaf) > 0 {
		c.leaf(px, p.leaf, true)
	} else {
		p.drawCounts(c, a)
	}
	if len(p.roots) > 0 {
		c.fringe(p.strands, a.py(0), true)
	} else {
		p.drawGrades(c, a)
	}
}

// drawLabels writes the labels that found a lane and leads them to their marks.
func (p *soilPicture) drawLabels(c *canvas, a area) {
	soil := a.py(0)
	baseline := func(l label) float64 {
		if l.below {
			return soil + l.y
		}
		return float64(p.lanes-1-l.lane)*lanePx + 13
	}
	for i, l := range p.labels {
		if !l.placed {
			continue
		}
		y := baseline(l)
		c.path("lead " + l.from())
		lift := float64(rowPx * max(0, p.signs[i].wide))
		if l.below {
			if y-13 > soil+18+lift {
				c.m(l.day, soil+18+lift)
				c.vto(y - 13)
			}
			continue
		}
		if l.note != "" {
			y += 15
		}
		c.m(l.day, y+5)
		c.vto(soil - 19 - lift)
	}
	for _, e := range p.ends { // after the leaders, whose dots they may interrupt
		c.text(e.day, e.dx, soil+e.y, e.a, e.class, e.words)
	}
	for _, l := range p.labels {
		if !l.placed {
			continue
		}
		y := baseline(l)
		c.text(l.day, l.dx, y, l.anchor, "b hal "+l.from(), l.words)
		if l.note != "" {
			c.text(l.day, l.dx, y+15, l.anchor, "q hal "+l.from(), l.note)
		}
	}
}

// drawLine draws the line and what stands on it.
func (p *soilPicture) drawLine(c *canvas, a area) {
	c.soil("soil", 0, float64(p.lastLine()), a.py(0))
	if p.lastLine() < int(p.days) {
		c.soil("rest", float64(p.lastLine()), p.days, a.py(0))
	}
	for _, s := range p.signs {
		c.sign(s, a.py(0))
	}
}
