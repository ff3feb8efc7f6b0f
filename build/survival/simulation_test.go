package survival

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Simulations: what the tests do when there is nothing to find. Seeded, so
// they give the same numbers every time; sizes and bounds are those that the
// project set for itself before any was run.

// everyThirdDay simulates n subjects that die at a constant rate and are looked at
// every 3 days up to day 84; alive is the share alive on that day.
func everyThirdDay(r *rand.Rand, n int, alive float64) []Subject {
	subjects := make([]Subject, n)
	for i := range subjects {
		loss := r.ExpFloat64() * 84 / -math.Log(alive)
		subjects[i] = Subject{84, false}
		if found := 3 * math.Ceil(loss/3); found <= 84 {
			subjects[i] = Subject{found, true}
		}
	}
	return subjects
}

// labellings tests one data set of 8 against 8 under all 12 870 labellings and
// gives the share of them with p at most each level. The p values come from a
// walk through all; a few are compared with PermutationLogRank.
func labellings(t testing.TB, r *rand.Rand, subjects []Subject, levels []float64) []float64 {
	members := make([]Member, len(subjects))
	for i, s := range subjects {
		members[i].Subject = s
	}
	scores := Scores(members)
	var sums []float64
	var choices []uint32
	for choice := uint32(0); choice < 1<<16; choice++ {
		if bits.OnesCount32(choice) != 8 {
			continue
		}
		u := 0.0
		for rest := choice; rest != 0; rest &= rest - 1 {
			u += scores[bits.TrailingZeros32(rest)]
		}
		sums, choices = append(sums, math.Abs(u)), append(choices, choice)
	}
	require.Len(t, sums, 12870)
	sorted := slices.Clone(sums)
	slices.Sort(sorted)
	p := func(u float64) float64 {
		below, _ := slices.BinarySearch(sorted, u-equal)
		return float64(len(sorted)-below) / float64(len(sorted))
	}
	for range 3 {
		at := r.IntN(len(choices))
		for i := range members {
			members[i].Group = int(choices[at] >> i & 1)
		}
		require.InDelta(t, p(sums[at]), PermutationLogRank(members).P, 1e-12)
	}
	shares := make([]float64, len(levels))
	for i, level := range levels {
		n := 0
		for _, u := range sums {
			if p(u) <= level {
				n++
			}
		}
		shares[i] = float64(n) / float64(len(sums))
	}
	return shares
}

// TestPermutationKeepsItsLevel: 200 data sets, all labellings each: the share
// with p ≤ α is at most α, without slack. 200 more with half alive on day 84:
// not much below it either.
func TestPermutationKeepsItsLevel(t *testing.T) {
	if racing {
		t.Skip("arithmetic that shares nothing: it is done without the race detector")
	}
	r := rand.New(rand.NewPCG(20261125, 2))
	levels := []float64{0.01, 0.05, 0.10}
	for range 200 {
		for i, share := range labellings(t, r, everyThirdDay(r, 16, 0.3+0.6*r.Float64()), levels) {
			require.LessOrEqual(t, share, levels[i])
		}
	}
	mean := 0.0
	for range 200 {
		mean += labellings(t, r, everyThirdDay(r, 16, 0.5), levels)[1] / 200
	}
	t.Logf("mean share at 0.05: %.4f", mean)
	assert.GreaterOrEqual(t, mean, 0.035)
	assert.LessOrEqual(t, mean, 0.050)
}

// landmarkRun is one data set without any true effect: 60 lines with Weibull
// losses (shape 0.6, scale 60 days) found every 3 days, of which 60 % are
// treated on a day from 1 to 21 if still alive. It gives the members of the
// comparison at landmark 7, and those of ever against never treated.
func landmarkRun(r *rand.Rand) (landmark, ever []Member) {
	for range 60 {
		loss := 60 * math.Pow(r.ExpFloat64(), 1/0.6)
		m := Member{Subject: Subject{84, false}}
		if found := 3 * math.Ceil(loss/3); found <= 84 {
			m.Subject = Subject{found, true}
		}
		treated := float64(1 + r.IntN(21))
		if r.Float64() >= 0.6 || treated >= loss {
			treated = math.Inf(1)
		}
		early, late := m, m
		if treated <= 7 {
			early.Group = 1
		}
		if !math.IsInf(treated, 1) {
			late.Group = 1
		}
		ever = append(ever, late)
		if !m.Lost || m.Time > 7 {
			landmark = append(landmark, early)
		}
	}
	return landmark, ever
}

