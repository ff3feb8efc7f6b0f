package survival

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func spansOf(t testing.TB, rows []row) []Span {
	t.Helper()
	spans := make([]Span, len(rows))
	for i, r := range rows {
		spans[i] = Span{r.number(t, "left"), r.number(t, "right")}
	}
	return spans
}

func TestTurnbullReference(t *testing.T) {
	eachRecord(t, "turnbull", 9, func(t *testing.T, r record) {
		p := decode[common](t, r.Params)
		want := decode[struct {
			N              int
			Left           []float64
			Right          []*float64
			Closed         []bool `json:"left_closed"`
			Mass           []float64
			SurvAfter      []float64  `json:"surv_after"`
			CandidateLeft  []float64  `json:"candidate_left"`
			CandidateRight []*float64 `json:"candidate_right"`
			Loglik         float64
			Unique         bool
			SurvAt         []struct{ Time, Upper, Lower float64 } `json:"surv_at"`
		}](t, r.Expected)
		spans := spansOf(t, dataset(t, r.Dataset, p.Filter))
		got := Turnbull(spans)
		assert.Equal(t, want.N, got.N)
		require.Len(t, got.Candidates, len(want.CandidateLeft))
		for i, b := range got.Candidates {
			assert.Equal(t, want.CandidateLeft[i], b.Left)
			nearOrAbsent(t, want.CandidateRight[i], b.Right, !b.Open, 1e-15, "right end %d", i)
		}
		require.Len(t, got.Boxes, len(want.Left))
		for i, b := range got.Boxes {
			assert.Equal(t, want.Left[i], b.Left)
			nearOrAbsent(t, want.Right[i], b.Right, !b.Open, 1e-15, "right end %d", i)
			assert.Equal(t, want.Closed[i], b.Point)
			assert.InDelta(t, want.Mass[i], b.Mass, 1e-7)
			assert.InDelta(t, want.SurvAfter[i], b.ShareAfter, 1e-7)
		}
		near(t, want.Loglik, got.LogLikelihood, 1e-9, "log-likelihood")
		assert.LessOrEqual(t, got.Excess, 1e-7)
		assert.True(t, got.Converged)
		assert.Equal(t, want.Unique, got.Unique)
		for _, at := range want.SurvAt {
			lower, upper := got.At(at.Time)
			assert.InDelta(t, at.Lower, lower, 1e-7, "day %v", at.Time)
			assert.InDelta(t, at.Upper, upper, 1e-7, "day %v", at.Time)
		}
	})
}

// TestTurnbullAgainstSelfConsistency: the slow way, Turnbull's own step many
// thousand times over, climbs to the same likelihood.
func TestTurnbullAgainstSelfConsistency(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	runs := 60
	if racing {
		runs = 6
	}
	for range runs {
		spans := make([]Span, 1+r.IntN(25))
		for i := range spans {
			left := float64(r.IntN(20))
			spans[i] = Span{left, left + float64(r.IntN(8))}
			if r.IntN(4) == 0 {
				spans[i].Right = math.Inf(1)
			}
		}
		got := Turnbull(spans)
		require.True(t, got.Converged, "excess %v", got.Excess)
		slow := newMixture(spans)
		slow.selfConsistency(20_000)
		require.GreaterOrEqual(t, got.LogLikelihood, slow.logLikelihood(slow.mass)-1e-9)
		require.InDelta(t, slow.logLikelihood(slow.mass), got.LogLikelihood, 1e-3)
		total := 0.0
		for _, b := range got.Boxes {
			total += b.Mass
		}
		require.InDelta(t, 1, total, 1e-12)
	}
}

// TestTurnbullWithKnownDays: if every loss has its day and whoever left was
// seen on that day, Turnbull is the product limit.
func TestTurnbullWithKnownDays(t *testing.T) {
	subjects := subjectsOf(t, dataset(t, "aml", nil))
	var spans []Span
	for _, s := range subjects {
		span := Span{s.Time, s.Time}
		if !s.Lost {
			span.Right = math.Inf(1)
		}
		spans = append(spans, span)
	}
	c, b := ProductLimit(subjects), Turnbull(spans)
	for _, s := range c.Steps {
		if s.Lost > 0 {
			_, upper := b.At(s.Time)
			assert.InDelta(t, s.Share, upper, 1e-9, "day %v", s.Time)
		}
	}
}

