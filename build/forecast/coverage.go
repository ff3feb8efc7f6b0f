package forecast

import (
	_ "embed" // the table below
	"fmt"
	"strings"
	"sync"
)

// CoverageRow says how often a range held the number alive of a planned order,
// in a world made up to know it.
type CoverageRow struct {
	// Interval is its name: "range-80" or "range-95", ranges called at least
	// 80 % and 95 %.
	Interval string
	// Imports is the number of past imports, of twelve plants each, that the
	// forecast had learned from, N the number of plants planned.
	Imports, N int
	// Truth is the mean share alive of that world's imports and Correlation that
	// of two plants of one import; the forecast knows neither. Coverage is the
	// share of ranges that held what came.
	Truth, Correlation, Coverage float64
	// Exact says that Coverage was summed over everything that can happen, past
	// and to come, and not simulated; here it always is.
	Exact bool
}

//go:embed coverage.csv
var coverageTable string

// Coverage gives the coverage of the forecast's ranges for orders of 5 to 60
// plants. coverage_test.go says how each was found, and finds it again. It panics
// if the table that comes with the package can't be read.
func Coverage() []CoverageRow { return coverageRows() }

var coverageRows = sync.OnceValue(func() []CoverageRow {
	var rows []CoverageRow
	for line := range strings.Lines(strings.TrimSpace(coverageTable)) {
		if strings.HasPrefix(line, "interval,") {
			continue
		}
		var r CoverageRow
		if _, err := fmt.Sscanf(strings.ReplaceAll(line, ",", " "), "%s %d %d %g %g %g %t", &r.Interval, &r.Imports, &r.N, &r.Truth, &r.Correlation, &r.Coverage, &r.Exact); err != nil {
			panic(fmt.Sprintf("forecast: coverage.csv: %q: %v", line, err))
		}
		rows = append(rows, r)
	}
	return rows
})
