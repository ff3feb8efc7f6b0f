package main

import "math"

// stick paints a stem, stalk, rhizome or root: a round body, lit from the left.
func (f *frame) stick(v view, s stick, dim float64) {
	run := v.line(s.run)
	w0, w1 := math.Max(s.w0*v.scale, 1.1), math.Max(s.w1*v.scale, 0.8)
	c := f.cover(run.stroke(w0, w1))
	f.shadow(c, max(1, int(v.scale*0.07)), pt{v.scale * 0.05, v.scale * 0.12}, 0.38)
	base := s.colour.to(hex(0x8fa3ad), dim)
	f.paint(c, func(x, y float64) (rgb, float64) {
		n := cloud(x/(0.14*v.scale+1), y/(0.14*v.scale+1), 5)
		return base.to(hex(0x2a221c), 0.34*(n-0.3)), 1
	})
	if w0 < 3 {
		return
	}
	off := pt{w0 * 0.2, w0 * 0.26}
	var low, high line
	for _, p := range run {
		low, high = append(low, p.add(off)), append(high, p.sub(off.mul(0.8)))
	}
	f.paint(f.cover(low.stroke(w0*0.62, w1*0.62)).softened(max(1, int(w0*0.12)), pt{}).within(c), flat(hex(0x1a1712), 0.38))
	f.paint(f.cover(high.stroke(w0*0.24, w1*0.24)).softened(max(1, int(w0*0.1)), pt{}).within(c), flat(hex(0xf0efe2), 0.3))
	if s.bumpy && w0 > 6 {
		r := chance("bumps", s.colour.key())
		for i := 0; i < 26; i++ {
			p, d := run.at(r.Float64())
			at := p.add(d.left().mul(w0 * 0.8 * (r.Float64() - 0.5)))
			f.paint(f.cover(oval(at, w0*0.07, w0*0.045, math.Atan2(d.y, d.x))).within(c), flat(hex(0x3a2f22), 0.45))
		}
	}
}

func (c rgb) key() string { return string(rune(int(c.r*255)<<16 | int(c.g*255)<<8&0xffff)) }

// body paints a plant: roots, what stands behind, stems, what stands before.
func (f *frame) body(v view, b body, k kind, dim float64) {
	for _, s := range b.sticks {
		if s.root {
			f.stick(v, s, dim)
		}
	}
	for _, l := range b.leaves {
		if l.back {
			f.leaf(v, l, k, dim+0.06)
		}
	}
	for _, s := range b.sticks {
		if !s.root {
			f.stick(v, s, dim)
		}
	}
	for _, l := range b.leaves {
		if !l.back {
			f.leaf(v, l, k, dim)
		}
	}
}

// dead paints a plant's colours black and brown, as one that came to nothing.
func (k kind) dead() kind {
	black := hex(0x1c1713)
	k.leaf, k.dark, k.vein, k.rim = k.leaf.to(black, 0.82), black, k.vein.to(black, 0.75), black
	k.stem, k.gloss, k.patch = hex(0x40301f), 0.9, 0
	return k
}
