package main

import "math"

// pt is a point, or an arrow from the origin; y grows downward.
type pt struct{ x, y float64 }

func (a pt) add(b pt) pt          { return pt{a.x + b.x, a.y + b.y} }
func (a pt) sub(b pt) pt          { return pt{a.x - b.x, a.y - b.y} }
func (a pt) mul(k float64) pt     { return pt{a.x * k, a.y * k} }
func (a pt) length() float64      { return math.Hypot(a.x, a.y) }
func (a pt) left() pt             { return pt{a.y, -a.x} }
func toward(angle float64) pt     { return pt{math.Cos(angle), math.Sin(angle)} }
func mix(a, b, t float64) float64 { return a + (b-a)*t }
func clamp(v, lo, hi float64) float64 {
	return math.Max(lo, math.Min(hi, v))
}

// smooth rises from 0 to 1 between two edges.
func smooth(lo, hi, v float64) float64 {
	t := clamp((v-lo)/(hi-lo), 0, 1)
	return t * t * (3 - 2*t)
}

func (a pt) unit() pt {
	if l := a.length(); l > 0 {
		return a.mul(1 / l)
	}
	return pt{1, 0}
}

// line is an open run of points; shape a closed one.
type (
	line  []pt
	shape []pt
)

// bow is a run of n+1 points from a start, that sets out at an angle and turns
// by turn radians on its way.
func bow(from pt, angle, length, turn float64, n int) line {
	out := line{from}
	step := length / float64(n)
	for i := 0; i < n; i++ {
		from = from.add(toward(angle + turn*(float64(i)+0.5)/float64(n)).mul(step))
		out = append(out, from)
	}
	return out
}

// at gives the point and the direction at a share of a run's length.
func (l line) at(t float64) (pt, pt) {
	if len(l) < 2 {
		return l[0], pt{0, -1}
	}
	f := clamp(t, 0, 1) * float64(len(l)-1)
	i := min(int(f), len(l)-2)
	d := l[i+1].sub(l[i])
	return l[i].add(d.mul(f - float64(i))), d.unit()
}

// stroke is the outline of a run drawn with a width that goes from w0 to w1,
// with round ends.
func (l line) stroke(w0, w1 float64) shape {
	if len(l) < 2 {
		return nil
	}
	n := len(l)
	left, right := make(shape, 0, 2*n+12), make(shape, 0, n)
	for i, p := range l {
		a, b := l[max(0, i-1)], l[min(n-1, i+1)]
		side := b.sub(a).unit().left().mul(mix(w0, w1, float64(i)/float64(n-1)) / 2)
		left = append(left, p.add(side))
		right = append(right, p.sub(side))
	}
	left = append(left, roundEnd(l[n-1], l[n-1].sub(l[n-2]).unit(), w1/2)...)
	for i := n - 1; i >= 0; i-- {
		left = append(left, right[i])
	}
	return append(left, roundEnd(l[0], l[0].sub(l[1]).unit(), w0/2)...)
}

// roundEnd is a half circle at a run's end.
func roundEnd(end, ahead pt, radius float64) shape {
	out := shape{}
	for i := 1; i < 6; i++ {
		a := math.Pi * (0.5 - float64(i)/6)
		out = append(out, end.add(ahead.mul(math.Cos(a)*radius)).add(ahead.left().mul(math.Sin(a)*radius)))
	}
	return out
}

// oval is an ellipse turned by an angle.
func oval(c pt, rx, ry, turn float64) shape {
	out := make(shape, 0, 40)
	u, v := toward(turn), toward(turn).left()
	for i := 0; i < 40; i++ {
		a := 2 * math.Pi * float64(i) / 40
		out = append(out, c.add(u.mul(rx*math.Cos(a))).add(v.mul(ry*math.Sin(a))))
	}
	return out
}

func box(x0, y0, x1, y1 float64) shape { return shape{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}} }

// view turns centimetres of a plant into points of the picture.
type view struct {
	origin pt      // where the plant's 0, 0 lies
	scale  float64 // points of the picture in one centimetre
}

func (v view) of(p pt) pt { return v.origin.add(p.mul(v.scale)) }

func (v view) line(l line) line {
	out := make(line, len(l))
	for i, p := range l {
		out[i] = v.of(p)
	}
	return out
}
func (v view) shape(s shape) shape { return shape(v.line(line(s))) }

// extent is the box round some points.
type extent struct{ lo, hi pt }

func (e *extent) hold(ps ...pt) {
	for _, p := range ps {
		e.lo = pt{math.Min(e.lo.x, p.x), math.Min(e.lo.y, p.y)}
		e.hi = pt{math.Max(e.hi.x, p.x), math.Max(e.hi.y, p.y)}
	}
}
