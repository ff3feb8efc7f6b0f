package survival

import (
	_ "embed" // the table below
	"fmt"
	"strings"
	"sync"
)

// CoverageRow says how often an interval that is called a 95 % interval held
// the truth, in data made up to know it.
type CoverageRow struct {
	// Interval is its name: "wilson", "newcombe", "log-log", "difference",
	// "incidence" or "median".
	Interval string
	// N is the number of lines (in each of two groups for a difference), Truth
	// the share, difference or (for the median) day to be held, Coverage how
	// often it was.
	N               int
	Truth, Coverage float64
	// Exact says that Coverage was summed over all outcomes and not simulated;
	// a simulated one has an error of about 0.002.
	Exact bool
}

//go:embed coverage.csv
var coverageTable string

// Coverage gives the coverage of the intervals that pages show, for 5 to 60
// lines. coverage_test.go says how each was found, and finds it again. It
// panics if the table that comes with the package can't be read.
func Coverage() []CoverageRow { return coverageRows() }

var coverageRows = sync.OnceValue(func() []CoverageRow {
	var rows []CoverageRow
	for line := range strings.Lines(strings.TrimSpace(coverageTable)) {
		if strings.HasPrefix(line, "interval,") {
			continue
		}
		var r CoverageRow
		if _, err := fmt.Sscanf(strings.ReplaceAll(line, ",", " "), "%s %d %g %g %t", &r.Interval, &r.N, &r.Truth, &r.Coverage, &r.Exact); err != nil {
			panic(fmt.Sprintf("survival: coverage.csv: %q: %v", line, err))
		}
		rows = append(rows, r)
	}
	return rows
})
