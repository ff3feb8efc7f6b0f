package main

import "math"

// ground paints where the picture is taken, up to the height at which things
// stand.
func (f *frame) ground(s setting, foot float64, seed string) {
	w, h := float64(f.w), float64(f.h)
	r := chance(seed, "ground")
	switch s {
	case paper:
		f.darkPaper(seed)
	case tote, cool:
		top, low, far := hex(0xcdd9dd), hex(0x93a7ae), hex(0x6f8f68)
		if s == cool {
			top, low, far = hex(0xa9bcc6), hex(0x6c8491), hex(0x56705f)
		}
		f.wash(fall(top, low, 0, h))
		// neighbours, out of focus behind the mist
		for i := 0; i < 5; i++ {
			x := w * (0.05 + 0.23*float64(i) + 0.06*r.Float64())
			f.haze(oval(pt{x, foot - 150 - 60*r.Float64()}, 46+30*r.Float64(), 56+40*r.Float64(), r.Float64()), 22, flat(far, 0.34))
			f.haze(box(x-40, foot-110, x+40, foot-8), 13, flat(hex(0x7d7a52), 0.3))
		}
		f.haze(box(-80, foot, w+80, h+80), 8, fall(hex(0x7f9097), hex(0x5f7078), foot, h))
		for _, y := range []float64{0.17, 0.5} { // ribs of the wall
			f.haze(box(-60, h*y, w+60, h*y+7), 3, flat(hex(0xeaf1f3), 0.3))
			f.haze(box(-60, h*y+9, w+60, h*y+15), 3, flat(hex(0x5f747c), 0.2))
		}
		if s == tote {
			f.haze(oval(pt{w * 0.34, -40}, 330, 110, 0), 60, flat(hex(0xfffdf4), 0.62))
		}
		wall := f.cover(box(0, 0, w, foot))
		f.droplets(r, wall, 620, 3.2, 0.5)
		f.droplets(r, wall, 60, 7, 0.55)
		for i := 0; i < 9; i++ { // drops that have run
			x, y := w*r.Float64(), h*0.5*r.Float64()
			run := bow(pt{x, y}, math.Pi/2, 60+150*r.Float64(), 0.12*(r.Float64()-0.5), 12)
			f.fill(run.stroke(1, 3.4), flat(hex(0xf2f7f8), 0.26))
		}
	case cabinet:
		f.wash(fall(hex(0x6f7a7c), hex(0x39444a), 0, h))
		f.haze(oval(pt{w * 0.56, -70}, 380, 190, 0), 80, flat(hex(0xfff1d4), 0.78))
		f.haze(box(w*0.06, -80, w*0.105, h+80), 6, flat(hex(0x272f34), 0.75))
		f.haze(box(w*0.113, -80, w*0.12, h+80), 2, flat(hex(0xe6eef0), 0.4))
		f.haze(box(w*0.93, -80, w*1.2, h+80), 9, flat(hex(0x272f34), 0.5))
		for i := 0; i < 4; i++ {
			x := w * (0.2 + 0.22*float64(i) + 0.05*r.Float64())
			f.haze(oval(pt{x, foot - 120 - 70*r.Float64()}, 40+28*r.Float64(), 60+40*r.Float64(), r.Float64()), 18, flat(hex(0x41583c), 0.5))
		}
		// the glass shelf, and the gravel tray below it
		f.haze(box(-50, foot+26, w+50, h+90), 5, flat(hex(0x3d4447), 0.9))
		c := f.cover(box(0, foot+44, w, h))
		for i := 0; i < 420; i++ {
			at := pt{w * r.Float64(), foot + 44 + (h-foot-40)*r.Float64()}
			f.paint(f.cover(oval(at, 5+6*r.Float64(), 4+4*r.Float64(), r.Float64())).softened(2, pt{}).within(c), flat(hex(0x6c7173).to(hex(0xb0b1ab), r.Float64()), 0.55))
		}
		f.fill(box(0, foot-2, w, foot+14), flat(hex(0xbcd0cc), 0.42))
		f.fill(box(0, foot+14, w, foot+20), flat(hex(0x3f6a62), 0.75))
		f.fill(box(0, foot-3, w, foot-1), flat(hex(0xf2fbf8), 0.7))
	case sill:
		// a wet hillside, and rain between it and us
		f.wash(fall(hex(0xdfe6ea), hex(0xb4c0c4), 0, foot*0.5))
		var ridge shape
		for i := 0; i <= 60; i++ {
			x := w * float64(i) / 60
			ridge = append(ridge, pt{x, foot*(0.24+0.16*float64(i)/60) - 70*cloud(x/190, 2, 3) + 9*cloud(x/17, 5, 4)})
		}
		f.haze(append(ridge, pt{w + 90, foot}, pt{-90, foot}), 5, func(x, y float64) (rgb, float64) {
			n := cloud(x/46, y/30, 8)*0.6 + cloud(x/15, y/13, 9)*0.4
			return hex(0x70807a).to(hex(0x46564e), n).to(hex(0xb9c4c6), 0.5*smooth(foot*0.5, foot*0.12, y)), 0.92
		})
		for i := 0; i < 260; i++ {
			x, y := w*r.Float64(), foot*r.Float64()
			f.fill(line{{x, y}, {x - 3, y + 16 + 20*r.Float64()}}.stroke(1, 0.7), flat(hex(0xf2f6f8), 0.2))
		}
		f.haze(box(w*0.8, -70, w*0.84, foot), 2, fall(hex(0xf1f3f2), hex(0xd6dbdb), 0, foot))
		f.fill(box(w*0.84, 0, w*0.846, foot), flat(hex(0x6f7b80), 0.5))
		f.haze(box(-60, foot-14, w+60, foot+6), 2, flat(hex(0xe7eaea), 1))
		f.fill(box(0, foot+4, w, h), fall(hex(0xe9ebe9), hex(0xb9c0c2), foot, h))
		f.haze(box(-60, foot+2, w+60, foot+9), 3, flat(hex(0x6e7a80), 0.3))
	case room:
		f.wash(fall(hex(0xc4cacb), hex(0xaab2b4), 0, h))
		f.haze(shape{{-100, -100}, {w * 0.55, -100}, {w * 0.2, foot}, {-100, foot}}, 60, flat(hex(0xeef3f5), 0.6))
		f.haze(box(w*0.72, 60, w*0.98, foot*0.56), 2, flat(hex(0x8c979b), 0.5)) // a picture on the wall
		f.haze(box(w*0.735, 74, w*0.965, foot*0.54), 1, flat(hex(0xd3d9d8), 0.8))
		f.fill(box(0, foot, w, h), func(x, y float64) (rgb, float64) {
			n := cloud(x/120, y/3.5, 12)
			return hex(0x9a7c5c).to(hex(0x6a513b), 0.5*n+0.4*smooth(foot, h, y)), 1
		})
	}
	// the corners fall off a little
	for i := range f.pix {
		x, y := float64(i%f.w)/w-0.5, float64(i/f.w)/h-0.5
		f.pix[i] = f.pix[i].to(hex(0x0f171b), 0.3*smooth(0.16, 0.56, x*x+y*y))
	}
}

