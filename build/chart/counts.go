package chart

import (
	"strconv"
)

// countRow is a row of counts under the axis.
type countRow struct {
	name, quiet string
	count       func(day int) int
	from        int
}

// lines are the row's name, broken where it is longer than the narrowest plot.
func (r countRow) lines() []string { return breakLines(r.name, narrowPx+padRight, true) }

// countRowsPx is the height of the rows.
func countRowsPx(rows []countRow) float64 {
	h := 0.0
	for _, r := range rows {
		h += countRowPx + float64(max(0, len(r.lines())-1))*countLinePx
	}
	return h
}

// countRows writes the rows, each under its name, on the days with words.
func (c *canvas) countRows(y float64, rows []countRow) {
	for _, r := range rows {
		lines := r.lines()
		for i, l := range lines {
			y += countLinePx
			quiet := ""
			if i == len(lines)-1 {
				quiet = r.quiet
			}
			c.textPlus(0, 0, y-4, start, "b", l, quiet)
		}
		if len(lines) == 0 {
			y += countLinePx
		}
		y += countRowPx - countLinePx
		for _, l := range dayLabels(int(c.days)) {
			if l.day < r.from {
				continue
			}
			class := ""
			if l.wide {
				class = "wide"
			}
			c.text(float64(l.day), 0, y-8, middle, class, strconv.Itoa(r.count(l.day)))
		}
	}
}
