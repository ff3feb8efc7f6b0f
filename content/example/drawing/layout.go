package main

import (
	"math"
	"math/rand/v2"
	"sort"
	"strconv"
)

// stick is a stem, a stalk, a rhizome or a root.
type stick struct {
	run    line
	w0, w1 float64 // cm
	colour rgb
	bumpy  bool
	root   bool
}

// body is a plant laid out in centimetres: 0, 0 is where stem and roots meet.
type body struct {
	sticks []stick
	leaves []leaf
}

func (b *body) extent(k kind) extent {
	e := extent{pt{-0.5, -0.5}, pt{0.5, 0.5}}
	for _, s := range b.sticks {
		e.hold(s.run...)
	}
	for _, l := range b.leaves {
		e.hold(l.outline(k.form, 0)...)
	}
	return e
}

// seedOf gives each leaf of a plant a number of its own that stays the same from
// day to day.
func seedOf(id string, i int) int {
	return int(chance(id, strconv.Itoa(i)).Uint32() % 50000)
}

// lay builds a plant, standing in its cup or lying bare on paper.
func lay(p plant, standing bool) body {
	k := kindOf(p.name)
	r := chance(p.id, "body")
	n := p.leaves
	if n < 0 {
		n = 4
	}
	if p.rest {
		n = 0
	}
	var b body
	switch k.habit {
	case vine, cane:
		b.stems(p, k, n, standing, r)
	case clump, tuft:
		b.fan(p, k, n, standing, r)
	case creeper:
		b.creep(p, k, n, standing, r)
	case rosette:
		b.rose(p, k, n, standing, r)
	case runner:
		b.run(p, k, n, standing, r)
	case antplant:
		b.ant(p, k, n, standing, r)
	}
	if !standing {
		b.roots(p, k, chance(p.id, "roots"))
	}
	sort.SliceStable(b.leaves, func(i, j int) bool { return b.leaves[i].back && !b.leaves[j].back })
	return b
}

// hang turns a leaf's direction toward the ground by how limp it is.
func hang(angle, droop float64) float64 {
	d := math.Atan2(math.Sin(math.Pi/2-angle), math.Cos(math.Pi/2-angle))
	return angle + d*0.72*droop
}

func (b *body) leaf(p plant, i int, base pt, angle float64, standing bool, r *rand.Rand) *leaf {
	length, width := p.size(i, chance(p.id, "size", strconv.Itoa(i)))
	l := leaf{base: base, angle: angle, length: length, width: width, face: 1, droop: p.droop, seed: seedOf(p.id, i), flip: r.IntN(2) == 0}
	l.bend = 0.25 * (r.Float64() - 0.5)
	if standing {
		l.angle = hang(angle, p.droop)
		l.face = 0.68 + 0.3*r.Float64()
		l.length *= 0.85 + 0.13*r.Float64()
		side := 1.0
		if math.Cos(l.angle) < 0 {
			side = -1
		}
		l.bend = side * (0.22 + 0.75*p.droop)
	} else {
		l.angle += 0.25 * p.droop * (r.Float64() - 0.5)
		l.bend += 0.7 * p.droop * (r.Float64() - 0.3)
	}
	l.face *= 1 - 0.38*p.droop
	b.leaves = append(b.leaves, l)
	return &b.leaves[len(b.leaves)-1]
}

