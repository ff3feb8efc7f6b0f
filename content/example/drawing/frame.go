package main

import (
	"image"
	"math"

	"golang.org/x/image/vector"
)

// rgb is a colour, each part from 0 to 1.
type rgb struct{ r, g, b float64 }

// hex reads a colour such as 0x2b3036.
func hex(v uint32) rgb {
	return rgb{float64(v>>16&255) / 255, float64(v>>8&255) / 255, float64(v&255) / 255}
}

func (c rgb) to(d rgb, t float64) rgb {
	return rgb{mix(c.r, d.r, t), mix(c.g, d.g, t), mix(c.b, d.b, t)}
}

// grey takes a share of a colour's strength away.
func (c rgb) grey(t float64) rgb {
	m := 0.3*c.r + 0.59*c.g + 0.11*c.b
	return c.to(rgb{m, m, m}, t)
}

// shade gives the colour and the cover of paint at a point.
type shade func(x, y float64) (rgb, float64)

func flat(c rgb, a float64) shade { return func(_, _ float64) (rgb, float64) { return c, a } }

// fall is a shade from one colour to another between two heights.
func fall(top, bottom rgb, y0, y1 float64) shade {
	return func(_, y float64) (rgb, float64) { return top.to(bottom, smooth(y0, y1, y)), 1 }
}

// frame is the picture while it is painted.
type frame struct {
	w, h int
	pix  []rgb
}

func newFrame(w, h int) *frame { return &frame{w, h, make([]rgb, w*h)} }

// cover tells how much of each point in a box is painted, 0 to 1.
type cover struct {
	x, y, w, h int
	a          []float32
}

// cover rasterises shapes with soft edges. Shapes outside the frame give an
// empty one.
func (f *frame) cover(shapes ...shape) *cover {
	e := extent{pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}}
	for _, s := range shapes {
		e.hold(s...)
	}
	x0, y0 := max(0, int(math.Floor(e.lo.x))), max(0, int(math.Floor(e.lo.y)))
	x1, y1 := min(f.w, int(math.Ceil(e.hi.x))+1), min(f.h, int(math.Ceil(e.hi.y))+1)
	if len(shapes) == 0 || math.IsInf(e.lo.x, 0) || x1 <= x0 || y1 <= y0 {
		return &cover{}
	}
	r := vector.NewRasterizer(x1-x0, y1-y0)
	for _, s := range shapes {
		if len(s) < 3 {
			continue
		}
		for i, p := range s {
			x, y := float32(p.x-float64(x0)), float32(p.y-float64(y0))
			if i == 0 {
				r.MoveTo(x, y)
			} else {
				r.LineTo(x, y)
			}
		}
		r.ClosePath()
	}
	img := image.NewAlpha(image.Rect(0, 0, x1-x0, y1-y0))
	r.Draw(img, img.Bounds(), image.Opaque, image.Point{})
	c := &cover{x0, y0, x1 - x0, y1 - y0, make([]float32, (x1-x0)*(y1-y0))}
	for i, v := range img.Pix {
		c.a[i] = float32(v) / 255
	}
	return c
}

func (c *cover) at(x, y int) float32 {
	x, y = x-c.x, y-c.y
	if x < 0 || y < 0 || x >= c.w || y >= c.h {
		return 0
	}
	return c.a[y*c.w+x]
}

// within keeps only what another cover covers too.
func (c *cover) within(o *cover) *cover {
	if o == nil {
		return c
	}
	for y := 0; y < c.h; y++ {
		for x := 0; x < c.w; x++ {
			c.a[y*c.w+x] *= o.at(x+c.x, y+c.y)
		}
	}
	return c
}

// softened is a cover blurred by about r points and moved.
func (c *cover) softened(r int, by pt) *cover {
	if c.w == 0 {
		return c
	}
	pad := 3*r + 1
	out := &cover{c.x - pad, c.y - pad, c.w + 2*pad, c.h + 2*pad, nil}
	out.a = make([]float32, out.w*out.h)
	for y := 0; y < c.h; y++ {
		copy(out.a[(y+pad)*out.w+pad:], c.a[y*c.w:(y+1)*c.w])
	}
	for i := 0; i < 3 && r > 0; i++ {
		sweep(out.a, out.w, out.h, 1, out.w, r)
		sweep(out.a, out.h, out.w, out.w, 1, r)
	}
	out.x += int(by.x)
	out.y += int(by.y)
	return out
}

