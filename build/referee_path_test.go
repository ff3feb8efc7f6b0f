package build_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// point is a corner of a drawn line: a day, and pixels from the top.
type point struct{ x, y float64 }

var pathPart = regexp.MustCompile(`([MHVLZ])([^MHVLZ]*)`)

// cornersOf walks a path of M, H and V; each M opens a line.
func cornersOf(t *testing.T, d string) [][]point {
	t.Helper()
	var lines [][]point
	var at point
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		require.NoError(t, err, d)
		return v
	}
	for _, m := range pathPart.FindAllStringSubmatch(d, -1) {
		switch m[1] {
		case "M":
			xy := strings.Fields(m[2])
			require.Len(t, xy, 2, d)
			at = point{number(xy[0]), number(xy[1])}
			lines = append(lines, nil)
		case "H":
			at.x = number(m[2])
		case "V":
			at.y = number(m[2])
		case "Z":
			continue
		default:
			t.Fatalf("a curve goes aslant: %s", d)
		}
		lines[len(lines)-1] = append(lines[len(lines)-1], at)
	}
	return lines
}

// paths are the d of the paths whose class opens with the words given.
func (f figure) paths(class string) (ds, classes []string) {
	for _, p := range find(f.svg, named("path")) {
		if c := attribute(p, "class"); c == class || strings.HasPrefix(c, class+" ") {
			ds, classes = append(ds, attribute(p, "d")), append(classes, c)
		}
	}
	return ds, classes
}

// levels are the heights of 100, 75, 50, 25 and 0 % and the axis' last day.
func (f figure) levels(t *testing.T) (top, bottom, days float64) {
	t.Helper()
	ds, _ := f.paths("g")
	require.Len(t, ds, 1)
	var ys []float64
	for _, line := range cornersOf(t, ds[0]) {
		require.Len(t, line, 2)
		require.Zero(t, line[0].x, "each level opens at day 0")
		days = line[1].x
		ys = append(ys, line[0].y)
	}
	require.Len(t, ys, 5)
	return ys[0], ys[4], days
}

// onTheAxis is a text of the drawing by its day and height.
type onTheAxis struct {
	day, y float64
	says   string
	class  string
}

func (f figure) texts(t *testing.T, days float64) []onTheAxis {
	t.Helper()
	var out []onTheAxis
	for _, n := range find(f.svg, named("text")) {
		x, err := strconv.ParseFloat(strings.TrimSuffix(attribute(n, "x"), "%"), 64)
		require.NoError(t, err)
		y, err := strconv.ParseFloat(attribute(n, "y"), 64)
		require.NoError(t, err)
		says := onTheAxis{days * x / 100, y, textIn(n), attribute(n, "class")}
		if attribute(n, "text-anchor") != "middle" {
			says.day = -1 // beside the plot
		}
		out = append(out, says)
	}
	return out
}

// expectedLine draws a curve from its table, by its definition alone.
func expectedLine(rows []curveRow, y func(float64) float64) []point {
	at := point{float64(rows[0].day), y(1)}
	line := []point{at}
	share := 1.0
	for _, r := range rows {
		if float64(r.day) > at.x {
			at.x = float64(r.day)
			line = append(line, at)
		}
		if r.share != share {
			share, at.y = r.share, y(r.share)
			line = append(line, at)
		}
	}
	return line
}

// expectedBand goes along the upper limits and back along the lower ones; where
// there are no limits it has no height.
func expectedBand(rows []curveRow, y func(float64) float64) []point {
	at := point{float64(rows[0].day), y(1)}
	band := []point{at}
	to := func(p point) {
		if p != at {
			at = p
			band = append(band, at)
		}
	}
	limits := func(r curveRow) (lower, upper float64) {
		if r.limits {
			return r.lower, r.upper
		}
		return r.share, r.share
	}
	for i, r := range rows {
		to(point{float64(r.day), at.y})
		if _, upper := limits(r); i < len(rows)-1 {
			to(point{at.x, y(upper)})
		}
	}
	for i := len(rows) - 1; i >= 0; i-- {
		lower := 1.0
		if i > 0 {
			lower, _ = limits(rows[i-1])
		}
		to(point{at.x, y(lower)})
		to(point{float64(rows[max(0, i-1)].day), at.y})
	}
	return band
}

// sameLine compares corners, those in which a line doesn't turn left out.
func sameLine(t *testing.T, want, got []point, name string) {
	t.Helper()
	want, got = turns(want), turns(got)
	if !assert.Len(t, got, len(want), "%s: want %v, got %v", name, want, got) {
		return
	}
	for i := range want {
		assert.Equal(t, want[i].x, got[i].x, "%s: corner %d", name, i)
		assert.InDelta(t, want[i].y, got[i].y, 0.0501, "%s: corner %d", name, i)
	}
}

func turns(line []point) []point {
	var out []point
	for _, p := range line {
		if n := len(out); n > 0 && near(out[n-1], p) {
			continue
		}
		for n := len(out); n > 1 && (out[n-2].x == out[n-1].x && out[n-1].x == p.x || alike(out[n-2].y, out[n-1].y) && alike(out[n-1].y, p.y)); n = len(out) {
			out = out[:n-1]
		}
		out = append(out, p)
	}
	return out
}

func alike(a, b float64) bool { return math.Abs(a-b) < 0.06 }
func near(a, b point) bool    { return a.x == b.x && alike(a.y, b.y) }
