package chart

import (
	"strconv"
)

// axisPx is the height of a day axis: ticks, days, weeks.
const axisPx = 44

// dayAxis draws the axis at y: ticks each week, longer each second, days under
// them and weeks under those. Day 0 says "arrived", or what zero says.
func (c *canvas) dayAxis(y float64, zero string) {
	days := int(c.days)
	c.path("ax")
	c.m(0, y)
	c.hto(c.days)
	step := 7
	if days > 1000 {
		step = 28
	}
	for d := 0; d <= days; d += step {
		c.m(float64(d), y)
		if d%(2*step) == 0 {
			c.vto(y + 7)
		} else {
			c.vto(y + 4)
		}
	}
	for _, l := range dayLabels(days) {
		q, class := "q", ""
		if l.wide {
			q, class = "q wide", "wide"
		}
		c.text(float64(l.day), 0, y+20, middle, class, strconv.Itoa(l.day))
		switch {
		case l.day == 0:
			c.text(0, 0, y+36, middle, q, zero)
		case l.day%7 == 0:
			c.text(float64(l.day), 0, y+36, middle, q, "week "+strconv.Itoa(l.day/7))
		}
	}
	c.text(0, -10, y+20, end, "q wide", "day")
}

// uprights are hairlines at the days that have words, from y0 down to y1.
func (c *canvas) uprights(y0, y1 float64) {
	c.path("g")
	for _, l := range dayLabels(int(c.days)) {
		c.m(float64(l.day), y0)
		c.vto(y1)
	}
}

// levels draws hairlines first and the figures after them, so that the lines
// stay one path.
func (c *canvas) levels(ys []float64, words []string) {
	c.path("g")
	for _, y := range ys {
		c.m(0, y)
		c.hto(c.days)
	}
	for i, y := range ys {
		c.text(0, -8, y+4, end, "q", words[i])
	}
}

// soil is the soil line over the days d0 to d1.
func (c *canvas) soil(class string, d0, d1, y float64) {
	c.path(class)
	c.m(d0, y)
	c.hto(d1)
}
