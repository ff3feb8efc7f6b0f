package chart

import (
	"sort"
	"strconv"
	"strings"

	gochart "github.com/wcharczuk/go-chart/v2"
)

// The line of a specimen: a dated tree of water levels. A section's level
// starts on the day of its cutting, hung from its parent by an upright.

const (
	treeRowPx = 66 // room for one line of words over the level
	treeLine  = 16
)

// treePart is a part with its words wrapped to the narrowest plot.
type treePart struct {
	Part
	lines []string
	left  bool    // the words end before its first day
	y     float64 // of its line
}

// treeOrder puts each part's sections under it, the last cut first: then no
// upright, which runs down to an earlier cut, crosses the words of a later one,
// since those stand to the right of their own day.
func treeOrder(parts []treePart) []int {
	out := make([]int, 0, len(parts))
	var walk func(i int)
	walk = func(i int) {
		out = append(out, i)
		var kids []int
		for k := range parts {
			if parts[k].Parent == i {
				kids = append(kids, k)
			}
		}
		sort.SliceStable(kids, func(a, b int) bool { return parts[kids[a]].Born > parts[kids[b]].Born })
		for _, k := range kids {
			walk(k)
		}
	}
	for i := range parts {
		if parts[i].Parent < 0 {
			walk(i)
		}
	}
	return out
}

// Draw draws the tree. A part whose Parent isn't an earlier part hangs from
// nothing. Without parts: "Nothing measured yet."
func (in Line) Draw() Drawing {
	if len(in.Parts) == 0 {
		return nothing(nothingYet)
	}
	parts := make([]treePart, len(in.Parts))
	last := 0
	y := 0.0
	for i, p := range in.Parts {
		p.Stays, p.Events, p.End = cleanStays(p.Stays), cleanEvents(p.Events), cleanEnd(p.End)
		if !dayOK(p.Born) {
			p.Born = 0
		}
		if p.Parent >= i || p.Parent < 0 {
			p.Parent = -1
		}
		last = max(last, p.Born, lastDay(nil, p.Events, p.Stays, p.End))
		parts[i] = treePart{Part: p}
	}
	days := axisDays(in.Days, last)
	for _, i := range treeOrder(parts) {
		p := &parts[i]
		p.breakWords(float64(days))
		y += treeRowPx + float64(len(p.lines)-1)*treeLine
		p.y = y - 20
	}
	c := newCanvas(float64(days), y+6+axisPx)
	c.open("plot", "", in.Head, in.desc(parts))
	c.render(plot{top: 0, height: int(y), hi: 1, series: []gochart.Series{series(func(c *canvas, a area) {
		c.uprights(4, a.bottom+6)
		for _, p := range parts {
			if p.Parent >= 0 {
				c.path("soil thin")
				c.m(float64(p.Born), parts[p.Parent].y)
				c.vto(p.y)
			}
		}
		for _, p := range parts {
			c.part(p)
		}
	})}})
	c.dayAxis(y+6, "arrived")
	return Drawing{HTML: c.close(), Key: in.key(parts), Tables: []Table{treeTable(parts)}}
}

// breakWords sets the words to the right of the part's first day, or, where
// that would take more than three lines at the narrowest width, to its left.
func (p *treePart) breakWords(days float64) {
	x := 0.0
	if p.Parent >= 0 {
		x = float64(p.Born)/days*narrowPx + 10
	}
	p.lines = wrap(p.Number, p.Words, narrowPx+padRight-x)
	if len(p.lines) > 3 {
		if l := wrap(p.Number, p.Words, x-16+padLeft); len(l) < len(p.lines) {
			p.lines, p.left = l, true
		}
	}
	if len(p.lines) == 0 {
		p.lines = []string{""}
	}
}

