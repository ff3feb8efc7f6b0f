package build_test

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// The tests named C1 to C13 hold every page to what a careful referee asks of a
// follow-up study: each is one point, and names where the point comes from. They
// read the pages as they are published and know nothing of how these were made.
// Sources of the points are cited from memory.

// day writes a round of check-ins at the bin.
func dayRound(date, lines string) string {
	return "\n== check-ins/" + date + ".md\n---\ndate: " + date + "\nplace: bin\nspecimens:\n" + lines + "\n---\n"
}

// refereed are the sites that the points are held to: the example, and diaries in
// which one thing or another is missing. Made once.
func refereed(t *testing.T) map[string]site {
	t.Helper()
	refereedOnce.Do(func() {
		two := settings + binPlace + boxImport + plantOne + plantTwo
		crowd := settings + binPlace + boxImport
		firm, lost := "", ""
		for n := range 12 {
			id := "q-" + strconv.Itoa(10+n)
			crowd += "\n== specimens/" + id + ".md\n---\nname: Hoya siariae\nimport: box\nsize: " + []string{"small", "medium"}[n%2] + "\n---\n"
			firm += "  " + id + ": firm\n"
			lost += "  " + id + ": lost cold\n"
		}
		all := map[string]site{"the example": exampleSite(t)}
		for name, diary := range map[string]string{
			"nothing":               settings,
			"a list":                settings + binPlace + oldSeason,
			"all lost on day 0":     crowd + dayRound("2026-03-09", lost),
			"all lost on one day":   crowd + dayRound("2026-03-09", firm) + dayRound("2026-05-09", lost),
			"some let go":           crowd + dayRound("2026-03-09", firm) + dayRound("2026-03-20", "  q-10: passed on\n  q-11: passed on\n  q-12: lost rot\n  q-13: lost cold") + dayRound("2026-06-09", strings.Join(strings.Split(firm, "\n")[4:], "\n")),
			"none lost":             crowd + dayRound("2026-03-09", firm) + dayRound("2026-06-09", firm),
			"one never looked at":   two + dayRound("2026-03-12", "  p-1: firm"),
			"one lost, one let go":  two + dayRound("2026-03-09", "  p-1: firm\n  p-2: firm") + dayRound("2026-03-20", "  p-1: lost rot\n  p-2: passed on"),
			"two on one day, later": two + dayRound("2026-03-09", "  p-1: firm\n  p-2: firm") + dayRound("2026-05-09", "  p-1: lost rot\n  p-2: lost rot?"),
		} {
			all[name] = made(t, load(t, written(diary)))
		}
		refereedSites = all
	})
	require.NotNil(t, refereedSites, "an earlier test could not make them")
	return refereedSites
}

var (
	refereedOnce  sync.Once
	refereedSites map[string]site
)

// eachPage calls f with every page of every refereed site.
func eachPage(t *testing.T, f func(name string, root *html.Node)) {
	t.Helper()
	sites := refereed(t)
	parsedOnce.Do(func() {
		for _, diary := range sortedNames(sites) {
			pages := sites[diary].pages()
			slices.Sort(pages)
			for _, path := range pages {
				root, err := html.Parse(bytes.NewReader(sites[diary][path]))
				require.NoError(t, err)
				parsedPages = append(parsedPages, parsedPage{diary + ": " + path, root})
			}
		}
	})
	for _, p := range parsedPages {
		f(p.name, p.root)
	}
}

// parsedPage is a page of a refereed site, parsed once for all that only look at it.
type parsedPage struct {
	name string
	root *html.Node
}

var (
	parsedOnce  sync.Once
	parsedPages []parsedPage
)

func sortedNames[V any](m map[string]V) []string {
	var names []string
	for name := range m {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if strings.EqualFold(a.Key, key) {
			return a.Val
		}
	}
	return ""
}

func hasClass(n *html.Node, class string) bool {
	return slices.Contains(strings.Fields(attribute(n, "class")), class)
}

