package build_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// eachCurve calls f with every survival curve of every page.
func eachCurve(t *testing.T, f func(name string, root *html.Node, fig figure)) {
	t.Helper()
	seen := 0
	eachPage(t, func(name string, root *html.Node) {
		with, missing := curveFigures(root)
		for _, svg := range missing {
			t.Errorf("%s: %q has no table that it was drawn from", name, attribute(svg, "aria-labelledby"))
		}
		for i, fig := range with {
			f(fmt.Sprintf("%s, curve %d", name, i+1), root, fig)
			seen++
		}
	})
	assert.Greater(t, seen, 20, "curves of imports, seasons, comparisons and updates")
}

// C1: the axis goes from 0 to 100 %, evenly and unbroken, the days from day 0, which
// is named, with week marks (Pocock, Clayton and Altman 2002, Lancet 359:1686-1689).
func TestC1TheAxisIsWhole(t *testing.T) {
	eachCurve(t, func(name string, _ *html.Node, f figure) {
		ds, _ := f.paths("g")
		var ys []float64
		for _, line := range cornersOf(t, ds[0]) {
			ys = append(ys, line[0].y)
		}
		for i := 1; i < len(ys); i++ {
			assert.InDelta(t, (ys[4]-ys[0])/4, ys[i]-ys[i-1], 0.11, "%s: levels are even", name)
		}
		_, _, days := f.levels(t)
		var says, under []string
		for _, text := range f.texts(t, days) {
			says = append(says, text.says)
			if text.day == 0 {
				under = append(under, text.says)
			}
		}
		for _, level := range []string{"100%", "75", "50", "25", "0", "day"} {
			assert.Contains(t, says, level, name)
		}
		assert.Contains(t, under, "arrived", "%s: day 0 is named", name)
		assert.Contains(t, under, "0", name)
		axis, _ := f.paths("ax")
		require.Len(t, axis, 1, name)
		lines := cornersOf(t, axis[0])
		assert.Equal(t, []point{{0, ys[4]}, {days, ys[4]}}, lines[0], "%s: one unbroken line at 0 %%", name)
		for i, mark := range lines[1:] {
			assert.Zero(t, math.Mod(mark[0].x, 7), "%s: marks at whole weeks", name)
			assert.Greater(t, mark[1].y, mark[0].y)
			if i == 0 {
				assert.Zero(t, mark[0].x, name)
			}
		}
		if days >= 14 {
			assert.Regexp(t, `\bweek \d`, strings.Join(says, "|"), name)
		}
	})
}

// C2: under the curve stand those under watch, lost and left, and add up to n; the
// band's limits are named, those who left have ticks, and the line goes in steps
// (KMunicate: Morris et al. 2019, BMJ Open 9:e030215).
func TestC2NumbersUnderTheCurveAddUp(t *testing.T) {
	single, several := 0, 0
	eachCurve(t, func(name string, _ *html.Node, f figure) {
		_, bottom, days := f.levels(t)
		names, rows := f.groups(t)
		require.NotEmpty(t, names, name)
		before := func(group string, day float64) (atRisk, lost, left int) {
			atRisk = rows[group][0].atRisk
			for _, r := range rows[group] {
				if float64(r.day) < day {
					lost, left = lost+r.lost, left+r.left
				}
			}
			return atRisk - lost - left, lost, left
		}
		// The rows under the axis: a name, and the numbers on the line below it; of
		// several groups two more lines each, with their own words.
		texts := f.texts(t, days)
		numbers := map[string]map[float64]int{}
		group, row := "", ""
		for i, text := range texts {
			switch {
			case text.y <= bottom || text.says == "under watch as those days begin;" || text.says == "lost and left alive before them":
			case text.class == "b" && texts[i-1].class == "b": // a long name goes on
				group += " " + text.says
				row = group
			case text.class == "b":
				group, row = text.says, text.says
			case text.class == "q" && group != "":
				row = group + ": " + text.says
			case row != "":
				count, err := strconv.Atoi(text.says)
				require.NoError(t, err, "%s: %s", name, text.says)
				if numbers[row] == nil {
					numbers[row] = map[float64]int{}
				}
				numbers[row][math.Round(text.day)] = count
			}
		}
		if len(names) == 1 && names[0] == "" {
			single++
			watch, lost, left := numbers["under watch as those days begin"], numbers["lost before those days"], numbers["left alive before those days"]
			require.NotEmpty(t, watch, name)
			for day, n := range watch {
				a, b, c := before("", day)
				assert.Equal(t, [3]int{a, b, c}, [3]int{n, lost[day], left[day]}, "%s: day %v", name, day)
				assert.Equal(t, rows[""][0].atRisk, n+lost[day]+left[day], "%s: day %v adds up", name, day)
			}
			assert.Len(t, lost, len(watch), name)
			assert.Len(t, left, len(watch), name)
			if bands, _ := f.paths("band"); len(bands) > 0 {
				assert.Contains(t, textIn(f.around), "95% limits (log-log)", name)
			}
		} else {
			several++
			for _, group := range names[:min(6, len(names))] {
				watch, lost, left := numbers[group], numbers[group+": lost"], numbers[group+": left alive"]
				require.NotEmpty(t, watch, "%s: %s", name, group)
				for day, n := range watch {
					a, b, c := before(group, day)
					assert.Equal(t, [3]int{a, b, c}, [3]int{n, lost[day], left[day]}, "%s: %s, day %v", name, group, day)
					assert.Equal(t, rows[group][0].atRisk, n+lost[day]+left[day], "%s: %s, day %v adds up", name, group, day)
					if day > 0 { // where nobody can have gone before
						assert.Contains(t, lost, day, "%s: %s", name, group)
						assert.Contains(t, left, day, "%s: %s", name, group)
					}
				}
			}
		}
		// The table's rows carry on from one another down to nobody.
		for group, of := range rows {
			n := of[0].atRisk
			for _, r := range of {
				assert.Equal(t, n, r.atRisk, "%s: %s, day %d", name, group, r.day)
				n -= r.lost + r.left
			}
			assert.Zero(t, n, "%s: %s: lost and left add up to n", name, group)
		}
	})
	assert.Greater(t, single, 5)
	assert.Greater(t, several, 10)
}

