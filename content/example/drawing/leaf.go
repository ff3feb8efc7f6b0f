package main

import (
	"math"
	"math/rand/v2"
)

// form is a leaf's outline.
type form int

const (
	elliptic form = iota
	lanceolate
	wavy
	heart
	rhomb
	round
	ovate
	begonia // lopsided, heart-shaped, with a lobe behind the stalk
	strap
	lobed   // a strap cut into lobes
	pinnate // a frond of leaflets
	filmy   // a frond of leaflets that light passes through
	pedate  // lobes like the toes of a bird
)

// leaf is one leaf where it hangs, in centimetres.
type leaf struct {
	base   pt
	angle  float64 // its direction at the base
	length float64
	width  float64
	bend   float64 // how far it turns on its way to the tip, radians
	face   float64 // how much of its width faces us
	flip   bool    // the broader half on the other side
	droop  float64
	seed   int
	back   bool // behind the stem
}

// half gives the half width of a form at a share of its length, for one side,
// as a share of half the leaf's width.
func (f form) half(t float64, broad bool) float64 {
	bell := func(peak float64) float64 {
		// a hump that is 1 at peak and 0 at both ends
		k := math.Log(0.5) / math.Log(peak)
		return math.Pow(math.Sin(math.Pi*math.Pow(t, k)), 0.85)
	}
	switch f {
	case lanceolate:
		return bell(0.42) * (1 - 0.12*t)
	case wavy:
		return bell(0.48) * (1 + 0.09*math.Sin(t*19))
	case heart:
		return bell(0.3)
	case rhomb:
		return 0.55*bell(0.42) + 0.45*(1-math.Abs(t-0.42)/math.Max(0.42, 0.58*smooth(0.42, 0.43, t)))
	case round:
		return math.Sqrt(math.Max(0, 1-(2*t-1)*(2*t-1)))
	case ovate:
		return bell(0.36)
	case strap:
		return math.Pow(math.Sin(math.Pi*math.Pow(t, 0.62)), 0.45) * (1 + 0.07*math.Sin(t*30))
	case lobed:
		return bell(0.34) * (0.68 + 0.32*math.Cos(t*44))
	}
	return bell(0.46)
}

// rib is the leaf's midrib.
func (l leaf) rib() line { return bow(l.base, l.angle, l.length, l.bend, 24) }

// lobes tells how far a heart-shaped or lopsided leaf reaches back behind its
// stalk, as a share of its length, and how wide that side is.
func (f form) lobes(broad bool) (back, wide float64) {
	switch {
	case f == begonia && broad:
		return 0.24, 1.2
	case f == begonia:
		return 0.1, 0.82
	case f == heart:
		return 0.09, 1
	}
	return 0, 1
}

// side is one edge of the leaf from its stalk to its tip, in centimetres, at a
// share of the half width.
func (l leaf) side(f form, s, share float64) line {
	rib := l.rib()
	broad := (s > 0) != l.flip
	w := l.width / 2 * l.face * share
	back, wide := f.lobes(broad)
	ruffle := 0.05 * l.droop
	_, d0 := rib.at(0)
	var out line
	for i := 0; i <= 56; i++ {
		t := float64(i) / 56
		var h float64
		p, d := rib.at(t)
		if back > 0 {
			// an ellipse from behind the stalk to the widest point, then a long
			// hollow run to the tip
			const broadest = 0.26
			u := mix(-back, 1, t)
			if u < 0 {
				p, d = l.base.add(d0.mul(u*l.length)), d0
			} else {
				p, d = rib.at(u)
			}
			if u < broadest {
				k := (broadest - u) / (broadest + back)
				h = math.Sqrt(math.Max(0, 1-k*k))
			} else {
				k := (u - broadest) / (1 - broadest)
				h = 1 - math.Pow(k, 1.55)
				h = mix(h, h*h, smooth(0.55, 1, k)*0.5)
			}
			h *= wide
			if f == begonia {
				h *= 1 + 0.03*math.Sin(u*37+float64(l.seed%6))
			}
		} else {
			h = f.half(t, broad)
		}
		h *= 1 + ruffle*math.Sin(t*21+float64(l.seed%7)) + 0.02*math.Sin(t*9+float64(l.seed%5))
		out = append(out, p.add(d.left().mul(s*w*h)))
	}
	if back > 0 { // the notch at the stalk
		out[0] = l.base
		out[1] = out[1].add(d0.left().mul(s * w * 0.1))
	}
	return out
}