func TestTurnbullDegenerate(t *testing.T) {
	none := Turnbull(nil)
	assert.Empty(t, none.Boxes)
	lower, upper := none.At(5)
	assert.Equal(t, []float64{1, 1}, []float64{lower, upper})
	open := Turnbull([]Span{{3, math.Inf(1)}, {9, math.Inf(1)}})
	require.Len(t, open.Boxes, 1)
	assert.Equal(t, Box{Left: 9, Open: true, Mass: 1}, open.Boxes[0])
	lower, upper = open.At(20)
	assert.Equal(t, []float64{0, 1}, []float64{lower, upper})
	first := Turnbull([]Span{{-1, 0}, {-1, 0}})
	require.Len(t, first.Boxes, 1)
	assert.Equal(t, 1.0, first.Boxes[0].Mass)
	for _, bad := range []Span{{2, 1}, {math.NaN(), 1}, {math.Inf(-1), 1}, {1, math.NaN()}, {math.Inf(1), math.Inf(1)}} {
		assert.Panics(t, func() { Turnbull([]Span{bad}) }, "%v", bad)
	}
}

// inspected simulates subjects that are lost at a constant rate and looked at
// every 4 to 24 days until the loss is found or day 100 is past.
func inspected(r *rand.Rand, n int, rate float64) (spans []Span, found []Subject) {
	for range n {
		loss, last, look := r.ExpFloat64()/rate, 0.0, 0.0
		for {
			last, look = look, look+float64(4+r.IntN(21))
			if loss <= look {
				spans, found = append(spans, Span{last, look}), append(found, Subject{look, true})
				break
			}
			if look > 100 {
				spans, found = append(spans, Span{look, math.Inf(1)}), append(found, Subject{look, false})
				break
			}
		}
	}
	return spans, found
}

// turnbullSimulation gives the mean errors on days 14, 28 and 42: of the
// middle of Turnbull's bounds, and of the curve dated when losses were found.
func turnbullSimulation(runs int) (boxes, dated [3]float64, failed int) {
	r := rand.New(rand.NewPCG(20261125, 1))
	for range runs {
		spans, found := inspected(r, 60, 0.012)
		b, c := Turnbull(spans), ProductLimit(found)
		if !b.Converged {
			failed++
		}
		for i, day := range []float64{14, 28, 42} {
			lower, upper := b.At(day)
			truth := math.Exp(-0.012 * day)
			boxes[i] += ((lower+upper)/2 - truth) / float64(runs)
			dated[i] += (c.At(day).Share - truth) / float64(runs)
		}
	}
	return boxes, dated, failed
}

// TestTurnbullSimulation: 60 subjects, looks 4 to 24 days apart, 1.2 % lost a
// day, 500 runs. Turnbull is right on average to 0.02; dating losses when they
// are found is too high by 0.04 or more.
func TestTurnbullSimulation(t *testing.T) {
	boxes, dated, failed := turnbullSimulation(500)
	assert.Zero(t, failed)
	for i := range boxes {
		assert.LessOrEqual(t, math.Abs(boxes[i]), 0.02, "%v", boxes)
		assert.GreaterOrEqual(t, dated[i], 0.04, "%v", dated)
	}
}

func BenchmarkTurnbull60(b *testing.B) {
	spans, _ := inspected(rand.New(rand.NewPCG(1, 1)), 60, 0.012)
	for b.Loop() {
		Turnbull(spans)
	}
}

// BenchmarkTurnbullSimulation reports the mean errors of 5000 runs.
func BenchmarkTurnbullSimulation(b *testing.B) {
	for b.Loop() {
		boxes, dated, failed := turnbullSimulation(5000)
		b.ReportMetric(float64(failed), "failed")
		for i := range boxes {
			b.ReportMetric(boxes[i], []string{"error-14", "error-28", "error-42"}[i])
			b.ReportMetric(dated[i], []string{"dated-14", "dated-28", "dated-42"}[i])
		}
	}
}
