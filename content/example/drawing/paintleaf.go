package main

import (
	"math"
)

// light comes from above and the left, as from a north window.
var light = pt{-0.55, -0.83}

// leaf paints one leaf: its shadow, its two halves, veins, rim and gloss.
func (f *frame) leaf(v view, l leaf, k kind, dim float64) {
	if k.form == pinnate || k.form == filmy {
		f.frond(v, l, k, dim)
		return
	}
	if k.form == pedate {
		toe := k
		toe.form, toe.net = lanceolate, 0
		for _, a := range []float64{-1.5, 1.5, -0.75, 0.75, 0} {
			part := l
			part.angle += a * l.face
			part.length *= 1 - 0.26*math.Abs(a)
			part.width *= 0.36
			part.seed += int(10 * a)
			f.leaf(v, part, toe, dim)
		}
		return
	}
	whole := f.cover(v.shape(l.outline(k.form, 0)))
	if whole.w == 0 {
		return
	}
	r := chance(string(rune(l.seed)), "leaf")
	f.shadow(whole, max(2, int(v.scale*0.16)), pt{v.scale * 0.1, v.scale * 0.22}, 0.42)

	base, dark := k.leaf, k.dark
	tint := 0.1 * (r.Float64() - 0.5)
	base = base.to(hex(0xd8d27a), clamp(tint, 0, 1)).to(dark, clamp(-tint*2, 0, 1))
	if l.droop > 0 {
		base, dark = base.to(hex(0x8b8653), 0.28*l.droop).grey(0.2*l.droop), dark.grey(0.15*l.droop)
	}
	base, dark = base.to(hex(0x8fa3ad), dim), dark.to(hex(0x6f838d), dim)
	tip, _ := l.rib().at(1)
	b, t := v.of(l.base), v.of(tip)
	along := t.sub(b)
	size := math.Max(along.length(), 1)
	seed := l.seed
	f.paint(whole, func(x, y float64) (rgb, float64) {
		p := pt{x, y}.sub(b)
		u := (p.x*along.x + p.y*along.y) / (size * size)
		lit := (p.x*light.x + p.y*light.y) / size
		n := cloud(x/(0.09*size), y/(0.09*size), seed)*0.6 + cloud(x/(0.03*size), y/(0.03*size), seed+1)*0.4
		c := base.to(dark, clamp(0.28+0.3*u-0.35*lit+0.26*(n-0.5), 0, 1))
		return c, 1
	})
	// the half away from the light lies in its own shade
	_, d := l.rib().at(0.4)
	away := 1
	if d.left().x*light.x+d.left().y*light.y > 0 {
		away = -1
	}
	f.paint(f.cover(v.shape(l.outline(k.form, away))).within(whole), flat(k.dark.to(hex(0x10181c), 0.35), 0.3))
	if k.patch > 0 {
		f.patches(v, l, k, whole)
	}
	lines, widths := l.veins(k, r)
	for i, run := range lines {
		w := math.Max(widths[i]*v.scale, 0.7)
		a := 0.8
		if w < 1 {
			a = 0.6
		}
		c := k.vein.to(hex(0x8fa3ad), dim)
		if k.net > 0.9 && k.habit == creeper {
			f.paint(f.cover(v.line(run).stroke(w*2.6, w)).within(whole), flat(c, 0.18))
		}
		f.paint(f.cover(v.line(run).stroke(w, w*0.35)).within(whole), flat(c, a))
	}
	// rim
	edge := v.shape(l.outline(k.form, 0))
	ring := line(append(edge, edge[0]))
	w := clamp(0.035*l.width*v.scale, 1, 4.5)
	f.paint(f.cover(ring.stroke(w, w)).within(whole), flat(k.rim.to(hex(0x6f838d), dim), 0.62))
	// gloss: a soft stripe on the half that faces the light
	for _, s := range []float64{0.34} {
		var run line
		for i := 4; i <= 18; i++ {
			u := float64(i) / 24
			p, d := l.rib().at(u)
			run = append(run, v.of(p.add(d.left().mul(-float64(away)*s*l.width/2*l.face*k.form.half(u, true)))))
		}
		g := l.width * v.scale * 0.16 * l.face
		c := f.cover(run.stroke(g*0.5, g)).softened(max(1, int(g*0.35)), pt{}).within(whole)
		f.paint(c, flat(hex(0xe9f2f5), 0.62*k.gloss*(1-0.55*l.droop)*(1-dim)))
	}
}

