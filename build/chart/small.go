package chart

import (
	"strconv"
)

// Whisker is an interval on 0 to 100 %, for a table's cell; it is hidden from
// screen readers, the cell beside it has the figures. Anything that isn't an
// interval within 0 and 1 around its share gives "".
func Whisker(i Interval) HTML {
	if !finite(i.Share, 0, 1) || !finite(i.Lower, 0, i.Share) || !finite(i.Upper, i.Share, 1) {
		return ""
	}
	c := newCanvas(1, 22)
	c.openHidden("whisk")
	c.path("g")
	for _, x := range [...]float64{0, .5, 1} {
		c.m(x, -6)
		c.vto(28)
	}
	c.path("ln")
	c.m(i.Lower, 11)
	c.hto(i.Upper)
	c.path("spot")
	c.dot(i.Share, 11)
	return c.close()
}

// maxPips is where a row of crosses ends.
const maxPips = 10

// Pips is a row of crosses, one a loss, for the table of causes; beyond 10 it
// stops with a "+", the count stands beside it. Hidden from screen readers.
func Pips(n int) HTML {
	if n <= 0 {
		return ""
	}
	k := min(n, maxPips)
	w := k * 18
	if n > k {
		w += 12
	}
	b := append([]byte(nil), `<svg class="ch pips" width="`...)
	b = strconv.AppendInt(b, int64(w), 10)
	b = append(b, `" height="16" aria-hidden="true"><path class="x" d="`...)
	for i := range k {
		x := int64(i*18 + 2)
		b = append(b, 'M')
		b = strconv.AppendInt(b, x, 10)
		b = append(b, " 2l12 12m0-12-12 12"...)
	}
	b = append(b, `"/>`...)
	if n > k {
		b = append(b, `<text x="`...)
		b = strconv.AppendInt(b, int64(k*18), 10)
		b = append(b, `" y="13">+</text>`...)
	}
	return HTML(append(b, `</svg>`...))
}

// Icon is a mark at 22 px, for lists; "" for NoMark. Hidden from screen readers.
func Icon(m Mark) HTML {
	if !m.known() {
		return ""
	}
	return icons[m]
}

var icons = func() []HTML {
	out := make([]HTML, len(glyphs))
	for m := range glyphs {
		if m == 0 {
			continue
		}
		g := glyphs[m]
		dy := string(appendNum(nil, g.dy, 10))
		s := `<svg class="ch ic" viewBox="0 0 22 22" aria-hidden="true">`
		if g.side != on && !g.noIcon {
			s += `<path class="soil thin" d="M0 ` + dy + `H22"/>`
		}
		out[m] = HTML(s + `<g transform="translate(11 ` + dy + `)">` + Mark(m).shape(false) + `</g></svg>`)
	}
	return out
}()

// Key is a list of marks with their words.
func Key(items ...KeyItem) HTML {
	var es []keyEntry
	for _, it := range items {
		if !it.Mark.known() {
			continue
		}
		if it.Words == "" {
			it.Words = it.Mark.Word()
		}
		es = append(es, keyEntry{icon: string(Icon(it.Mark)), words: it.Words})
	}
	return keyList("", es)
}

// waterIcon is a piece of water level for a key.
func waterIcon(s Stage) string {
	return `<svg class="ch ic" viewBox="0 0 22 22" aria-hidden="true"><path class="` + stageClass[max(NoStage, min(s, Room))] + `" d="M0 21V` + string(appendNum(nil, 21-levelPx(s)*.8, 10)) + `H22V21Z"/><path class="soil thin" d="M0 21H22"/></svg>`
}

// WaterKey is the key to the water level, wettest first, its heights 4 : 3 : 2 : 1.
func WaterKey() HTML {
	b := []byte(`<ul class="water">`)
	for _, s := range []struct {
		s     Stage
		words string
	}{{Soak, "in water"}, {Bin, "near saturation"}, {StepDown, "in between"}, {Room, "room air"}} {
		c := newCanvas(1, 26)
		c.openHidden("")
		c.path(stageClass[s.s])
		c.box(0, 1, 25-levelPx(s.s), 25)
		c.soil("soil thin", 0, 1, 25)
		b = append(b, `<li>`...)
		b = append(b, c.close()...)
		b = append(b, `<b>`+s.s.Word()+`</b> <span>`+s.words+`</span></li>`...)
	}
	return HTML(append(b, `</ul>`...))
}
