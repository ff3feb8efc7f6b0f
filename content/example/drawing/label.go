package main

import (
	"fmt"
	"image"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// face makes a font of a size. The fonts come with the module; that one of them
// can't be read is a broken build.
func face(ttf []byte, size float64) font.Face {
	parsed, err := opentype.Parse(ttf)
	if err != nil {
		panic("drawing: a built-in font can't be read: " + err.Error())
	}
	out, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: size, DPI: 72})
	if err != nil {
		panic("drawing: a built-in font can't be set: " + err.Error())
	}
	return out
}

// words writes a line, its left end at a point of its foot line.
func (f *frame) words(text string, at pt, fc font.Face, c rgb, a float64) float64 {
	img := image.NewAlpha(image.Rect(0, 0, f.w, f.h))
	d := font.Drawer{Dst: img, Src: image.Opaque, Face: fc, Dot: fixed.P(int(at.x), int(at.y))}
	d.DrawString(text)
	cov := &cover{0, 0, f.w, f.h, make([]float32, f.w*f.h)}
	for i, v := range img.Pix {
		cov.a[i] = float32(v) / 255
	}
	f.paint(cov, flat(c, a))
	return float64(font.MeasureString(fc, text)) / 64
}

// slip lays a small paper label on the sheet: number, day and name.
func (f *frame) slip(p plant, name string) {
	w, h := float64(f.w), float64(f.h)
	fine := face(goitalic.TTF, 15)
	wide := math.Max(150, float64(font.MeasureString(fine, name))/64+26)
	x, y := w-50-wide, h-46-54
	c := f.cover(shape{{x, y + 1}, {x + wide, y - 1}, {x + wide + 1, y + 54}, {x + 1, y + 55}})
	f.shadow(c, 3, pt{2, 3}, 0.6)
	f.paint(c, fall(hex(0xece8dc), hex(0xd9d4c5), y, y+54))
	f.words(fmt.Sprintf("%s   day %d", p.id, p.day), pt{x + 12, y + 22}, face(gomono.TTF, 14), hex(0x2a2f33), 0.9)
	f.words(name, pt{x + 12, y + 43}, fine, hex(0x2a2f33), 0.9)
}

// ruler lays a strip of five centimetres on the sheet.
func (f *frame) ruler(scale float64) {
	h := float64(f.h)
	x, y := 52.0, h-64
	long := 5 * scale
	c := f.cover(box(x-6, y, x+long+6, y+17))
	f.shadow(c, 3, pt{2, 3}, 0.55)
	f.paint(c, flat(hex(0xd8d6cc), 1))
	for i := 0; i <= 10; i++ {
		tall := 5.0
		if i%2 == 0 {
			tall = 9
		}
		f.fill(box(x+float64(i)*scale/2-0.6, y, x+float64(i)*scale/2+0.6, y+tall), flat(hex(0x2a2f33), 0.85))
	}
	f.words("5 cm", pt{x + long - 34, y + 32}, face(gomono.TTF, 11), hex(0xb9c1c5), 0.8)
}

// tag stands a plastic label in the moss.
func (f *frame) tag(v view, p plant) {
	at := v.of(pt{2.2, -0.1})
	tall, wide := math.Max(66, v.scale*2.2), 19.0
	c := f.cover(shape{{at.x, at.y - tall}, {at.x + wide, at.y - tall - 2}, {at.x + wide + 2, at.y}, {at.x + wide/2, at.y + 10}, {at.x + 2, at.y}})
	f.shadow(c, 3, pt{2, 3}, 0.4)
	f.paint(c, fall(hex(0xf3f4f1), hex(0xd4d8d6), at.y-tall, at.y))
	// the number runs down the label
	img := image.NewAlpha(image.Rect(0, 0, 90, 20))
	d := font.Drawer{Dst: img, Src: image.Opaque, Face: face(gomono.TTF, 13), Dot: fixed.P(2, 14)}
	d.DrawString(p.id)
	down := &cover{int(at.x) + 1, int(at.y-tall) + 3, 18, int(tall) - 6, nil}
	down.a = make([]float32, down.w*down.h)
	for y := 0; y < down.h; y++ {
		for x := 0; x < down.w; x++ {
			down.a[y*down.w+x] = float32(img.AlphaAt(y, 18-x).A) / 255
		}
	}
	f.paint(down, flat(hex(0x39444b), 0.8))
}