// patches are silver splashes, or the pale middle of a leaf.
func (f *frame) patches(v view, l leaf, k kind, whole *cover) {
	r := chance(string(rune(l.seed)), "patch")
	n := int(14 * k.patch)
	for i := 0; i < n; i++ {
		u, s := 0.1+0.8*r.Float64(), 2*r.Float64()-1
		p, d := l.rib().at(u)
		at := v.of(p.add(d.left().mul(s * 0.85 * l.width / 2 * l.face * k.form.half(u, true))))
		size := v.scale * l.width * (0.02 + 0.05*r.Float64())
		c := hex(0xc3cdb9)
		if k.habit == cane {
			c = hex(0xb5483f) // red spots
		}
		f.paint(f.cover(oval(at, size*1.5, size, math.Atan2(d.y, d.x))).within(whole), flat(c, 0.55))
	}
}

// frond paints a frond of leaflets on a stalk.
func (f *frame) frond(v view, l leaf, k kind, dim float64) {
	rib := l.rib()
	n := int(clamp(l.length*1.5, 8, 15))
	part := kind{habit: cane, form: elliptic, leaf: k.leaf, dark: k.dark, vein: k.leaf.to(k.dark, 0.6), rim: k.rim, gloss: k.gloss}
	paintOne := func(p pt, angle, length, width float64, i int) {
		s := leaf{base: p, angle: angle, length: length, width: width, bend: 0.25 * l.droop, face: 1, droop: l.droop, seed: l.seed + i}.outline(elliptic, 0)
		c := f.cover(v.shape(s))
		if c.w == 0 {
			return
		}
		a := 1.0
		if k.form == filmy {
			a = 0.6
		} else {
			f.shadow(c, max(1, int(v.scale*0.06)), pt{v.scale * 0.04, v.scale * 0.1}, 0.3)
		}
		base := part.leaf.to(hex(0x8b8653), 0.3*l.droop).to(hex(0x8fa3ad), dim)
		t := speck(i, l.seed, 3)
		f.paint(c, flat(base.to(part.dark, 0.25+0.5*t), a))
		f.paint(f.cover(v.line(bow(p, angle, length*0.9, 0, 3)).stroke(math.Max(0.8, 0.02*v.scale), 0.5)).within(c), flat(part.leaf.to(hex(0xdfe8c8), 0.3), 0.5))
	}
	f.fill(v.line(rib).stroke(math.Max(1.4, 0.07*v.scale), 0.7), flat(k.vein.to(k.stem, 0.3), 0.9))
	for i := 0; i < n; i++ {
		t := 0.14 + 0.84*float64(i)/float64(n)
		p, d := rib.at(t)
		turn := math.Atan2(d.y, d.x)
		// broad low down, narrow at the tip: a triangle with a soft base
		w := l.width / 2 * l.face * math.Pow(1-t, 0.8) * smooth(0.02, 0.22, t) * 1.3
		step := l.length * 0.84 / float64(n)
		for _, s := range []float64{-1, 1} {
			a := turn + s*(1.1-0.4*t) + 0.15*l.droop*s
			if k.name() == "comb" {
				paintOne(p, a, w, math.Max(0.42*w, step), 2*i+int(s))
				continue
			}
			// each leaflet is cut again
			axis := bow(p, a, w, -s*0.25, 8)
			f.fill(v.line(axis).stroke(math.Max(1, 0.035*v.scale), 0.7), flat(k.dark.to(hex(0x8fa3ad), dim), 0.9))
			m := int(clamp(w/(step*0.62), 2, 5))
			for j := 0; j < m; j++ {
				u := (float64(j) + 0.25) / float64(m)
				q, e := axis.at(u)
				out := math.Atan2(e.y, e.x)
				long := math.Max(step*0.8, w*0.26) * (1 - 0.5*u)
				for _, z := range []float64{-1, 1} {
					paintOne(q, out+z*0.62, long, long*0.58, 31*i+3*j+int(z))
				}
			}
			end, _ := axis.at(0.86)
			paintOne(end, a-s*0.25, step*0.7, step*0.32, 31*i+29)
		}
	}
}

// name tells the two sorts of frond apart: a comb of simple leaflets, or one
// that is cut twice.
func (k kind) name() string {
	if k.habit == tuft {
		return "comb"
	}
	return "cut twice"
}
