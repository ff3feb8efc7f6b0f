package chart

import (
	"strconv"
)

// Leaf counts and root grades: dots at their figure's height, figures beside
// them where they don't touch, and nothing joined.

const (
	dotsUp    = 96
	dotsDown  = 96
	countTop  = 56 // px of the highest count over the line
	countFoot = 24 // the lowest dot stands clear of the marks
	gradePx   = 8  // px a grade
)

func (p *soilPicture) hasCounts() bool {
	for _, l := range p.s.Looks {
		if l.Counted {
			return true
		}
	}
	return false
}

func (p *soilPicture) hasGrades() bool {
	for _, l := range p.s.Looks {
		if l.Graded {
			return true
		}
	}
	return false
}

func (p *soilPicture) lastCounted() (out Look) {
	for _, l := range p.s.Looks {
		if l.Counted {
			out = l
		}
	}
	return out
}

func (p *soilPicture) lastGraded() (out Look) {
	for _, l := range p.s.Looks {
		if l.Graded {
			out = l
		}
	}
	return out
}

func (p *soilPicture) maxCount() int {
	most := 1
	for _, l := range p.s.Looks {
		if l.Counted {
			most = max(most, l.Leaves)
		}
	}
	return most
}

// countPx is how high a count's dot stands over the line.
func (p *soilPicture) countPx(n int) float64 {
	return countFoot + float64(n)/float64(p.maxCount())*(countTop-countFoot)
}

// gradeDown is how far under the line a grade's dot hangs.
func gradeDown(g int) float64 { return countFoot + float64(g)*gradePx }

func (p *soilPicture) countHeight(d0, d1 float64) (high float64) {
	for _, l := range p.s.Looks {
		if l.Counted && float64(l.Day) >= d0-2 && float64(l.Day) <= d1+2 {
			high = max(high, p.countPx(l.Leaves)+20)
		}
	}
	return high
}

func (p *soilPicture) gradeDepth(d0, d1 float64) (deep float64) {
	for _, l := range p.s.Looks {
		if l.Graded && float64(l.Day) >= d0-2 && float64(l.Day) <= d1+2 {
			deep = max(deep, gradeDown(l.Grade)+20)
		}
	}
	return deep
}

// figure is a number that wants to be written beside its dot.
type figure struct {
	day  float64
	n    int
	y    float64 // of the dot
	show [2]bool // at narrowPx, at widePx
}

// placeFigures writes changes first, then what else doesn't touch.
func placeFigures(fs []figure, days float64) {
	for w, px := range [...]float64{narrowPx, widePx} {
		var taken []rect
		for pass := range 2 {
			for i := range fs {
				f := &fs[i]
				change := i == 0 || i == len(fs)-1 || fs[i-1].n != f.n
				if change != (pass == 0) {
					continue
				}
				half := textWidth(strconv.Itoa(f.n), false)/2 + 2
				x := f.day / days * px
				ok := true
				for _, t := range taken {
					ok = ok && (x+half <= t.x0 || x-half >= t.x1)
				}
				if w == 1 && f.show[0] {
					ok = true // never vanishes when the page grows
				}
				if ok {
					f.show[w] = true
					taken = append(taken, rect{x0: x - half, x1: x + half})
				}
			}
		}
	}
}

// figures draws the dots as one path (none without a class) and the numbers dy
// px off them.
func (c *canvas) figures(fs []figure, dot, class string, dy float64) {
	placeFigures(fs, c.days)
	if dot != "" {
		for _, f := range fs {
			c.path(dot)
			c.dot(f.day, f.y)
		}
	}
	for _, f := range fs {
		cl := class
		if !f.show[0] {
			cl += " wide"
		}
		if f.show[1] {
			c.text(f.day, 0, f.y+dy, middle, cl, strconv.Itoa(f.n))
		}
	}
}

func (p *soilPicture) drawCounts(c *canvas, a area) {
	var fs []figure
	for _, l := range p.s.Looks {
		if l.Counted {
			fs = append(fs, figure{day: float64(l.Day), n: l.Leaves, y: a.py(p.countPx(l.Leaves))})
		}
	}
	if len(fs) > 0 {
		c.figures(fs, "dot", "hal", -8)
	}
}

func (p *soilPicture) drawGrades(c *canvas, a area) {
	var fs []figure
	for _, l := range p.s.Looks {
		if l.Graded {
			fs = append(fs, figure{day: float64(l.Day), n: l.Grade, y: a.py(-gradeDown(l.Grade))})
		}
	}
	if len(fs) > 0 {
		c.figures(fs, "tip", "hal", 17)
	}
}

// gradesBeside are the grades of looks without a length, where other looks have
// lengths: they stand in a row of their own, since a grade has no cm.
func (p *soilPicture) gradesBeside() (fs []figure) {
	if len(p.roots) == 0 {
		return nil
	}
	for _, l := range p.s.Looks {
		if l.Graded && l.Roots == Unknown {
			fs = append(fs, figure{day: float64(l.Day), n: l.Grade})
		}
	}
	return fs
}
