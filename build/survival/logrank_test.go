package survival

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// membersOf reads a data set as members; strata may be empty.
func membersOf(t testing.TB, rows []row, group string, strata *string) (members []Member, groups []string) {
	t.Helper()
	groups, number := levels(rows, group)
	stratum := map[string]int{}
	if strata != nil {
		_, stratum = levels(rows, *strata)
	}
	for i, s := range subjectsOf(t, rows) {
		m := Member{Subject: s, Group: number[rows[i][group]]}
		if strata != nil {
			m.Stratum = stratum[rows[i][*strata]]
		}
		members = append(members, m)
	}
	return members, groups
}

type logRankExpected struct {
	Groups             []string
	N                  []int
	Observed, Expected []float64
	Variance           [][]float64
	Chisq, P           float64
	DF                 int
	NStrata            int `json:"n_strata"`
}

func checkLogRank(t *testing.T, r record) {
	p, want := decode[common](t, r.Params), decode[logRankExpected](t, r.Expected)
	members, groups := membersOf(t, dataset(t, r.Dataset, p.Filter), p.Group, p.Strata)
	require.Equal(t, want.Groups, groups)
	got := CompareLossesWeighted(members, float64(p.Rho))
	assert.Equal(t, want.N, got.N)
	nearAll(t, want.Observed, got.Observed, 1e-9, "observed")
	nearAll(t, want.Expected, got.Expected, 1e-9, "expected")
	require.Len(t, got.Variance, len(want.Variance))
	for i := range want.Variance {
		nearAll(t, want.Variance[i], got.Variance[i], 1e-9, "variance")
	}
	require.True(t, got.Exists)
	near(t, want.Chisq, got.ChiSquare, 1e-9, "chi square")
	assert.Equal(t, want.DF, got.DegreesOfFreedom)
	near(t, want.P, got.P, 1e-9, "p")
	if want.NStrata > 0 {
		assert.Equal(t, want.NStrata, got.Strata)
	}
	if p.Rho == 0 {
		assert.Equal(t, got, CompareLosses(members))
		assert.Equal(t, got, Compare(members).LogRank)
	}
}

func TestLogRankReference(t *testing.T) { eachRecord(t, "logrank", 16, checkLogRank) }
func TestLogRankStratifiedReference(t *testing.T) {
	eachRecord(t, "logrank_stratified", 4, checkLogRank)
}

func TestLogRankTrendReference(t *testing.T) {
	eachRecord(t, "logrank_trend", 3, func(t *testing.T, r record) {
		p := decode[common](t, r.Params)
		want := decode[struct {
			Groups                []string
			U, Variance, Z, Chisq float64
			P                     float64
		}](t, r.Expected)
		members, groups := membersOf(t, dataset(t, r.Dataset, p.Filter), p.Group, p.Strata)
		require.Equal(t, want.Groups, groups)
		got := CompareLosses(members).Trend(p.Scores)
		require.True(t, got.Exists)
		near(t, want.U, got.U, 1e-9, "U")
		near(t, want.Variance, got.Variance, 1e-9, "variance")
		near(t, want.Z, got.Z, 1e-9, "z")
		near(t, want.Chisq, got.ChiSquare, 1e-9, "chi square")
		near(t, want.P, got.P, 1e-9, "p")
	})
}

// TestLogRankByHand: two groups of two, lost on days 1, 2 (A) and 3, 4 (B).
// Day 1: 4 at risk, 2 of A; day 2: 3, 1; days 3 and 4: A is gone. So
// E_A = 1/2 + 1/3 and V = 1/4 + 2/9.
func TestLogRankByHand(t *testing.T) {
	members := []Member{{Subject{1, true}, 0, 0}, {Subject{2, true}, 0, 0}, {Subject{3, true}, 1, 0}, {Subject{4, true}, 1, 0}}
	r := CompareLosses(members)
	assert.InDelta(t, 5./6, r.Expected[0], 1e-15)
	assert.InDelta(t, 1./4+2./9, r.Variance[0][0], 1e-15)
	assert.InDelta(t, math.Pow(2-5./6, 2)/(1./4+2./9), r.ChiSquare, 1e-12)
	assert.Equal(t, 1, r.DegreesOfFreedom)
}

func TestLogRankWithNothingToCompare(t *testing.T) {
	cases := map[string][]Member{
		"nobody":         nil,
		"one group":      {{Subject{1, true}, 3, 0}, {Subject{2, true}, 3, 0}},
		"no losses":      {{Subject{1, false}, 0, 0}, {Subject{2, false}, 1, 0}},
		"all on day 0":   {{Subject{0, true}, 0, 0}, {Subject{0, true}, 1, 0}},
		"strata apart":   {{Subject{1, true}, 0, 0}, {Subject{2, true}, 0, 0}, {Subject{1, true}, 1, 1}, {Subject{2, true}, 1, 1}},
		"one left early": {{Subject{1, false}, 0, 0}, {Subject{2, true}, 1, 0}, {Subject{3, true}, 1, 0}},
	}
	for name, members := range cases {
		r := CompareLosses(members)
		assert.False(t, r.Exists, name)
		assert.Equal(t, 0.0, r.P, name)
		assert.False(t, r.Trend(make([]float64, len(r.Groups))).Exists, name)
		Compare(members)
	}
	assert.Equal(t, 0, CompareLosses(cases["strata apart"]).Contributing)
	assert.Equal(t, 2, CompareLosses(cases["no losses"]).Contributing)
	assert.Panics(t, func() { CompareLosses([]Member{{Subject{math.NaN(), true}, 0, 0}}) })
	assert.Panics(t, func() { CompareLosses(cases["no losses"]).Trend([]float64{1}) })
}

// TestCountingAndSortingAgree runs the counting pass against the sorting one,
// which big group numbers force, and curves against ProductLimit.
func TestCountingAndSortingAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		var low, high []Member
		by := map[int][]Subject{}
		strata := 1 + r.IntN(2)*2
		for range 2 + r.IntN(80) {
			m := Member{Subject{float64(r.IntN(30)), r.IntN(3) > 0}, r.IntN(4), r.IntN(strata)}
			low = append(low, m)
			by[m.Group] = append(by[m.Group], m.Subject)
			m.Group += 1000
			high = append(high, m)
		}
		a, b := Compare(low), Compare(high)
		for i, g := range a.LogRank.Groups {
			assert.Equal(t, g+1000, b.LogRank.Groups[i])
			assert.Equal(t, ProductLimit(by[g]), a.Curves[i])
			assert.Equal(t, a.Curves[i], b.Curves[i])
		}
		a.LogRank.Groups, b.LogRank.Groups = nil, nil
		assert.Equal(t, a.LogRank, b.LogRank)
	}
}

// BenchmarkCompareMillion is one million subjects in two arms: curves with
// limits and the log-rank test. R's survfit and survdiff on the same kind of
// data took 2.4 s (whole days) and 4.2 s (continuous) together.
func BenchmarkCompareMillion(b *testing.B) {
	for _, whole := range []bool{true, false} {
		members := millionMembers(1_000_000, whole)
		b.Run(fmt.Sprintf("whole=%v", whole), func(b *testing.B) {
			for b.Loop() {
				Compare(members)
			}
		})
	}
}
