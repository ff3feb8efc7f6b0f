package survival

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// obviousTally is the slow way: sort the times, count what has each.
func obviousTally(subjects []Subject) []dayCount {
	var times []float64
	for _, s := range subjects {
		times = append(times, s.Time)
	}
	slices.Sort(times)
	var days []dayCount
	for _, time := range slices.Compact(times) {
		d := dayCount{time: time}
		for _, s := range subjects {
			if s.Time == time && s.Lost {
				d.lost++
			} else if s.Time == time {
				d.left++
			}
		}
		days = append(days, d)
	}
	return days
}

func TestTallyAgainstTheObvious(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		subjects := make([]Subject, 1+r.IntN(60))
		scale := []float64{1, 1, 0.1, 1e-3, 1e7}[r.IntN(5)]
		for i := range subjects {
			subjects[i] = Subject{Time: float64(r.IntN(40)) * scale, Lost: r.IntN(2) == 0}
		}
		require.Equal(t, obviousTally(subjects), tally(subjects))
	}
	assert.Empty(t, tally(nil))
}

// million makes follow-up as in R's timing script: losses with means of 60 and
// 45 days in two arms, leavings spread over 120 days.
func million(n int, whole bool) [2][]Subject {
	r := rand.New(rand.NewPCG(20261125, 0))
	var arms [2][]Subject
	for i := range n {
		arm := i % 2
		loss, leave := r.ExpFloat64()*[2]float64{45, 60}[arm], r.Float64()*120
		if whole {
			loss, leave = float64(int(loss)+1), float64(int(leave)+1)
		}
		arms[arm] = append(arms[arm], Subject{min(loss, leave), loss <= leave})
	}
	return arms
}

func BenchmarkProductLimitMillion(b *testing.B) {
	for name, whole := range map[string]bool{"whole": true, "continuous": false} {
		arms := million(1_000_000, whole)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				ProductLimit(arms[0])
				ProductLimit(arms[1])
			}
		})
	}
}