func (c *canvas) part(p treePart) {
	c.water(p.Stays, p.y, 1)
	last := lastDay(nil, p.Events, p.Stays, p.End)
	if p.End.Mark != NoMark {
		last = p.End.Day
	}
	if last > p.Born {
		c.soil("soil thin", float64(p.Born), float64(last), p.y)
	}
	day, dx, an := 0.0, 0.0, start
	if p.Parent >= 0 {
		day, dx = float64(p.Born), 10
		if p.left {
			dx, an = -8, end
		}
	}
	y := p.y - 30 - float64(len(p.lines)-1)*treeLine
	for i, l := range p.lines {
		if i == 0 && len(p.lines) == 1 && p.Words != "" {
			c.textPlus(day, dx, y, an, "b hal", p.Number, p.Words)
			break
		}
		class := "q hal"
		if i == 0 {
			class = "b hal"
		}
		c.text(day, dx, y+float64(i)*treeLine, an, class, l)
	}
	var signs []sign
	for _, e := range p.Events {
		signs = append(signs, sign{day: float64(e.Day), mark: e.Mark})
	}
	if p.End.Mark != NoMark {
		signs = append(signs, sign{day: float64(p.End.Day), off: endOff(p.End, p.Events), mark: p.End.Mark})
	}
	placeSigns(signs, c.days)
	for _, s := range signs {
		s.narrow, s.wide = flat(s.narrow), flat(s.wide)
		c.sign(s, p.y)
	}
}

// wrap cuts "number words" into lines of at most w px, at spaces, or inside a
// word that is longer than a line. One line holds both if it can.
func wrap(number, words string, w float64) []string {
	if textWidth(number, true)+textWidth(" "+words, false) <= w {
		return []string{strings.TrimSpace(number + " " + words)}
	}
	out := breakLines(number, w, true)
	return append(out, breakLines(words, w, false)...)
}

func breakLines(s string, w float64, bold bool) []string {
	var out []string
	line := ""
	flush := func() {
		if line != "" {
			out = append(out, line)
			line = ""
		}
	}
	for _, word := range strings.Fields(s) {
		if line != "" && textWidth(line+" "+word, bold) > w {
			flush()
		}
		if line != "" {
			line += " "
		}
		for _, r := range word {
			if line != "" && textWidth(line+string(r), bold) > w {
				// rather at a hyphen than inside a syllable
				rest := ""
				if i := strings.LastIndexByte(line, '-'); i > 0 && i < len(line)-1 {
					line, rest = line[:i+1], line[i+1:]
				}
				flush()
				line = rest
			}
			line += string(r)
		}
	}
	flush()
	return out
}

// key has the marks that occur.
func (Line) key(parts []treePart) HTML {
	var seen [lastMark + 1]bool
	for _, p := range parts {
		for _, e := range p.Events {
			seen[e.Mark] = true
		}
		seen[p.End.Mark] = true
	}
	var key []KeyItem
	for m := NoMark + 1; m <= lastMark; m++ {
		if seen[m] {
			key = append(key, KeyItem{Mark: m})
		}
	}
	return Key(key...)
}

func (in Line) desc(parts []treePart) string {
	if in.Desc != "" {
		return in.Desc
	}
	out := ""
	for _, p := range parts {
		out += p.Number
		if p.Parent >= 0 {
			out += ", cut from " + parts[p.Parent].Number + " on day " + strconv.Itoa(p.Born)
		}
		if p.Words != "" {
			out += ": " + p.Words
		}
		out += ". "
	}
	return out + "The table holds places and days."
}

func treeTable(parts []treePart) Table {
	t := Table{Caption: "The parts of the line.", Columns: []Column{text1("number"), text1("cut from"), numeric("on day"), text1("places, by day"), text1("marks, by day"), text1("last seen"), text1("outcome")}}
	for _, p := range parts {
		from := ""
		if p.Parent >= 0 {
			from = parts[p.Parent].Number
		}
		endWords := ""
		if p.End.Mark != NoMark {
			endWords = p.End.Mark.Word() + " " + strconv.Itoa(p.End.Day)
		}
		t.Rows = append(t.Rows, []string{p.Number, from, strconv.Itoa(p.Born), stayList(p.Stays), eventList(p.Events), endWords, p.Words})
	}
	return t
}
