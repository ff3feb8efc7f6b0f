package survival

import (
	"math"
	"sync"
)

// LogRank is the asymptotic comparison of the losses of two or more groups.
type LogRank struct {
	// Groups lists the groups' numbers, ascending; N, Observed and Expected go
	// with them. Observed is the (weighted) number of losses, Expected what it
	// would be if losses fell on all at risk alike.
	Groups             []int
	N                  []int
	Observed, Expected []float64
	// Variance is the covariance of Observed − Expected, groups by groups.
	Variance [][]float64
	// ChiSquare has DegreesOfFreedom (one less than the groups that could have
	// had a loss) and P is its upper tail. Exists is false, and these are 0,
	// where there is nothing to compare: no losses, or no two groups ever at
	// risk together.
	ChiSquare        float64
	DegreesOfFreedom int
	P                float64
	Exists           bool
	// Strata counts the strata; Contributing the members of strata in which
	// two groups stand.
	Strata, Contributing int
}

// CompareLosses is the log-rank test of k groups, within strata (Mantel 1966,
// Cancer Chemother Rep 50:163-170; Peto and Peto 1972, J R Stat Soc A
// 135:185-207), with the hypergeometric variance.
func CompareLosses(members []Member) LogRank { return tabulate(members).logRank(0) }

// CompareLossesWeighted weighs each loss by S(t−)^rho, S being the pooled
// product limit of its stratum just before (Harrington and Fleming 1982,
// Biometrika 69:553-566): rho 0 is the log-rank test, 1 is Peto and Peto's
// modification of the Gehan-Wilcoxon test, which minds early losses more.
func CompareLossesWeighted(members []Member, rho float64) LogRank {
	return tabulate(members).logRank(rho)
}

// Comparison is the curves of some groups with the test between them.
type Comparison struct {
	// Curves go with LogRank.Groups.
	Curves  []Curve
	LogRank LogRank
}

// Compare gives every group's curve over all strata and the log-rank test
// within strata. It counts the members once for both.
func Compare(members []Member) Comparison {
	t := tabulate(members)
	c := Comparison{Curves: make([]Curve, len(t.groups))}
	var work sync.WaitGroup
	do := func(f func()) { f() }
	if len(members) > 1<<16 { // below that, side by side costs more than it gains
		do = work.Go
	}
	for g, n := range t.sizes {
		do(func() { c.Curves[g] = curveOf(n, t.days(g)) })
	}
	c.LogRank = t.logRank(0)
	work.Wait()
	return c
}

// days counts one group over all strata.
func (t tabulation) days(g int) []dayCount {
	k := len(t.groups)
	if len(t.tables) > 1 {
		merged := map[float64]dayCount{}
		for _, tab := range t.tables {
			for i, time := range tab.times {
				d := merged[time]
				d.time, d.lost, d.left = time, d.lost+tab.lost[i*k+g], d.left+tab.left[i*k+g]
				merged[time] = d
			}
		}
		return sortedDays(merged)
	}
	days := make([]dayCount, 0, min(len(t.tables[0].times), t.sizes[g]))
	for i, time := range t.tables[0].times {
		if lost, left := t.tables[0].lost[i*k+g], t.tables[0].left[i*k+g]; lost+left > 0 {
			days = append(days, dayCount{time, lost, left})
		}
	}
	return days
}

func (t tabulation) logRank(rho float64) LogRank {
	k := len(t.groups)
	r := LogRank{Groups: t.groups, N: t.sizes, Observed: make([]float64, k), Expected: make([]float64, k),
		Variance: square(k), Strata: len(t.strata)}
	for _, tab := range t.tables {
		atRisk := make([]int, k)
		for i, n := range tab.lost {
			atRisk[i%k] += n + tab.left[i]
		}
		n, present := 0, 0
		for _, a := range atRisk {
			n += a
			present += min(a, 1)
		}
		if present > 1 {
			r.Contributing += n
		}
		r.addStratum(tab, atRisk, n, rho)
	}
	able := 0
	difference := make([]float64, k)
	for g := range difference {
		difference[g] = r.Observed[g] - r.Expected[g]
		if r.Expected[g] > 0 {
			able++
		}
	}
	chi, rank := quadraticForm(difference, r.Variance)
	if rank > 0 && able > 1 {
		r.ChiSquare, r.DegreesOfFreedom, r.P, r.Exists = chi, rank, chiSquareTail(chi, rank), true
	}
	return r
}

// addStratum adds the observed and expected losses of one stratum and their
// hypergeometric variance; atRisk is used up.
func (r *LogRank) addStratum(tab table, atRisk []int, n int, rho float64) {
	k := len(atRisk)
	share := 1.0
	for i := range tab.times {
		lost, left := tab.lost[i*k:(i+1)*k], tab.left[i*k:(i+1)*k]
		d, gone := 0, 0
		for g := range lost {
			d += lost[g]
			gone += lost[g] + left[g]
		}
		if d > 0 {
			weight := 1.0
			if rho != 0 {
				weight = math.Pow(share, rho)
			}
			size, losses := float64(n), float64(d)
			spread := 0.0
			if n > 1 {
				spread = weight * weight * losses * (size - losses) / (size - 1)
			}
			for g := range lost {
				p := float64(atRisk[g]) / size
				r.Observed[g] += weight * float64(lost[g])
				r.Expected[g] += weight * losses * p
				for h := range g {
					v := spread * p * float64(atRisk[h]) / size
					r.Variance[g][h] -= v
					r.Variance[h][g] -= v
				}
				r.Variance[g][g] += spread * p * (1 - p)
			}
			share *= (size - losses) / size
		}
		n -= gone
		for g := range lost {
			atRisk[g] -= lost[g] + left[g]
		}
	}
}

// TrendTest asks whether losses rise or fall along ordered groups.
type TrendTest struct {
	// U is Σ w(O − E) and Variance its variance; Z, ChiSquare (one degree of
	// freedom) and P are absent (Exists false) where Variance is 0.
	U, Variance, Z, ChiSquare, P float64
	Exists                       bool
}

// Trend gives each group a weight, in the order of Groups, and tests
// Σ w(O − E) (Tarone 1975, Biometrika 62:679-682). It panics if there isn't a
// weight for each group.
func (r LogRank) Trend(weights []float64) TrendTest {
	if len(weights) != len(r.Groups) {
		panic("survival: a trend needs one weight for each group")
	}
	var t TrendTest
	largest := 0.0
	for g, w := range weights {
		t.U += w * (r.Observed[g] - r.Expected[g])
		for h, v := range r.Variance[g] {
			t.Variance += w * weights[h] * v
			largest = math.Max(largest, math.Abs(w*weights[h]*v))
		}
	}
	if t.Variance > 1e-12*largest {
		t.Z = t.U / math.Sqrt(t.Variance)
		t.ChiSquare = t.Z * t.Z
		t.P, t.Exists = chiSquareTail(t.ChiSquare, 1), true
	}
	return t
}
