package chart

import (
	"io"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	gochart "github.com/wcharczuk/go-chart/v2"
)

// A stock series goes through our renderer too: into the stretched piece, in
// days, with its class; the stock ground, which has none, is not drawn.
func TestStockSeriesThroughOurRenderer(t *testing.T) {
	c := newCanvas(84, 100)
	c.render(plot{height: 100, hi: 10, series: []gochart.Series{
		gochart.ContinuousSeries{Style: gochart.Style{ClassName: "km", StrokeWidth: 1}, XValues: []float64{0, 42, 84}, YValues: []float64{10, 5, 0}},
	}})
	c.leave()
	assert.Equal(t, `<svg height="100" viewBox="0 0 84 100" preserveAspectRatio="none"><path class="km" d="M0 0L42 50L84 100"/></svg>`, string(c.b))

	c = newCanvas(84, 100)
	c.SetClassName("q")
	c.Text("a < b & c", 5000, 20)
	c.SetClassName("dot")
	c.Circle(3, 2500, 40)
	gochart.Draw.Box(c, gochart.Box{Right: 10, Bottom: 10}, gochart.Style{ClassName: ""})
	c.leave()
	assert.Equal(t, `<text x="50%" y="20" class="q">a &lt; b &amp; c</text><svg height="100" viewBox="0 0 84 100" preserveAspectRatio="none"><path class="dot" d="M21 40h0"/></svg>`, string(c.b))
	assert.NoError(t, c.Save(io.Discard))
	assert.Equal(t, 37, c.MeasureText("words").Right)
}

// What go-chart refuses is a mistake of ours and is loud.
func TestRefusedPlotPanics(t *testing.T) {
	assert.PanicsWithValue(t, "chart: go-chart refused a plot: please provide at least one series", func() {
		newCanvas(84, 100).render(plot{height: 100, hi: 1})
	})
	assert.Panics(t, func() { appendNum(nil, zero/zero, 10) })
}

var zero float64

func TestNumbers(t *testing.T) {
	for v, want := range map[float64]string{0: "0", -0.04: "0", .04: "0", .05: ".1", -.5: "-.5", 1.0: "1", 12.34: "12.3", -12.36: "-12.4", 100: "100"} {
		assert.Equal(t, want, string(appendNum(nil, v, 10)), v)
	}
	for v, want := range map[float64]string{.12: ".12", .1: ".1", .01: ".01", 1.05: "1.05", 40.88: "40.88", -.004: "0", 7.999: "8"} {
		assert.Equal(t, want, string(appendNum(nil, v, 100)), v)
	}
}

func TestNiceDays(t *testing.T) {
	for d, want := range map[int]int{-5: 14, 0: 14, 14: 14, 15: 21, 83: 84, 84: 84, 85: 98, 98: 98, 200: 210, 364: 364, 365: 392, 1 << 40: 36512} {
		assert.Equal(t, want, NiceDays(d), d)
	}
}

// Words of an axis can't touch, at any width; the last day has its word.
func TestDayLabels(t *testing.T) {
	all := []int{}
	for d := 7; d < 900; d += 1 + d/50 {
		all = append(all, d)
	}
	for _, days := range append(all, 1000, 3650, 36512) {
		ls := dayLabels(days)
		require.Equal(t, 0, ls[0].day)
		require.Equal(t, days, ls[len(ls)-1].day)
		require.False(t, ls[len(ls)-1].wide)
		for _, at := range []struct {
			px   float64
			wide bool
		}{{narrowPx, false}, {widePx, true}} {
			last := -1
			for _, l := range ls {
				if l.wide && !at.wide {
					continue
				}
				if last >= 0 {
					gap := float64(l.day-last) / float64(days) * at.px
					require.GreaterOrEqual(t, gap, 51.0, "%d days: %d and %d", days, last, l.day)
				}
				last = l.day
			}
		}
	}
	// the look's own axis
	assert.Equal(t, []dayLabel{{0, false}, {14, true}, {28, false}, {42, true}, {56, false}, {70, true}, {84, false}}, dayLabels(84))
}

func TestCalendar(t *testing.T) {
	cal := newCalendar(Date{2026, 3, 9}, 84)
	assert.Equal(t, "2026-03-09", cal.iso(0))
	assert.Equal(t, "1 June", cal.words(84))
	assert.Equal(t, "2028-02-29", newCalendar(Date{2028, 2, 28}, 9).iso(1))
	r := rand.New(rand.NewPCG(1, 1))
	for range 400 {
		days := 7 + r.IntN(3000)
		cal := newCalendar(Date{2020 + r.IntN(9), 1 + r.IntN(12), 1 + r.IntN(28)}, days)
		for _, px := range []float64{narrowPx, widePx} {
			last := -1
			for _, l := range cal.marks {
				if l.wide && px < widePx {
					continue
				}
				if last >= 0 {
					require.GreaterOrEqual(t, float64(l.day-last)/float64(days)*px, 45.0, "%v, %d days", cal.first, days)
				}
				last = l.day
			}
			require.GreaterOrEqual(t, last, 0, "an axis without words")
		}
	}
}

func TestNiceStep(t *testing.T) {
	for _, c := range []struct {
		hi   float64
		n    int
		want float64
	}{{214, 3, 100}, {1.5, 3, .5}, {10, 3, 5}, {9, 3, 5}, {.3, 3, .1}, {0, 3, 1}, {1e6, 5, 2e5}} {
		assert.InDelta(t, c.want, niceStep(c.hi, c.n), c.want*1e-12, "%g in %d", c.hi, c.n)
	}
	for _, c := range [][2]float64{{180, 100}, {200, 200}, {499, 200}, {.07, .05}, {0, 0}} {
		assert.InDelta(t, c[1], roundDown(c[0]), 1e-12)
	}
}

func TestTextWidth(t *testing.T) {
	assert.InDelta(t, 5*7.28, textWidth("words", false), 1e-9)
	assert.InDelta(t, 5*7.8, textWidth("words", true), 1e-9)
	assert.InDelta(t, 26, textWidth("植物", false), 1e-9)
	assert.InDelta(t, 7.28, textWidth("é", false), 1e-9, "a combining mark takes no room")
}