// sweep averages each run of n values, step apart, over 2r+1 neighbours.
func sweep(a []float32, n, runs, step, next, r int) {
	old := make([]float32, n)
	for k := 0; k < runs; k++ {
		for i := range old {
			old[i] = a[k*next+i*step]
		}
		var sum float32
		for i := 0; i < min(r, n); i++ {
			sum += old[i]
		}
		for i := range old {
			if i+r < n {
				sum += old[i+r]
			}
			if i-r-1 >= 0 {
				sum -= old[i-r-1]
			}
			a[k*next+i*step] = sum / float32(2*r+1)
		}
	}
}

// paint lays a shade on the picture where the cover is.
func (f *frame) paint(c *cover, s shade) {
	for y := max(0, c.y); y < min(f.h, c.y+c.h); y++ {
		for x := max(0, c.x); x < min(f.w, c.x+c.w); x++ {
			k := float64(c.a[(y-c.y)*c.w+x-c.x])
			if k < 0.002 {
				continue
			}
			col, a := s(float64(x), float64(y))
			p := &f.pix[y*f.w+x]
			*p = p.to(col, clamp(k*a, 0, 1))
		}
	}
}

func (f *frame) fill(s shape, sh shade)        { f.paint(f.cover(s), sh) }
func (f *frame) whole() shape                  { return box(0, 0, float64(f.w), float64(f.h)) }
func (f *frame) wash(sh shade)                 { f.fill(f.whole(), sh) }
func (f *frame) haze(s shape, r int, sh shade) { f.paint(f.cover(s).softened(r, pt{}), sh) }

// shadow darkens what lies under some shapes.
func (f *frame) shadow(c *cover, r int, by pt, strength float64) {
	f.paint(c.softened(r, by), flat(hex(0x0c1418), strength))
}

// picture is the frame with a fine grain, as eight-bit colours.
func (f *frame) picture() *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, f.w, f.h))
	for i, c := range f.pix {
		n := (speck(i%f.w, i/f.w, 7) - 0.5) * 0.012
		out.Pix[4*i] = uint8(clamp(c.r+n, 0, 1)*255 + 0.5)
		out.Pix[4*i+1] = uint8(clamp(c.g+n, 0, 1)*255 + 0.5)
		out.Pix[4*i+2] = uint8(clamp(c.b+n, 0, 1)*255 + 0.5)
		out.Pix[4*i+3] = 255
	}
	return out
}

// speck is a value from 0 to 1 that belongs to a point, the same each time.
func speck(x, y, seed int) float64 {
	h := uint64(x)*0x9E3779B97F4A7C15 ^ uint64(y)*0xC2B2AE3D27D4EB4F ^ uint64(seed)*0x165667B19E3779F9
	h ^= h >> 31
	h *= 0xBF58476D1CE4E5B9
	h ^= h >> 29
	return float64(h>>11) / (1 << 53)
}

// cloud is smooth noise, 0 to 1, with features about one unit wide: three turned
// layers, so that no grid shows.
func cloud(x, y float64, seed int) float64 {
	return 0.5*patch(x*0.8+y*0.6, y*0.8-x*0.6, seed) + 0.3*patch(x*1.9-y*1.1, y*1.9+x*1.1, seed+101) + 0.2*patch(x*2.9+y*3.4, y*2.9-x*3.4, seed+202)
}

func patch(x, y float64, seed int) float64 {
	ix, iy := math.Floor(x), math.Floor(y)
	tx, ty := smooth(0, 1, x-ix), smooth(0, 1, y-iy)
	i, j := int(ix), int(iy)
	return mix(mix(speck(i, j, seed), speck(i+1, j, seed), tx), mix(speck(i, j+1, seed), speck(i+1, j+1, seed), tx), ty)
}
