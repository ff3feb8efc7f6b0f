package chart

// Labels and marks dodge each other by rule, at a reckoned width; see
// narrowPx and widePx. A placing that doesn't touch at that width touches at
// no greater one, because what stands at a later day also stands further right:
// a placing that breaks that order is refused even if there is room.

// rect is a place in px at the width of placing, with the day it hangs from.
type rect struct {
	day            float64
	x0, x1, y0, y1 float64
}

// clearX says that two rects stand side by side, and will at greater widths.
func clearX(a, b rect, air float64) bool {
	return a.x1+air <= b.x0 && a.day <= b.day || b.x1+air <= a.x0 && b.day <= a.day
}

// apart says that two rects don't touch.
func apart(a, b rect) bool {
	return a.y1 <= b.y0 || b.y1 <= a.y0 || clearX(a, b, 6)
}

// label is words that want a place.
type label struct {
	day         float64
	words, note string
	below       bool
	first       bool    // chooses before the others
	width       float64 // of the words, reckoned once; see placeLabels

	placed bool
	broad  bool // placed from broadPx on only
	anchor anchor
	dx     float64
	lane   int
	y      float64 // below: px under the soil line of the first baseline
}

// from is the class of the widths at which the label is drawn; "" if it has no
// place.
func (l label) from() string {
	switch {
	case !l.placed:
		return ""
	case l.broad:
		return "broad"
	}
	return "wide"
}

const (
	laneCount = 2
	lanePx    = 32 // two lines and air
	// widePadLeft and widePadRight are how far words may reach out of the plot
	// from 640 px on.
	widePadLeft, widePadRight = 36.0, 32.0
)

// span is the label's place along x at the width px, for one anchor.
func (l label) span(days, px float64, a anchor) (x0, x1, dx float64) {
	w := l.width
	x := l.day / days * px
	switch a {
	case start:
		return x - 3, x - 3 + w, -3
	case end:
		return x + 3 - w, x + 3, 3
	}
	return x - w/2, x + w/2, 0
}

// placeLabels gives each label the first lane, near before far, in which it
// touches nothing: above in even lanes of lanePx, below right under the deepest
// strand over its width, or lanePx lower. What finds none at widePx may find one
// at broadPx, between those that already have theirs; else it stays unplaced and
// the key has it. taken are places that are gone before (y in px under the soil
// line, for the labels below). It hands back the lanes used above and the depth
// used below.
func placeLabels(ls []label, days float64, deepest func(d0, d1 float64) float64, taken func(px float64) []rect) (lanes int, depth float64) {
	for i := range ls {
		ls[i].width = max(textWidth(ls[i].words, true), textWidth(ls[i].note, false))
	}
	for _, px := range [...]float64{widePx, broadPx} {
		l, d := placeAt(ls, px, days, deepest, taken(px))
		lanes, depth = max(lanes, l), max(depth, d)
	}
	return lanes, depth
}

// box is the label's place and the leader to its mark, in a lane.
func (l label) box(lane int, a anchor, px, days float64, deepest func(d0, d1 float64) float64) (box, lead rect, dx float64) {
	x0, x1, dx := l.span(days, px, a)
	x := l.day / days * px
	box = rect{day: l.day, x0: x0, x1: x1}
	lead = rect{day: l.day, x0: x, x1: x}
	if l.below {
		box.y0 = max(22, deepest(x0/px*days, x1/px*days)+3) + float64(lane)*lanePx
		if l.placed { // keeps its height at every width
			box.y0 = l.y - 12
		}
		box.y1 = box.y0 + 17
		if l.note != "" {
			box.y1 += 15
		}
	} else { // counted upwards from the plot
		box.y0 = float64(lane) * lanePx
		box.y1 = box.y0 + lanePx
	}
	lead.y1 = box.y0
	return box, lead, dx
}

func placeAt(ls []label, px, days float64, deepest func(d0, d1 float64) float64, taken []rect) (lanes int, depth float64) {
	var up, upLead, down, downLead []rect
	down = append(down, taken...)
	for _, l := range ls {
		if l.placed {
			box, lead, _ := l.box(l.lane, l.anchor, px, days, deepest)
			if l.below {
				down, downLead = append(down, box), append(downLead, lead)
			} else {
				up, upLead = append(up, box), append(upLead, lead)
			}
		}
	}
	for pass := range 2 {
		for i := range ls {
			l := &ls[i]
			if l.placed || l.first != (pass == 0) {
				continue
			}
			boxes, leads := &up, &upLead
			if l.below {
				boxes, leads = &down, &downLead
			}
		search:
			for lane := range laneCount {
				for _, a := range [...]anchor{middle, start, end} {
					box, lead, dx := l.box(lane, a, px, days, deepest)
					room := widePadLeft
					if l.below { // the figures of the levels stand there
						room = 4
					}
					if box.x0 < -room || box.x1 > px+widePadRight {
						continue
					}
					if !free(box, lead, *boxes, *leads) {
						continue
					}
					*boxes, *leads = append(*boxes, box), append(*leads, lead)
					l.placed, l.broad, l.anchor, l.dx, l.lane = true, px > widePx, a, dx, lane
					if l.below {
						l.y = box.y0 + 12
						depth = max(depth, box.y1)
					} else {
						lanes = max(lanes, lane+1)
					}
					break search
				}
			}
		}
	}
	return lanes, depth
}

