package chart

import (
	"math"
	"sort"

	gochart "github.com/wcharczuk/go-chart/v2"
)

// A place on calendar days: deficit, temperature and humidity each in a plot of
// its own over one axis (never two scales in one), and under them who stood
// there when. The rows are lines of text over bars, since names may be long and
// text in a picture doesn't wrap.

const (
	placePx    = 92
	placeHead  = 34
	noteRoomPx = 24
)

// Draw draws the place. Days without a figure are left open. Without any figure and anybody standing there: "Nothing measured yet."
func (p PlacePlot) Draw() Drawing {
	p.DeficitKPa = cleanPlace(p.DeficitKPa, 0, 100, 100)
	for i := range p.DeficitKPa {
		p.DeficitKPa[i].Mean = drawnDeficit(p.DeficitKPa[i].Mean)
	}
	p.TemperatureC = cleanPlace(p.TemperatureC, -60, 100, 10)
	p.HumidityPct = cleanPlace(p.HumidityPct, 0, 100, 1)
	p.Notes = cleanEvents(p.Notes)
	var stood []Stood
	for _, s := range p.Stood {
		if dayOK(s.From) && dayOK(s.To) && s.To > s.From {
			stood = append(stood, s)
		}
	}
	p.Stood = stood
	last := 0
	for _, ds := range [...][]PlaceDay{p.DeficitKPa, p.TemperatureC, p.HumidityPct} {
		if n := len(ds); n > 0 {
			last = max(last, ds[n-1].Day+1)
		}
	}
	for _, s := range stood {
		last = max(last, s.To)
	}
	if n := len(p.Notes); n > 0 {
		last = max(last, p.Notes[n-1].Day+1)
	}
	if last == 0 {
		return nothing(nothingYet)
	}
	days := max(last, 7)
	if p.Days >= last && p.Days >= 7 && p.Days <= maxDay {
		days = p.Days
	}
	if !finite(float64(p.Stage), float64(NoStage), float64(Room)) {
		p.Stage = NoStage
	}
	return p.draw(float64(days))
}

func cleanPlace(in []PlaceDay, lo, hi, per float64) []PlaceDay {
	out := make([]PlaceDay, 0, len(in))
	for _, d := range in {
		if !dayOK(d.Day) || !finite(d.Mean, lo, hi) {
			continue
		}
		d.Mean = round(d.Mean, per)
		if d.HasRange && finite(d.Lowest, lo, hi) && finite(d.Highest, lo, hi) && round(d.Lowest, per) <= d.Mean && round(d.Highest, per) >= d.Mean {
			d.Lowest, d.Highest = round(d.Lowest, per), round(d.Highest, per)
		} else {
			d.HasRange, d.Lowest, d.Highest = false, 0, 0
		}
		out = append(out, d)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Day < out[j].Day })
	keep := out[:0]
	for i, d := range out { // one a day, the last given
		if i+1 == len(out) || out[i+1].Day != d.Day {
			keep = append(keep, d)
		}
	}
	return keep[:min(len(keep), maxCells)]
}

// placeRange is a round range for a plot that needn't start at 0.
func placeRange(ds []PlaceDay, least float64) (lo, hi, step float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, d := range ds {
		lo, hi = min(lo, d.Mean), max(hi, d.Mean)
		if d.HasRange {
			lo, hi = min(lo, d.Lowest), max(hi, d.Highest)
		}
	}
	step = niceStep(max(least, hi-lo), 3)
	lo, hi = math.Floor(lo/step)*step, math.Ceil(hi/step)*step
	for hi-lo < least {
		hi += step
	}
	return lo, hi, step
}

