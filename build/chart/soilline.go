package chart

import (
	"math"
	"sort"
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

// cleanDeficit floors what no sensor tells to one drawn height.
func cleanDeficit(in []DayValue) []DayValue {
	out := cleanValues(in, 0, 100, 100)
	for i := range out {
		if out[i].Value < underSensor {
			out[i].Value = underSensor / 2
		}
	}
	return out
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

// deepest is the px that roots reach under the line between two days.
func (p *soilPicture) deepest(d0, d1 float64) float64 {
	deep := 0.0
	for _, s := range p.strands {
		if float64(s.day) >= d0-1 && float64(s.day) <= d1+1 {
			deep = max(deep, s.px+3)
		}
	}
	if len(p.roots) == 0 && p.hasGrades() {
		deep = max(deep, p.gradeDepth(d0, d1))
	}
	for _, s := range p.signs {
		if g := glyphs[s.mark]; g.side == below && s.day >= d0 && s.day <= d1 {
			deep = max(deep, 17+rowPx*float64(max(0, s.wide)))
		}
	}
	return deep
}

// highest is the px that leaves and marks reach above the line between two days.
func (p *soilPicture) highest(d0, d1 float64) float64 {
	high := 0.0
	for _, r := range p.leaf {
		for i, q := range r {
			if q.day >= d0 && q.day <= d1 {
				high = max(high, q.v*p.u)
			}
			// an edge that comes from the left of d0
			if i > 0 && q.day >= d0 && r[i-1].day < d0 {
				high = max(high, r[i-1].v*p.u)
			}
		}
	}
	if len(p.leaf) == 0 && p.hasCounts() {
		high = max(high, p.countHeight(d0, d1))
	}
	for _, s := range p.signs {
		if glyphs[s.mark].side != below && s.day+1 >= d0 && s.day <= d1+1 {
			high = max(high, 18+rowPx*float64(max(0, s.narrow)))
		}
	}
	return high
}

func (p *soilPicture) placeMarks() {
	for _, e := range p.s.Events {
		p.signs = append(p.signs, sign{day: float64(e.Day), mark: e.Mark})
	}
	if e := p.s.End; e.Mark != NoMark {
		p.signs = append(p.signs, sign{day: float64(e.Day), off: endOff(e, p.s.Events), mark: e.Mark})
	}
	placeSigns(p.signs, p.days)
}

// placeEnds writes the last leaf area and root length: to the right of the
// last point if there is room at every width, else over or under it.
func (p *soilPicture) placeEnds() {
	add := func(day, px float64, class, words string, up bool) {
		e := endWords{day: day, class: class, words: words}
		w := textWidth(words, true)
		x := day / p.days * narrowPx
		switch {
		case narrowPx-x+padRight >= w+30:
			e.a, e.dx = start, 26
			if up {
				e.y = -max(px-4, 14)
			} else {
				e.y = max(px+4, 22)
			}
		default:
			e.a, e.dx = end, min(0, narrowPx-x)-2
			d0 := max(0, x-w-4) / narrowPx * p.days
			if up {
				e.y = -(max(p.highest(d0, day), 16) + 8)
			} else {
				e.y = max(p.deepest(d0, day), 12) + 15
			}
		}
		p.ends = append(p.ends, e)
	}
	switch {
	case len(p.leaf) > 0:
		r := p.leaf[len(p.leaf)-1]
		q := r[len(r)-1]
		add(q.day, q.v*p.u, "b leaf hal", "leaf "+f1(q.v)+" cm²", true)
	case p.hasCounts():
		l := p.lastCounted()
		add(float64(l.Day), p.countPx(l.Leaves), "b leaf hal", plural(l.Leaves, "leaf", "leaves"), true)
	}
	words := ""
	switch {
	case len(p.roots) > 0:
		r := p.roots[len(p.roots)-1]
		q := r.pts[len(r.pts)-1]
		switch r.kind {
		case RootLength:
			words = "root " + f1(q.v) + " cm"
		case CountByMean:
			words = "roots " + f1(q.v) + " cm, count × mean"
		case LongestRoot:
			words = "longest root " + f1(q.v) + " cm"
		}
		add(q.day, q.v*p.u, "b root hal", words, false)
	case p.hasGrades():
		l := p.lastGraded()
		add(float64(l.Day), gradeDown(l.Grade), "b root hal", "root grade "+strconv.Itoa(l.Grade), false)
	}
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// placeLabels finds lanes for the words of the marks.
func (p *soilPicture) placeLabels() {
	for _, e := range p.s.Events {
		p.labels = append(p.labels, label{day: float64(e.Day), words: e.Words, note: e.Note, below: glyphs[e.Mark].side == below, first: e.Mark == Established})
		p.labelMark = append(p.labelMark, e.Mark)
	}
	if e := p.s.End; e.Mark != NoMark {
		p.labels = append(p.labels, label{day: float64(e.Day), words: e.Mark.Word(), first: true})
		p.labelMark = append(p.labelMark, e.Mark)
	}
	for _, e := range p.ends {
		p.below = max(p.below, e.y+5)
	}
	lanes, depth := placeLabels(p.labels, p.days, p.deepest, func(px float64) (taken []rect) {
		for _, e := range p.ends {
			if e.y < 0 {
				continue
			}
			x, w := e.day/p.days*px+e.dx, textWidth(e.words, true)
			r := rect{day: e.day, x0: x, x1: x + w, y0: e.y - 13, y1: e.y + 5}
			if e.a == end {
				r.x0, r.x1 = x-w, x
			}
			taken = append(taken, r)
		}
		return taken
	})
	p.lanes, p.below = lanes, max(p.below, depth)
}

// notes are the sentences under the picture.
func (p *soilPicture) notes() []string {
	var out []string
	if w := p.unseen(); w != "" {
		out = append(out, w)
	}
	for i := 1; i < len(p.roots); i++ {
		if a, b := p.roots[i-1], p.roots[i]; a.kind != b.kind {
			out = append(out, a.kind.Word()+" up to day "+f1(a.pts[len(a.pts)-1].day)+", "+b.kind.Word()+" from day "+f1(b.pts[0].day)+": not joined")
		}
	}
	return out
}

// unseen says since when roots weren't looked at.
func (p *soilPicture) unseen() string {
	if len(p.s.Looks) == 0 {
		return ""
	}
	seen := -1
	for _, l := range p.s.Looks {
		if l.Roots != Unknown || l.Graded {
			seen = l.Day
		}
	}
	last := max(p.s.Looks[len(p.s.Looks)-1].Day, p.s.End.Day)
	switch {
	case seen < 0:
		return "roots not seen yet"
	case last-seen >= unseenAfter || len(p.roots) == 0 && last > seen:
		return "roots not seen since day " + strconv.Itoa(seen)
	}
	return ""
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
	c.open(class, p.s.Head, p.desc())
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
	c.dayAxis(float64(y), "arrived")
	return Drawing{HTML: wrapPlot("", c.close()), Key: keyList("days", p.key()), Tables: p.tables(), Notes: p.notes()}
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
	for _, e := range p.ends {
		c.text(e.day, e.dx, a.py(0)+e.y, e.a, e.class, e.words)
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

// deficitScale is a round top and its step: to 1.5 kPa where that holds all.
func deficitScale(vs []DayValue) (hi, step float64) {
	most := 0.0
	for _, v := range vs {
		most = max(most, v.Value)
	}
	hi = max(1.5, most)
	step = niceStep(hi, 3)
	if hi > 1.5 {
		hi = math.Ceil(hi/step-1e-9) * step
	}
	return hi, step
}

// deficit draws the day bars over their levels.
func (c *canvas) deficit(a area, vs []DayValue, step float64, stage func(int) Stage) {
	var ys []float64
	var words []string
	for _, v := range ticks(a.y.Max, step) {
		ys, words = append(ys, a.py(v)), append(words, f2(v))
	}
	c.levels(ys, words)
	c.dayBars(a, vs, stage)
	c.textPlus(0, 0, a.top-12, start, "b hal", "deficit, kPa", "day means")
}

// key has every mark below 640 px, and from there on those that found no lane;
// likewise the places.
func (p *soilPicture) key() []keyEntry {
	var out []keyEntry
	for i, l := range p.labels {
		w := "day " + f1(l.day) + ": " + l.words
		if l.note != "" {
			w += " (" + l.note + ")"
		}
		out = append(out, keyEntry{day: int(l.day), icon: string(Icon(p.labelMark[i])), words: w, until: l.from()})
	}
	for _, s := range p.stays {
		w := "day " + strconv.Itoa(s.stay.From) + " to " + strconv.Itoa(s.stay.To) + ": " + s.stay.Stage.Word()
		if s.stay.Place != "" {
			if s.stay.Stage != NoStage {
				w += ", "
			}
			w += s.stay.Place
		}
		until := ""
		if s.place || s.wide && s.stay.Place == "" {
			until = "wide"
		}
		if s.stay.Place != "" || !s.narrow {
			out = append(out, keyEntry{day: s.stay.From, icon: waterIcon(s.stay.Stage), words: w, until: until})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].day < out[j].day })
	return out
}

func (p *soilPicture) tables() []Table {
	var out []Table
	if len(p.s.Looks) > 0 {
		out = append(out, looksTable("Leaf area and roots, by check-in.", p.s.Looks))
	}
	if len(p.s.Events) > 0 || p.s.End.Mark != NoMark {
		out = append(out, eventsTable(p.s.Events, p.s.End))
	}
	if len(p.s.Stays) > 0 {
		out = append(out, staysTable(p.s.Stays))
	}
	if len(p.s.DeficitKPa) > 0 {
		out = append(out, deficitTable(p.s.DeficitKPa))
	}
	return out
}

// desc says in words what is seen.
func (p *soilPicture) desc() string {
	if p.s.Desc != "" {
		return p.s.Desc
	}
	out := ""
	tell := func(what, unit string, first, last point, lo point) {
		out += what + " is " + f1(first.v) + " " + unit + " on day " + f1(first.day)
		if lo.v < min(first.v, last.v) {
			out += ", " + f1(lo.v) + " on day " + f1(lo.day)
		}
		if last.day > first.day {
			out += " and " + f1(last.v) + " on day " + f1(last.day)
		}
		out += ". "
	}
	if len(p.leaf) > 0 {
		first, last := p.leaf[0][0], point{}
		lo := first
		for _, r := range p.leaf {
			for _, q := range r {
				last = q
				if q.v < lo.v {
					lo = q
				}
			}
		}
		tell("Leaf area", "cm²", first, last, lo)
	}
	for _, r := range p.roots {
		lo := r.pts[0]
		for _, q := range r.pts {
			if q.v < lo.v {
				lo = q
			}
		}
		w := r.kind.Word()
		tell(string(w[0]-32)+w[1:], "cm", r.pts[0], r.pts[len(r.pts)-1], lo)
	}
	if len(p.leaf) == 0 && p.hasCounts() {
		out += "Last leaf count: " + strconv.Itoa(p.lastCounted().Leaves) + ". "
	}
	if len(p.roots) == 0 && p.hasGrades() {
		out += "Last root grade: " + strconv.Itoa(p.lastGraded().Grade) + ". "
	}
	if e := p.s.End; e.Mark != NoMark {
		out += "On day " + strconv.Itoa(e.Day) + ": " + e.Mark.Word() + ". "
	}
	return out + "The table holds all numbers and marks."
}
