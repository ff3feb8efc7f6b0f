package build_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// Losses whose days looks leave open by more than a week are drawn as boxes where they
// are a fifth of all losses or more, on pages of imports and seasons alone, with the
// sentence that says what a box is, and drawn again from their table they are the same
// (Turnbull 1976, J R Stat Soc B 38:290-295).
func TestC10BoxesWhereDaysAreOpen(t *testing.T) {
	says := regexp.MustCompile(`Of (\w+) loss(?:es)?, (\w+) (?:was|were) found more than a week after .* the true day lies somewhere in the box\. No limits and no test`)
	drawn := map[string]bool{}
	eachPage(t, func(name string, root *html.Node) {
		for _, section := range find(root, func(n *html.Node) bool { return n.Data == "section" && hasClass(n, "boxes") }) {
			drawn[name] = true
			m := says.FindStringSubmatch(textIn(section))
			require.NotNil(t, m, name)
			lost, wide := numberOf(t, m[1]), numberOf(t, m[2])
			assert.GreaterOrEqual(t, 5*wide, lost, "%s: a fifth", name)
			assert.LessOrEqual(t, wide, lost, name)
			assert.NotContains(t, textIn(section), "95%", "%s: no limits", name)

			table := tableIn(section)
			require.NotEmpty(t, table.rows, name)
			svg := find(section, func(n *html.Node) bool { return n.Data == "svg" && attribute(n, "role") == "img" })
			require.Len(t, svg, 1, name)
			f := figure{svg: svg[0]}
			top, bottom, _ := f.levels(t)
			bands, _ := f.paths("band")
			require.Len(t, bands, 1, name)
			boxes := cornersOf(t, bands[0])
			require.Len(t, boxes, len(table.rows), name)
			level, sum := 1.0, 0.0
			for i := range table.rows {
				first, last := numberOf(t, table.get(i, "first day")), numberOf(t, table.get(i, "last day"))
				count, of, _ := strings.Cut(table.get(i, "lost in it"), " of ")
				in, err := strconv.ParseFloat(count, 64)
				require.NoError(t, err, name)
				after, err := strconv.ParseFloat(strings.TrimSuffix(table.get(i, "share alive after"), "%"), 64)
				require.NoError(t, err, name)
				assert.InDelta(t, level-after/100, in/float64(numberOf(t, of)), .013, "%s: height and count of box %d", name, i+1)
				var xs, ys [2]float64
				xs[0], ys[0] = math.Inf(1), math.Inf(1)
				for _, p := range boxes[i] {
					xs[0], xs[1] = min(xs[0], p.x), max(xs[1], p.x)
					ys[0], ys[1] = min(ys[0], p.y), max(ys[1], p.y)
				}
				assert.Equal(t, [2]float64{float64(max(first-1, 0)), float64(last)}, xs, "%s: days of box %d", name, i+1)
				assert.InDelta(t, top+(1-level)*(bottom-top), ys[0], .06, "%s: box %d", name, i+1)
				assert.InDelta(t, top+(1-after/100)*(bottom-top), ys[1], .06, "%s: box %d", name, i+1)
				level, sum = after/100, sum+in
			}
			assert.GreaterOrEqual(t, sum, float64(lost)-.3, "%s: those of whom nothing is known any more count with the others", name)
		}
	})
	for name, want := range map[string]bool{
		"the example: imports/2025-autumn-b.html": true, "the example: seasons/2025-autumn.html": true, "the example: imports/2026-spring-c.html": false, "the example: seasons/index.html": false,
		"all lost on one day: imports/box.html": true, "all lost on day 0: imports/box.html": false, "none lost: imports/box.html": false, "some let go: imports/box.html": true, "some let go: seasons/2026-spring.html": true,
	} {
		assert.Equal(t, want, drawn[name], name)
	}
}
