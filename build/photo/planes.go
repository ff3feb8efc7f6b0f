package photo

import (
	"image"
	"image/color"
	"image/draw"
)

// plane is one component of a picture, a byte a sample. Each sample covers stepX by stepY pixels.
type plane struct {
	pix          []byte
	stride       int
	w, h         int // in samples
	stepX, stepY int
}

// planes is a picture as luma and chroma; grey ones have luma only.
type planes struct {
	w, h      int // in pixels
	y, cb, cr plane
	grey      bool
}

// planesOf takes JPEG's and WebP's planes as they were decoded, without a copy, and makes such planes from any other
// picture, laid on white.
func planesOf(m image.Image) planes {
	b := m.Bounds()
	p := planes{w: b.Dx(), h: b.Dy()}
	switch m := m.(type) {
	case *image.Gray:
		p.grey = true
		p.y = plane{m.Pix[m.PixOffset(b.Min.X, b.Min.Y):], m.Stride, p.w, p.h, 1, 1}
		return p
	case *image.YCbCr:
		x, y := steps(m.SubsampleRatio)
		c := m.COffset(b.Min.X, b.Min.Y)
		cw, ch := (p.w+x-1)/x, (p.h+y-1)/y
		p.y = plane{m.Y[m.YOffset(b.Min.X, b.Min.Y):], m.YStride, p.w, p.h, 1, 1}
		p.cb = plane{m.Cb[c:], m.CStride, cw, ch, x, y}
		p.cr = plane{m.Cr[c:], m.CStride, cw, ch, x, y}
		return p
	}
	return convert(m)
}

func steps(r image.YCbCrSubsampleRatio) (x, y int) {
	switch r {
	case image.YCbCrSubsampleRatio422:
		return 2, 1
	case image.YCbCrSubsampleRatio420:
		return 2, 2
	case image.YCbCrSubsampleRatio440:
		return 1, 2
	case image.YCbCrSubsampleRatio411:
		return 4, 1
	case image.YCbCrSubsampleRatio410:
		return 4, 2
	}
	return 1, 1
}

// convert goes by bands of rows, so that the RGBA in between stays small.
func convert(m image.Image) planes {
	const rows = 32
	b := m.Bounds()
	p := planes{w: b.Dx(), h: b.Dy()}
	for _, c := range []*plane{&p.y, &p.cb, &p.cr} {
		*c = plane{make([]byte, p.w*p.h), p.w, p.w, p.h, 1, 1}
	}
	band := image.NewRGBA(image.Rect(0, 0, p.w, min(rows, p.h)))
	for top := 0; top < p.h; top += rows {
		n := min(rows, p.h-top)
		draw.Draw(band, image.Rect(0, 0, p.w, n), image.White, image.Point{}, draw.Src)
		draw.Draw(band, image.Rect(0, 0, p.w, n), m, image.Pt(b.Min.X, b.Min.Y+top), draw.Over)
		for i := range n * p.w {
			px := band.Pix[4*i : 4*i+4 : 4*i+4]
			at := top*p.w + i
			p.y.pix[at], p.cb.pix[at], p.cr.pix[at] = color.RGBToYCbCr(px[0], px[1], px[2])
		}
	}
	return p
}

// fit turns the picture upright and makes it at most maxWidth wide. Chroma comes out at half the size both ways,
// which is what the encoder writes in any case.
func (p planes) fit(t turn, maxWidth int) image.Image {
	w, h := fitted(p.w, p.h, t.transposes(), maxWidth)
	upW, upH := w, h // as seen; w and h are as stored
	if t.transposes() {
		upW, upH = h, w
	}
	out := func(src plane, step int) []byte {
		dw, dh := (w+step-1)/step, (h+step-1)/step
		columns := weigh(dw, src.w, float64(p.w)/float64(w), step, src.stepX, w, t.mirrorsColumns())
		rows := weigh(dh, src.h, float64(p.h)/float64(h), step, src.stepY, h, t.mirrorsRows())
		pix := resample(src, columns, rows)
		if t.transposes() {
			pix = transpose(pix, dw, dh)
		}
		return pix
	}
	if p.grey {
		return &image.Gray{Pix: out(p.y, 1), Stride: upW, Rect: image.Rect(0, 0, upW, upH)}
	}
	return &image.YCbCr{
		Y: out(p.y, 1), Cb: out(p.cb, 2), Cr: out(p.cr, 2),
		YStride: upW, CStride: (upW + 1) / 2,
		SubsampleRatio: image.YCbCrSubsampleRatio420, Rect: image.Rect(0, 0, upW, upH),
	}
}

// fitted is the stored picture's new size such that it is at most maxWidth wide when upright.
func fitted(w, h int, transposed bool, maxWidth int) (int, int) {
	if transposed {
		h, w = fitted(h, w, false, maxWidth)
		return w, h
	}
	if w <= maxWidth {
		return w, h
	}
	return maxWidth, max(1, int((2*int64(h)*int64(maxWidth)+int64(w))/(2*int64(w))))
}