// fewFrom is the day from which fewer than the larger of 5 and a tenth of n are
// under watch, while anybody is.
func fewFrom(rows []curveRow) (float64, bool) {
	n := float64(rows[0].atRisk)
	few := max(5, n/10)
	if n < few {
		return float64(rows[0].day), true
	}
	for _, r := range rows {
		if after := float64(r.atRisk - r.lost - r.left); after > 0 && after < few {
			return float64(r.day), true
		}
	}
	return 0, false
}

// C3: where few are left under watch the curve is drawn another way, and what one
// more loss would do is said (Pocock et al. 2002; Gebski et al. 2018, Int J
// Epidemiol 47:850-859).
func TestC3ThinEndsAreTold(t *testing.T) {
	told := 0
	eachCurve(t, func(name string, root *html.Node, f figure) {
		_, rows := f.groups(t)
		want := map[float64]int{}
		for _, of := range rows {
			last := float64(of[len(of)-1].day)
			if from, ok := fewFrom(of); ok && (from < last || len(of) == 1) {
				want[from]++
			}
		}
		got := map[float64]int{}
		ds, classes := f.paths("km")
		for i, class := range classes {
			if strings.HasSuffix(class, " few") || strings.HasSuffix(class, " thin") {
				got[cornersOf(t, ds[i])[0][0].x]++
			}
		}
		assert.Equal(t, want, got, "%s: where the line gets thin", name)
		of, ok := rows[""]
		if !ok {
			return
		}
		last := of[len(of)-1]
		if last.share == 0 {
			return
		}
		before := 1.0
		if len(of) > 1 {
			before = of[len(of)-2].share
		}
		fall := 100 * before / float64(last.atRisk)
		if m := regexp.MustCompile(`one more loss would lower the curve by (\d+) in a hundred`).FindStringSubmatch(textIn(root)); m != nil {
			said, err := strconv.ParseFloat(m[1], 64)
			require.NoError(t, err)
			assert.InDelta(t, fall, said, 1.01, name) // the table's shares are rounded
			told++
		}
	})
	assert.Greater(t, told, 3)
}

// C10: every curve, tick and band drawn again from the table beneath it gives the
// same path, to the tenth of a pixel that paths are written in.
func TestC10CurvesFromTheirTables(t *testing.T) {
	ticks, bands := 0, 0
	eachCurve(t, func(name string, _ *html.Node, f figure) {
		top, bottom, _ := f.levels(t)
		y := func(share float64) float64 { return top + (1-share)*(bottom-top) }
		names, rows := f.groups(t)
		drawn := map[string][]point{}
		var order []string
		ds, classes := f.paths("km")
		for i, class := range classes {
			class = strings.TrimSuffix(strings.TrimSuffix(class, " few"), " thin")
			line := cornersOf(t, ds[i])[0]
			if drawn[class] == nil {
				order = append(order, class)
			} else {
				line = line[1:] // a thin end goes on where the line stopped
			}
			drawn[class] = append(drawn[class], line...)
		}
		slices.Reverse(order) // the first group lies on top
		require.Len(t, order, min(6, len(names)), name)
		for i, class := range order {
			sameLine(t, expectedLine(rows[names[i]], y), drawn[class], name+" "+names[i])
		}

		// Upright ticks where some left, on the line.
		want := map[point]int{}
		for _, group := range names[:len(order)] {
			for _, r := range rows[group] {
				if r.left > 0 {
					want[point{float64(r.day), math.Round(10 * y(r.share))}]++
				}
			}
		}
		got := map[point]int{}
		ds, _ = f.paths("tick")
		for _, d := range ds {
			for _, line := range cornersOf(t, d) {
				require.Len(t, line, 2)
				got[point{line[0].x, math.Round(10 * (line[0].y + line[1].y) / 2)}]++
			}
		}
		assert.Equal(t, want, got, "%s: ticks", name)
		ticks += len(got)

		ds, _ = f.paths("band")
		for _, d := range ds {
			sameLine(t, expectedBand(rows[names[0]], y), cornersOf(t, d)[0], name+" band")
			bands++
		}
	})
	assert.Greater(t, ticks, 30)
	assert.Greater(t, bands, 5)
}
