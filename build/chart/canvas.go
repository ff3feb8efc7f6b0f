package chart

import (
	"math"
	"slices"
	"strconv"
	"unicode/utf8"
)

// canvas writes one picture. It has two hands: pieces that stretch with the
// plot go as paths into a nested <svg viewBox="0 0 DAYS H">, where x is in days
// and y in px; pieces that keep their size (words, marks) hang at a per cent.
// Paths of one class that follow each other become one path, which keeps a
// fringe of a hundred strands down to two elements.
type canvas struct {
	b       []byte
	days, h float64
	framed  bool   // the root stands in a padded frame
	stretch bool   // a nested stretched <svg> is open
	cls     string // class of the path that is open in it

	stock stockPen // what go-chart's own pieces draw with; see engine.go
}

func newCanvas(days, h float64) *canvas {
	return &canvas{b: make([]byte, 0, 2<<10), days: days, h: h}
}

// open writes the padded frame and in it the root with its title and
// description.
func (c *canvas) open(frame, class string, hd Head, desc string) {
	c.b = slices.Grow(c.b, 14<<10)
	c.b = append(append(append(c.b, `<div class="`...), frame...), `">`...)
	c.framed = true
	id := cleanID(hd.ID)
	c.b = append(c.b, `<svg class="ch`...)
	if class != "" {
		c.b = append(append(c.b, ' '), class...)
	}
	c.b = append(c.b, `" height="`...)
	c.num(c.h)
	c.b = append(c.b, `" role="img" aria-labelledby="`...)
	c.b = append(c.b, id...)
	c.b = append(c.b, `-t" aria-describedby="`...)
	c.b = append(c.b, id...)
	c.b = append(c.b, `-d"><title id="`...)
	c.b = append(c.b, id...)
	c.b = append(c.b, `-t">`...)
	c.esc(hd.Title)
	c.b = append(c.b, `</title><desc id="`...)
	c.b = append(c.b, id...)
	c.b = append(c.b, `-d">`...)
	c.esc(desc)
	c.b = append(c.b, `</desc>`...)
}

// openHidden writes a root that screen readers pass over, because the words
// beside it say the same.
func (c *canvas) openHidden(class string) {
	c.b = append(c.b, `<svg class="ch`...)
	if class != "" {
		c.b = append(append(c.b, ' '), class...)
	}
	c.b = append(c.b, `" height="`...)
	c.num(c.h)
	c.b = append(c.b, `" aria-hidden="true">`...)
}

func (c *canvas) close() HTML {
	c.leave()
	c.b = append(c.b, `</svg>`...)
	if c.framed {
		c.b = append(c.b, `</div>`...)
	}
	return HTML(c.b)
}

// leave closes what is open of the stretched piece.
func (c *canvas) leave() {
	if c.cls != "" {
		c.b = append(c.b, `"/>`...)
		c.cls = ""
	}
	if c.stretch {
		c.b = append(c.b, `</svg>`...)
		c.stretch = false
	}
}

// path opens a stretched path of a class, or goes on with the one that is open.
func (c *canvas) path(class string) {
	if c.cls == class {
		return
	}
	if c.cls != "" {
		c.b = append(c.b, `"/>`...)
	}
	if !c.stretch {
		c.b = append(c.b, `<svg height="`...)
		c.num(c.h)
		c.b = append(c.b, `" viewBox="0 0 `...)
		c.num(c.days)
		c.b = append(c.b, ' ')
		c.num(c.h)
		c.b = append(c.b, `" preserveAspectRatio="none">`...)
		c.stretch = true
	}
	c.b = append(c.b, `<path class="`...)
	c.b = append(c.b, class...)
	c.b = append(c.b, `" d="`...)
	c.cls = class
}

func (c *canvas) m(x, y float64) { c.b = append(c.b, 'M'); c.xy(x, y) }
func (c *canvas) l(x, y float64) { c.b = append(c.b, 'L'); c.xy(x, y) }
func (c *canvas) hto(x float64)  { c.b = append(c.b, 'H'); c.fine(x) }
func (c *canvas) vto(y float64)  { c.b = append(c.b, 'V'); c.num(y) }
func (c *canvas) z()             { c.b = append(c.b, 'Z') }
func (c *canvas) xy(x, y float64) {
	c.fine(x)
	c.b = append(c.b, ' ')
	c.num(y)
}

// box is a rectangle of days and px in the open path.
func (c *canvas) box(x0, x1, y0, y1 float64) {
	c.m(x0, y1)
	c.vto(y0)
	c.hto(x1)
	c.vto(y1)
	c.z()
}

// dot is a stroke without length: a round cap makes it a disc of the class's
// stroke width at every width of the plot.
func (c *canvas) dot(x, y float64) {
	c.m(x, y)
	c.b = append(c.b, `h0`...)
}

