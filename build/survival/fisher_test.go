package survival

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFisherReference(t *testing.T) {
	eachRecord(t, "fisher", 10, func(t *testing.T, r record) {
		p := decode[struct{ A, B, C, D int }](t, r.Params)
		want := decode[struct {
			P        float64  `json:"p_two_sided"`
			PLess    float64  `json:"p_less"`
			PGreater float64  `json:"p_greater"`
			Ratio    *float64 `json:"odds_ratio_cmle"`
			Lower    *float64 `json:"or_lower"`
			Upper    *float64 `json:"or_upper"`
			Sample   *float64 `json:"sample_odds_ratio"`
		}](t, r.Expected)
		got := Fisher(p.A, p.B, p.C, p.D)
		near(t, want.P, got.P, 1e-8, "p")
		near(t, want.PLess, got.PLess, 1e-8, "p less")
		near(t, want.PGreater, got.PGreater, 1e-8, "p greater")
		nearOrAbsent(t, want.Ratio, got.OddsRatio, got.HasOddsRatio, 1e-8, "odds ratio")
		nearOrAbsent(t, want.Lower, got.Lower, true, 1e-8, "lower")
		nearOrAbsent(t, want.Upper, got.Upper, got.HasUpper, 1e-8, "upper")
		if p.B*p.C > 0 {
			near(t, *want.Sample, float64(p.A*p.D)/float64(p.B*p.C), 1e-8, "sample odds ratio")
		}
		// The general test says the same of a 2 × 2 table.
		whole, ok := FisherTable([][]int{{p.A, p.B}, {p.C, p.D}})
		require.Equal(t, (p.A+p.C)*(p.B+p.D) > 0, ok, "an empty column leaves nothing to test")
		if ok {
			near(t, want.P, whole, 1e-8, "p by the general test")
		}
	})
}

// TestFisherTablePublished: job satisfaction by income, Agresti 2002,
// Categorical Data Analysis, second edition, p. 57, which R's manual page of
// fisher.test gives with p = 0.7827 (both from memory).
func TestFisherTablePublished(t *testing.T) {
	p, ok := FisherTable([][]int{{1, 3, 10, 6}, {2, 3, 10, 7}, {1, 6, 14, 12}, {0, 1, 9, 11}})
	require.True(t, ok)
	assert.InDelta(t, 0.7827, p, 0.00005)
}

// TestFisherTableAgainstEveryTable fills small tables in every way.
func TestFisherTableAgainstEveryTable(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		rows, columns := 2+r.IntN(2), 2+r.IntN(3)
		table := make([][]int, rows)
		for i := range table {
			table[i] = make([]int, columns)
			for j := range table[i] {
				table[i][j] = r.IntN(4)
			}
		}
		got, ok := FisherTable(table)
		rowSums, columnSums, seen := margins(table)
		if len(rowSums) < 2 || len(columnSums) < 2 {
			require.False(t, ok)
			continue
		}
		require.True(t, ok)
		all, unlikely := 0.0, 0.0
		left := append([]int(nil), rowSums...)
		var fill func(column int, ln float64)
		fill = func(column int, ln float64) {
			if column == len(columnSums) {
				all += math.Exp(ln)
				if ln <= seen+alike {
					unlikely += math.Exp(ln)
				}
				return
			}
			splits(columnSums[column], append([]int(nil), left...), make([]int, len(left)), func(part []int) bool {
				part = append([]int(nil), part...)
				more := ln
				for i, cell := range part {
					left[i] -= cell
					more -= lnFactorial(cell)
				}
				fill(column+1, more)
				for i, cell := range part {
					left[i] += cell
				}
				return true
			})
		}
		fill(0, 0)
		require.InDelta(t, unlikely/all, got, 1e-9, "%v", table)
	}
}

// TestFisherTableLarge: two large rows must not underflow; of a 2 × 2 table the
// plain test knows the answer.
func TestFisherTableLarge(t *testing.T) {
	p, ok := FisherTable([][]int{{600, 400}, {550, 450}})
	require.True(t, ok)
	near(t, Fisher(600, 400, 550, 450).P, p, 1e-8, "p")
	if racing {
		return // it takes seconds to see that the next one is too large
	}
	_, ok = FisherTable([][]int{{90, 80, 70, 60}, {60, 70, 80, 90}, {75, 75, 75, 75}, {50, 60, 90, 100}})
	assert.False(t, ok, "too large a network is refused, not waited for")
}

func TestFisherDegenerate(t *testing.T) {
	for _, table := range [][4]int{{0, 0, 0, 0}, {5, 0, 0, 0}, {0, 3, 0, 4}, {2, 3, 0, 0}} {
		f := Fisher(table[0], table[1], table[2], table[3])
		assert.Equal(t, 1.0, f.P, "%v", table)
		text := fmt.Sprintf("%+v", f)
		assert.NotContains(t, text, "NaN")
		assert.NotContains(t, text, "Inf")
	}
	for _, table := range [][][]int{nil, {{}}, {{1, 2, 3}}, {{0, 0}, {1, 2}}} {
		_, ok := FisherTable(table)
		assert.False(t, ok, "%v", table)
	}
	assert.Panics(t, func() { Fisher(-1, 2, 3, 4) })
	assert.Panics(t, func() { FisherTable([][]int{{1, 2}, {3}}) })
	assert.Panics(t, func() { FisherTable([][]int{{1, -2}, {3, 4}}) })
}

func BenchmarkFisherTable(b *testing.B) {
	for b.Loop() {
		FisherTable([][]int{{1, 3, 10, 6}, {2, 3, 10, 7}, {1, 6, 14, 12}, {0, 1, 9, 11}})
	}
}
