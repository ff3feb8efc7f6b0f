package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/survival"
)

// asked takes past imports, as lines followed, through every question to a horizon.
func asked(t testing.TB, imports [][]survival.Subject, horizon float64, planned int) {
	var past []Import
	for _, lines := range imports {
		i, ok := Followed(lines, horizon)
		if !ok {
			assert.Zero(t, i)
			continue
		}
		require.True(t, i.usable() && !math.IsNaN(i.Alive) && !math.IsInf(i.Lines, 0), "%v of %v", i, lines)
		past = append(past, i)
	}
	p, ok := Learn(past)
	require.Equal(t, len(past) > 0, ok)
	require.Equal(t, len(past), p.Imports)
	require.Equal(t, len(past) == 1, p.Caveat() != "")
	c, ok := p.Order(planned)
	require.Equal(t, p.Imports > 0 && planned >= 1 && planned <= Most, ok)
	require.Equal(t, 0.0, c.AtMost(-1))
	require.Equal(t, 1.0, c.AtMost(c.Planned))
	if !ok {
		require.Zero(t, c)
		return
	}
	require.True(t, c.Expected > 0 && c.Expected < float64(planned), "%v", c.Expected)
	sum := 0.0
	for y := range planned + 1 {
		require.GreaterOrEqual(t, c.AtMost(y), c.AtMost(y-1))
		require.InDelta(t, 1, c.AtMost(y-1)+c.AtLeast(y), 1e-12)
		sum += c.Chance(y)
	}
	require.InDelta(t, 1, sum, 1e-9)
	for _, confidence := range []float64{0.01, 0.8, 0.95, 0.999999} {
		r := c.Range(confidence)
		require.True(t, 0 <= r.Low && r.Low <= r.High && r.High <= planned)
		require.GreaterOrEqual(t, c.AtMost(r.High)-c.AtMost(r.Low-1), confidence-1e-9)
		for _, landed := range []float64{0, 0.01, 5160.28, 1e300} {
			e, ok := c.CostEach(landed, confidence)
			require.Equal(t, !math.IsInf(landed/c.Expected, 0), ok)
			for _, v := range []float64{e.Expected, e.Low, e.High} {
				require.True(t, v >= 0 && !math.IsInf(v, 0), "%+v", e)
			}
			require.True(t, !ok || e.HasLow == (r.High > 0) && e.HasHigh == (r.Low > 0), "%+v", e)
			require.True(t, !e.HasLow || e.Low <= e.Expected*float64(planned), "%+v", e)
		}
	}
	if planned <= 15 && !racing { // it is arithmetic of seconds where nearly all are lost
		n, ok := p.Needed(planned, 0.8)
		require.True(t, !ok && n == 0 || n >= planned && n <= Most, "%d of %d", n, planned)
	}
}

func sameLines(n int, day float64, lost bool) []survival.Subject {
	out := make([]survival.Subject, n)
	for i := range out {
		out[i] = survival.Subject{Time: day, Lost: lost}
	}
	return out
}

// TestOddPasts: imports of which nothing, little or one thing alone is known.
func TestOddPasts(t *testing.T) {
	join := func(parts ...[]survival.Subject) (all []survival.Subject) {
		for _, p := range parts {
			all = append(all, p...)
		}
		return all
	}
	for name, imports := range map[string][][]survival.Subject{
		"no import":                nil,
		"an import of nobody":      {nil},
		"all lost on day 0":        {sameLines(12, 0, true)},
		"all left on day 0":        {sameLines(12, 0, false)},
		"none lost":                {sameLines(12, 84, false)},
		"one line, lost":           {sameLines(1, 3, true)},
		"one line, alive":          {sameLines(1, 84, false)},
		"all tied on the horizon":  {sameLines(6, 42, true), sameLines(6, 42, false)},
		"half lost on one day":     {join(sameLines(6, 9, true), sameLines(6, 84, false))},
		"some left before":         {join(sameLines(2, 9, true), sameLines(4, 20, false), sameLines(6, 84, false))},
		"only those that left":     {join(sameLines(2, 9, true), sameLines(4, 20, false))},
		"two imports, as opposite": {sameLines(20, 0, true), sameLines(20, 84, false)},
		"ten alike":                {sameLines(12, 84, false), sameLines(12, 84, false), sameLines(12, 84, false), sameLines(12, 84, false), sameLines(12, 84, false), sameLines(12, 84, false), sameLines(12, 84, false), sameLines(12, 84, false), sameLines(12, 84, false), sameLines(12, 84, false)},
	} {
		t.Run(name, func(t *testing.T) {
			for _, planned := range []int{-1, 0, 1, 13, Most + 1} {
				asked(t, imports, 42, planned)
			}
			asked(t, imports, 0, 5)
		})
	}
	// What some of them say.
	i, ok := Followed(sameLines(12, 0, true), 42)
	assert.True(t, ok)
	assert.Equal(t, Import{0, 12}, i)
	i, ok = Followed(append(sameLines(6, 42, true), sameLines(6, 42, false)...), 42)
	assert.True(t, ok)
	assert.Equal(t, Import{6, 12}, i, "lost on the day is lost, left on the day was alive")
	_, ok = Followed(sameLines(12, 0, false), 42)
	assert.False(t, ok, "nobody was followed so far")
	_, ok = Learn(nil)
	assert.False(t, ok)
}

// FuzzForecast makes up to four imports of bytes.
func FuzzForecast(f *testing.F) {
	f.Add([]byte{}, byte(12))
	f.Add([]byte{9, 0, 200, 255, 255, 20, 3}, byte(1))
	f.Add([]byte{0, 0, 0, 128, 128}, byte(60))
	f.Fuzz(func(t *testing.T, data []byte, planned byte) {
		var imports [][]survival.Subject
		for at, b := range data[:min(len(data), 60)] {
			if at%16 == 0 {
				imports = append(imports, nil)
			}
			last := &imports[len(imports)-1]
			*last = append(*last, survival.Subject{Time: float64(b&127) / 2, Lost: b >= 128})
		}
		asked(t, imports, 42, int(planned%64))
	})
}