// stems lays vines (leaves in pairs) and canes (leaves by turns).
func (b *body) stems(p plant, k kind, n int, standing bool, r *rand.Rand) {
	drawn := min(n, 150)
	count := 1 + drawn/15
	if drawn > 60 {
		count = 6
	}
	each := 2
	if k.habit == cane {
		each = 1
	}
	left := drawn
	first := 0
	for s := 0; s < count; s++ {
		have := left / (count - s)
		left -= have
		nodes := max(1, (have+each-1)/each)
		length, _ := p.size(0, chance(p.id, "size", "0"))
		gap := clamp(length*0.42, 0.55, 4.2)
		if k.habit == cane {
			gap = clamp(length*0.3, 0.32, 2.4)
		}
		reach := gap * (float64(nodes) + 0.6)
		spread := float64(s) - float64(count-1)/2
		angle, turn, from := -0.42+clamp(0.3+0.06*float64(count), 0.34, 0.6)*spread, -0.3+0.5*r.Float64(), pt{}
		if standing {
			lean := 1.0
			if s%2 == 1 || (count == 1 && r.IntN(2) == 0) {
				lean = -1
			}
			angle = -math.Pi/2 + lean*(0.12+0.1*math.Abs(spread)) + 0.24*spread
			turn = lean * (0.35 + clamp((reach-9)/14, 0, 1.7) + 0.95*p.droop)
			from = pt{spread * 1.1, 0.1}
		}
		stem := bow(from, angle, reach, turn, 30)
		thick := clamp(0.05*length, 0.1, 0.34)
		b.sticks = append(b.sticks, stick{run: stem, w0: thick * 1.2, w1: thick * 0.6, colour: k.stem})
		for i := 0; i < have; i++ {
			node := i / each
			at, d := stem.at((float64(node) + 0.8) / (float64(nodes) + 0.6))
			side := 1.0
			if i%2 == 1 {
				side = -1
			}
			open := 0.85 + 0.35*r.Float64()
			if node == nodes-1 {
				open *= 0.55
			}
			turned := math.Atan2(d.y, d.x) + side*open
			stalk := line{at, at.add(toward(turned).mul(length * 0.1))}
			b.sticks = append(b.sticks, stick{run: stalk, w0: thick * 0.7, w1: thick * 0.6, colour: k.stem.to(k.leaf, 0.4)})
			l := b.leaf(p, first+i, stalk[1], turned, standing, r)
			// young leaves near the tip are smaller where nobody measured
			if node == nodes-1 && nodes > 2 && first+i >= len(p.sizes) {
				l.length, l.width = l.length*0.7, l.width*0.7
			}
			l.back = side < 0 && r.IntN(3) > 0
		}
		first += have
		if n == 0 || k.habit == vine && have > 0 {
			tip, d := stem.at(1)
			b.sticks = append(b.sticks, stick{run: bow(tip, math.Atan2(d.y, d.x), gap*0.8, 0.6, 8), w0: thick * 0.5, w1: 0.04, colour: k.stem.to(k.leaf, 0.5)})
		}
	}
}

// fan lays leaves on stalks from a short rhizome.
func (b *body) fan(p plant, k kind, n int, standing bool, r *rand.Rand) {
	rhizome := line{{-1.3, 0.35}, {-0.4, 0.2}, {0.5, 0.1}, {1.3, 0}}
	thick := 0.7
	if k.habit == tuft {
		rhizome, thick = line{{-0.3, 0.3}, {0.3, 0}}, 0.8
	}
	length, _ := p.size(0, chance(p.id, "size", "0"))
	if length < 3 {
		thick *= 0.45
	}
	b.sticks = append(b.sticks, stick{run: rhizome, w0: thick, w1: thick * 0.75, colour: k.stem.to(hex(0x6b5a40), 0.4), bumpy: true})
	for i := 0; i < n; i++ {
		// the largest leaves on the outside, the youngest upright in the middle
		place := float64(i/2+1) / float64(max(1, (n+1)/2))
		side := 1.0
		if i%2 == 1 {
			side = -1
		}
		out := 1.02 * (1.1 - place)
		if n == 1 {
			out = 0.15
		}
		angle := -math.Pi/2 + side*(out+0.12*(r.Float64()-0.5))
		size, _ := p.size(i, chance(p.id, "size", strconv.Itoa(i)))
		if k.form == pinnate {
			from, _ := rhizome.at(0.5 + 0.2*side)
			l := b.leaf(p, i, from, angle*1, standing, r)
			l.bend = side * (0.45 + 0.6*p.droop)
			l.back = place > 0.6
			continue
		}
		reach := size * (0.5 + 0.5*r.Float64())
		if p.droop > 0.8 && standing {
			angle = -math.Pi/2 + side*(out+0.5)
		}
		from, _ := rhizome.at(0.5 + 0.35*side*r.Float64())
		stalk := bow(from, angle, reach, side*(0.35+0.8*p.droop*b2f(standing)), 14)
		end, d := stalk.at(1)
		b.sticks = append(b.sticks, stick{run: stalk, w0: clamp(0.045*size, 0.09, 0.3), w1: clamp(0.035*size, 0.07, 0.22), colour: k.stem})
		blade := math.Atan2(d.y, d.x) + side*0.4
		l := b.leaf(p, i, end, blade, standing, r)
		l.flip = side > 0
		l.face = math.Max(l.face, 0.8*(1-0.3*p.droop))
		l.bend *= 0.5
		l.back = place > 0.5
	}
}