// find gives the elements below n for which f is true, in their order.
func find(n *html.Node, f func(*html.Node) bool) []*html.Node {
	var out []*html.Node
	for d := range n.Descendants() {
		if d.Type == html.ElementNode && f(d) {
			out = append(out, d)
		}
	}
	return out
}

func named(name string) func(*html.Node) bool {
	return func(n *html.Node) bool { return n.Data == name }
}

// textIn is what an element says, white space made single.
func textIn(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data + " ")
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// drawnTable is a table that a picture was drawn from.
type drawnTable struct {
	columns []string
	rows    [][]string
}

func tableIn(n *html.Node) drawnTable {
	var t drawnTable
	for _, row := range find(n, named("tr")) {
		var cells []string
		head := row.Parent.Data == "thead"
		for _, c := range find(row, func(n *html.Node) bool { return n.Data == "th" || n.Data == "td" }) {
			cells = append(cells, textIn(c))
		}
		if head {
			t.columns = cells
		} else {
			t.rows = append(t.rows, cells)
		}
	}
	return t
}

func (d drawnTable) has(columns ...string) bool {
	for _, c := range columns {
		if !slices.Contains(d.columns, c) {
			return false
		}
	}
	return true
}

func (d drawnTable) get(row int, column string) string {
	at := slices.Index(d.columns, column)
	if at < 0 || at >= len(d.rows[row]) {
		return ""
	}
	return d.rows[row][at]
}

// figure is a drawn survival curve, or several on one axis, with what surrounds
// it.
type figure struct {
	svg    *html.Node
	around *html.Node // the element that holds picture, key and table
	table  drawnTable
}

// curveFigures are the survival curves of a page with the tables they were drawn
// from; missing are those without one.
func curveFigures(root *html.Node) (with []figure, missing []*html.Node) {
	for _, svg := range find(root, func(n *html.Node) bool { return n.Data == "svg" && attribute(n, "role") == "img" }) {
		if len(find(svg, func(n *html.Node) bool { return n.Data == "path" && hasClass(n, "km") })) == 0 {
			continue
		}
		f := figure{svg: svg}
		for up := svg.Parent; up != nil && f.around == nil; up = up.Parent {
			for _, t := range find(up, named("table")) {
				if d := tableIn(t); d.has("day", "under watch", "lost", "left alive", "share", "lower limit", "upper limit") {
					f.around, f.table = up, d
					break
				}
			}
		}
		if f.around == nil {
			missing = append(missing, svg)
			continue
		}
		with = append(with, f)
	}
	return with, missing
}

// curveRow is one row of a curve's table.
type curveRow struct {
	day, atRisk, lost, left int
	share, lower, upper     float64
	limits                  bool
}

// groups reads a figure's table, group by group; a single curve has one, without
// a name.
func (f figure) groups(t *testing.T) (names []string, rows map[string][]curveRow) {
	t.Helper()
	rows = map[string][]curveRow{}
	whole := func(row int, column string) int {
		n, err := strconv.Atoi(f.table.get(row, column))
		require.NoError(t, err, column)
		return n
	}
	share := func(row int, column string) float64 {
		v, err := strconv.ParseFloat(strings.TrimSuffix(f.table.get(row, column), "%"), 64)
		require.NoError(t, err, column)
		return v / 100
	}
	for i := range f.table.rows {
		name := f.table.get(i, "group")
		if len(rows[name]) == 0 {
			names = append(names, name)
		}
		r := curveRow{day: whole(i, "day"), atRisk: whole(i, "under watch"), lost: whole(i, "lost"), left: whole(i, "left alive"), share: share(i, "share")}
		if f.table.get(i, "lower limit") != "" {
			r.limits, r.lower, r.upper = true, share(i, "lower limit"), share(i, "upper limit")
		}
		rows[name] = append(rows[name], r)
	}
	return names, rows
}
