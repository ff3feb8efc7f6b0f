package main

// spread paints several plants, or the pieces of one, side by side on one sheet
// of dark paper, all to one scale, with a pencil.
func spread(group []seen) *frame {
	f := newFrame(width, height)
	f.ground(paper, 0, group[0].id+"spread")
	bodies := make([]body, len(group))
	var wide, tall float64
	for i, g := range group {
		bodies[i] = upright(lay(g.plant, false))
		e := bodies[i].extent(kindOf(g.name))
		wide += e.hi.x - e.lo.x
		tall = max(tall, e.hi.y-e.lo.y)
	}
	// they may overlap by a quarter, as on a full table
	scale := min(46, 660*1.25/wide, 425/tall)
	x := 400 - wide*scale/1.25/2
	for i, g := range group {
		k := kindOf(g.name)
		e := bodies[i].extent(k)
		step := (e.hi.x - e.lo.x) * scale / 1.25
		mid := pt{x + step/2, 274}
		x += step
		f.body(view{mid.sub(e.lo.add(e.hi).mul(scale / 2)), scale}, bodies[i], k, 0)
	}
	f.ruler(scale)
	f.pencil()
	return f
}

// upright turns a body that lies along the sheet so that it points up it.
func upright(b body) body {
	turn := func(p pt) pt { // by a right angle less the slant that it was laid with
		const c, s = 0.48, 0.88
		return pt{p.x*c + p.y*s, p.y*c - p.x*s}
	}
	for i := range b.sticks {
		run := make(line, len(b.sticks[i].run))
		for j, p := range b.sticks[i].run {
			run[j] = turn(p)
		}
		b.sticks[i].run = run
	}
	for i := range b.leaves {
		b.leaves[i].base = turn(b.leaves[i].base)
		b.leaves[i].angle -= 1.07
	}
	return b
}

// pencil lays a pencil along the foot of the sheet.
func (f *frame) pencil() {
	from, to := pt{400, 536}, pt{712, 524}
	along := to.sub(from)
	body := line{from, from.add(along.mul(0.88))}
	c := f.cover(body.stroke(12, 12))
	f.shadow(c, 4, pt{3, 5}, 0.6)
	f.paint(c, fall(hex(0x7d9199), hex(0x41535b), 524, 542))
	point := body[1]
	side := along.unit().left()
	cone := f.cover(shape{point.add(side.mul(6)), to, point.sub(side.mul(6))})
	f.shadow(cone, 3, pt{3, 5}, 0.5)
	f.paint(cone, flat(hex(0xd9c09a), 1))
	near := point.add(to.sub(point).mul(0.7))
	f.fill(shape{near.add(side.mul(1.8)), to, near.sub(side.mul(1.8))}, flat(hex(0x2b2f33), 1))
}

// row paints several cups beside one another in the tote, its lid ajar.
func row(group []seen) *frame {
	f := newFrame(width, height)
	const foot, scale = 520.0, 17.0
	f.ground(tote, foot, "row")
	f.haze(box(-60, -60, width+60, 34), 3, flat(hex(0xe9f0f2), 0.75)) // the lid's edge
	f.fill(box(0, 34, width, 38), flat(hex(0x5f747c), 0.4))
	n := len(group)
	for i, g := range group {
		x := 95 + (width-190)*float64(i)/float64(n-1)
		y := foot - below*scale
		if i%2 == 1 { // every second one stands in the row behind
			y -= 26
		}
		v := view{pt{x, y}, scale}
		k := kindOf(g.name)
		b := lay(g.plant, true)
		f.vesselBack(v, g.plant)
		over := splitAtRim(&b)
		f.body(v, b, k, 0.08*float64(i%2))
		f.vesselFront(v, g.plant, true)
		f.body(v, over, k, 0)
	}
	f.air(tote, "row")
	return f
}
