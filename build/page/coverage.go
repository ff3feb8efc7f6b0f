package page

import (
	"fmt"
	"math"
	"slices"

	"wardian/build/forecast"
	"wardian/build/said"
	"wardian/build/survival"
)

// The method page prints how often each interval that pages show held the truth, in
// data made up to know it. An interval that is called a 95 % one and holds less
// often is told to do so.

// coverageData is a table of how often intervals held, by the number of plants.
type coverageData struct {
	Summary string // over the table, which is folded
	Caption string
	First   string // head of the first column
	Ns      []int
	Rows    []coverageLine
}

// coverageLine is one interval in one world: how often in a hundred it held.
type coverageLine struct {
	Interval, World string
	Held            []string // by Ns; "" where it wasn't tried
}

// intervalNames name the intervals as the pages do.
var intervalNames = map[string]string{
	"wilson": "of a count (Wilson)", "newcombe": "of a difference of counts (Newcombe)", "log-log": "of a curve (log-log)",
	"difference": "of a difference of curves (standard errors)", "incidence": "of a milestone’s share", "median": "of the day by which half were lost (files only)",
}

// survivalCoverage is the table of the intervals of shares and differences.
func survivalCoverage() coverageData {
	d := coverageData{Summary: "Limits of shares and differences", Caption: "How often in a hundred a 95% interval held the truth, by the number of plants (in each of two groups for a difference).", First: "95% limits"}
	for _, r := range survival.Coverage() {
		world := fmt.Sprintf("share %d in 100", int(math.Round(100*r.Truth)))
		switch r.Interval {
		case "newcombe", "difference":
			world = fmt.Sprintf("%d in 100 apart", int(math.Round(100*r.Truth)))
		case "median":
			world = "half lost by day " + itoa(int(math.Round(r.Truth)))
		}
		name, ok := intervalNames[r.Interval]
		if !ok {
			name = r.Interval
		}
		d.put(name, world, r.N, r.Coverage)
	}
	return d
}

// forecastCoverage is the table of the forecast's ranges: of the 80 % one that pages
// and terminals tell, the 95 % one of the files beside it.
func forecastCoverage() coverageData {
	d := coverageData{Summary: "Ranges of forecasts", Caption: "How often in a hundred the range held the number that lived, by the number of plants ordered; earlier imports of twelve plants each.", First: "forecast’s range"}
	for _, r := range forecast.Coverage() {
		name := map[string]string{"range-80": "80%", "range-95": "95% (files only)"}[r.Interval]
		if name == "" {
			name = r.Interval
		}
		name += ", from " + said.NounInWords(r.Imports, "import", "imports")
		d.put(name, fmt.Sprintf("mean %d in 100", int(math.Round(100*r.Truth))), r.N, r.Coverage)
	}
	return d
}

// put sets one figure, in order of first coming.
func (d *coverageData) put(interval, world string, n int, held float64) {
	column := slices.Index(d.Ns, n)
	if column < 0 {
		d.Ns = append(d.Ns, n)
		column = len(d.Ns) - 1
	}
	row := slices.IndexFunc(d.Rows, func(l coverageLine) bool { return l.Interval == interval && l.World == world })
	if row < 0 {
		d.Rows = append(d.Rows, coverageLine{Interval: interval, World: world})
		row = len(d.Rows) - 1
	}
	l := &d.Rows[row]
	for len(l.Held) <= column {
		l.Held = append(l.Held, "")
	}
	l.Held[column] = itoa(int(math.Round(100 * held)))
}
