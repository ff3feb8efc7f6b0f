package main

import "math"

// A cup is 7.6 cm wide at the rim, 5.6 at the foot and 7.5 high; 0, 0 of the
// plant stands in the middle of the moss, 0.7 cm below the rim.
const (
	rimHalf, footHalf = 3.8, 2.8
	rimAbove, below   = 0.7, 6.8
)

func cupHalf(y float64) float64 { return mix(rimHalf, footHalf, (y+rimAbove)/(below+rimAbove)) }

// vesselBack paints what lies behind the plant: the far rim, and the moss or mix
// that the plant stands in.
func (f *frame) vesselBack(v view, p plant) {
	if p.medium == "bark mix" {
		f.potBack(v)
		return
	}
	wall := shape{{-rimHalf, -rimAbove}, {rimHalf, -rimAbove}, {footHalf, below}, {-footHalf, below}}
	c := f.cover(v.shape(wall))
	f.paint(f.cover(v.shape(oval(pt{0.5, below}, footHalf*1.25, 0.5, 0))).softened(int(v.scale*0.25)+1, pt{}), flat(hex(0x0d1519), 0.5))
	f.paint(c, flat(hex(0xdfe8ea), 0.3))
	f.fill(v.shape(oval(pt{0, -rimAbove}, rimHalf, 0.62, 0)), flat(hex(0xeef4f5), 0.35))
	moss := shape{}
	for i := 0; i <= 40; i++ {
		x := mix(-cupHalf(0), cupHalf(0), float64(i)/40)
		moss = append(moss, pt{x, -0.28*math.Sin(math.Pi*float64(i)/40) - 0.16*cloud(x*1.7, 3, 2)})
	}
	moss = append(moss, pt{footHalf + 0.02, below - 0.1}, pt{-footHalf - 0.02, below - 0.1})
	f.moss(v, v.shape(moss), p)
}

// moss paints sphagnum: many small tufts, pale above and dark below.
func (f *frame) moss(v view, where shape, p plant) {
	c := f.cover(where)
	f.paint(c, fall(hex(0x7d8048), hex(0x4c4a2c), v.of(pt{0, -0.4}).y, v.of(pt{0, below}).y))
	r := chance(p.id, "moss")
	for i := 0; i < 1500; i++ {
		y := below * math.Pow(r.Float64(), 0.9)
		x := (2*r.Float64() - 1) * cupHalf(y)
		at := pt{x, y - 0.42 + 0.16*x*x/9}
		tone := hex(0x9a9a58).to(hex(0xc9c487), r.Float64()).to(hex(0x45442a), clamp(0.12+0.55*y/below+0.3*(r.Float64()-0.5), 0, 1))
		a := -math.Pi/2 + 2.4*(r.Float64()-0.5)
		run := bow(v.of(at), a, v.scale*(0.18+0.3*r.Float64()), 1.6*(r.Float64()-0.5), 5)
		f.paint(f.cover(run.stroke(v.scale*0.09, v.scale*0.03)).within(c), flat(tone, 0.75))
	}
}

// vesselFront paints the front wall, with the roots that can be seen through it.
func (f *frame) vesselFront(v view, p plant, wet bool) {
	if p.medium == "bark mix" {
		f.potFront(v, p)
		return
	}
	r := chance(p.id, "seen roots")
	wall := v.shape(shape{{-rimHalf, -rimAbove}, {rimHalf, -rimAbove}, {footHalf, below}, {-footHalf, below}})
	c := f.cover(wall)
	count := []int{0, 0, 3, 7, 13, 20}[min(max(p.grade, 0), 5)]
	for i := 0; i < count; i++ {
		from := pt{(2*r.Float64() - 1) * 2.6, 0.3 + 0.9*r.Float64()}
		longest := p.root
		if longest == 0 {
			longest = 2 + 1.2*float64(p.grade)
		}
		length := clamp(longest*(0.35+0.5*r.Float64()), 0.8, 6)
		run := v.line(bow(from, math.Pi/2+0.9*(r.Float64()-0.5), length, 1.8*(r.Float64()-0.5), 18))
		w := v.scale * (0.1 + 0.05*r.Float64())
		f.paint(f.cover(run.stroke(w*1.5, w)).within(c), flat(hex(0x2a2416), 0.35))
		f.paint(f.cover(run.stroke(w, w*0.8)).within(c), flat(hex(0xe2d8bd), 0.85))
	}
	f.paint(c, func(x, _ float64) (rgb, float64) {
		u := (x - v.of(pt{-rimHalf, 0}).x) / (2 * rimHalf * v.scale)
		return hex(0xe6eff2), 0.06 + 0.16*smooth(0.75, 1, u) + 0.22*smooth(0.22, 0.02, u)
	})
	streak := v.line(line{{-rimHalf * 0.78, -rimAbove + 0.5}, {-footHalf * 0.8, below - 0.7}})
	f.paint(f.cover(streak.stroke(v.scale*0.3, v.scale*0.22)).softened(max(1, int(v.scale*0.05)), pt{}), flat(hex(0xf4f9fa), 0.4))
	rim := v.shape(oval(pt{0, -rimAbove}, rimHalf, 0.62, 0))
	front := line(rim[:21])
	back := line(append(append(shape{}, rim[20:]...), rim[0]))
	f.fill(back.stroke(1.4, 1.4), flat(hex(0xf1f6f7), 0.35))
	lower := front
	if front[10].y < v.of(pt{0, -rimAbove}).y {
		lower = back
	}
	f.fill(lower.stroke(math.Max(2, 0.1*v.scale), math.Max(2, 0.1*v.scale)), flat(hex(0xf4f8f9), 0.75))
	for _, s := range []float64{-1, 1} {
		f.fill(v.line(line{{s * rimHalf, -rimAbove}, {s * footHalf, below}}).stroke(1.6, 1.6), flat(hex(0xeef4f5), 0.6))
	}
	if wet {
		f.droplets(chance(p.id, "cup drops"), c, 46, v.scale*0.1, 0.7)
	}
}

