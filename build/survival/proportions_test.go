package survival

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTrendInProportionsReference(t *testing.T) {
	exact := 0
	eachRecord(t, "trend_proportions", 4, func(t *testing.T, r record) {
		p := decode[struct {
			X, N  []int
			Score []float64
		}](t, r.Params)
		want := decode[struct {
			Chisq, P, Z float64
			Exact       *struct {
				Two     float64 `json:"p_two_sided"`
				Greater float64 `json:"p_greater"`
				Less    float64 `json:"p_less"`
			}
		}](t, r.Expected)
		got := TrendInProportions(p.X, p.N, p.Score)
		require.True(t, got.Exists)
		near(t, want.Chisq, got.ChiSquare, 1e-9, "chi square")
		near(t, want.P, got.P, 1e-9, "p")
		near(t, want.Z, got.Z, 1e-9, "z")
		require.True(t, got.HasExact)
		if want.Exact != nil {
			exact++
			near(t, want.Exact.Two, got.PExact, 1e-8, "exact p")
			near(t, want.Exact.Greater, got.PGreater, 1e-8, "exact p greater")
			near(t, want.Exact.Less, got.PLess, 1e-8, "exact p less")
		}
	})
	assert.Equal(t, 3, exact)
}

func TestMantelHaenszelReference(t *testing.T) {
	eachRecord(t, "mantel_haenszel", 2, func(t *testing.T, r record) {
		p := decode[struct{ Tables [][4]int }](t, r.Params)
		want := decode[struct {
			Chisq, P float64
			ChisqCC  float64  `json:"chisq_cc"`
			PCC      float64  `json:"p_cc"`
			Ratio    *float64 `json:"common_or"`
			Lower    *float64 `json:"or_lower"`
			Upper    *float64 `json:"or_upper"`
			PExact   float64  `json:"p_exact"`
		}](t, r.Expected)
		got := MantelHaenszel(p.Tables)
		require.True(t, got.Exists)
		near(t, want.Chisq, got.ChiSquare, 1e-9, "chi square")
		near(t, want.P, got.P, 1e-9, "p")
		near(t, want.ChisqCC, got.ChiSquareCorrected, 1e-9, "corrected chi square")
		near(t, want.PCC, got.PCorrected, 1e-9, "corrected p")
		nearOrAbsent(t, want.Ratio, got.OddsRatio, got.HasOddsRatio, 1e-9, "odds ratio")
		nearOrAbsent(t, want.Lower, got.Lower, got.HasOddsRatio, 1e-9, "lower")
		nearOrAbsent(t, want.Upper, got.Upper, got.HasOddsRatio, 1e-9, "upper")
		near(t, want.PExact, got.PExact, 1e-8, "exact p")
	})
}

// TestOneTable: of one table Mantel and Haenszel's exact p is Fisher's.
func TestOneTable(t *testing.T) {
	near(t, Fisher(3, 1, 1, 3).P, MantelHaenszel([][4]int{{3, 1, 1, 3}}).PExact, 1e-12, "p")
}

func TestProportionsDegenerate(t *testing.T) {
	for _, got := range []any{
		TrendInProportions(nil, nil, nil),
		TrendInProportions([]int{0, 0}, []int{0, 0}, []float64{1, 2}),
		TrendInProportions([]int{3, 4}, []int{3, 4}, []float64{1, 2}),
		TrendInProportions([]int{1, 2}, []int{3, 4}, []float64{1, 1}),
		MantelHaenszel(nil),
		MantelHaenszel([][4]int{{1, 0, 0, 0}, {0, 0, 0, 0}, {2, 3, 0, 0}}),
	} {
		text := fmt.Sprintf("%+v", got)
		assert.NotContains(t, text, "NaN")
		assert.NotContains(t, text, "Inf")
		assert.Contains(t, text, "Exists:false")
	}
	assert.Panics(t, func() { TrendInProportions([]int{5}, []int{3}, []float64{1}) })
	assert.Panics(t, func() { MantelHaenszel([][4]int{{-1, 0, 0, 0}}) })
}