// creep lays a fleshy stem with leaves by turns near its tip.
func (b *body) creep(p plant, k kind, n int, standing bool, r *rand.Rand) {
	length, _ := p.size(0, chance(p.id, "size", "0"))
	reach := length * (0.9 + 0.16*float64(n))
	angle, turn := -0.15, -0.35
	if standing {
		reach = length * (0.35 + 0.07*float64(n))
		angle, turn = -math.Pi/2-0.5, 0.75+0.8*p.droop
	}
	stem := bow(pt{}, angle, reach, turn, 24)
	thick := clamp(0.075*length, 0.18, 0.5)
	b.sticks = append(b.sticks, stick{run: stem, w0: thick, w1: thick * 0.75, colour: k.stem, bumpy: true})
	for i := 0; i < n; i++ {
		t := 1 - 0.62*float64(i)/float64(max(n, 3))
		if standing {
			t = 1 - 0.5*float64(i)/float64(max(n, 3))
		}
		at, d := stem.at(t)
		turned := math.Atan2(d.y, d.x)
		side := 1.0
		if i%2 == 1 {
			side = -1
		}
		a := turned + side*(0.3+0.95*float64(i+1)/float64(n+1))
		if standing {
			// a rosette seen from the side and a little from above
			th := 2*math.Pi*(float64(i)*0.38+0.1) + r.Float64()*0.3
			dir := pt{math.Cos(th), 0.34*math.Sin(th) - 0.22}
			a = math.Atan2(dir.y, dir.x)
			l := b.leaf(p, i, at, a, true, r)
			l.face = clamp(0.62+0.3*math.Abs(math.Cos(th)), 0, 1) * (1 - 0.35*p.droop)
			l.length *= 0.72 + 0.28*math.Abs(math.Cos(th))
			l.back = math.Sin(th) < 0
			continue
		}
		l := b.leaf(p, i, at.add(toward(a).mul(thick*0.6)), a, false, r)
		l.back = i%2 == 1
	}
	if n == 0 && standing {
		b.sticks[len(b.sticks)-1] = stick{run: bow(pt{0.4, -0.15}, -math.Pi/2-0.2, 0.75, 0.5, 8), w0: 0.34, w1: 0.07, colour: hex(0x8cc152)}
	}
}

// rose lays a rosette.
func (b *body) rose(p plant, k kind, n int, standing bool, r *rand.Rand) {
	for i := 0; i < n; i++ {
		a := mix(-math.Pi*0.94, -math.Pi*0.06, (float64(i)+0.5)/float64(n)) + 0.15*(r.Float64()-0.5)
		l := b.leaf(p, (i*2)%max(1, n), pt{0.25 * math.Cos(a), 0}, a, standing, r)
		if standing {
			l.bend = 0.55 * math.Copysign(1, math.Cos(a)) * (1 + p.droop)
		}
		l.back = math.Abs(math.Cos(a)) < 0.55
	}
	b.sticks = append(b.sticks, stick{run: line{{-0.25, 0.2}, {0.25, 0.2}}, w0: 0.6, w1: 0.6, colour: k.stem})
}

func b2f(v bool) float64 {
	if v {
		return 1
	}
	return 0
}
