package chart

import (
	"math"
	"strconv"

	gochart "github.com/wcharczuk/go-chart/v2"
)

// Thumbnails: the soil line of every specimen on the same days and to the same
// scale, so that an import reads at one look. No dots, no words: those stand
// beside the cell.

const (
	defaultThumbPx = .25
	thumbLeast     = 24  // px above and below that a mark needs
	thumbMost      = 160 // px; a scale that would make it higher is reduced
)

// Draw draws every cell and the first one, how to read. A cell whose looks
// hold fewer than two dates with an area or a length is "": print its words
// alone.
func (t Thumbs) Draw() ThumbDrawings {
	out := ThumbDrawings{Cells: make([]HTML, len(t.Cells))}
	u := t.PxPerCm2
	if !finite(u, .001, 100) {
		u = defaultThumbPx
	}
	last, mostLeaf, mostRoot := 0, 0.0, 0.0
	for i := range t.Cells {
		c := &t.Cells[i]
		t.Cells[i] = Thumb{Number: c.Number, Looks: cleanLooks(c.Looks), End: cleanEnd(c.End)}
		if !twoDates(c.Looks) {
			continue
		}
		last = max(last, lastDay(c.Looks, nil, nil, c.End))
		for _, l := range c.Looks {
			mostLeaf, mostRoot = max(mostLeaf, l.AreaCm2), max(mostRoot, l.LengthCm)
		}
	}
	if most := max(mostLeaf, mostRoot); most*u > thumbMost {
		u = thumbMost / most
	}
	days := axisDays(t.Days, last)
	up, down := max(thumbLeast, int(math.Ceil(mostLeaf*u))+2), max(thumbLeast, int(math.Ceil(mostRoot*u))+2)
	for i, c := range t.Cells {
		if twoDates(c.Looks) {
			out.Cells[i] = thumbnail(c, days, up, down, u)
		}
	}
	out.HowTo, out.Words = t.howTo(days, up, down, u)
	out.Tables = []Table{t.table()}
	if len(out.Tables[0].Rows) == 0 {
		out.Tables = nil
	}
	return out
}

// twoDates says that there is something to draw a line through.
func twoDates(ls []Look) bool {
	first := -1
	for _, l := range ls {
		if l.Leaf == Unknown && l.Roots == Unknown {
			continue
		}
		if first >= 0 && l.Day != first {
			return true
		}
		first = l.Day
	}
	return false
}

func thumbnail(t Thumb, days, up, down int, u float64) HTML {
	c := newCanvas(float64(days), float64(up+down))
	c.openHidden("")
	leaf := leafRuns(t.Looks)
	var strands []strand
	for _, r := range rootRuns(t.Looks) {
		strands = append(strands, r.strands(u)...)
	}
	last := lastDay(t.Looks, nil, nil, t.End)
	c.render(plot{height: up + down, lo: -float64(down) / u, hi: float64(up) / u, series: []gochart.Series{series(func(c *canvas, a area) {
		y := a.py(0)
		c.soil("rest", 0, c.days, y)
		c.leaf(a, leaf, false)
		c.thinFringe(strands, y)
		c.soil("soil thin", 0, float64(last), y)
		c.at(c.days, y, "join", `<path class="rest" d="M0 0H18"/>`)
		if t.End.Mark != NoMark {
			c.sign(sign{day: float64(t.End.Day), off: endPx + 1, mark: t.End.Mark}, y)
		}
	})}})
	return c.close()
}

// thinFringe is the fringe at thumbnail width (70 px at least): a strand each
// n-th day, and one at the last.
func (c *canvas) thinFringe(ss []strand, y float64) {
	each := max(1, int(math.Ceil(c.days/20)))
	c.path("r")
	for i, s := range ss {
		if s.px >= .7 && (s.day%each == 0 || i == len(ss)-1) {
			c.strand(s, y)
		}
	}
}

// howTo is the first cell: two scale marks and the weeks.
func (t Thumbs) howTo(days, up, down int, u float64) (HTML, string) {
	v := t.ScaleCm2
	// both marks must stand inside the cell, their words too
	most := float64(min(up, down)) - 6
	for i := 0; i < 40 && (i == 0 && !finite(v, .01, maxAreaCm2) || v*u > most); i++ {
		if i == 0 {
			v = most / u
		}
		v = roundDown(v * .999)
	}
	size := f2(v)
	words := "Leaf area above the line, scale mark " + size + " cm²; root length below, scale mark " + size + " cm; from arrival to week " + strconv.Itoa(days/7) + "."
	c := newCanvas(float64(days), float64(up+down))
	c.b = append(c.b, `<svg class="ch" height="`...)
	c.num(c.h)
	c.b = append(c.b, `" role="img" aria-label="`...)
	c.esc("How to read the drawings. " + words)
	c.b = append(c.b, `">`...)
	y := float64(up)
	c.soil("rest", 0, c.days, y)
	c.soil("soil thin", 0, c.days, y)
	c.path("ax")
	step := days / 3 / 7 * 7
	if step == 0 {
		step = 7
	}
	for d := step; d <= days; d += step {
		c.m(float64(d), y-4)
		c.vto(y + 4)
	}
	if v*u >= 28 { // else the words of the scale stand there
		for d := step; d <= days; d += step {
			c.text(float64(d), 0, y-8, middle, "q", strconv.Itoa(d/7))
		}
	}
	px := string(appendNum(nil, v*u, 10))
	c.at(0, y, "", `<path class="scale leaf" d="M0-1V-`+px+`h5"/><path class="scale root" d="M0 1V`+px+`h5"/>`)
	c.text(0, 10, y-v*u+5, start, "", "leaf, "+size+" cm²")
	c.text(0, 10, y+v*u+3, start, "", "root, "+size+" cm")
	return c.close(), words
}

// roundDown is the greatest 1, 2 or 5 times a power of ten up to v.
func roundDown(v float64) float64 {
	if v <= 0 {
		return 0
	}
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, k := range [...]float64{5, 2} {
		if k*p <= v {
			return k * p
		}
	}
	return p
}

// table holds every cell's figures, also of those left out.
func (t Thumbs) table() Table {
	out := Table{Caption: "Leaf area and roots, by specimen and check-in.", Columns: append([]Column{text1("number"), numeric("day")}, lookColumns...)}
	for _, c := range t.Cells {
		for _, l := range c.Looks {
			row := lookCells(2, l)
			row[0], row[1] = c.Number, strconv.Itoa(l.Day)
			out.Rows = append(out.Rows, row)
		}
	}
	return out.dropEmpty()
}
