package chart

import (
	"math"
	"strconv"
	"time"

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

// Draw draws the place. Days without a figure are left open; a day alone is a
// dot. Without any figure and anybody standing there: "Nothing measured yet."
func (p PlacePlot) Draw() Drawing {
	p.DeficitKPa = cleanPlace(p.DeficitKPa, 0, 100, 100)
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
	at := map[int]PlaceDay{}
	var vs []DayValue
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
		at[d.Day] = d
		vs = append(vs, DayValue{d.Day, d.Mean})
	}
	out := make([]PlaceDay, 0, len(vs))
	for _, v := range cleanValues(vs, lo, hi, per) {
		out = append(out, at[v.Day])
	}
	return out
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
		vs = cleanDeficit(vs)
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
	}{{p.TemperatureC, "temperature, °C", 4, 1e9}, {p.HumidityPct, "relative humidity, %", 10, 100}} {
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
	c.open("", p.Head, p.desc(cal))
	c.render(plots...)
	if len(plots) == 0 {
		cal.uprights(c, noteY, float64(y))
	}
	p.noteMarks(c, noteY)
	cal.axis(c, float64(y))
	html := wrapPlot("", c.close())
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
	for _, d := range ds {
		if d.HasRange {
			c.path("band")
			c.box(float64(d.Day), float64(d.Day+1), a.py(d.Highest), a.py(d.Lowest))
		}
	}
	c.path("mean")
	for i, d := range ds {
		y := a.py(d.Mean)
		if i == 0 || ds[i-1].Day+1 != d.Day {
			c.m(float64(d.Day), y)
		} else {
			c.vto(y)
		}
		c.hto(float64(d.Day + 1))
	}
	quiet := "day means"
	for _, d := range ds {
		if d.HasRange {
			quiet = "day means, lowest to highest"
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

func (p PlacePlot) key(cal calendar) HTML {
	var es []keyEntry
	for _, e := range p.Notes {
		w := cal.words(e.Day) + ": " + e.Words
		if e.Note != "" {
			w += " (" + e.Note + ")"
		}
		es = append(es, keyEntry{day: e.Day, icon: string(Icon(e.Mark)), words: w})
	}
	return keyList("", es)
}

// stoodRows are who stood there: a line of words over a bar, on the same days.
func (p PlacePlot) stoodRows(cal calendar, days float64) HTML {
	if len(p.Stood) == 0 {
		return ""
	}
	b := []byte(`<ul class="plot stood">`)
	for _, s := range p.Stood {
		c := newCanvas(days, 16)
		c.openHidden("")
		cal.uprights(c, -2, 16)
		to := min(s.To, int(days))
		c.path(stageClass[p.Stage])
		c.box(float64(s.From), float64(to), 10-levelPx(p.Stage)/2.4, 10)
		c.soil("soil thin", float64(s.From), float64(to), 10)
		if s.Mark.known() {
			c.sign(sign{day: float64(to), off: endPx, mark: s.Mark}, 10)
		}
		b = append(b, `<li><span class="id">`...)
		b = appendEsc(b, s.Number)
		b = append(b, `</span> <span class="nm">`...)
		b = appendEsc(b, s.Name)
		b = append(b, `</span> <span class="q">`...)
		b = appendEsc(b, cal.words(s.From)+" to "+cal.words(s.To))
		b = append(b, `</span>`...)
		b = append(b, c.close()...)
		b = append(b, `</li>`...)
	}
	return HTML(append(b, `</ul>`...))
}

func (p PlacePlot) tables(cal calendar) []Table {
	var out []Table
	rows := map[int][]string{}
	var order []int
	put := func(day, col int, s string) {
		if rows[day] == nil {
			rows[day] = make([]string, 8)
			rows[day][0] = cal.iso(day)
			order = append(order, day)
		}
		rows[day][col] = s
	}
	for _, d := range p.DeficitKPa {
		put(d.Day, 1, kPaWords(d.Mean))
	}
	for i, ds := range [...][]PlaceDay{p.TemperatureC, p.HumidityPct} {
		for _, d := range ds {
			put(d.Day, 2+3*i, f1(d.Mean))
			if d.HasRange {
				put(d.Day, 3+3*i, f1(d.Lowest))
				put(d.Day, 4+3*i, f1(d.Highest))
			}
		}
	}
	if len(order) > 0 {
		t := Table{Caption: "By day, in the diary's time zone. “< 0.1” kPa is less than a sensor can tell and is drawn at 0.05.", Columns: []Column{text1("day"), numeric("deficit, kPa"), numeric("mean °C"), numeric("lowest °C"), numeric("highest °C"), numeric("mean % RH"), numeric("lowest % RH"), numeric("highest % RH")}}
		for d := 0; d <= maxDay && len(t.Rows) < len(order); d++ {
			if r := rows[d]; r != nil {
				t.Rows = append(t.Rows, r)
			}
		}
		out = append(out, t.dropEmpty())
	}
	if len(p.Stood) > 0 {
		t := Table{Caption: "Who stood there.", Columns: []Column{text1("number"), text1("name"), text1("from"), text1("to"), text1("left as")}}
		for _, s := range p.Stood {
			t.Rows = append(t.Rows, []string{s.Number, s.Name, cal.iso(s.From), cal.iso(s.To), s.Mark.Word()})
		}
		out = append(out, t.dropEmpty())
	}
	if len(p.Notes) > 0 {
		t := Table{Caption: "What happened there.", Columns: []Column{text1("day"), text1("mark"), text1("words"), text1("note")}}
		for _, e := range p.Notes {
			t.Rows = append(t.Rows, []string{cal.iso(e.Day), e.Mark.Word(), e.Words, e.Note})
		}
		out = append(out, t.dropEmpty())
	}
	return out
}

func (p PlacePlot) desc(cal calendar) string {
	if p.Desc != "" {
		return p.Desc
	}
	out := ""
	for _, q := range []struct {
		ds         []PlaceDay
		what, unit string
	}{{p.DeficitKPa, "Deficit", "kPa"}, {p.TemperatureC, "Temperature", "°C"}, {p.HumidityPct, "Humidity", "%"}} {
		if len(q.ds) == 0 {
			continue
		}
		lo, hi := q.ds[0].Mean, q.ds[0].Mean
		for _, d := range q.ds {
			lo, hi = min(lo, d.Mean), max(hi, d.Mean)
		}
		out += q.what + " on " + plural(len(q.ds), "day", "days") + ": day means from " + f2(lo) + " to " + f2(hi) + " " + q.unit + ". "
	}
	if n := len(p.Stood); n > 0 {
		out += plural(n, "plant", "plants") + " stood there. "
	}
	return out + "The tables hold all numbers."
}

// calendar turns days since First into dates; no clock and no zone is read.
type calendar struct {
	first time.Time
	days  int
}

func newCalendar(d Date, days int) calendar {
	return calendar{time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC), days}
}

func (c calendar) on(day int) time.Time { return c.first.AddDate(0, 0, day) }
func (c calendar) iso(day int) string   { return c.on(day).Format("2006-01-02") }
func (c calendar) words(day int) string { return c.on(day).Format("2 January") }

// marks are the days with words: the first of months, thinned until they can't
// touch; where no month begins, or the plot is short, each n-th day.
func (c calendar) marks() (out []dayLabel) {
	const room = 46
	pick := func(ok func(int) bool, px float64) map[int]bool {
		m := map[int]bool{}
		last := math.Inf(-1)
		for d := 0; d <= c.days; d++ {
			if x := float64(d) / float64(c.days) * px; ok(d) && x-last >= room {
				m[d] = true
				last = x
			}
		}
		return m
	}
	var is func(int) bool
	switch {
	case c.days > 75:
		every := max(1, int(math.Ceil(float64(c.days)/30.44*room/narrowPx)))
		if every > 1 { // so that the months kept are the same each year
			for 12%every != 0 && every < 12 {
				every++
			}
		}
		is = func(d int) bool {
			t := c.on(d)
			return t.Day() == 1 && (every > 12 && t.Month() == 1 || every <= 12 && int(t.Month()-1)%every == 0)
		}
	case c.days > 21:
		is = func(d int) bool { return d%14 == 0 }
	default:
		is = func(d int) bool { return d%7 == 0 }
	}
	narrow := pick(is, narrowPx)
	crowded := func(d int) bool {
		for n := range narrow {
			if math.Abs(float64(n-d))/float64(c.days)*widePx < room {
				return true
			}
		}
		return false
	}
	wide := pick(func(d int) bool {
		return (is(d) || c.days > 75 && c.on(d).Day() == 1) && !crowded(d)
	}, widePx)
	for d := 0; d <= c.days; d++ {
		if narrow[d] || wide[d] {
			out = append(out, dayLabel{d, !narrow[d]})
		}
	}
	return out
}

func (c calendar) uprights(cv *canvas, y0, y1 float64) {
	cv.path("g")
	for _, l := range c.marks() {
		cv.m(float64(l.day), y0)
		cv.vto(y1)
	}
}

// axis writes days and months, and the year under the first and each January.
func (c calendar) axis(cv *canvas, y float64) {
	cv.path("ax")
	cv.m(0, y)
	cv.hto(cv.days)
	ms := c.marks()
	for _, l := range ms {
		cv.m(float64(l.day), y)
		cv.vto(y + 7)
	}
	year := 0
	for _, l := range ms {
		t := c.on(l.day)
		q := ""
		if l.wide {
			q = "wide"
		}
		cv.text(float64(l.day), 0, y+20, middle, q, t.Format("2 Jan"))
		if !l.wide && t.Year() != year {
			year = t.Year()
			cv.text(float64(l.day), 0, y+36, middle, "q", strconv.Itoa(year))
		}
	}
}
