package survival

import (
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// numbersIn walks a result and calls f with every float in it.
func numbersIn(v reflect.Value, path string, f func(path string, x float64)) {
	switch v.Kind() {
	case reflect.Float64:
		f(path, v.Float())
	case reflect.Struct:
		for i := range v.NumField() {
			numbersIn(v.Field(i), path+"."+v.Type().Field(i).Name, f)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			numbersIn(v.Index(i), fmt.Sprintf("%s[%d]", path, i), f)
		}
	}
}

// onlyNumbers fails at anything not finite in a result, and at a p, a share or a
// limit of a share outside 0 to 1.
func onlyNumbers(t testing.TB, name string, result any) {
	t.Helper()
	numbersIn(reflect.ValueOf(result), name, func(path string, x float64) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%s is %v", path, x)
		}
	})
}

func within(t testing.TB, name string, e Estimate) {
	t.Helper()
	require.True(t, e.Share >= 0 && e.Share <= 1, "%s: share %v", name, e.Share)
	require.True(t, e.StdError >= 0, name)
	if e.HasLimits {
		require.True(t, 0 <= e.Lower && e.Lower <= e.Share+1e-9 && e.Share <= e.Upper+1e-9 && e.Upper <= 1, "%s: %+v", name, e)
	}
	require.Equal(t, e.Share > 0 && e.Share < 1, e.HasLimits, "%s: limits where the share isn't 0 or 1: %+v", name, e)
}

func isP(t testing.TB, name string, p float64) {
	t.Helper()
	require.True(t, p > 0 && p <= 1, "%s: p %v", name, p)
}

