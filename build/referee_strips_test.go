package build_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// stripRow is one row of the table that milestone strips are drawn from.
type stripRow struct {
	day                     int
	waiting, reached, lost  int
	left                    int
	share, between, gone    float64
	limits                  bool
	lowerLimit, higherLimit float64
}

// stripFigures are the drawings of milestones with loss stacked, and their tables.
func stripFigures(root *html.Node) []figure {
	var all []figure
	for _, svg := range find(root, func(n *html.Node) bool { return n.Data == "svg" && attribute(n, "role") == "img" }) {
		if len(find(svg, func(n *html.Node) bool { return n.Data == "path" && hasClass(n, "gone-edge") })) == 0 {
			continue
		}
		f := figure{svg: svg}
		for up := svg.Parent; up != nil && f.around == nil; up = up.Parent {
			for _, t := range find(up, named("table")) {
				if d := tableIn(t); d.has("day", "waiting before", "share reached", "share waiting", "share lost") {
					f.around, f.table = up, d
					break
				}
			}
		}
		all = append(all, f)
	}
	return all
}

func (f figure) strips(t *testing.T) (names []string, rows map[string][]stripRow) {
	t.Helper()
	rows = map[string][]stripRow{}
	number := func(row int, column string) float64 {
		v, err := strconv.ParseFloat(strings.TrimSuffix(f.table.get(row, column), "%"), 64)
		require.NoError(t, err, "%s of %v", column, f.table.rows[row])
		if strings.HasSuffix(f.table.get(row, column), "%") {
			v /= 100
		}
		return v
	}
	for i := range f.table.rows {
		name := f.table.rows[i][0]
		if len(rows[name]) == 0 {
			names = append(names, name)
		}
		r := stripRow{
			day: int(number(i, "day")), waiting: int(number(i, "waiting before")), reached: int(number(i, "reached it")), lost: int(number(i, "lost")), left: int(number(i, "left alive")),
			share: number(i, "share reached"), between: number(i, "share waiting"), gone: number(i, "share lost"),
		}
		if f.table.get(i, "lower limit") != "" {
			r.limits, r.lowerLimit, r.higherLimit = true, number(i, "lower limit"), number(i, "upper limit")
		}
		rows[name] = append(rows[name], r)
	}
	return names, rows
}

// C8 and C10 of milestones: loss is stacked on what was reached, the three shares of
// every row make the whole, the counts carry on from row to row, and both edges and
// all limits drawn again from the table give the same paths.
func TestC10MilestonesFromTheirTables(t *testing.T) {
	drawn, limits := 0, 0
	eachPage(t, func(name string, root *html.Node) {
		for i, f := range stripFigures(root) {
			name := fmt.Sprintf("%s, strips %d", name, i+1)
			if !assert.NotNil(t, f.around, "%s have no table", name) {
				continue
			}
			names, rows := f.strips(t)
			levels, _ := f.paths("g")
			reached, _ := f.paths("ln")
			gone, _ := f.paths("gone-edge")
			require.Len(t, levels, len(names), name)
			require.Len(t, reached, len(names), name)
			require.Len(t, gone, len(names), name)
			limitPaths, _ := f.paths("lim")
			for i, group := range names {
				of := rows[group]
				waiting := of[0].waiting
				for _, r := range of {
					assert.InDelta(t, 1, r.share+r.between+r.gone, 1e-9, "%s: %s, day %d", name, group, r.day)
					assert.Equal(t, waiting, r.waiting, "%s: %s, day %d", name, group, r.day)
					waiting -= r.reached + r.lost + r.left
				}
				assert.Zero(t, waiting, "%s: %s: reached, lost and left add up", name, group)

				lines := cornersOf(t, levels[i])
				top, bottom := lines[0][0].y, lines[len(lines)-1][0].y
				edge := func(y0 float64, y func(stripRow) float64) []point {
					at := point{float64(of[0].day), y0}
					line := []point{at}
					for _, r := range of {
						at.x = float64(r.day)
						line = append(line, at)
						at.y = y(r)
						line = append(line, at)
					}
					return line
				}
				sameLine(t, edge(bottom, func(r stripRow) float64 { return bottom - r.share*(bottom-top) }), cornersOf(t, reached[i])[0], name+": "+group+", reached")
				sameLine(t, edge(top, func(r stripRow) float64 { return top + r.gone*(bottom-top) }), cornersOf(t, gone[i])[0], name+": "+group+", lost")
				drawn++

				// Limits hold from their row's day up to the next row's.
				want := map[[3]float64]int{}
				for k, r := range of[:len(of)-1] {
					if !r.limits || of[k+1].day == r.day {
						continue
					}
					for _, share := range []float64{r.lowerLimit, r.higherLimit} {
						want[[3]float64{float64(r.day), float64(of[k+1].day), math.Round(10 * (bottom - share*(bottom-top)))}]++
					}
				}
				got := map[[3]float64]int{}
				for _, d := range limitPaths {
					for _, line := range cornersOf(t, d) {
						if y := line[0].y; y >= top && y <= bottom {
							require.Len(t, line, 2)
							got[[3]float64{line[0].x, line[1].x, math.Round(10 * y)}]++
						}
					}
				}
				assert.Equal(t, want, got, "%s: %s, limits", name, group)
				limits += len(got)
			}
			assert.True(t, slices.IsSorted(days(rows[names[0]])), name)
		}
	})
	assert.Greater(t, drawn, 20)
	assert.Greater(t, limits, 100)
}

func days(rows []stripRow) (out []int) {
	for _, r := range rows {
		out = append(out, r.day)
	}
	return out
}
