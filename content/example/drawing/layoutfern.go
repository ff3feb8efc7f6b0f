package main

import (
	"math"
	"math/rand/v2"
	"strconv"
)

// run lays a thin rhizome with a leaf here and there: ferns that creep.
func (b *body) run(p plant, k kind, n int, standing bool, r *rand.Rand) {
	length, _ := p.size(0, chance(p.id, "size", "0"))
	gap := clamp(length*0.32, 0.45, 1.6)
	if k.form == pinnate {
		gap *= 0.72
	}
	branches := 1 + n/9
	thick := clamp(0.06*length, 0.12, 0.4)
	done := 0
	for s := 0; s < branches; s++ {
		have := (n - done) / (branches - s)
		reach := gap * (float64(have) + 1.2)
		spread := float64(s) - float64(branches-1)/2
		from, angle, turn := pt{0, 0}, -0.25+0.5*spread, 0.5*(r.Float64()-0.5)
		if standing {
			// along the moss, over the rim and down
			side := 1.0
			if s%2 == 1 {
				side = -1
			}
			from = pt{-side*(0.8+1.6*r.Float64()) + spread*0.3, -0.1}
			angle = math.Pi/2 - side*(math.Pi/2+0.12+0.25*r.Float64())
			turn = side * clamp(0.09*reach, 0.1, 1.75)
		}
		rhizome := bow(from, angle, reach, turn, 30)
		b.sticks = append(b.sticks, stick{run: rhizome, w0: thick, w1: thick * 0.6, colour: k.stem, bumpy: true})
		if k.form == strap && s == 0 {
			for _, t := range []float64{0.2, 0.45, 0.62} { // the small tubers of a potato fern
				at, d := rhizome.at(t)
				knob := at.add(d.left().mul(-thick * 1.1))
				b.sticks = append(b.sticks, stick{run: line{knob, knob.add(d.mul(thick * 1.4))}, w0: 0.75, w1: 0.6, colour: hex(0x7b5a3a), bumpy: true})
			}
		}
		for i := 0; i < have; i++ {
			at, d := rhizome.at((float64(i) + 0.9) / (float64(have) + 1.2))
			turned := math.Atan2(d.y, d.x)
			side := 1.0
			if i%2 == 1 {
				side = -1
			}
			a := turned + side*(0.75+0.5*r.Float64())
			if standing && k.form != round {
				a = mix(a, -math.Pi/2+0.9*(r.Float64()-0.5), 0.6)
			}
			if standing && k.form == round {
				a = -math.Pi/2 + 1.7*(r.Float64()-0.5) + 0.9*math.Cos(turned)*b2f(math.Sin(turned) > 0.3)
			}
			stalk := bow(at, a, length*0.22, 0.2*side, 6)
			if k.form == pinnate {
				stalk = bow(at, a, length*0.4, 0.2*side, 6)
			}
			end, e := stalk.at(1)
			b.sticks = append(b.sticks, stick{run: stalk, w0: thick * 0.5, w1: thick * 0.4, colour: k.stem.to(k.dark, 0.3)})
			l := b.leaf(p, done+i, end, math.Atan2(e.y, e.x), standing, r)
			l.back = side < 0
		}
		done += have
	}
}

// ant lays a thick hollow rhizome with fronds standing on it.
func (b *body) ant(p plant, k kind, n int, standing bool, r *rand.Rand) {
	from, angle := pt{-2.6, 0.2}, -0.12
	if standing {
		from, angle = pt{-2.2, -0.15}, -0.08
	}
	rhizome := bow(from, angle, 5.2, 0.25, 26)
	b.sticks = append(b.sticks, stick{run: rhizome, w0: 1.25, w1: 1.0, colour: k.stem, bumpy: true})
	fork, d := rhizome.at(0.55)
	b.sticks = append(b.sticks, stick{run: bow(fork, math.Atan2(d.y, d.x)+0.7, 1.7, -0.3, 10), w0: 0.95, w1: 0.8, colour: k.stem.to(k.dark, 0.1), bumpy: true})
	for i := 0; i < n; i++ {
		t := 0.94 - 0.8*(float64(i)+0.3*r.Float64())/float64(max(n, 4))
		at, _ := rhizome.at(t)
		a := -math.Pi/2 + 0.75*(t-0.5) + 0.35*(r.Float64()-0.5)
		size, _ := p.size(i, chance(p.id, "size", strconv.Itoa(i)))
		stalk := bow(at.add(pt{0, -0.4}), a, size*0.16, 0.1, 6)
		end, e := stalk.at(1)
		b.sticks = append(b.sticks, stick{run: stalk, w0: 0.24, w1: 0.16, colour: k.stem.to(k.dark, 0.4)})
		l := b.leaf(p, i, end, math.Atan2(e.y, e.x), standing, r)
		l.back = i%2 == 1
		if size < 4 { // a young frond is still rolled at the tip
			l.bend = 2.4
		}
	}
}

// roots lays the bare roots below 0, 0: how many goes by the grade, how long by
// the longest that was measured.
func (b *body) roots(p plant, k kind, r *rand.Rand) {
	if p.cut && p.grade <= 0 {
		return
	}
	count := []int{0, 4, 7, 11, 17, 24}[min(max(p.grade, 0), 5)]
	longest := p.root
	if longest == 0 {
		longest = []float64{0, 1, 2.5, 4, 6, 8}[min(max(p.grade, 0), 5)]
	}
	thick, colour := 0.1, hex(0xb09468)
	along := line{{0, 0}, {-0.3, 0.1}}
	switch k.habit {
	case rosette:
		count, thick, colour = max(3, count/2), 0.55, hex(0xc3ae86)
	case creeper:
		count, thick, colour = max(2, count/2), 0.22, hex(0xb59a78)
		along = b.sticks[0].run[:15]
	case runner, antplant, clump:
		thick, colour = 0.07, hex(0x8f6f4c)
		along = b.sticks[0].run
	}
	for i := 0; i < count; i++ {
		at, _ := along.at(r.Float64())
		length := longest * (0.35 + 0.6*r.Float64())
		if i == 0 {
			length = longest
		}
		a := math.Pi/2 + 0.75 + 1.5*(r.Float64()-0.5)
		if k.habit == runner || k.habit == antplant || k.habit == clump || k.habit == creeper {
			a = math.Pi/2 + 1.5*(r.Float64()-0.5)
		}
		run := bow(at, a, length, 1.3*(r.Float64()-0.5), 18)
		c := colour.to(hex(0x4a3626), 0.55*r.Float64())
		b.sticks = append(b.sticks, stick{run: run, w0: thick * around(r, 1, 0.3), w1: thick * 0.35, colour: c, root: true})
		if k.habit != rosette && length > 2 {
			for j := 0; j < 3; j++ {
				q, d := run.at(0.3 + 0.6*r.Float64())
				side := math.Atan2(d.y, d.x) + (r.Float64()-0.5)*2
				b.sticks = append(b.sticks, stick{run: bow(q, side, length*0.22, r.Float64()-0.5, 8), w0: thick * 0.5, w1: thick * 0.2, colour: c, root: true})
			}
		}
	}
}
