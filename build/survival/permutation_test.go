package survival

import (
	"fmt"
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type permutationExpected struct {
	Groups   []string
	N        []int
	U        float64
	Total    *float64
	TwoSided *float64 `json:"count_two_sided"`
	Greater  *float64 `json:"count_greater"`
	Less     *float64 `json:"count_less"`
	PTwo     float64  `json:"p_two_sided"`
	PGreater float64  `json:"p_greater"`
	PLess    float64  `json:"p_less"`
	Chisq    *float64
	CountChi *float64 `json:"count_chisq"`
	PChi     *float64 `json:"p_chisq"`
}

func checkPermutation(t *testing.T, r record) {
	p, want := decode[common](t, r.Params), decode[permutationExpected](t, r.Expected)
	members, groups := membersOf(t, dataset(t, r.Dataset, p.Filter), p.Group, p.Strata)
	require.Equal(t, want.Groups, groups)
	got := PermutationLogRank(members)
	require.True(t, got.Exists)
	assert.Equal(t, Counted, got.Method)
	if want.N != nil {
		assert.Equal(t, want.N, got.N)
	}
	near(t, want.U, got.Statistic, 1e-9, "U")
	for what, pair := range map[string][2]any{
		"relabellings": {want.Total, got.Relabellings}, "two-sided": {want.TwoSided, got.AtLeast},
		"greater": {want.Greater, got.Greater}, "less": {want.Less, got.Less},
	} {
		if count := pair[0].(*float64); count != nil {
			assert.Equal(t, *count, pair[1], "count of %s", what)
		}
	}
	near(t, want.PTwo, got.P, 1e-8, "p")
	near(t, want.PGreater, got.PGreater, 1e-8, "p greater")
	near(t, want.PLess, got.PLess, 1e-8, "p less")
	assert.LessOrEqual(t, got.SmallestP, got.P*(1+1e-12))

	// The other ordering of relabellings, by U²/V: not the one pages print,
	// but the slow walk reproduces it, which shows that the walk is right.
	if want.PChi != nil {
		walk := walkAll(members)
		near(t, *want.Chisq, walk.chi, 1e-9, "chi square")
		assert.Equal(t, *want.CountChi, walk.atLeastChi)
		near(t, *want.PChi, walk.atLeastChi/walk.total, 1e-8, "p by chi square")
		assert.Equal(t, walk.total, got.Relabellings)
		assert.Equal(t, walk.atLeast, got.AtLeast)
		near(t, walk.smallest/walk.total, got.SmallestP, 1e-9, "smallest p")
	}
}

func TestPermutationReference(t *testing.T) {
	eachRecord(t, "logrank_permutation", 12, checkPermutation)
}
func TestPermutationStratifiedReference(t *testing.T) {
	eachRecord(t, "logrank_permutation_stratified", 3, checkPermutation)
}

// walk is the slow, obvious way for two groups in one stratum: visit every
// choice of the first group's members (as bits) and count O − E afresh.
type walk struct{ total, atLeast, atLeastChi, smallest, chi float64 }

func walkAll(members []Member) walk {
	var lost, seen uint64
	n1 := 0
	var times []float64
	for i, m := range members {
		if m.Lost {
			lost |= 1 << i
			times = append(times, m.Time)
		}
		if m.Group == 0 {
			seen |= 1 << i
			n1++
		}
	}
	slices.Sort(times)
	times = slices.Compact(times)
	risk, fall := make([]uint64, len(times)), make([]uint64, len(times))
	for i, m := range members {
		for j, t := range times {
			if m.Time >= t {
				risk[j] |= 1 << i
			}
			if m.Time == t && m.Lost {
				fall[j] |= 1 << i
			}
		}
	}
	statistic := func(choice uint64) (u, chi float64) {
		v := 0.0
		for j := range times {
			n, d := float64(bits.OnesCount64(risk[j])), float64(bits.OnesCount64(fall[j]))
			q := float64(bits.OnesCount64(risk[j]&choice)) / n
			u += float64(bits.OnesCount64(fall[j]&choice)) - d*q
			if n > 1 {
				v += d * q * (1 - q) * (n - d) / (n - 1)
			}
		}
		if v > 1e-12 {
			chi = u * u / v
		}
		return u, chi
	}
	var w walk
	u0, chi0 := statistic(seen)
	w.chi = chi0
	most := 0.0
	for choice := uint64(1)<<n1 - 1; choice < 1<<len(members); {
		u, chi := statistic(choice)
		w.total++
		if math.Abs(u) >= math.Abs(u0)-1e-9 {
			w.atLeast++
		}
		if chi >= chi0-1e-7 {
			w.atLeastChi++
		}
		if math.Abs(u) > most+1e-9 {
			most, w.smallest = math.Abs(u), 0
		}
		if math.Abs(u) >= most-1e-9 {
			w.smallest++
		}
		// The next number with as many bits (Gosper's trick).
		low := choice & -choice
		up := choice + low
		choice = up | ((choice^up)/low)>>2
	}
	return w
}

// deals calls f with every dealing of the labels within strata, slowly.
func deals(units []Unit, f func(labels []int)) {
	labels := make([]int, len(units))
	left := map[[2]int]int{}
	var groups []int
	for _, u := range units {
		left[[2]int{u.Stratum, u.Group}]++
		groups = append(groups, u.Group)
	}
	slices.Sort(groups)
	groups = slices.Compact(groups)
	var give func(i int)
	give = func(i int) {
		if i == len(units) {
			f(labels)
			return
		}
		for _, g := range groups {
			key := [2]int{units[i].Stratum, g}
			if left[key] > 0 {
				left[key]--
				labels[i] = g
				give(i + 1)
				left[key]++
			}
		}
	}
	give(0)
}

// TestRelabelAgainstEveryDeal runs small random problems, stratified, two to
// four groups, ordered or not, through the count and through the obvious walk.
func TestRelabelAgainstEveryDeal(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 150 {
		k, strata := 2+r.IntN(3), 1+r.IntN(2)
		var members []Member
		for g := range k {
			members = append(members, Member{Subject{float64(1 + r.IntN(6)), r.IntN(3) > 0}, g, 0})
		}
		for len(members) < 9 {
			members = append(members, Member{Subject{float64(1 + r.IntN(6)), r.IntN(3) > 0}, r.IntN(k), r.IntN(strata)})
		}
		units := Units(members)
		weights := []float64{0, 1, 2, 3}[:k]
		linear := func(labels []int) float64 {
			u := 0.0
			for i, g := range labels {
				u += weights[g] * units[i].Score
			}
			return u
		}
		d := dealOf(units)
		inverse, _ := pseudoInverse(d.covariance())
		omnibus := func(labels []int) float64 {
			sums := make([]float64, k)
			for i, g := range labels {
				sums[g] += units[i].Score
			}
			return formOf(sums, inverse)
		}
		check := func(got Permutation, statistic func([]int) float64) {
			var seen []int
			for _, u := range units {
				seen = append(seen, u.Group)
			}
			u0 := statistic(seen)
			total, atLeast, greater, most, smallest := 0.0, 0.0, 0.0, 0.0, 0.0
			deals(units, func(labels []int) {
				u := statistic(labels)
				total++
				if math.Abs(u) >= math.Abs(u0)-1e-8 {
					atLeast++
				}
				if u >= u0-1e-8 {
					greater++
				}
				if math.Abs(u) > most+1e-8 {
					most, smallest = math.Abs(u), 0
				}
				if math.Abs(u) >= most-1e-8 {
					smallest++
				}
			})
			require.Equal(t, Counted, got.Method)
			require.InDelta(t, u0, got.Statistic, 1e-9)
			require.Equal(t, total, got.Relabellings)
			require.Equal(t, atLeast, got.AtLeast, "%+v", members)
			require.Equal(t, greater, got.Greater)
			require.InDelta(t, smallest/total, got.SmallestP, 1e-12)
		}
		check(RelabelOrdered(units, weights), linear)
		if k > 2 {
			check(Relabel(units), omnibus)
		}
	}
}

// TestPermutationCovariance: C is the covariance of U over all relabellings.
func TestPermutationCovariance(t *testing.T) {
	units := Units([]Member{
		{Subject{1, true}, 0, 0}, {Subject{2, true}, 1, 0}, {Subject{2, false}, 2, 0}, {Subject{5, true}, 2, 0},
		{Subject{3, true}, 0, 1}, {Subject{4, true}, 1, 1}, {Subject{9, false}, 1, 1},
	})
	sums, n := square(3), 0.0
	deals(units, func(labels []int) {
		var u [3]float64
		for i, g := range labels {
			u[g] += units[i].Score
		}
		for g := range u {
			for h := range u {
				sums[g][h] += u[g] * u[h]
			}
		}
		n++
	})
	c := dealOf(units).covariance()
	for g := range 3 {
		for h := range 3 {
			assert.InDelta(t, sums[g][h]/n, c[g][h], 1e-12)
		}
	}
}

// TestWholeParcels: relabelling whole parcels, 3 against 3 can't fall below
// 2/20 and 4 against 4 reaches 2/70, whatever happened inside.
func TestWholeParcels(t *testing.T) {
	for n, want := range map[int]float64{1: 1, 2: 2. / 6, 3: 2. / 20, 4: 2. / 70} {
		var members []Member
		var parcel []int
		for p := range 2 * n {
			for i := range 5 {
				// The first n parcels lose everybody early, each on days of its own.
				day := float64(1 + p*7 + i)
				members = append(members, Member{Subject{day, p < n}, p / n, 99})
				parcel = append(parcel, p)
			}
		}
		got := Relabel(WholeParcels(members, parcel))
		assert.InDelta(t, want, got.SmallestP, 1e-12, "%d against %d", n, n)
		assert.InDelta(t, want, got.P, 1e-12, "this is the most uneven relabelling")
		if n > 1 {
			assert.Greater(t, got.SmallestP, PermutationLogRank(members).SmallestP)
		}
		// Members in another order: the same, to the last bit.
		slices.Reverse(members)
		slices.Reverse(parcel)
		assert.Equal(t, got, Relabel(WholeParcels(members, parcel)))
	}
	two := []Member{{Subject{1, true}, 0, 0}, {Subject{1, true}, 1, 0}}
	assert.Panics(t, func() { WholeParcels(two, []int{7, 7}) }, "one parcel in two groups")
	assert.Panics(t, func() { WholeParcels(two, []int{7}) })
}

func TestPermutationWithNothingToTell(t *testing.T) {
	assert.False(t, PermutationLogRank(nil).Exists)
	one := PermutationLogRank([]Member{{Subject{1, true}, 4, 0}})
	assert.False(t, one.Exists)
	none := PermutationLogRank([]Member{{Subject{1, false}, 0, 0}, {Subject{2, false}, 1, 0}, {Subject{2, false}, 1, 0}})
	assert.True(t, none.Exists)
	assert.Equal(t, []float64{1, 1, 0}, []float64{none.P, none.SmallestP, none.Statistic})
	tied := PermutationLogRank([]Member{{Subject{1, true}, 0, 0}, {Subject{1, true}, 1, 0}, {Subject{1, true}, 2, 0}})
	assert.Equal(t, []float64{1, 1}, []float64{tied.P, tied.SmallestP})
	apart := PermutationLogRank([]Member{{Subject{1, true}, 0, 0}, {Subject{2, true}, 1, 1}})
	assert.Equal(t, 1.0, apart.P)
	assert.Equal(t, 0, apart.Contributing)
	assert.Panics(t, func() { RelabelOrdered(Units([]Member{{Subject{1, true}, 0, 0}}), []float64{1, 1}) })
}

// crowd makes n members a group with distinct times, half of them lost.
func crowd(seed uint64, sizes ...int) []Member {
	r := rand.New(rand.NewPCG(seed, 0))
	var members []Member
	for g, n := range sizes {
		for range n {
			members = append(members, Member{Subject{r.ExpFloat64() * float64(40+10*g), r.IntN(10) < 7}, g, 0})
		}
	}
	return members
}

// TestDrawsAgreeWithTheCount: the random p lies within five of its own errors
// of the exact one, and doesn't depend on the order of the members.
func TestDrawsAgreeWithTheCount(t *testing.T) {
	for _, sizes := range [][]int{{9, 9}, {4, 5, 4}, {12, 3}} {
		units := Units(crowd(9, sizes...))
		exact := Relabel(units)
		require.Equal(t, Counted, exact.Method)
		d := dealOf(units)
		inverse, _ := pseudoInverse(d.covariance())
		drawn := exact
		d.draw(&drawn, func(sums []float64) float64 {
			if len(sizes) == 2 {
				return sums[0]
			}
			return formOf(sums, inverse)
		})
		assert.Equal(t, Drawn, drawn.Method)
		assert.InDelta(t, exact.P, drawn.P, 5*drawn.MonteCarloError)
		assert.Greater(t, drawn.MonteCarloError, 0.0)
	}
	many := crowd(10, 60, 60)
	got := PermutationLogRank(many)
	require.Equal(t, Drawn, got.Method)
	assert.Equal(t, draws, got.Draws)
	asymptotic := CompareLosses(many)
	assert.InDelta(t, asymptotic.P, got.P, 0.02)
	slices.Reverse(many)
	assert.Equal(t, got, PermutationLogRank(many))
	// More relabellings than a float can hold: 1.2e540.
	huge := dealOf(Units(crowd(11, 900, 900)))
	assert.Equal(t, 0.0, huge.result().Relabellings)
	smallest := huge.smallest([]float64{1, 0})
	assert.False(t, math.IsNaN(smallest))
	assert.Less(t, smallest, 1e-100)
}

// BenchmarkCount: all relabellings of n against n, distinct times. 12 against
// 12 are 2.7 million.
func BenchmarkCount(b *testing.B) {
	for _, n := range []int{8, 12, 16, 20} {
		units := Units(crowd(12, n, n))
		b.Run(fmt.Sprintf("%dv%d", n, n), func(b *testing.B) {
			for b.Loop() {
				if p := Relabel(units); p.Method != Counted {
					b.Fatal("drawn")
				}
			}
		})
	}
}

// BenchmarkWalk12v12 visits the same 2.7 million one by one, as bits.
func BenchmarkWalk12v12(b *testing.B) {
	members := crowd(12, 12, 12)
	for b.Loop() {
		walkAll(members)
	}
}

func BenchmarkDraws60v60(b *testing.B) {
	units := Units(crowd(13, 60, 60))
	for b.Loop() {
		Relabel(units)
	}
}

// BenchmarkQuadratic: three and four groups, one and three strata, untied and in
// whole weeks. The larger are drawn, and how soon that is known counts.
func BenchmarkQuadratic(b *testing.B) {
	for _, c := range []struct {
		sizes  []int
		strata int
		whole  bool
	}{{[]int{5, 5, 5}, 1, false}, {[]int{18, 19, 9}, 3, false}, {[]int{18, 19, 9}, 1, false}, {[]int{18, 19, 9}, 1, true}, {[]int{12, 12, 12, 12}, 3, true}, {[]int{30, 30, 30, 30, 30, 30}, 1, true}} {
		members := crowd(14, c.sizes...)
		for i := range members {
			members[i].Stratum = i % c.strata
			if c.whole {
				members[i].Time = 7 * math.Ceil(members[i].Time/7)
			}
		}
		units := Units(members)
		b.Run(fmt.Sprintf("%v in %d, weeks %v", c.sizes, c.strata, c.whole), func(b *testing.B) {
			for b.Loop() {
				Relabel(units)
			}
			b.ReportMetric(float64(Relabel(units).Method), "drawn")
		})
	}
}

// TestTheSameLastBit: a count beyond 2⁵³ depends on the order in which it is added
// up, and is added up in one order.
func TestTheSameLastBit(t *testing.T) {
	members := crowd(15, 40, 40)
	for i := range members {
		members[i].Time = 14 * math.Ceil(members[i].Time/14)
	}
	first := PermutationLogRank(members)
	require.Equal(t, Counted, first.Method)
	require.Greater(t, first.Relabellings, math.Pow(2, 60))
	again := 5
	if racing {
		again = 1
	}
	for range again {
		require.Equal(t, first, PermutationLogRank(members))
	}
	three := crowd(16, 6, 5, 4)
	for i := range three {
		three[i].Time = 14 * math.Ceil(three[i].Time/14)
	}
	first = PermutationLogRank(three)
	require.Equal(t, Counted, first.Method)
	require.Equal(t, first, PermutationLogRank(three))
}
