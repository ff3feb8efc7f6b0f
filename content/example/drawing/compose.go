package main

import "math"

const width, height = 800, 600

// bare paints a plant without pot or moss, on dark paper.
func bare(p plant) *frame {
	f := newFrame(width, height)
	f.ground(paper, 0, p.id)
	k := kindOf(p.name)
	b := lay(p, false)
	v := fit(b.extent(k), extent{pt{70, 62}, pt{730, 492}}, 58)
	if p.dead {
		k = k.dead()
	}
	f.body(v, b, k, 0)
	f.ruler(v.scale)
	f.slip(p, p.name)
	return f
}

// fit gives the view that holds an extent inside a box, no larger than most
// points a centimetre.
func fit(e, in extent, most float64) view {
	size, room := e.hi.sub(e.lo), in.hi.sub(in.lo)
	scale := math.Min(most, math.Min(room.x/size.x, room.y/size.y))
	mid, at := e.lo.add(e.hi).mul(0.5), in.lo.add(in.hi).mul(0.5)
	return view{at.sub(mid.mul(scale)), scale}
}

// standing paints a plant in its cup or pot, where it stands.
func standing(p plant, s setting) *frame {
	f := newFrame(width, height)
	k := kindOf(p.name)
	b := lay(p, true)
	e := b.extent(k)
	within := extent{pt{80, 44}, pt{720, 520}}
	if s == tote || s == cool {
		e.hold(pt{-rimHalf, 0}, pt{rimHalf, below * 0.55})
	} else { // the whole cup, and what it stands on
		e.hold(pt{-rimHalf, 0}, pt{rimHalf, below})
		within.hi.y = 528
	}
	most := 52.0
	if e.lo.y > -2.2 { // small things are looked at from close by
		most = 74
	}
	v := fit(e, within, most)
	// the cup stands on the ground, or is cut off by the picture's foot
	foot := math.Min(v.of(pt{0, below}).y, height-26)
	if cut := v.of(pt{0, below}).y - foot; cut > 0 {
		foot += math.Min(cut, 60)
	}
	f.ground(s, foot, p.id)
	if s == sill || s == room { // short days
		f.wash(flat(hex(0x14202e), 0.42*p.dusk))
	}
	f.vesselBack(v, p)
	f.tag(v, p)
	if p.dead {
		k = k.dead()
	}
	wet := s == tote || s == cool
	rim := splitAtRim(&b)
	f.body(v, b, k, 0)
	f.vesselFront(v, p, wet)
	f.body(v, rim, k, 0)
	f.air(s, p.id)
	return f
}

// splitAtRim takes out of a body what hangs over the rim, in front of the cup.
func splitAtRim(b *body) body {
	var over, keep body
	for _, l := range b.leaves {
		tip, _ := l.rib().at(1)
		if l.base.y > -0.6 && math.Abs(l.base.x) > 1.2 || tip.y > -0.2 && l.base.y > -3 {
			over.leaves = append(over.leaves, l)
		} else {
			keep.leaves = append(keep.leaves, l)
		}
	}
	for _, s := range b.sticks {
		end := s.run[len(s.run)-1]
		if end.y > 0.6 && !s.root {
			over.sticks = append(over.sticks, s)
		} else {
			keep.sticks = append(keep.sticks, s)
		}
	}
	*b = keep
	return over
}

// air lays what is between the plant and us: mist and drops in a tote, a gleam
// on a cabinet's glass.
func (f *frame) air(s setting, seed string) {
	r := chance(seed, "air")
	w, h := float64(f.w), float64(f.h)
	switch s {
	case tote, cool:
		f.haze(box(-80, h*0.82, w+80, h+80), 40, flat(hex(0xdce6e9), 0.3))
		f.droplets(r, f.cover(box(0, 0, w, h)), 26, 8, 0.45)
	case cabinet:
		f.haze(shape{{w * 0.62, -60}, {w * 0.7, -60}, {w * 0.42, h + 60}, {w * 0.34, h + 60}}, 6, flat(hex(0xf4fbfb), 0.07))
		f.haze(shape{{w * 0.73, -60}, {w * 0.75, -60}, {w * 0.47, h + 60}, {w * 0.45, h + 60}}, 4, flat(hex(0xf4fbfb), 0.07))
	}
}