func (f *frame) potBack(v view) {
	f.paint(f.cover(v.shape(oval(pt{0.6, below}, footHalf*1.3, 0.5, 0))).softened(int(v.scale*0.3)+1, pt{}), flat(hex(0x0d1519), 0.5))
	f.fill(v.shape(oval(pt{0, -rimAbove}, rimHalf+0.25, 0.7, 0)), flat(hex(0x7d4b36), 1))
	c := f.cover(v.shape(oval(pt{0, -rimAbove + 0.12}, rimHalf-0.05, 0.56, 0)))
	f.paint(c, flat(hex(0x3a2c20), 1))
	r := chance("bark")
	for i := 0; i < 130; i++ {
		at := pt{(2*r.Float64() - 1) * rimHalf, -rimAbove + (2*r.Float64()-1)*0.6}
		tone := hex(0x6a4a30).to(hex(0xa98a62), r.Float64())
		if r.IntN(6) == 0 {
			tone = hex(0xe4e1d4)
		}
		f.paint(f.cover(v.shape(oval(at, 0.18+0.22*r.Float64(), 0.1+0.08*r.Float64(), r.Float64()))).within(c), flat(tone, 0.9))
	}
}

func (f *frame) potFront(v view, p plant) {
	var wall shape
	for i := 0; i <= 24; i++ { // the front of the rim is a low arc
		a := math.Pi * float64(i) / 24
		wall = append(wall, pt{-(rimHalf + 0.25) * math.Cos(a), -rimAbove + 0.7*math.Sin(a)})
	}
	wall = append(wall, pt{footHalf + 0.15, below}, pt{-footHalf - 0.15, below})
	c := f.cover(v.shape(wall))
	x0, wide := v.of(pt{-rimHalf - 0.25, 0}).x, 2*(rimHalf+0.25)*v.scale
	clay := func(dark float64) shade {
		return func(x, y float64) (rgb, float64) {
			u := (x - x0) / wide
			n := cloud(x/9, y/5, 4)*0.6 + cloud(x/40, y/30, 6)*0.5
			return hex(0xbd7a58).to(hex(0x5d3524), clamp(dark+0.08+0.75*smooth(0.3, 1.05, u)+0.1*smooth(0.2, 0, u)+0.22*(n-0.55), 0, 1)).to(hex(0xd9cdbd), 0.22*smooth(0.62, 0.9, cloud(x/34, y/24, 9))), 1
		}
	}
	f.paint(c, clay(0.06))
	var collar shape
	for i := 0; i <= 24; i++ {
		a := math.Pi * float64(i) / 24
		collar = append(collar, pt{-(rimHalf + 0.3) * math.Cos(a), -rimAbove + 0.7*math.Sin(a)})
	}
	for i := 24; i >= 0; i-- {
		a := math.Pi * float64(i) / 24
		collar = append(collar, pt{-(rimHalf + 0.2) * math.Cos(a), 0.75 + 0.66*math.Sin(a)})
	}
	cc := f.cover(v.shape(collar))
	f.paint(cc.softened(max(1, int(v.scale*0.12)), pt{0, v.scale * 0.2}).within(c), flat(hex(0x25130c), 0.4))
	f.paint(f.cover(v.shape(collar)), clay(0))
}

// droplets lays drops of water where the cover is.
func (f *frame) droplets(r interface{ Float64() float64 }, c *cover, n int, size, strength float64) {
	for i := 0; i < n; i++ {
		at := pt{float64(c.x) + r.Float64()*float64(c.w), float64(c.y) + r.Float64()*float64(c.h)}
		s := size * (0.35 + 0.9*math.Pow(r.Float64(), 2.5))
		drop := f.cover(oval(at, s*0.92, s, 0)).within(c)
		f.paint(drop, flat(hex(0xe8f0f2), 0.2*strength))
		f.paint(f.cover(oval(at.add(pt{s * 0.12, s * 0.3}), s*0.72, s*0.62, 0)).within(drop), flat(hex(0xf8fcfc), 0.35*strength))
		f.paint(f.cover(oval(at.add(pt{0, -s * 0.35}), s*0.8, s*0.5, 0)).within(drop), flat(hex(0x33474f), 0.3*strength))
		if s > 1.6 {
			f.fill(oval(at.add(pt{-s * 0.3, -s * 0.35}), s*0.2, s*0.17, 0), flat(hex(0xffffff), 0.85*strength))
		}
	}
}
