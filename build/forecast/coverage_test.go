package forecast

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var writeCoverage = flag.Bool("write-coverage", false, "sum coverage.csv in full and write it")

var (
	coveragePasts  = []int{1, 2, 4}
	coverageOrders = []int{5, 10, 15, 20, 30, 40, 60}
	// coverageWorlds are means of imports whose plants are correlated by 0.1.
	coverageWorlds = []float64{0.5, 0.7, 0.9}
)

const coverageCorrelation = 0.1

// coverage sums, over every past that k imports of twelve can have and every
// number that planned plants can come to, the chances that the range held it, for
// each world.
func (l *laboratory) coverage(k, planned int, confidence float64, worlds []float64) []float64 {
	weight := 1/coverageCorrelation - 1
	past, chances, come := make([]outcome, k), make([][]float64, len(worlds)), make([][]float64, len(worlds))
	for i, mean := range worlds {
		chances[i], come[i] = betaBinomial(12, mean, weight), betaBinomial(planned, mean, weight)
	}
	held := make([]float64, len(worlds))
	everyPast(k, func(counts []int, orders float64) {
		for j, y := range counts {
			past[j] = outcome{y, 12}
		}
		r := l.forecast(past, planned).Range(confidence)
		for i := range worlds {
			f := orders
			for _, y := range counts {
				f *= chances[i][y]
			}
			held[i] += f * r.chance(come[i])
		}
	})
	return held
}

func confidenceOf(interval string) float64 {
	return map[string]float64{"range-80": 0.8, "range-95": 0.95}[interval]
}

// TestCoverage finds rows of coverage.csv again: all of one and of two past
// imports, and of four those of the smallest order. With -write-coverage it writes
// the file.
func TestCoverage(t *testing.T) {
	lab := newLaboratory()
	if *writeCoverage {
		var out strings.Builder
		fmt.Fprintln(&out, "interval,imports,n,truth,correlation,coverage,exact")
		for _, interval := range []string{"range-80", "range-95"} {
			for _, k := range coveragePasts {
				for _, n := range coverageOrders {
					for i, share := range lab.coverage(k, n, confidenceOf(interval), coverageWorlds) {
						fmt.Fprintf(&out, "%s,%d,%d,%g,%g,%.4f,true\n", interval, k, n, coverageWorlds[i], coverageCorrelation, share)
					}
				}
			}
		}
		require.NoError(t, os.WriteFile("coverage.csv", []byte(out.String()), 0o644))
		return
	}
	most, want := 4, 2*3*(7+7+1)
	if racing { // of one past import alone
		most, want = 1, 2*3*7
	}
	rows := Coverage()
	require.Len(t, rows, 2*len(coveragePasts)*len(coverageOrders)*len(coverageWorlds))
	found := 0
	for i, r := range rows {
		assert.True(t, r.Exact)
		assert.Contains(t, coverageOrders, r.N)
		assert.GreaterOrEqual(t, r.Coverage, confidenceOf(r.Interval), "%+v: in these worlds no range holds less than it is called", r)
		if i%len(coverageWorlds) != 0 || r.Imports == 4 && r.N > 5 || r.Imports > most {
			continue
		}
		for j, share := range lab.coverage(r.Imports, r.N, confidenceOf(r.Interval), coverageWorlds) {
			row := rows[i+j]
			assert.Equal(t, [2]float64{coverageWorlds[j], coverageCorrelation}, [2]float64{row.Truth, row.Correlation})
			assert.InDelta(t, row.Coverage, share, 0.00006, "%+v", row)
			found++
		}
	}
	assert.Equal(t, want, found)
}