// darkPaper paints a sheet of dark paper on a table.
func (f *frame) darkPaper(seed string) {
	w, h := float64(f.w), float64(f.h)
	f.wash(func(x, y float64) (rgb, float64) { // the table
		n := cloud(x/150, y/4, 21)*0.6 + cloud(x/60, y/2, 22)*0.4
		return hex(0xa89478).to(hex(0x7c6850), n), 1
	})
	var sheet shape
	edge := func(from, to pt) {
		for i := 0; i < 50; i++ {
			t := float64(i) / 50
			p := from.add(to.sub(from).mul(t))
			sheet = append(sheet, p.add(pt{3 * (cloud(t*9+from.x, from.y, 31) - 0.5), 3 * (cloud(t*9, from.x+from.y, 32) - 0.5)}))
		}
	}
	tilt := 8 * (chance(seed, "tilt").Float64() - 0.5)
	a, b, c, d := pt{26, 22 + tilt}, pt{w - 24, 24 - tilt}, pt{w - 28, h - 22 - tilt}, pt{22, h - 24 + tilt}
	edge(a, b)
	edge(b, c)
	edge(c, d)
	edge(d, a)
	cover := f.cover(sheet)
	f.shadow(cover, 7, pt{4, 7}, 0.6)
	f.paint(cover, func(x, y float64) (rgb, float64) {
		n := cloud(x/3, y/3, 41)*0.5 + cloud(x/40, y/30, 42)*0.5
		lit := smooth(1.4, 0, (x/w)*0.7+(y/h)*0.7)
		return hex(0x252b31).to(hex(0x454e55), 0.55*lit+0.22*(n-0.5)), 1
	})
	r := chance(seed, "fibres")
	for i := 0; i < 170; i++ {
		run := bow(pt{w * r.Float64(), h * r.Float64()}, 6*r.Float64(), 8+22*r.Float64(), 2*(r.Float64()-0.5), 8)
		f.paint(f.cover(run.stroke(0.8, 0.8)).within(cover), flat(hex(0xaab4b8), 0.13))
	}
}