// at hangs a piece that keeps its size at a day; inner is drawn round 0,0.
func (c *canvas) at(day, y float64, class, inner string) {
	c.leave()
	c.b = append(c.b, `<svg x="`...)
	c.pct(day)
	c.b = append(c.b, `" y="`...)
	c.num(y)
	c.b = append(c.b, `" width="1" height="1"`...)
	c.attr("class", class)
	c.b = append(c.b, '>')
	c.b = append(c.b, inner...)
	c.b = append(c.b, `</svg>`...)
}

// anchor says which point of a text stands at its x.
type anchor int

const (
	start anchor = iota
	middle
	end
)

// text writes words at a day, moved by dx px.
func (c *canvas) text(day, dx, y float64, a anchor, class, words string) {
	c.textPlus(day, dx, y, a, class, words, "")
}

// textPlus writes words and, after them, quiet words in the same line.
func (c *canvas) textPlus(day, dx, y float64, a anchor, class, words, quiet string) {
	c.leave()
	c.b = append(c.b, `<text x="`...)
	c.pct(day)
	if dx != 0 {
		c.b = append(c.b, `" dx="`...)
		c.num(dx)
	}
	c.b = append(c.b, `" y="`...)
	c.num(y)
	c.b = append(c.b, '"')
	switch a {
	case middle:
		c.b = append(c.b, ` text-anchor="middle"`...)
	case end:
		c.b = append(c.b, ` text-anchor="end"`...)
	}
	c.attr("class", class)
	c.b = append(c.b, '>')
	c.esc(words)
	if quiet != "" {
		c.b = append(c.b, ` <tspan class="q">`...)
		c.esc(quiet)
		c.b = append(c.b, `</tspan>`...)
	}
	c.b = append(c.b, `</text>`...)
}

func (c *canvas) attr(name, value string) {
	if value == "" {
		return
	}
	c.b = append(c.b, ' ')
	c.b = append(c.b, name...)
	c.b = append(c.b, `="`...)
	c.b = append(c.b, value...)
	c.b = append(c.b, '"')
}

// num writes px with one decimal at most, fine days with two.
func (c *canvas) num(v float64)  { c.b = appendNum(c.b, v, 10) }
func (c *canvas) fine(v float64) { c.b = appendNum(c.b, v, 100) }

// pct writes a day as per cent of the plot.
func (c *canvas) pct(day float64) {
	if day == 0 {
		c.b = append(c.b, '0')
		return
	}
	c.b = appendNum(c.b, day/c.days*100, 100)
	c.b = append(c.b, '%')
}

// appendNum writes v rounded to 1/per (10 or 100), without trailing zeros and
// without a zero before the point, as path data likes it; never "-0". Something
// that is no number is a mistake of this package, kept out by cleaning.
func appendNum(b []byte, v float64, per int64) []byte {
	if math.IsNaN(v) || math.Abs(v) > 1e12 {
		panic("chart: a coordinate that is no number")
	}
	n := int64(math.Round(v * float64(per)))
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	whole, part := n/per, n%per
	if whole != 0 || part == 0 {
		b = strconv.AppendInt(b, whole, 10)
	}
	if part == 0 {
		return b
	}
	b = append(b, '.')
	if per == 100 {
		if part < 10 {
			return append(b, '0', byte('0'+part))
		}
		if part%10 == 0 {
			return append(b, byte('0'+part/10))
		}
		return append(b, byte('0'+part/10), byte('0'+part%10))
	}
	return append(b, byte('0'+part))
}

func (c *canvas) esc(s string) { c.b = appendEsc(c.b, s) }

// appendEsc writes text for an element or a quoted attribute; what XML 1.0
// can't hold (control characters, lone surrogates, broken UTF-8) is dropped.
func appendEsc(b []byte, s string) []byte {
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && n <= 1:
		case r == '&':
			b = append(b, "&amp;"...)
		case r == '<':
			b = append(b, "&lt;"...)
		case r == '>':
			b = append(b, "&gt;"...)
		case r == '"':
			b = append(b, "&#34;"...)
		case r == '\'':
			b = append(b, "&#39;"...)
		case r == '\n' || r == '\t' || r == '\r':
			b = append(b, ' ')
		case r < 0x20 || r >= 0x7f && r < 0xa0 || r == 0xfffe || r == 0xffff:
		default:
			b = append(b, s[i:i+n]...)
		}
		i += n
	}
	return b
}

// cleanID keeps letters, digits and hyphens; an empty ID becomes "chart".
func cleanID(s string) string {
	b := make([]byte, 0, len(s))
	for i := 0; i < len(s); i++ {
		switch ch := s[i]; {
		case ch >= 'a' && ch <= 'z', ch >= 'A' && ch <= 'Z', ch >= '0' && ch <= '9', ch == '-':
			b = append(b, ch)
		}
	}
	if len(b) == 0 {
		return "chart"
	}
	if b[0] >= '0' && b[0] <= '9' || b[0] == '-' {
		return "c" + string(b)
	}
	return string(b)
}