// everything asks every question that this package answers about some members, and
// holds each answer to what its comment promises; of hazard ratios only where wanted,
// for a profile without an end is long sought.
func everything(t testing.TB, members []Member, hazards bool) {
	subjects := make([]Subject, len(members))
	outcomes := make([]Outcome, len(members))
	spans := make([]Span, len(members))
	parcels := make([]int, len(members))
	groups := map[int]bool{}
	for i, m := range members {
		subjects[i] = m.Subject
		groups[m.Group] = true
		parcels[i] = 10*m.Group + i%3
		outcomes[i].Time = m.Time
		spans[i] = Span{m.Time, math.Inf(1)}
		if m.Lost {
			outcomes[i].Cause = 1 + i%2
			spans[i] = Span{m.Time - float64(i%3), m.Time}
		}
	}

	c := ProductLimit(subjects)
	onlyNumbers(t, "curve", c)
	n := c.N
	for _, s := range c.FromDayZero() {
		within(t, "curve", s.Estimate)
		require.Equal(t, n, s.AtRisk)
		n -= s.Lost + s.Left
	}
	if len(members) > 0 {
		require.Zero(t, n, "lost and left add up to n")
	}
	for _, day := range []float64{0, 0.5, 7, 84, 1e9} {
		within(t, "at", c.At(day))
		onlyNumbers(t, "at", c.At(day))
		require.Equal(t, len(members), c.AtRisk(day)+c.LostBy(day)+c.LeftBy(day)-stepOn(c, day), "those at risk, lost and left")
		fall, ok := c.OneMoreLoss(day)
		require.True(t, fall >= 0 && fall <= 1 && ok == (c.AtRisk(day) > 0))
		m, ok := c.RestrictedMean(day)
		onlyNumbers(t, "mean", m)
		require.True(t, !ok || m.Days >= 0 && m.Days <= day+1e-9*math.Max(1, day) && m.StdError >= 0, "%+v", m)
		tau := CommonHorizon(day, c, Curve{})
		require.True(t, tau <= day && tau >= 0)
		d, _ := RestrictedMeanDifference(c, ProductLimit(subjects[:len(subjects)/2]), day, 0.95)
		onlyNumbers(t, "difference", d)
	}
	for _, p := range []float64{0.1, 0.5, 0.9} {
		q := c.Quantile(p)
		onlyNumbers(t, "quantile", q)
		require.True(t, !q.Reached || q.Day >= 0 && q.Day <= c.LastDay())
		require.True(t, !q.Reached || !q.HasLower || q.Lower <= q.Day)
	}
	for _, kind := range []LimitKind{LogLog, Log, Plain} {
		onlyNumbers(t, "limits", c.WithLimits(kind, 0.8))
	}
	day, thin := c.ThinFrom()
	require.True(t, day >= 0 && (thin || day == 0))

	in := CompetingRisks(outcomes, 2)
	onlyNumbers(t, "incidence", in)
	for _, s := range in.FromDayZero() {
		require.InDelta(t, 1, s.Survival+s.Shares[0].Share+s.Shares[1].Share, 1e-12)
		for _, e := range s.Shares {
			within(t, "incidence", e)
		}
	}
	for cause := 1; cause <= 2; cause++ {
		in.Median(cause)
		require.LessOrEqual(t, in.By(cause, 84), len(members))
	}
	onlyNumbers(t, "incidence at", in.At(3))
	require.LessOrEqual(t, in.AtRisk(3), len(members))

	b := Turnbull(spans)
	onlyNumbers(t, "boxes", b)
	require.True(t, b.Converged, "%v", spans)
	mass := 0.0
	for _, box := range b.Boxes {
		mass += box.Mass
	}
	if len(members) > 0 {
		require.InDelta(t, 1, mass, 1e-9)
	}
	lower, upper := b.At(5)
	require.True(t, 0 <= lower && lower <= upper && upper <= 1)

	r := CompareLosses(members)
	onlyNumbers(t, "log-rank", r)
	onlyNumbers(t, "weighted", CompareLossesWeighted(members, 1))
	onlyNumbers(t, "comparison", Compare(members))
	if r.Exists {
		require.True(t, r.P >= 0 && r.P <= 1 && r.DegreesOfFreedom >= 1, "%+v", r)
	} else {
		require.Zero(t, r.P)
	}
	weights := make([]float64, len(groups))
	for i := range weights {
		weights[i] = float64(i)
	}
	onlyNumbers(t, "trend", r.Trend(weights))

	sum := 0.0
	for _, s := range Scores(members) {
		require.False(t, math.IsNaN(s) || math.IsInf(s, 0))
		sum += s
	}
	require.InDelta(t, 0, sum, 1e-9*float64(1+len(members)))
	units := Units(members)
	permutations := []Permutation{PermutationLogRank(members), RelabelOrdered(units, weights), Relabel(WholeParcels(members, parcels))}
	for _, p := range permutations {
		onlyNumbers(t, "permutation", p)
		require.Equal(t, len(p.Groups) >= 2, p.Exists)
		if p.Exists {
			isP(t, "permutation", p.P)
			if p.HasSmallestP && p.Method == Counted {
				require.True(t, p.SmallestP > 0 && p.SmallestP <= p.P*(1+1e-9), "%+v", p)
			}
		}
	}

	observations, _ := Indicators(members, 0)
	for _, ties := range []Ties{Efron, Breslow, Exact} {
		fit := Cox(observations, ties)
		onlyNumbers(t, "Cox", fit)
		require.Equal(t, fit.Exists, fit.Reason == "", "%+v", fit)
		if ties == Exact || !hazards {
			continue
		}
		fit = Firth(observations, ties)
		onlyNumbers(t, "Firth", fit)
		require.Equal(t, fit.Exists, fit.Reason == "", "%+v", fit)
		for _, c := range fit.Coefficients {
			ratio := c.Ratio()
			require.True(t, ratio >= 0 && !math.IsInf(ratio, 0) && !math.IsNaN(ratio), "%+v", c)
			require.True(t, !c.HasLower || c.Lower <= c.Value+1e-9, "%+v", c)
			require.True(t, !c.HasUpper || c.Upper >= c.Value-1e-9, "%+v", c)
		}
	}

	lost, all := map[int]int{}, map[int]int{}
	for _, m := range members {
		all[m.Group]++
		if m.Lost {
			lost[m.Group]++
		}
	}
	k, sizes, scores := []int{}, []int{}, []float64{}
	table := [][]int{nil, nil}
	var tables [][4]int
	for g := range 5 {
		k, sizes, scores = append(k, lost[g]), append(sizes, all[g]), append(scores, float64(g))
		table[0], table[1] = append(table[0], lost[g]), append(table[1], all[g]-lost[g])
		tables = append(tables, [4]int{lost[g], all[g] - lost[g], lost[0], all[0] - lost[0]})
		for _, i := range []Interval{Wilson(lost[g], all[g], 0.95), WilsonCorrected(lost[g], all[g], 0.95), ClopperPearson(lost[g], all[g], 0.95)} {
			onlyNumbers(t, "interval", i)
			require.True(t, 0 <= i.Lower && i.Lower <= i.Upper && i.Upper <= 1)
		}
		i, ok := Newcombe(lost[g], all[g], lost[0], all[0], 0.95)
		onlyNumbers(t, "Newcombe", i)
		require.Equal(t, all[g] > 0 && all[0] > 0, ok)
		i, _ = NewcombeCorrected(lost[g], all[g], lost[0], all[0], 0.95)
		onlyNumbers(t, "Newcombe", i)
		f := Fisher(lost[g], all[g]-lost[g], lost[0], all[0]-lost[0])
		onlyNumbers(t, "Fisher", f)
		isP(t, "Fisher", f.P)
	}
	onlyNumbers(t, "trend in proportions", TrendInProportions(k, sizes, scores))
	onlyNumbers(t, "Mantel-Haenszel", MantelHaenszel(tables))
	if p, ok := FisherTable(table); ok {
		isP(t, "Fisher's table", p)
	}
	ps := []float64{r.P, 1, 0.5}
	for _, adjust := range []func([]float64) []float64{Holm, Bonferroni, Hochberg, BenjaminiHochberg, BenjaminiYekutieli} {
		for i, p := range adjust(ps) {
			require.True(t, p >= ps[i] && p <= 1)
		}
	}
}

