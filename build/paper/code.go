package paper

import (
	"fmt"
	"html/template"
	"strings"

	"rsc.io/qr/coding"
)

// A code is made in bytes at level Q, which bears a quarter of its bytes lost to
// dirt, in the smallest version that holds the text. The library places bits and
// check bytes; the choice of the mask, which it leaves out, is made here as the
// standard asks (ISO/IEC 18004:2015, 7.8.3; the rules and weights from memory),
// since a code whose mask makes blots or false finders is read badly.

// quiet is the white border around a code, in modules: four, says the standard.
const quiet = 4

// encode makes the code of a text; an error where the text is too long for the
// largest, 1663 bytes.
func encode(text string) (*coding.Code, error) {
	s := coding.String(text)
	v := coding.Version(coding.MinVersion)
	for s.Bits(v) > v.DataBytes(coding.Q)*8 {
		if v++; v > coding.MaxVersion {
			return nil, fmt.Errorf("%d bytes are too long for a QR code", len(text))
		}
	}
	var best *coding.Code
	least := 0
	for mask := coding.Mask(0); mask < 8; mask++ {
		plan, err := coding.NewPlan(v, coding.Q, mask)
		if err != nil {
			return nil, err
		}
		code, err := plan.Encode(s)
		if err != nil {
			return nil, err
		}
		if p := penalty(code); best == nil || p < least {
			best, least = code, p
		}
	}
	return best, nil
}

// penalty judges a code: runs of one colour, blots of two by two, patterns like a
// finder, and the imbalance of black and white.
func penalty(c *coding.Code) int {
	sum, black := 0, 0
	for a := range c.Size {
		row := make([]bool, c.Size)
		column := make([]bool, c.Size)
		for b := range c.Size {
			row[b], column[b] = c.Black(b, a), c.Black(a, b)
			if row[b] {
				black++
			}
			if a > 0 && b > 0 && c.Black(b, a) == c.Black(b-1, a) && c.Black(b, a) == c.Black(b, a-1) && c.Black(b, a) == c.Black(b-1, a-1) {
				sum += 3
			}
		}
		sum += alongside(row) + alongside(column)
	}
	off := 20*black - 10*c.Size*c.Size // twentieths of all, from half
	if off < 0 {
		off = -off
	}
	return sum + 10*(off/(c.Size*c.Size))
}

// alongside is the penalty of one row or column.
func alongside(line []bool) int {
	sum, run := 0, 0
	for i, black := range line {
		if i > 0 && black == line[i-1] {
			run++
		} else {
			run = 1
		}
		switch {
		case run == 5:
			sum += 3
		case run > 5:
			sum++
		}
	}
	// 1:1:3:1:1 with four white modules before it or behind it; outside the code
	// all is white.
	at := func(i int) bool { return i >= 0 && i < len(line) && line[i] }
	for i := range len(line) - 6 {
		if !(at(i) && !at(i+1) && at(i+2) && at(i+3) && at(i+4) && !at(i+5) && at(i+6)) {
			continue
		}
		before := !at(i-1) && !at(i-2) && !at(i-3) && !at(i-4)
		behind := !at(i+7) && !at(i+8) && !at(i+9) && !at(i+10)
		if before || behind {
			sum += 40
		}
	}
	return sum
}

// drawing draws a code in the page's own ink, a module a unit, its border around
// it.
func drawing(c *coding.Code, of string) template.HTML {
	var path strings.Builder
	for y := range c.Size {
		for x := 0; x < c.Size; x++ {
			from := x
			for c.Black(x, y) {
				x++
			}
			if n := x - from; n > 0 {
				fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", from+quiet, y+quiet, n, n)
			}
		}
	}
	side := c.Size + 2*quiet
	return template.HTML(fmt.Sprintf(`<svg viewBox="0 0 %d %d" role="img" aria-label="QR code of %s" shape-rendering="crispEdges"><path fill="currentColor" d="%s"/></svg>`,
		side, side, template.HTMLEscapeString(of), path.String()))
}
