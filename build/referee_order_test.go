package build_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
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

// fromOne finds, in a file, every subtraction of a curve from 1 (or from 100): of
// something named Share, Survival, Lower or Upper, or of a call of At. A share lost
// (LostShare) is no survival curve.
func fromOne(f *ast.File) []ast.Expr {
	var found []ast.Expr
	ast.Inspect(f, func(n ast.Node) bool {
		e, ok := n.(*ast.BinaryExpr)
		if !ok || e.Op != token.SUB {
			return true
		}
		one, ok := ast.Unparen(e.X).(*ast.BasicLit)
		if !ok || !slices.Contains([]string{"1", "1.0", "1.", "100", "100.0"}, one.Value) {
			return true
		}
		ast.Inspect(e.Y, func(n ast.Node) bool {
			name := ""
			switch x := n.(type) {
			case *ast.SelectorExpr:
				name = x.Sel.Name
			case *ast.Ident:
				name = x.Name
			}
			if regexp.MustCompile(`^(?i:share|survival|alive|lower|upper|at)$`).MatchString(name) {
				found = append(found, e)
				return false
			}
			return true
		})
		return true
	})
	return found
}

// C8: milestones are shares with loss competing (Aalen and Johansen 1978), and no
// page, table or sentence takes a survival curve from one, which would count a dead
// plant as one that may root yet (Putter, Fiocco and Geskus 2007, Stat Med
// 26:2389-2430; Austin and Fine 2017, Stat Med 36:4391-4400). In the arithmetic
// below them 1 − F stands in one place, the limits of F themselves.
func TestC8NoOneMinusACurve(t *testing.T) {
	for source, want := range map[string]int{
		"1 - curve.At(42).Share": 1, "100 - 100*e.Share": 1, "(1) - alive": 1, "1.0 - s.Survival": 1,
		"1 - st.LostShare": 0, "n - 1": 0, "2 - e.Share": 0, "1 - confidence": 0,
	} {
		f, err := parser.ParseFile(token.NewFileSet(), "", "package p\nvar x = "+source, 0)
		require.NoError(t, err)
		assert.Len(t, fromOne(f), want, source)
	}
	allowed := map[string]int{"../build/survival/competing.go": 1}
	files := goFiles(t)
	read := 0
	for _, room := range sortedNames(files) {
		for _, path := range files[room] {
			if strings.HasSuffix(path, "_test.go") || strings.HasPrefix(room, "content") || room == "build/forecast" {
				continue // a forecast's share is no curve of a cohort
			}
			f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			require.NoError(t, err)
			assert.Len(t, fromOne(f), allowed[path], path)
			read++
		}
	}
	assert.Greater(t, read, 100)
}

// C8, in the figures: what was reached and what was lost without it are counts that
// only grow, and with the rest they make up the whole on every day; where nobody left
// they are the plain counts.
func TestC8ReachedLostAndTheRestMakeTheWhole(t *testing.T) {
	rows, plain := 0, 0
	for name, s := range refereed(t) {
		before := map[string][2]float64{}
		n, reached, lost, left := map[string]float64{}, map[string]float64{}, map[string]float64{}, map[string]float64{}
		for _, row := range readTable(t, s["open-data/milestones.csv"]).rows {
			number := func(column string) float64 {
				v, err := strconv.ParseFloat(row[column], 64)
				require.NoError(t, err, "%s: %v", name, row)
				return v
			}
			key := strings.Join([]string{row["scope"], row["group_by"], row["group"], row["milestone"]}, "|")
			if _, seen := n[key]; !seen {
				n[key] = number("at_risk")
				assert.Equal(t, "0", row["day"], "%s: %v", name, row)
			}
			assert.Equal(t, n[key]-reached[key]-lost[key]-left[key], number("at_risk"), "%s: %v", name, row)
			here := [2]float64{number("share"), number("lost_share")}
			assert.GreaterOrEqual(t, here[0], before[key][0], "%s: %v", name, row)
			assert.GreaterOrEqual(t, here[1], before[key][1], "%s: %v", name, row)
			assert.LessOrEqual(t, here[0]+here[1], 1+1e-12, "%s: %v", name, row)
			before[key] = here
			reached[key], lost[key] = reached[key]+number("reached"), lost[key]+number("lost")
			if left[key] == 0 {
				assert.InDelta(t, reached[key]/n[key], here[0], 1e-12, "%s: %v", name, row)
				assert.InDelta(t, lost[key]/n[key], here[1], 1e-12, "%s: %v", name, row)
				plain++
			}
			left[key] += number("left")
			rows++
		}
		for key := range n {
			assert.Equal(t, n[key], reached[key]+lost[key]+left[key], "%s: %s adds up", name, key)
		}
	}
	assert.Greater(t, rows, 300)
	assert.Greater(t, plain, 100)
}

