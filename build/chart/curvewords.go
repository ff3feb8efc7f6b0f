package chart

import (
	"math"
	"strconv"
)

// What a curve says: its end, description, key and table.

// endOfCurve writes the value and its limits where the curve can't be: under
// its end, or over it where there is no room below, or after it. A curve only
// falls, so right below its end and right above its end are free. Without such
// a place it hands back false.
func (c *canvas) endOfCurve(a area, s stepCurve) bool {
	var lines []string
	w := 0.0
	for _, t := range []string{s.EndWords, s.EndLimits} {
		if t != "" {
			lines = append(lines, t)
			w = max(w, textWidth(t, true))
		}
	}
	if len(lines) == 0 {
		return true
	}
	high := float64(len(lines)) * 16
	day := float64(s.last)
	x := day / c.days * narrowPx
	an, dx := end, 0.0
	foot := a.py(s.at(day))
	y := foot + 18
	for _, v := range [...]float64{.75, .5, .25} { // no level strikes the words out
		if g := a.py(v); g > y-12 && g < y+high-12 {
			y = g + 14
		}
	}
	fits := a.bottom-y >= high-10
	switch {
	case narrowPx-x+padRight >= w+12:
		an, dx, fits = start, 12, true
		y = min(max(foot+4, 12), a.bottom-high+8)
	case x >= w-4:
		if !fits {
			y = a.py(s.at(max(0, (x-w)/narrowPx*c.days))) - high + 6
			fits = y >= 12
		}
	case w <= narrowPx+padRight:
		an, day = start, 0
	default:
		fits = false
	}
	if !fits {
		return false
	}
	for i, t := range lines {
		class := "b"
		if i > 0 || s.EndWords == "" {
			class = "q"
		}
		c.text(day, dx, y+float64(i)*16, an, class, t)
	}
	return true
}

func (c stepCurve) desc() string {
	if c.Desc != "" {
		return c.Desc
	}
	_, lost, left := c.counts(c.last + 1)
	return "Share of " + strconv.Itoa(c.N) + " " + c.Unit + " alive by day, in steps: up to day " + strconv.Itoa(c.last) + " " + strconv.Itoa(lost) + " were lost and " + strconv.Itoa(left) + " left watch alive. The table holds all numbers."
}

// leftWords is the word of the upright tick.
const leftWords = "last day watched of one still alive"

// key explains the signs that occur.
func (c stepCurve) key() HTML {
	var es []keyEntry
	for _, s := range c.Steps {
		if s.HasLimits {
			es = append(es, keyEntry{icon: `<svg class="ch ic" viewBox="0 0 22 22" aria-hidden="true"><path class="band" d="M0 3H22V19H0Z"/></svg>`, words: "95% limits (log-log)"})
			break
		}
	}
	for _, s := range c.Steps {
		if s.Left > 0 {
			es = append(es, keyEntry{icon: lineIcon("km", "tick"), words: leftWords})
			break
		}
	}
	if c.dashed >= 0 && c.dashed < c.last {
		es = append(es, keyEntry{icon: lineIcon("km few", ""), words: "fewer than " + c.fewWords() + " under watch"})
	}
	return keyList("", es)
}

func (c stepCurve) fewWords() string {
	return strconv.Itoa(int(max(5, math.Ceil(float64(c.N)/10))))
}

func lineIcon(class, tick string) string {
	s := `<svg class="ch ic" viewBox="0 0 22 22" aria-hidden="true"><path class="` + class + `" d="M-2 11H24"/>`
	if tick != "" {
		s += `<path class="` + tick + `" d="M11 4V18"/>`
	}
	return s + `</svg>`
}

// table has a row a step; group is its first cell where several share a table.
func (c stepCurve) table(group string) Table {
	t := Table{Caption: "Product-limit share of " + strconv.Itoa(c.N) + " " + c.Unit + ", after each day with a loss or a leaving; under watch as the day begins, limits log-log.", Columns: []Column{numeric("day"), numeric("under watch"), numeric("lost"), numeric("left alive"), numeric("share"), numeric("lower limit"), numeric("upper limit")}}
	if group != "" {
		t.Columns = append([]Column{text1("group")}, t.Columns...)
	}
	for _, s := range c.Steps {
		row := []string{strconv.Itoa(s.Day), strconv.Itoa(s.AtRisk), strconv.Itoa(s.Lost), strconv.Itoa(s.Left), pctWords(s.Share, c.dec), "", ""}
		if s.HasLimits {
			row[5], row[6] = pctWords(s.Lower, c.dec), pctWords(s.Upper, c.dec)
		}
		if group != "" {
			row = append([]string{group}, row...)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