// stepOn counts those lost or leaving on a day itself: they are at risk on it and
// gone after it.
func stepOn(c Curve, day float64) int {
	for _, s := range c.Steps {
		if s.Time == day {
			return s.Lost + s.Left
		}
	}
	return 0
}

func times(n, group int, time float64, lost bool) (m []Member) {
	for range n {
		m = append(m, Member{Subject{time, lost}, group, 0})
	}
	return m
}

// TestNothingIsEverNotANumber takes every kind of odd data through everything.
func TestNothingIsEverNotANumber(t *testing.T) {
	for name, members := range map[string][]Member{
		"nobody":                     nil,
		"one, lost":                  times(1, 0, 5, true),
		"one, left":                  times(1, 0, 5, false),
		"one, lost on day 0":         times(1, 0, 0, true),
		"one, left on day 0":         times(1, 0, 0, false),
		"all tied, lost":             append(times(6, 0, 9, true), times(6, 1, 9, true)...),
		"all tied, left":             append(times(6, 0, 9, false), times(6, 1, 9, false)...),
		"all tied, half lost":        append(times(6, 0, 9, true), times(6, 1, 9, false)...),
		"all lost on day 0":          append(times(6, 0, 0, true), times(6, 1, 0, true)...),
		"one group lost on day 0":    append(times(6, 0, 0, true), times(6, 1, 50, false)...),
		"one group never lost any":   append(append(times(3, 0, 5, true), times(3, 0, 20, true)...), times(6, 1, 84, false)...),
		"one against many":           append(times(1, 0, 5, true), times(20, 1, 9, false)...),
		"two groups never together":  append(times(4, 0, 3, false), times(4, 1, 9, true)...),
		"one group alone":            append(times(4, 0, 3, true), times(4, 0, 9, false)...),
		"three groups, one lost all": append(append(times(4, 0, 3, true), times(4, 1, 9, false)...), times(4, 2, 9, false)...),
		"eighth of a day":            append(times(3, 0, 0.125, true), times(3, 1, 1e-300, true)...),
		"very late":                  append(times(3, 0, 1e15, true), times(3, 1, 1e300, false)...),
		"strata of one": {
			{Subject{1, true}, 0, 0}, {Subject{2, true}, 1, 1}, {Subject{3, false}, 0, 2},
		},
	} {
		t.Run(name, func(t *testing.T) { everything(t, members, true) })
	}
}