// C12: plants stand in the order of their import's numbers; marks have words; small
// multiples share their axes (Cleveland 1985; Tufte 1983).
func TestC12PlantsInTheirOrderOnSharedAxes(t *testing.T) {
	numbered := regexp.MustCompile(`^(.*?)(\d+)$`)
	lists, multiples := 0, 0
	eachPage(t, func(name string, root *html.Node) {
		for _, table := range find(root, named("table")) {
			d := tableIn(table)
			if !d.has("number", "places, by day") && !d.has("number", "leaf area, cm²") || !strings.Contains(name, ": imports/") {
				continue
			}
			last, stem := -1, ""
			for i := range d.rows {
				m := numbered.FindStringSubmatch(d.get(i, "number"))
				if m == nil {
					continue // a section, under its line
				}
				n, err := strconv.Atoi(m[2])
				require.NoError(t, err)
				if m[1] == stem {
					assert.GreaterOrEqual(t, n, last, "%s: %s stands too late", name, d.get(i, "number"))
				}
				last, stem = n, m[1]
			}
			lists++
		}
		// Drawings of one kind on a page: rows, soil lines.
		for _, list := range find(root, func(n *html.Node) bool { return hasClass(n, "rows") || hasClass(n, "many") }) {
			days := map[string]bool{}
			drawn := 0
			for _, svg := range find(list, func(n *html.Node) bool {
				return n.Data == "svg" && attribute(n, "preserveAspectRatio") == "none" && n.Parent.Data == "svg"
			}) {
				box := strings.Fields(attribute(svg, "viewBox"))
				require.Len(t, box, 4, name)
				days[box[2]] = true
				drawn++
			}
			if drawn > 2 {
				assert.Len(t, days, 1, "%s: drawings of %q on different days: %v", name, attribute(list, "class"), days)
				multiples++
			}
		}
		// A picture that a reader can't see has words: a title or a hidden one beside it.
		for _, svg := range find(root, named("svg")) {
			if svg.Parent != nil && svg.Parent.Data == "svg" {
				continue
			}
			hidden, labelled := attribute(svg, "aria-hidden") == "true", attribute(svg, "aria-labelledby") != "" || attribute(svg, "aria-label") != ""
			for up := svg.Parent; up != nil && !hidden; up = up.Parent {
				hidden = attribute(up, "aria-hidden") == "true"
			}
			assert.True(t, hidden || labelled, "%s: a drawing without words: %s", name, attribute(svg, "class"))
		}
	})
	assert.Greater(t, lists, 3)
	assert.Greater(t, multiples, 3)
}

// ofNothing are numbers that count nothing in particular, and so have no unit: they
// are told by their names.
var ofNothing = regexp.MustCompile(`^(?:share|std_error|lower|upper|lost_share|p|p_adjusted|monte_carlo_se|statistic|degrees_of_freedom|look|line_lost|root_grade|contributing)$`)

// C13: each published column has a definition, a unit where it is a quantity, and the
// package a licence, a date and where it comes from (FAIR: Wilkinson et al. 2016, Sci
// Data 3:160018).
func TestC13EveryColumnIsDefined(t *testing.T) {
	for name, s := range refereed(t) {
		var p struct {
			Name, Title, Description, Created, Homepage string
			Licenses                                    []struct{ Name, Path string }
			Resources                                   []struct {
				Name, Path, Description string
				Schema                  struct {
					Fields []struct{ Name, Type, Description, Unit string }
				}
			}
		}
		require.NoError(t, json.Unmarshal(s["open-data/datapackage.json"], &p), name)
		for _, words := range []string{p.Name, p.Title, p.Description, p.Homepage} {
			assert.NotEmpty(t, words, name)
		}
		if name == "the example" {
			assert.NotEmpty(t, p.Licenses, "the example's licence")
			assert.NotEmpty(t, p.Created)
		}
		assert.GreaterOrEqual(t, len(p.Resources), 6, name)
		for _, r := range p.Resources {
			assert.NotEmpty(t, r.Description, "%s: %s", name, r.Name)
			table := readTable(t, s["open-data/"+r.Path])
			require.Len(t, r.Schema.Fields, len(table.columns), "%s: %s", name, r.Name)
			for i, f := range r.Schema.Fields {
				assert.Equal(t, table.columns[i], f.Name, "%s: %s", name, r.Name)
				assert.Greater(t, len(f.Description), 8, "%s: %s.%s", name, r.Name, f.Name)
				if (f.Type == "number" || f.Type == "integer") && !ofNothing.MatchString(f.Name) {
					assert.NotEmpty(t, f.Unit, "%s: %s.%s is a quantity without a unit", name, r.Name, f.Name)
				}
				for _, row := range table.rows {
					v, err := strconv.ParseFloat(row[f.Name], 64)
					assert.False(t, err == nil && (math.IsNaN(v) || math.IsInf(v, 0)), "%s: %s.%s: %s", name, r.Name, f.Name, row[f.Name])
				}
			}
		}
	}
}