// free says that a label and the leader to its mark touch no other label and
// cross no leader.
func free(box, lead rect, boxes, leads []rect) bool {
	for _, b := range boxes {
		if !apart(box, b) || lead.y1 > b.y0 && lead.y0 < b.y1 && !clearX(lead, b, 2) {
			return false
		}
	}
	for _, l := range leads {
		if l.y1 > box.y0 && l.y0 < box.y1 && !clearX(l, box, 2) {
			return false
		}
	}
	return true
}

// sign is a mark on the line that wants a row: row 0 stands on the line, row 1
// is lifted off it (or lowered) by rowPx, and so on; −1 finds none.
type sign struct {
	day  float64
	off  float64 // px after the day: an end stands after the last day
	mark Mark

	narrow, wide int
}

// turn is when a mark may choose: the end of watching first, then what stands
// across the line, then the others.
func (s *sign) turn() int {
	switch {
	case s.off != 0:
		return 0
	case glyphs[s.mark].side == on:
		return 1
	}
	return 2
}

const (
	rowCount = 3
	rowPx    = 21
	signHalf = 7.5 // half a mark's width
	onHalf   = 6.5 // of one across the line, which has air round it
	endPx    = 8   // how far an end stands after the last day
)

// placeSigns gives each mark its row at both widths; marks across the line keep
// to row 0.
func placeSigns(ss []sign, days float64) {
	rows := func(px float64, set func(*sign, int)) {
		var taken [2][rowCount][]rect
		for pass := range 3 {
			for i := range ss {
				s := &ss[i]
				sd := glyphs[s.mark].side
				if pass != s.turn() {
					continue
				}
				x := s.day/days*px + s.off
				half := signHalf
				if sd == on {
					half = onHalf
				}
				box := rect{day: s.day, x0: x - half, x1: x + half}
				hit := func(row int, sd side) bool {
					for _, b := range taken[sd][row] {
						if box.x0 < b.x1 && b.x0 < box.x1 {
							return true
						}
					}
					return false
				}
				row := -1
				if sd == on {
					if !hit(0, above) {
						row = 0
						taken[above][0] = append(taken[above][0], box)
						taken[below][0] = append(taken[below][0], box)
					}
				} else {
					for r := range rowCount {
						if !hit(r, sd) {
							row = r
							taken[sd][r] = append(taken[sd][r], box)
							break
						}
					}
				}
				set(s, row)
			}
		}
	}
	rows(narrowPx, func(s *sign, r int) { s.narrow = r })
	rows(widePx, func(s *sign, r int) { s.wide = r })
}

// sign draws the mark on a line at y; lifts are classes, so that the two
// widths can differ.
func (c *canvas) sign(s sign, y float64) {
	if s.narrow < 0 && s.wide < 0 {
		return
	}
	class := ""
	switch {
	case s.narrow < 0:
		class = "wide"
	case s.wide < 0:
		class = "narrow"
	}
	in := s.mark.shape(true)
	lift := ""
	dir := "u"
	if glyphs[s.mark].side == below {
		dir = "d"
	}
	if s.narrow > 0 {
		lift = "n" + dir + string(rune('0'+s.narrow))
	}
	if s.wide > 0 {
		if lift != "" {
			lift += " "
		}
		lift += "w" + dir + string(rune('0'+s.wide))
	}
	switch {
	case lift != "" && s.off != 0:
		in = `<g transform="translate(` + string(appendNum(nil, s.off, 10)) + `)"><g class="` + lift + `">` + in + `</g></g>`
	case lift != "":
		in = `<g class="` + lift + `">` + in + `</g>`
	case s.off != 0:
		in = `<g transform="translate(` + string(appendNum(nil, s.off, 10)) + `)">` + in + `</g>`
	}
	c.at(s.day, y, class, in)
}

// endOff moves the end mark clear of a disc on the last day.
func endOff(e End, evs []Event) float64 {
	for _, v := range evs {
		if v.Mark == Established && v.Day == e.Day {
			return endPx + 9
		}
	}
	return endPx
}