func landmarkSimulation(runs int, p func([]Member) float64) (landmark, ever float64) {
	r := rand.New(rand.NewPCG(20261125, 3))
	for range runs {
		a, b := landmarkRun(r)
		if p(a) < 0.05 {
			landmark += 1 / float64(runs)
		}
		if p(b) < 0.05 {
			ever += 1 / float64(runs)
		}
	}
	return landmark, ever
}

func asymptotic(members []Member) float64 {
	if r := CompareLosses(members); r.Exists {
		return r.P
	}
	return 1
}

// TestLandmark: comparing from a landmark keeps the level; comparing those
// ever treated with those never treated is wrong most of the time, for a line
// has to live to be treated.
func TestLandmark(t *testing.T) {
	landmark, ever := landmarkSimulation(2000, asymptotic)
	t.Logf("landmark 7 rejects %.4f, ever against never %.4f", landmark, ever)
	assert.LessOrEqual(t, landmark, 0.065)
	assert.GreaterOrEqual(t, landmark, 0.03, "a test that never rejects shows nothing")
	assert.GreaterOrEqual(t, ever, 0.50)
}

// BenchmarkLandmark runs it with the permutation test that pages use.
func BenchmarkLandmark(b *testing.B) {
	for b.Loop() {
		landmark, ever := landmarkSimulation(2000, func(m []Member) float64 { return PermutationLogRank(m).P })
		b.ReportMetric(landmark, "landmark")
		b.ReportMetric(ever, "ever")
	}
}

// boxes simulates parcels of 14 whose chances to be alive on day 84 differ
// between parcels as a within-parcel correlation says (beta with mean 0.6).
func boxes(r *rand.Rand, parcels int, correlation float64) (members []Member, parcel []int) {
	size := (1 - correlation) / correlation
	for p := range parcels {
		x, y := gamma(r, 0.6*size), gamma(r, 0.4*size)
		alive := min(0.999, max(0.001, x/(x+y)))
		for _, s := range everyThirdDay(r, 14, alive) {
			members = append(members, Member{s, p * 2 / parcels, 0})
			parcel = append(parcel, p)
		}
	}
	return members, parcel
}

// gamma draws a gamma number of unit scale (Marsaglia and Tsang 2000, ACM Trans
// Math Softw 26:363-372).
func gamma(r *rand.Rand, shape float64) float64 {
	boost := 1.0
	if shape < 1 {
		boost, shape = math.Pow(r.Float64(), 1/shape), shape+1
	}
	d := shape - 1./3
	c := 1 / math.Sqrt(9*d)
	for {
		x := r.NormFloat64()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v *= v * v
		if math.Log(1-r.Float64()) < x*x/2+d-d*v+d*math.Log(v) {
			return boost * d * v
		}
	}
}

// TestParcelsAreNotPlants: with one parcel a group no relabelling of parcels
// can tell anything (its smallest p is 1), while taking box-mates for
// independent gives false alarms: about a fifth of the time at a correlation
// of 0.1, a third at 0.2. Relabelling four parcels against four keeps its level.
func TestParcelsAreNotPlants(t *testing.T) {
	r := rand.New(rand.NewPCG(20261125, 4))
	const runs = 1000
	for _, c := range []struct{ correlation, least float64 }{{0.1, 0.15}, {0.2, 0.25}} {
		alarms := 0.0
		for range runs {
			members, parcel := boxes(r, 2, c.correlation)
			require.Equal(t, 1.0, Relabel(WholeParcels(members, parcel)).SmallestP)
			if asymptotic(members) < 0.05 {
				alarms += 1. / runs
			}
		}
		t.Logf("correlation %v: false alarms %.3f", c.correlation, alarms)
		assert.GreaterOrEqual(t, alarms, c.least)
	}
	alarms := 0.0
	for range runs {
		members, parcel := boxes(r, 8, 0.2)
		if Relabel(WholeParcels(members, parcel)).P <= 0.05 {
			alarms += 1. / runs
		}
	}
	t.Logf("four parcels against four: %.3f", alarms)
	assert.LessOrEqual(t, alarms, 0.065)
}
