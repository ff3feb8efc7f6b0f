package chart

import (
	"math"
)

// leafRun is a stretch of leaf area that may be joined by an edge.
type leafRun []point

// point is a figure on a day.
type point struct {
	day, v   float64
	measured bool
	falls    bool
}

// leafRuns cuts the known areas where two looks lie more than JoinDays apart.
func leafRuns(looks []Look) []leafRun {
	var out []leafRun
	last := -1
	for _, l := range looks {
		if l.Leaf == Unknown {
			continue
		}
		if last < 0 || l.Day-last > JoinDays {
			out = append(out, nil)
		}
		r := &out[len(out)-1]
		*r = append(*r, point{float64(l.Day), l.AreaCm2, l.Leaf == Measured, l.Falls})
		last = l.Day
	}
	return out
}

// edge is the run's outline: what was cut or dropped falls upright.
func (r leafRun) edge() []point {
	out := make([]point, 0, len(r)+4)
	for i, p := range r {
		if i > 0 && p.falls && p.v < r[i-1].v && p.day > r[i-1].day {
			out = append(out, point{day: p.day, v: r[i-1].v})
		}
		out = append(out, p)
	}
	return out
}

// rootRun is a stretch of root lengths of one kind that may be joined.
type rootRun struct {
	kind Numerator
	pts  []point
}

// rootRuns cuts the lengths where their kind changes or two lie more than
// JoinDays apart.
func rootRuns(looks []Look) []rootRun {
	var out []rootRun
	last := -1
	for _, l := range looks {
		if l.Roots == Unknown {
			continue
		}
		if last < 0 || l.Day-last > JoinDays || out[len(out)-1].kind != l.Length {
			out = append(out, rootRun{kind: l.Length})
		}
		r := &out[len(out)-1]
		r.pts = append(r.pts, point{day: float64(l.Day), v: l.LengthCm, measured: l.Roots == Measured})
		last = l.Day
	}
	return out
}

// strand is one root of the fringe, hanging at a day.
type strand struct {
	day      int
	px       float64
	measured bool
}

// strands are one a day, the days between two lengths by a straight line.
func (r rootRun) strands(u float64) []strand {
	var out []strand
	for i, p := range r.pts {
		if i > 0 {
			q := r.pts[i-1]
			for d := int(q.day) + 1; d < int(p.day); d++ {
				out = append(out, strand{d, (q.v + (p.v-q.v)*(float64(d)-q.day)/(p.day-q.day)) * u, false})
			}
		}
		out = append(out, strand{int(p.day), p.v * u, p.measured})
	}
	return out
}

// leaf draws areas, edges and veins, and a dot a look.
func (c *canvas) leaf(a area, runs []leafRun, dots bool) {
	base := a.py(0)
	edges := make([][]point, len(runs))
	for i, r := range runs {
		edges[i] = r.edge()
	}
	for _, e := range edges {
		if len(e) < 2 {
			continue
		}
		c.path("fill")
		c.m(e[0].day, base)
		for _, p := range e {
			c.l(p.day, a.py(p.v))
		}
		c.vto(base)
		c.z()
	}
	for _, e := range edges {
		c.path("edge")
		if len(e) == 1 { // nothing to join: an upright
			c.m(e[0].day, base)
			c.vto(a.py(e[0].v))
			continue
		}
		c.m(e[0].day, a.py(e[0].v))
		for _, p := range e[1:] {
			c.l(p.day, a.py(p.v))
		}
	}
	if !dots {
		return
	}
	for _, r := range runs {
		for _, p := range r {
			if p.day > 0 && p.v > 0 {
				c.path("vein")
				c.m(p.day, a.py(p.v))
				c.vto(base)
			}
		}
	}
	c.dots(a, runs)
}

// dots are filled where measured, open where estimated.
func (c *canvas) dots(a area, runs []leafRun) {
	for _, class := range [...]string{"dot est", "dot est in", "dot"} {
		for _, r := range runs {
			for _, p := range r {
				if p.measured == (class == "dot") {
					c.path(class)
					c.dot(p.day, a.py(p.v))
				}
			}
		}
	}
}

// fringe hangs strands from y: those measured thick with a tip, the others
// thin, and below 480 px only each n-th of the thin ones.
func (c *canvas) fringe(ss []strand, y float64, tips bool) {
	days := c.days
	// A strand needs about 4.5 px at widePx and 8.4 at narrowPx.
	each := max(1, int(math.Ceil(days*4.5/widePx)))
	few := max(3, int(math.Ceil(days*8.4/narrowPx-.01)))
	few = (few + each - 1) / each * each
	near := map[int]bool{}
	for _, s := range ss {
		if s.measured {
			near[s.day] = true
		}
	}
	crowded := func(s strand) bool { // beside a thick one, where days lie close
		if each == 1 {
			return false
		}
		for d := s.day - each + 1; d < s.day+each; d++ {
			if near[d] {
				return true
			}
		}
		return false
	}
	for _, class := range [...]string{"r thin-out", "r", "r m"} {
		for _, s := range ss {
			if s.px < .7 || s.measured != (class == "r m") {
				continue
			}
			if !s.measured && (s.day%each != 0 || (s.day%few == 0) != (class == "r") || crowded(s)) {
				continue
			}
			c.path(class)
			c.strand(s, y)
		}
	}
	if !tips {
		return
	}
	for _, s := range ss {
		if s.measured && s.px >= .7 {
			c.path("tip")
			c.dot(float64(s.day), y+s.px)
		}
	}
}

// strand is a root with a bend that depends on its day alone.
func (c *canvas) strand(s strand, y float64) {
	h := uint32(s.day)*2654435761 ^ 0x5bd1e995
	w := c.days / 84 * .22
	a, b := w*float64(int(h>>8%5)-2)/2, w*float64(int(h>>16%5)-2)/2
	c.m(float64(s.day), y)
	c.b = append(c.b, 'c')
	c.fine(a)
	c.b = append(c.b, ' ')
	c.num(math.Round(s.px * .35))
	c.b = append(c.b, ' ')
	c.fine(b)
	c.b = append(c.b, ' ')
	c.num(math.Round(s.px * .7))
	c.b = append(c.b, " 0 "...)
	c.num(s.px)
}
