package chart

import (
	"strconv"
)

// Where the marks, figures and labels of a soil line stand.

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
			d0, d1 := max(0, x-w-4)/narrowPx*p.days, day
			if x-w-4 < -padLeft+8 { // no room before it either: from day 0 on
				e.day, e.a, e.dx = 0, start, 0
				d0, d1 = 0, w/narrowPx*p.days
			}
			if up {
				e.y = -(max(p.highest(d0, d1), 16) + 8)
			} else {
				e.y = max(p.deepest(d0, d1), 12) + 15
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
