package chart

import (
	"sort"
	"strconv"

	gochart "github.com/wcharczuk/go-chart/v2"
)

// Boxes are losses whose days are open: the share alive falls somewhere in a box, by
// the box's height, and where in it nobody knows. Between boxes it is level. There are
// no limits (Turnbull 1976, J R Stat Soc B 38:290-295).
type Boxes struct {
	Head
	N     int    // lines
	Unit  string // what is counted: "lines" if empty
	Until int    // last day watched
	Boxes []Box
}

// Box is an interval of days with losses in it: after the day From, up to and on To.
// From is −1 where nobody looked before day 0.
type Box struct {
	From, To int
	Share    float64 // of all lines, lost in it
}

// drawnBox is a box with the shares alive before and after it, as they are printed.
type drawnBox struct {
	Box
	before, after float64
}

// clean sorts and rounds. A box that ends before it begins, overlaps the one before,
// or takes more than is left, is left out, as is one that holds less than a twentieth
// of a line.
func (in Boxes) clean() (out []drawnBox, dec, dropped int) {
	boxes := append([]Box(nil), in.Boxes...)
	sort.SliceStable(boxes, func(i, j int) bool { return boxes[i].From < boxes[j].From })
	dec = shareDecimals(in.N)
	alive, last, level := 1.0, -1, 1.0
	for _, b := range boxes {
		if b.From < last || b.To <= b.From || !dayOK(b.To) || !finite(b.Share, 0, alive+1e-9) {
			dropped++
			continue
		}
		alive, last = max(0, alive-b.Share), b.To
		if b.Share*float64(in.N) < .05 {
			continue
		}
		after := roundShare(alive, dec)
		out = append(out, drawnBox{b, level, after})
		level = after
	}
	return out, dec, dropped
}

// Draw draws the boxes on the axes of a curve. Without one: "Nothing measured yet."
func (in Boxes) Draw() Drawing {
	boxes, dec, dropped := in.clean()
	if len(boxes) == 0 || in.N < 1 {
		return nothing(nothingYet)
	}
	if in.Unit == "" {
		in.Unit = "lines"
	}
	until := max(boxes[len(boxes)-1].To, 0)
	if dayOK(in.Until) {
		until = max(until, in.Until)
	}
	const top, h = 14, leastCurvePx
	cv := newCanvas(float64(axisDays(in.Days, until)), float64(top+h+axisPx))
	cv.open("plot", "", in.Head, in.desc(boxes))
	cv.render(plot{top: top, height: h, hi: 1, series: []gochart.Series{series(func(cv *canvas, a area) {
		cv.shareAxis(a)
		cv.path("band")
		for _, b := range boxes {
			cv.box(float64(max(b.From, 0)), float64(b.To), a.py(b.before), a.py(b.after))
		}
		cv.path("ln")
		for _, b := range boxes {
			cv.box(float64(max(b.From, 0)), float64(b.To), a.py(b.before), a.py(b.after))
		}
		x, level := 0, 1.0
		for _, b := range boxes {
			if b.From > x {
				cv.m(float64(x), a.py(level))
				cv.hto(float64(b.From))
			}
			x, level = b.To, b.after
		}
		if until > x {
			cv.m(float64(x), a.py(level))
			cv.hto(float64(until))
		}
	})}})
	cv.dayAxis(float64(top+h), "arrived")
	d := Drawing{HTML: cv.close(), Tables: []Table{in.table(boxes, dec)}}
	if dropped > 0 {
		d.Notes = append(d.Notes, plural(dropped, "box", "boxes")+" left out: they can't be")
	}
	return d
}

func (in Boxes) desc(boxes []drawnBox) string {
	if in.Desc != "" {
		return in.Desc
	}
	return "Share of " + strconv.Itoa(in.N) + " " + in.Unit + " alive by day, level outside " + plural(len(boxes), "box", "boxes") + " and falling by its height somewhere inside each. The table holds all numbers."
}

func (in Boxes) table(boxes []drawnBox, dec int) Table {
	t := Table{Caption: "Boxes: the losses in each, of " + strconv.Itoa(in.N) + " " + in.Unit + ", and the share alive after it.", Columns: []Column{numeric("first day"), numeric("last day"), numeric("lost in it"), numeric("share alive after")}}
	for _, b := range boxes {
		t.Rows = append(t.Rows, []string{strconv.Itoa(b.From + 1), strconv.Itoa(b.To), f1(b.Share*float64(in.N)) + " of " + strconv.Itoa(in.N), pctWords(b.after, dec)})
	}
	return t
}