// What the odd cases say, by hand.
func TestWhatOddDataSay(t *testing.T) {
	// All lost on day 0: the share is 0 from day 0 on, the median is day 0, and a
	// mean exists at any later day, 0 days.
	c := ProductLimit([]Subject{{0, true}, {0, true}, {0, true}})
	assert.Equal(t, Estimate{}, c.At(0))
	assert.Equal(t, Quantile{Day: 0, Reached: true}, c.Median())
	m, ok := c.RestrictedMean(84)
	assert.True(t, ok)
	assert.Equal(t, Mean{Tau: 84}, m)
	assert.Len(t, c.FromDayZero(), 1)
	// No losses: the share is 1 with error 0 and no limits, the median isn't
	// reached, the mean is the day itself.
	c = ProductLimit([]Subject{{30, false}, {84, false}})
	assert.Equal(t, Estimate{Share: 1, HasStdError: true}, c.At(84))
	assert.Equal(t, Quantile{}, c.Median())
	m, ok = c.RestrictedMean(84)
	assert.True(t, ok)
	assert.Equal(t, Mean{84, 84, 0}, m)
	_, ok = c.RestrictedMean(85)
	assert.False(t, ok, "what came after the last day is not known")
	// One specimen, lost: from 1 to 0 at once.
	c = ProductLimit([]Subject{{5, true}})
	assert.Equal(t, Quantile{Day: 5, Reached: true}, c.Median())
	assert.Equal(t, 1.0, c.At(4.9).Share)
	assert.Equal(t, 0.0, c.At(5).Share)
	// A group that never lost anyone: an exact p and a finite Firth ratio with one
	// open end at most, and no Cox fit.
	members := append(times(5, 0, 10, true), times(5, 1, 84, false)...)
	p := PermutationLogRank(members)
	assert.Equal(t, 252.0, p.Relabellings)
	assert.InDelta(t, 2.0/252, p.P, 1e-15) // the one seen and its mirror
	observations, _ := Indicators(members, 0)
	assert.Equal(t, NoFiniteFit, Cox(observations, Efron).Reason)
	fit := Firth(observations, Efron)
	assert.True(t, fit.Exists)
	assert.Less(t, fit.Coefficients[0].Ratio(), 0.2)
	// One import only: relabelling parcels has one arrangement.
	one := Relabel(WholeParcels(append(times(3, 0, 5, true), times(3, 0, 9, false)...), []int{1, 1, 1, 1, 1, 1}))
	assert.False(t, one.Exists)
	assert.Equal(t, 1.0, one.Relabellings)
	// Nobody.
	assert.False(t, CompareLosses(nil).Exists)
	assert.False(t, PermutationLogRank(nil).Exists)
	assert.Empty(t, CompetingRisks(nil, 2).FromDayZero())
	assert.Equal(t, Boxes{Unique: true, Converged: true}, Turnbull(nil))
}

// FuzzEverything makes up to nine members of bytes: time, whether lost, group,
// stratum.
func FuzzEverything(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{0, 0, 1, 0, 0, 0, 0, 1})
	f.Add([]byte{9, 0, 1, 0, 9, 0, 0, 1, 9, 0, 1, 2, 9, 128, 1, 5})
	f.Add([]byte("what raised survival, and what did not?"))
	f.Fuzz(func(t *testing.T, data []byte) {
		var members []Member
		for ; len(data) >= 4 && len(members) < 9; data = data[4:] {
			time := float64(binary.BigEndian.Uint16(data)&0x7fff) / 16
			if data[0] >= 128 {
				time = math.Floor(time / 16)
			}
			members = append(members, Member{Subject{time, data[2]&1 == 1}, int(data[3]) % 3, int(data[3] >> 7)})
		}
		everything(t, members, len(members) < 3)
	})
}
