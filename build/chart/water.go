package chart

import (
	"sort"
)

// levelPx is how high a stage's water stands: 4 : 3 : 2 : 1.
func levelPx(s Stage) float64 {
	switch s {
	case Soak:
		return 24
	case Bin:
		return 18
	case StepDown:
		return 12
	case Room:
		return 6
	}
	return 0
}

var stageClass = [...]string{NoStage: "s0", Soak: "s4", Bin: "s3", StepDown: "s2", Room: "s1"}

// water draws the level over the stays, standing on y; k shrinks it.
func (c *canvas) water(stays []Stay, y, k float64) {
	for st := Soak; st <= Room; st++ {
		for _, s := range stays {
			if s.Stage == st {
				c.path(stageClass[st])
				c.box(float64(s.From), float64(s.To), y-levelPx(st)*k, y)
			}
		}
	}
}

// dayBars draws a bar a day in the colour of its stage; days without a figure
// stay blank.
func (c *canvas) dayBars(a area, vs []DayValue, stage func(day int) Stage) {
	base := a.py(0)
	for st := NoStage; st <= Room; st++ {
		for _, v := range vs {
			if v.Day < int(c.days) && stage(v.Day) == st {
				c.path(stageClass[st])
				c.box(float64(v.Day)+.12, float64(v.Day)+.88, min(a.py(v.Value), base-1), base)
			}
		}
	}
}

// stayLabel is the name of a stay under the water level.
type stayLabel struct {
	stay         Stay
	narrow, wide bool // its stage is written at this width
	place        bool // and its place, from 640 px
	atDay        float64
}

// placeStays names the stays where there is room: the longest choose first.
// The narrow words are also the wide ones, so that a stage never vanishes when
// a page grows.
func placeStays(stays []Stay, days float64) []stayLabel {
	out := make([]stayLabel, len(stays))
	order := make([]int, len(stays))
	for i, s := range stays {
		out[i] = stayLabel{stay: s, atDay: float64(s.From)}
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return length(stays[order[i]]) > length(stays[order[j]]) })
	fit := func(taken []rect, l stayLabel, w, px, right float64) (rect, bool) {
		x := l.atDay / days * px
		box := rect{day: l.atDay, x0: x, x1: x + w}
		if box.x1 > px+right {
			return box, false
		}
		for _, t := range taken {
			if !clearX(box, t, 8) {
				return box, false
			}
		}
		return box, true
	}
	var taken []rect
	for _, i := range order {
		l := &out[i]
		if word := l.stay.Stage.Word(); word != "" {
			if box, ok := fit(taken, *l, textWidth(word, true), narrowPx, padRight); ok {
				taken = append(taken, box)
				l.narrow, l.wide = true, true
			}
		}
	}
	taken = taken[:0]
	for _, i := range order { // stages already shown keep their place
		if l := &out[i]; l.narrow {
			box, _ := fit(nil, *l, textWidth(l.stay.Stage.Word(), true), widePx, widePadRight)
			taken = append(taken, box)
		}
	}
	for _, i := range order {
		l := &out[i]
		own := rect{day: l.atDay, x0: l.atDay / days * widePx, x1: l.atDay/days*widePx + textWidth(l.stay.Stage.Word(), true)}
		others := taken
		if l.narrow {
			others = without(taken, own)
		}
		w := max(textWidth(l.stay.Stage.Word(), true), textWidth(l.stay.Place, false))
		if box, ok := fit(others, *l, w, widePx, widePadRight); ok && l.stay.Place+l.stay.Stage.Word() != "" {
			l.wide, l.place = true, true
			taken = append(others, box)
		} else if box, ok := fit(others, *l, textWidth(l.stay.Stage.Word(), true), widePx, widePadRight); ok && !l.narrow && l.stay.Stage != NoStage {
			l.wide = true
			taken = append(others, box)
		}
	}
	return out
}

func length(s Stay) int { return s.To - s.From }

func without(rs []rect, r rect) []rect {
	out := make([]rect, 0, len(rs)+1)
	for _, x := range rs {
		if x != r {
			out = append(out, x)
		}
	}
	return out
}

// stayWords writes the names under the water level.
func (c *canvas) stayWords(ls []stayLabel, y float64) (any bool) {
	for _, l := range ls {
		if !l.wide {
			continue
		}
		any = true
		class := "b"
		if !l.narrow {
			class = "b wide"
		}
		if w := l.stay.Stage.Word(); w != "" {
			c.text(l.atDay, 0, y+16, start, class, w)
		}
		if l.place && l.stay.Place != "" {
			c.text(l.atDay, 0, y+31, start, "q wide", l.stay.Place)
		}
	}
	return any
}