func (p PlacePlot) draw(days float64) Drawing {
	cal := newCalendar(p.First, int(days))
	y := 8
	if len(p.Notes) > 0 {
		y += noteRoomPx
	}
	noteY := float64(y)
	var plots []plot
	add := func(lo, hi float64, f series) {
		y += placeHead
		plots = append(plots, plot{top: y, height: placePx, lo: lo, hi: hi, series: []gochart.Series{f}})
		y += placePx
	}
	ground := func(c *canvas, a area) {
		if a.top == float64(plots[0].top) {
			cal.uprights(c, noteY, float64(y))
		}
	}
	if ds := p.DeficitKPa; len(ds) > 0 {
		vs := make([]DayValue, len(ds))
		for i, d := range ds {
			vs[i] = DayValue{d.Day, d.Mean}
		}
		hi, step := deficitScale(vs)
		add(0, hi, func(c *canvas, a area) {
			ground(c, a)
			c.deficit(a, vs, step, func(int) Stage { return p.Stage })
		})
	}
	for _, q := range []struct {
		ds    []PlaceDay
		words string
		least float64
		top   float64
	}{{p.TemperatureC, "temperature, °C", 4, 1e9}, {p.HumidityPct, "humidity, % RH", 10, 100}} {
		if len(q.ds) == 0 {
			continue
		}
		lo, hi, step := placeRange(q.ds, q.least)
		if hi > q.top {
			lo, hi = min(lo, q.top-q.least), q.top
		}
		add(lo, hi, func(c *canvas, a area) {
			ground(c, a)
			c.rangePlot(a, q.ds, step, q.words)
		})
	}
	y += 6
	c := newCanvas(days, float64(y+axisPx))
	c.open("plot", "", p.Head, p.desc(cal))
	c.render(plots...)
	if len(plots) == 0 {
		cal.uprights(c, noteY, float64(y))
	}
	p.noteMarks(c, noteY)
	cal.axis(c, float64(y))
	html := c.close()
	if rows := p.stoodRows(cal, days); rows != "" {
		html += rows
	}
	return Drawing{HTML: html, Key: p.key(cal), Tables: p.tables(cal)}
}

// rangePlot draws day means as a stepped line over the band from the lowest to
// the highest of the day. A day without a figure ends the line.
func (c *canvas) rangePlot(a area, ds []PlaceDay, step float64, words string) {
	var ys []float64
	var fig []string
	for v := math.Ceil(a.y.Min/step-1e-9) * step; v <= a.y.Max+1e-9; v += step {
		ys, fig = append(ys, a.py(v)), append(fig, f2(v))
	}
	c.levels(ys, fig)
	for i := 0; i < len(ds); { // a run of days with a range is one shape
		j := i
		for j < len(ds) && ds[j].HasRange && (j == i || ds[j-1].Day+1 == ds[j].Day) {
			j++
		}
		if j == i {
			i++
			continue
		}
		c.path("band")
		c.m(float64(ds[i].Day), a.py(ds[i].Lowest))
		for k := i; k < j; k++ {
			if k == i || ds[k].Highest != ds[k-1].Highest {
				c.vto(a.py(ds[k].Highest))
			}
			if k == j-1 || ds[k].Highest != ds[k+1].Highest {
				c.hto(float64(ds[k].Day + 1))
			}
		}
		for k := j - 1; k > i; k-- {
			if ds[k].Lowest != ds[k-1].Lowest || k == j-1 {
				c.vto(a.py(ds[k].Lowest))
				c.hto(float64(ds[k].Day))
			}
		}
		c.vto(a.py(ds[i].Lowest))
		c.z()
		i = j
	}
	for i, d := range ds {
		c.path("mean")
		y := a.py(d.Mean)
		if i == 0 || ds[i-1].Day+1 != d.Day {
			c.m(float64(d.Day), y)
		} else if d.Mean != ds[i-1].Mean {
			c.vto(y)
		}
		if i+1 == len(ds) || ds[i+1].Day != d.Day+1 || ds[i+1].Mean != d.Mean {
			c.hto(float64(d.Day + 1))
		}
	}
	quiet := "day means"
	for _, d := range ds {
		if d.HasRange {
			quiet = "day means, range"
			break
		}
	}
	c.textPlus(0, 0, a.top-12, start, "b hal", words, quiet)
}

// noteMarks stand in a row over the plots; their words are in the key.
func (p PlacePlot) noteMarks(c *canvas, y float64) {
	var signs []sign
	for _, e := range p.Notes {
		signs = append(signs, sign{day: float64(e.Day), mark: e.Mark})
	}
	placeSigns(signs, c.days)
	for _, s := range signs {
		s.narrow, s.wide = flat(s.narrow), flat(s.wide)
		c.sign(s, y-12)
	}
}
