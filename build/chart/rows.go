package chart

import (
	"strconv"

	gochart "github.com/wcharczuk/go-chart/v2"
)

// Rows of an import: the water level of each specimen over the same days, its
// marks on it, and how it ended 8 px after its last day.

const (
	rowBarPx     = 48
	sectionBarPx = 34
)

// Draw draws the bars and their axis rows. A row without a stay that can be
// drawn has a bar with guides and marks only.
func (r RowChart) Draw() RowDrawings {
	rows := make([]Row, len(r.Rows))
	last := 0
	for i, w := range r.Rows {
		w.Stays, w.Events, w.End = cleanStays(w.Stays), cleanEvents(w.Events), cleanEnd(w.End)
		if !dayOK(w.Born) {
			w.Born = 0
		}
		rows[i] = w
		last = max(last, w.Born, lastDay(nil, w.Events, w.Stays, w.End))
	}
	days := axisDays(r.Days, last)
	out := RowDrawings{Bars: make([]HTML, len(rows)), Tables: []Table{rowsTable(rows)}}
	var seen [lastMark + 1]bool
	for i, w := range rows {
		out.Bars[i] = w.bar(days)
		for _, e := range w.Events {
			seen[e.Mark] = true
		}
		seen[w.End.Mark] = true
	}
	var key []KeyItem
	for m := NoMark + 1; m <= lastMark; m++ {
		if seen[m] {
			key = append(key, KeyItem{Mark: m})
		}
	}
	out.Key = Key(key...)
	out.Top, out.Bottom = rowAxis(days, true), rowAxis(days, false)
	if len(rows) == 0 {
		out.Tables = nil
	}
	return out
}

func (w Row) bar(days int) HTML {
	h, foot, k, class := rowBarPx, 30, .95, "bar48"
	if w.Section {
		h, foot, k, class = sectionBarPx, 20, .66, "bar34"
	}
	var signs []sign
	for _, e := range w.Events {
		signs = append(signs, sign{day: float64(e.Day), mark: e.Mark})
	}
	if w.End.Mark != NoMark {
		signs = append(signs, sign{day: float64(w.End.Day), off: endOff(w.End, w.Events), mark: w.End.Mark})
	}
	placeSigns(signs, float64(days))
	c := newCanvas(float64(days), float64(h))
	c.openHidden(class)
	c.render(plot{top: foot - 24, height: 24, hi: 1, series: []gochart.Series{series(func(c *canvas, a area) {
		c.guides(float64(h))
		c.water(w.Stays, a.bottom, k)
		last := lastDay(nil, w.Events, w.Stays, w.End)
		if w.End.Mark != NoMark {
			last = w.End.Day
		}
		if last > w.Born {
			c.soil("soil thin", float64(w.Born), float64(last), a.bottom)
		}
		for _, s := range signs {
			// a row has no height for lifted marks: those that touch are in
			// the table, as all are
			s.narrow, s.wide = flat(s.narrow), flat(s.wide)
			c.sign(s, a.bottom)
		}
	})}})
	return c.close()
}

func flat(row int) int {
	if row > 0 {
		return -1
	}
	return row
}

// guides are uprights on the days with words, stronger where they have words
// at every width.
func (c *canvas) guides(h float64) {
	for _, wide := range [...]bool{true, false} {
		c.path(map[bool]string{true: "g", false: "g guide"}[wide])
		for _, l := range dayLabels(int(c.days)) {
			if l.wide == wide {
				c.m(float64(l.day), -1)
				c.vto(h + 1)
			}
		}
	}
}

// rowAxis is the axis over the first row or under the last.
func rowAxis(days int, top bool) HTML {
	h, y, t, w := 36.0, 1.0, 6.0, 21.0
	if top {
		h, y, t, w = 30, 29, -6, -10
	}
	c := newCanvas(float64(days), h)
	c.openHidden("")
	c.path("ax")
	c.m(0, y)
	c.hto(c.days)
	for _, l := range dayLabels(days) {
		c.m(float64(l.day), y)
		c.vto(y + t)
	}
	for _, l := range dayLabels(days) {
		class, a, words := "q", middle, strconv.Itoa(l.day)
		if l.wide {
			class = "q wide"
		}
		if l.day == 0 {
			a, words = start, "day 0"
		}
		c.text(float64(l.day), 0, y+w, a, class, words)
	}
	return c.close()
}

func rowsTable(rows []Row) Table {
	t := Table{Caption: "Places by day, marks with their days, and outcome.", Columns: []Column{text1("number"), text1("name"), numeric("from day"), text1("places, by day"), text1("marks, by day"), text1("last seen"), text1("outcome")}}
	for _, w := range rows {
		endWords := ""
		if w.End.Mark != NoMark {
			endWords = w.End.Mark.Word() + " " + strconv.Itoa(w.End.Day)
		}
		t.Rows = append(t.Rows, []string{w.Number, w.Name, strconv.Itoa(w.Born), stayList(w.Stays), eventList(w.Events), endWords, w.Outcome})
	}
	return t
}
