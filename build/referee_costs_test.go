package build_test

import (
	"bytes"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// eachSurvivor reads what each survivor of a group cost from a page's table, and how
// many there were; has is false where no table tells it.
func eachSurvivor(t *testing.T, page []byte) (each map[string]string, alive map[string]int, has bool) {
	t.Helper()
	root, err := html.Parse(bytes.NewReader(page))
	require.NoError(t, err)
	each, alive = map[string]string{}, map[string]int{}
	for _, table := range find(root, named("table")) {
		if d := tableIn(table); d.has("lines", "alive", "each survivor") && !has {
			has = true
			for i := range d.rows {
				group, _, _ := strings.Cut(d.rows[i][0], " import")
				group = strings.TrimRight(strings.TrimRight(group, "0123456789"), " ")
				each[group] = d.get(i, "each survivor")
				count, _, _ := strings.Cut(d.get(i, "alive"), " of ")
				alive[group] = numberOf(t, count)
			}
		}
	}
	return each, alive, has
}

// What each survivor of a group cost stands among the counts of every comparison where
// costs are public, and nowhere else. Parted by any word that leaves no plant out, the
// survivors' costs and those of groups without any make up what the imports cost: so
// no word's survivors can have cost more than all that was paid.
func TestGroupsTellWhatEachSurvivorCost(t *testing.T) {
	s := exampleSite(t)
	seasons, err := html.Parse(bytes.NewReader(s["seasons/index.html"]))
	require.NoError(t, err)
	paid, byTable := 0.0, map[string]string{}
	for _, table := range find(seasons, named("table")) {
		d := tableIn(table)
		if !d.has("season", "landed", "each survivor, day 42") {
			continue
		}
		for i := range d.rows {
			byTable[d.get(i, "season")] = d.get(i, "each survivor, day 42")
			landed := strings.Fields(strings.ReplaceAll(d.get(i, "landed"), ",", ""))
			amount, err := strconv.ParseFloat(landed[0], 64)
			require.NoError(t, err)
			paid += amount
			for n, word := range landed {
				if word == "which" { // "of which 90.54 came back"
					back, err := strconv.ParseFloat(landed[n+1], 64)
					require.NoError(t, err)
					paid -= back
				}
			}
		}
	}
	require.Len(t, byTable, 3)
	each, _, has := eachSurvivor(t, s["compare/season.html"])
	require.True(t, has)
	for season, cost := range byTable {
		assert.Equal(t, cost, each[season], "%s costs the same on both pages", season)
	}
	told := 0
	for path, page := range s {
		if !strings.HasPrefix(path, "compare/") || !strings.HasSuffix(path, ".html") || path == "compare/index.html" {
			continue
		}
		each, alive, has := eachSurvivor(t, page)
		require.True(t, has, path)
		sum := 0.0
		for group, cost := range each {
			if amount, err := strconv.ParseFloat(strings.TrimSuffix(cost, " NOK"), 64); err == nil {
				sum += amount * float64(alive[group])
				told++
			}
		}
		assert.LessOrEqual(t, sum, paid+float64(len(each)), path) // each is rounded to the cent
	}
	assert.Greater(t, told, 40)

	diary := settings + binPlace + boxImport + plantOne + plantTwo + dayRound("2026-03-09", "  p-1: firm\n  p-2: firm")
	hidden := made(t, load(t, written(strings.Replace(diary, "costs: yes", "costs: no", 1))), "compare/size.html")
	_, _, has = eachSurvivor(t, hidden["compare/size.html"])
	assert.False(t, has, "costs that are not public")
}
