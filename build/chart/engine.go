package chart

import (
	"io"
	"math"
	"sync"

	"github.com/golang/freetype/truetype"
	gochart "github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"
)

// go-chart is the engine: it checks the ranges, lays out the canvas between
// paddings, sets the domain of each axis and renders the series in order. Each
// plot of a picture (leaf and root, water level, deficit, …) is one
// gochart.Chart whose padding is the plot's place in the picture; all of them
// render into one canvas of ours. The chart is 10 000 units wide (hundredths of
// a per cent of the plot) and as many px high as the picture.
//
// What the stock code does badly is never asked of it:
//   - both ranges and all ticks are set here; a range is never zero or infinite,
//     because days start at 0 and end at 7 or later and figures are cleaned
//     before (the stock code errs on such ranges);
//   - there is always one series at least (none is an error), and ours have no
//     lengths that could differ (which panics in the stock ones);
//   - the font is set, since fetching the default one races when charts are
//     drawn side by side;
//   - the stock axes, title and white ground are left out: they write integer
//     positions, colours and unescaped text.

// canvasWidth is the width of every chart in hundredths of a per cent.
const canvasWidth = 10000

// font is only handed to go-chart so that it fetches none; nothing is measured
// with it, the reader's font is the reader's.
var font = sync.OnceValue(func() *truetype.Font {
	f, err := gochart.GetDefaultFont()
	if err != nil {
		panic("chart: go-chart's own font can't be read: " + err.Error())
	}
	return f
})

// scale is a range with fractions: the stock one rounds up to whole units.
type scale struct{ gochart.ContinuousRange }

func newScale(lo, hi float64) *scale {
	return &scale{gochart.ContinuousRange{Min: lo, Max: hi}}
}

// at is Translate without rounding.
func (s *scale) at(v float64) float64 {
	return (v - s.Min) / (s.Max - s.Min) * float64(s.Domain)
}

// area is where a series may draw.
type area struct {
	top, bottom float64
	y           *scale
}

// py is the px of a value.
func (a area) py(v float64) float64 { return a.bottom - a.y.at(v) }

// series is a drawing of ours inside one plot.
type series func(c *canvas, a area)

var _ gochart.Series = series(nil)

func (s series) GetName() string             { return "" }
func (s series) GetYAxis() gochart.YAxisType { return gochart.YAxisPrimary }
func (s series) GetStyle() gochart.Style     { return gochart.Style{} }
func (s series) Validate() error             { return nil }

// Render hands go-chart's layout to the series.
func (s series) Render(r gochart.Renderer, box gochart.Box, _, y gochart.Range, _ gochart.Style) {
	s(r.(*canvas), area{top: float64(box.Top), bottom: float64(box.Bottom), y: y.(*scale)})
}

// plot is one plot of a picture: its place in px, its values, what is drawn.
type plot struct {
	top, height int
	lo, hi      float64
	series      []gochart.Series
}

// render draws the plots from above to below. It panics if go-chart refuses
// one, which is a mistake of this package: see the list above.
func (c *canvas) render(plots ...plot) {
	for _, p := range plots {
		ch := gochart.Chart{
			Width: canvasWidth, Height: int(c.h), Font: font(),
			Background:     gochart.Style{Padding: gochart.Box{IsSet: true, Top: p.top, Bottom: int(c.h) - p.top - p.height}},
			XAxis:          gochart.XAxis{Style: gochart.Hidden(), Range: newScale(0, c.days), Ticks: []gochart.Tick{{Value: 0}, {Value: c.days}}},
			YAxis:          gochart.YAxis{Style: gochart.Hidden(), Range: newScale(p.lo, p.hi), Ticks: []gochart.Tick{{Value: p.lo}, {Value: p.hi}}},
			YAxisSecondary: gochart.YAxis{Style: gochart.Hidden()},
			Series:         p.series,
		}
		if err := ch.Render(func(int, int) (gochart.Renderer, error) { return c, nil }, io.Discard); err != nil {
			panic("chart: go-chart refused a plot: " + err.Error())
		}
	}
}

// stockPen is the state of go-chart's own drawing calls.
type stockPen struct {
	class string
	pts   [][2]int
}

var _ gochart.Renderer = (*canvas)(nil)

// The calls below are go-chart's drawing calls. Units are hundredths of a per
// cent and px. A shape without a class is not drawn: that is how the stock
// ground and canvas, which bring colours only, stay out.

func (c *canvas) ResetStyle()                  { c.stock.class = "" }
func (c *canvas) SetClassName(s string)        { c.stock.class = s }
func (c *canvas) GetDPI() float64              { return 96 }
func (c *canvas) SetDPI(float64)               {}
func (c *canvas) SetStrokeColor(drawing.Color) {}
func (c *canvas) SetFillColor(drawing.Color)   {}
func (c *canvas) SetStrokeWidth(float64)       {}
func (c *canvas) SetStrokeDashArray([]float64) {}
func (c *canvas) SetFont(*truetype.Font)       {}
func (c *canvas) SetFontColor(drawing.Color)   {}
func (c *canvas) SetFontSize(float64)          {}
func (c *canvas) SetTextRotation(float64)      {}
func (c *canvas) ClearTextRotation()           {}
func (c *canvas) MoveTo(x, y int)              { c.stock.pts = append(c.stock.pts[:0], [2]int{x, y}) }
func (c *canvas) LineTo(x, y int)              { c.stock.pts = append(c.stock.pts, [2]int{x, y}) }
func (c *canvas) QuadCurveTo(_, _, x, y int)   { c.LineTo(x, y) }
func (c *canvas) Stroke()                      { c.stockPath(false) }
func (c *canvas) Fill()                        { c.stockPath(true) }
func (c *canvas) FillStroke()                  { c.stockPath(true) }
func (c *canvas) MeasureText(s string) gochart.Box {
	return gochart.Box{Right: int(math.Ceil(textWidth(s, false))), Bottom: textPx}
}

// ArcTo draws nothing: a circle would be an ellipse at most widths.
func (c *canvas) ArcTo(int, int, float64, float64, float64, float64) {}

// Close ends a shape where it began.
func (c *canvas) Close() {
	if len(c.stock.pts) > 0 {
		c.stock.pts = append(c.stock.pts, c.stock.pts[0])
	}
}

// Circle keeps its size.
func (c *canvas) Circle(_ float64, x, y int) {
	if c.stock.class != "" {
		c.path(c.stock.class)
		c.dot(c.day(x), float64(y))
	}
}

// Text is escaped; it starts at x.
func (c *canvas) Text(body string, x, y int) {
	c.text(c.day(x), 0, float64(y), start, c.stock.class, body)
}

// Save writes nothing: the picture is closed once, after its last plot.
func (c *canvas) Save(io.Writer) error { c.stock = stockPen{pts: c.stock.pts[:0]}; return nil }

func (c *canvas) day(x int) float64 { return float64(x) * c.days / canvasWidth }

func (c *canvas) stockPath(closed bool) {
	if c.stock.class == "" || len(c.stock.pts) == 0 {
		return
	}
	c.path(c.stock.class)
	for i, p := range c.stock.pts {
		if i == 0 {
			c.m(c.day(p[0]), float64(p[1]))
		} else {
			c.l(c.day(p[0]), float64(p[1]))
		}
	}
	if closed {
		c.z()
	}
}
