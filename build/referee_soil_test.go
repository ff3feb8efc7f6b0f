package build_test

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"wardian/build/chart"
)

// soilTables reads the tables under a soil line back into what it is drawn from.
type soilTables struct {
	t    *testing.T
	line chart.SoilLine
}

func (s *soilTables) number(text string) float64 {
	if text == "< 0.1" {
		return 0.05
	}
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(s.t, err)
	return v
}

func (s *soilTables) day(text string) int { return int(s.number(text)) }

func (s *soilTables) read(d drawnTable) {
	known := map[string]chart.Known{"measured": chart.Measured, "estimated": chart.Estimated}
	marks, stages, lengths := map[string]chart.Mark{}, map[string]chart.Stage{}, map[string]chart.Numerator{}
	for m := chart.NoMark; m <= chart.PlaceNote; m++ {
		marks[m.Word()] = m
	}
	for g := chart.NoStage; g <= chart.Room; g++ {
		stages[g.Word()] = g
	}
	for n := chart.NoLength; n <= chart.LongestRoot; n++ {
		lengths[n.Word()] = n
	}
	for i := range d.rows {
		get := func(column string) string { return d.get(i, column) }
		switch {
		case d.has("day", "mark", "words"):
			m, ok := marks[get("mark")]
			require.True(s.t, ok, "no mark %q", get("mark"))
			if get("words") == "last seen" {
				s.line.End = chart.End{Day: s.day(get("day")), Mark: m}
				continue
			}
			s.line.Events = append(s.line.Events, chart.Event{Day: s.day(get("day")), Mark: m, Words: get("words"), Note: get("note")})
		case d.has("from day", "to day", "stage"):
			s.line.Stays = append(s.line.Stays, chart.Stay{From: s.day(get("from day")), To: s.day(get("to day")), Stage: stages[get("stage")], Place: get("place")})
		case d.has("day", "deficit, kPa"):
			s.line.DeficitKPa = append(s.line.DeficitKPa, chart.DayValue{Day: s.day(get("day")), Value: s.number(get("deficit, kPa"))})
		case d.has("day", "leaf area, cm²") || d.has("day", "roots, cm") || d.has("day", "leaves") || d.has("day", "root grade"):
			l := chart.Look{Day: s.day(get("day"))}
			if is := get("area is"); is != "" {
				l.Falls = strings.HasSuffix(is, ", fell that day")
				l.Leaf, l.AreaCm2 = known[strings.TrimSuffix(is, ", fell that day")], s.number(get("leaf area, cm²"))
			}
			if is := get("and is"); is != "" {
				l.Roots, l.LengthCm, l.Length = known[is], s.number(get("roots, cm")), lengths[get("which is")]
			}
			if n := get("leaves"); n != "" {
				l.Counted, l.Leaves = true, s.day(n)
			}
			if n := get("root grade"); n != "" {
				l.Graded, l.Grade = true, s.day(n)
			}
			s.line.Looks = append(s.line.Looks, l)
		}
	}
}

// drawnPaths are the paths of a drawing, in order, with the width of its days.
func drawnPaths(svg *html.Node) (paths []string, days int) {
	for _, inner := range find(svg, named("svg")) {
		if box := strings.Fields(attribute(inner, "viewBox")); len(box) == 4 && days == 0 {
			days, _ = strconv.Atoi(box[2])
		}
	}
	for _, p := range find(svg, named("path")) {
		paths = append(paths, attribute(p, "class")+" "+attribute(p, "d"))
	}
	return paths, days
}

// C10 of the soil line of every plant: the tables beneath it, read from the page and
// drawn again, give the same paths. (build/chart holds every kind of drawing to this
// on samples; this holds the pages to printing the very tables.)
func TestC10SoilLinesFromTheirTables(t *testing.T) {
	drawn := 0
	eachPage(t, func(name string, root *html.Node) {
		if !strings.Contains(name, ": specimens/") {
			return
		}
		for _, fig := range find(root, func(n *html.Node) bool { return n.Data == "div" && hasClass(n, "fig") }) {
			svgs := find(fig, func(n *html.Node) bool {
				return n.Data == "svg" && attribute(n, "aria-labelledby") == "soil-line-t"
			})
			if len(svgs) != 1 {
				continue
			}
			want, days := drawnPaths(svgs[0])
			s := soilTables{t: t, line: chart.SoilLine{Head: chart.Head{ID: "soil-line", Title: "again", Days: days}}}
			for _, table := range find(fig, named("table")) {
				s.read(tableIn(table))
			}
			again, err := html.Parse(bytes.NewReader([]byte(s.line.Draw().HTML)))
			require.NoError(t, err)
			svg := find(again, func(n *html.Node) bool { return attribute(n, "role") == "img" })
			require.Len(t, svg, 1, name)
			got, _ := drawnPaths(svg[0])
			if !slices.Equal(want, got) {
				assert.Equal(t, want, got, name)
			}
			drawn++
		}
	})
	assert.Greater(t, drawn, 30)
}
