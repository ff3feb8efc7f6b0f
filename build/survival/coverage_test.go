package survival

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var writeCoverage = flag.Bool("write-coverage", false, "simulate coverage.csv in full and write it")

var coverageSizes = []int{5, 10, 15, 20, 30, 40, 60}

// binomialChance is the chance of k of n.
func binomialChance(k, n int, p float64) float64 {
	return math.Exp(lnFactorial(n) - lnFactorial(k) - lnFactorial(n-k) + float64(k)*math.Log(p) + float64(n-k)*math.Log1p(-p))
}

// wilsonCoverage sums the chances of all counts whose interval holds p.
func wilsonCoverage(n int, p float64) float64 {
	sum := 0.0
	for k := 0; k <= n; k++ {
		if i := Wilson(k, n, 0.95); i.Lower <= p && p <= i.Upper {
			sum += binomialChance(k, n, p)
		}
	}
	return sum
}

// newcombeCoverage is for two groups of n with shares p and p − 0.2.
func newcombeCoverage(n int, p float64) float64 {
	sum := 0.0
	for a := 0; a <= n; a++ {
		for b := 0; b <= n; b++ {
			if i, _ := Newcombe(a, n, b, n, 0.95); i.Lower <= 0.2 && 0.2 <= i.Upper {
				sum += binomialChance(a, n, p) * binomialChance(b, n, p-0.2)
			}
		}
	}
	return sum
}

// followed simulates n lines of which a share is alive on day 84 and a fifth
// leave on a random day before.
func followed(r *rand.Rand, n int, alive float64) Curve {
	subjects := make([]Subject, n)
	for i := range subjects {
		loss, leave := r.ExpFloat64()*84/-math.Log(alive), 84.0
		if r.IntN(5) == 0 {
			leave = 84 * r.Float64()
		}
		subjects[i] = Subject{math.Ceil(min(loss, leave)), loss <= leave}
	}
	return ProductLimit(subjects)
}

// holdsLogLog: the limits of the share on day 84 that pages show: log-log, or
// where the share is 1 or 0 Wilson for those at risk.
func holdsLogLog(c Curve, truth float64) bool {
	e := c.At(84)
	i := Interval{e.Lower, e.Upper}
	if !e.HasLimits {
		r := c.AtRisk(84)
		k := r
		if e.Share == 0 {
			k = 0
		}
		i = Wilson(k, r, 0.95)
	}
	return i.Lower <= truth && truth <= i.Upper
}

// incidenceHolds: the share that reached a milestone by day 28, loss competing.
func incidenceHolds(r *rand.Rand, n int, truth float64) bool {
	const loss = 0.01 // a day
	rate := 0.0       // of the milestone, so that rate/(rate+loss)·(1 − e^(−28(rate+loss))) is the truth
	rate = bisect(1e-6, 2, func(v float64) bool { return v/(v+loss)*-math.Expm1(-28*(v+loss)) < truth })
	outcomes := make([]Outcome, n)
	for i := range outcomes {
		reached, lost := math.Ceil(r.ExpFloat64()/rate), math.Ceil(r.ExpFloat64()/loss)
		leave := 84.0
		if r.IntN(5) == 0 {
			leave = math.Ceil(84 * r.Float64())
		}
		switch first := min(reached, lost, leave); {
		case reached == first: // a milestone and a loss on one day: the milestone
			outcomes[i] = Outcome{first, 1}
		case lost == first:
			outcomes[i] = Outcome{first, 2}
		default:
			outcomes[i] = Outcome{first, 0}
		}
	}
	e := CompetingRisks(outcomes, 2).At(28).Shares[0]
	i := Interval{e.Lower, e.Upper}
	if !e.HasLimits {
		i = Wilson(int(e.Share)*n, n, 0.95)
	}
	return i.Lower <= truth && truth <= i.Upper
}

// medianHolds: the limits of the median, the truth being the first whole day by
// which more than half are lost. A limit that doesn't exist bounds nothing.
func medianHolds(r *rand.Rand, n int, truth float64) bool {
	alive := math.Pow(0.5, 84/(truth-0.5)) // half are lost at noon of the day before
	m := followed(r, n, alive).Median()
	return (!m.HasLower || m.Lower <= truth) && (!m.HasUpper || truth <= m.Upper)
}

// simulated gives the coverage of an interval over some runs.
func simulated(name string, n int, truth float64, runs int) float64 {
	r := rand.New(rand.NewPCG(uint64(n), math.Float64bits(truth)))
	held := 0
	for range runs {
		ok := false
		switch name {
		case "log-log":
			ok = holdsLogLog(followed(r, n, truth), truth)
		case "difference": // of groups with 0.9 and 0.9 − truth alive
			a, b := followed(r, n, 0.9).At(84), followed(r, n, 0.9-truth).At(84)
			d := NormalDifference(a.Share, a.StdError, b.Share, b.StdError, 0.95)
			ok = d.Lower <= truth && truth <= d.Upper
		case "incidence":
			ok = incidenceHolds(r, n, truth)
		case "median":
			ok = medianHolds(r, n, truth)
		}
		if ok {
			held++
		}
	}
	return float64(held) / float64(runs)
}

// coverageRow finds one row anew.
func coverageRow(r CoverageRow, runs int) float64 {
	switch r.Interval {
	case "wilson":
		return wilsonCoverage(r.N, r.Truth)
	case "newcombe":
		return newcombeCoverage(r.N, 0.9)
	}
	return simulated(r.Interval, r.N, r.Truth, runs)
}

// TestCoverage finds every row of coverage.csv again: exact ones exactly, the
// others within four errors of 400 runs. With -write-coverage it writes the
// file from 20 000 runs a row.
func TestCoverage(t *testing.T) {
	if *writeCoverage {
		var out strings.Builder
		fmt.Fprintln(&out, "interval,n,truth,coverage,exact")
		for _, kind := range []struct {
			name   string
			truths []float64
		}{{"wilson", []float64{0.5, 0.7, 0.9}}, {"newcombe", []float64{0.2}}, {"log-log", []float64{0.5, 0.7, 0.9}}, {"difference", []float64{0.2}}, {"incidence", []float64{0.3, 0.6}}, {"median", []float64{28}}} {
			for _, truth := range kind.truths {
				for _, n := range coverageSizes {
					r := CoverageRow{Interval: kind.name, N: n, Truth: truth, Exact: kind.name == "wilson" || kind.name == "newcombe"}
					fmt.Fprintf(&out, "%s,%d,%g,%.4f,%t\n", r.Interval, n, truth, coverageRow(r, 20_000), r.Exact)
				}
			}
		}
		require.NoError(t, os.WriteFile("coverage.csv", []byte(out.String()), 0o644))
		return
	}
	rows := Coverage()
	require.Len(t, rows, 77)
	for _, r := range rows {
		got := coverageRow(r, 400)
		allowed := 0.00006
		if !r.Exact {
			allowed = 4*math.Sqrt(r.Coverage*(1-r.Coverage)/400) + 0.001
		}
		assert.InDelta(t, r.Coverage, got, allowed, "%+v", r)
	}
}