// outline is the leaf's edge, in centimetres; side 0 is the whole leaf, -1 and
// +1 the halves beside the midrib.
func (l leaf) outline(f form, side int) shape {
	half := func(s float64) line {
		if float64(side) == -s {
			return l.rib()
		}
		return l.side(f, s, 1)
	}
	out := shape(half(-1))
	other := half(1)
	for i := len(other) - 1; i >= 0; i-- {
		out = append(out, other[i])
	}
	return out
}

// veins are the leaf's nerves, in centimetres, with a width each at the base.
func (l leaf) veins(k kind, r *rand.Rand) (lines []line, widths []float64) {
	rib := l.rib()
	add := func(w float64, ps ...pt) { lines, widths = append(lines, line(ps)), append(widths, w) }
	w := l.width / 2 * l.face
	fine := clamp(0.009*l.length, 0.012, 0.07)
	switch {
	case k.net < 0: // stripes along the leaf
		n := 3
		for s := -n; s <= n; s++ {
			if s == 0 {
				continue
			}
			var run line
			for i := 2; i <= 20; i++ {
				t := float64(i) / 22
				p, d := rib.at(t)
				run = append(run, p.add(d.left().mul(w*k.form.half(t, true)*float64(s)/(float64(n)+0.8))))
			}
			lines, widths = append(lines, run), append(widths, fine*2.4*-k.net)
		}
	case k.habit == creeper: // nerves from base to tip, and a net between them
		n := 2
		if k.net > 0.5 {
			n = 3
		}
		for s := -n; s <= n; s++ {
			var run line
			for i := 0; i <= 20; i++ {
				t := float64(i) / 20
				p, d := rib.at(t)
				run = append(run, p.add(d.left().mul(w*k.form.half(t, true)*float64(s)/(float64(n)+0.55))))
			}
			lines, widths = append(lines, run), append(widths, fine*1.3)
		}
		if k.net > 0.5 {
			cells := int(16 * k.net)
			for s := -n; s < n; s++ {
				for i := 1; i < cells; i++ {
					t := (float64(i) + 0.6*(r.Float64()-0.5)) / float64(cells)
					p, d := rib.at(t)
					q, e := rib.at(clamp(t+0.05*(r.Float64()-0.3), 0, 1))
					h := w * k.form.half(t, true) / (float64(n) + 0.55)
					add(fine*0.7, p.add(d.left().mul(h*float64(s))), q.add(e.left().mul(h*float64(s+1))))
				}
			}
		}
	case k.form == begonia || k.habit == clump: // from the stalk outward, forking
		for _, s := range []float64{-1, 1} {
			broad := (s > 0) != l.flip
			edge := l.side(k.form, s, 1)
			ends := []float64{0.16, 0.3, 0.45, 0.63}
			if !broad {
				ends = []float64{0.24, 0.42, 0.6}
			}
			for _, t := range ends {
				end, _ := edge.at(t)
				toEnd := end.sub(l.base)
				bulge := toEnd.left().mul(-s * 0.09)
				var run line
				for i := 0; i <= 10; i++ {
					u := float64(i) / 10
					run = append(run, l.base.add(toEnd.mul(u)).add(bulge.mul(4*u*(1-u))))
				}
				lines, widths = append(lines, run[:11]), append(widths, fine*1.8)
				for _, u := range []float64{0.34, 0.5, 0.66, 0.8} {
					p, d := run.at(u)
					turn := math.Atan2(d.y, d.x)
					for _, z := range []float64{-1, 1} {
						add(fine*0.8, bow(p, turn+z*0.7, toEnd.length()*0.24*k.net*(1.15-u), -z*0.3, 4)...)
					}
				}
			}
		}
		fallthrough
	default: // a midrib and side veins
		for t := 0.18; t < 0.9; t += 0.11 {
			if k.net < 0.12 {
				break
			}
			p, d := rib.at(t)
			turn := math.Atan2(d.y, d.x)
			for _, s := range []float64{-1, 1} {
				add(fine*(0.5+0.7*k.net), bow(p, turn+s*0.85, w*k.form.half(t, true)*1.05, -s*0.45, 6)...)
			}
		}
	}
	lines, widths = append(lines, rib[:23]), append(widths, fine*2)
	return lines, widths
}
