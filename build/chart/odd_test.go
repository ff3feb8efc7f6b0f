package chart

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the stock chart errs or panics on has a defined answer here.
func TestOddInputs(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	area := func(day int, v float64) Look { return Look{Day: day, Leaf: Measured, AreaCm2: v} }
	for name, c := range map[string]struct {
		html  HTML
		holds []string
		lacks []string
	}{
		"no series":           {SoilLine{}.Draw().HTML, []string{"Nothing measured yet."}, []string{"<svg"}},
		"NaN and Inf only":    {SoilLine{Looks: []Look{area(0, nan), area(1, inf), area(2, -1)}}.Draw().HTML, []string{"Nothing measured yet."}, []string{"<svg"}},
		"NaN between":         {SoilLine{Looks: []Look{area(0, 10), area(1, nan), area(2, 10)}}.Draw().HTML, []string{`class="edge" d="M0 `}, []string{`M1 `}},
		"one point":           {SoilLine{Looks: []Look{area(0, 214)}}.Draw().HTML, []string{"leaf 214 cm²", `class="edge" d="M0 `, `class="dot"`}, []string{`class="fill"`}},
		"zero range in days":  {SoilLine{Looks: []Look{area(0, 10), area(0, 5)}}.Draw().HTML, []string{`viewBox="0 0 14 `, "leaf 5 cm²"}, nil},
		"zero range in area":  {SoilLine{Looks: []Look{area(0, 0), area(9, 0)}}.Draw().HTML, []string{"leaf 0 cm²"}, nil},
		"before arrival":      {SoilLine{Looks: []Look{area(-3, 10)}}.Draw().HTML, []string{"Nothing measured yet."}, nil},
		"a century later":     {SoilLine{Looks: []Look{area(1e6, 10)}}.Draw().HTML, []string{"Nothing measured yet."}, nil},
		"no curve":            {Curve{}.Draw().HTML, []string{"Nothing measured yet."}, []string{"<svg"}},
		"a share above 1":     {Curve{Steps: []Step{{Day: 1, AtRisk: 3, Lost: 1, Share: 1.2}}}.Draw().HTML, []string{"Nothing measured yet."}, nil},
		"a share that is NaN": {Curve{Steps: []Step{{Day: 1, AtRisk: 3, Lost: 1, Share: nan}}}.Draw().HTML, []string{"Nothing measured yet."}, nil},
		"limits that are NaN": {Curve{Steps: []Step{{1, 3, 1, 0, .67, true, nan, nan}}}.Draw().HTML, []string{`class="km few"`}, []string{`class="band" d="M0 14H1V`}},
		"all on day 0":        {Curve{Steps: []Step{{Day: 0, AtRisk: 3, Lost: 1, Left: 2, Share: .67}}}.Draw().HTML, []string{`d="M0 14V`}, nil},
		"no seasons":          {Curves{}.Draw().HTML, []string{"Nothing measured yet."}, nil},
		"no place":            {PlacePlot{}.Draw().HTML, []string{"Nothing measured yet."}, nil},
		"place, NaN only":     {PlacePlot{TemperatureC: []PlaceDay{{Mean: nan}}}.Draw().HTML, []string{"Nothing measured yet."}, nil},
		"place, one day":      {PlacePlot{First: Date{2026, 3, 9}, TemperatureC: []PlaceDay{{Day: 2, Mean: 24}}}.Draw().HTML, []string{`class="mean" d="M2 `}, nil},
		"no line":             {Line{}.Draw().HTML, []string{"Nothing measured yet."}, nil},
		"a parent to come":    {Line{Parts: []Part{{Number: "a", Parent: 1}, {Number: "b", Parent: -7}}}.Draw().HTML, []string{">a<", ">b<"}, nil},
		"whisker, swapped":    {Whisker(Interval{.5, .9, .1}), nil, []string{"<"}},
		"whisker, NaN":        {Whisker(Interval{nan, 0, 1}), nil, []string{"<"}},
		"no loss":             {Pips(0), nil, []string{"<"}},
		"no mark":             {Icon(NoMark), nil, []string{"<"}},
		"a mark of no kind":   {Icon(Mark(99)), nil, []string{"<"}},
		"key of no mark":      {Key(KeyItem{}), nil, []string{"<"}},
	} {
		for _, s := range c.holds {
			assert.True(t, strings.Contains(string(c.html), s), "%s: no %q in %s", name, s, c.html)
		}
		for _, s := range c.lacks {
			assert.False(t, strings.Contains(string(c.html), s), "%s: %q in %s", name, s, c.html)
		}
	}
	assert.Empty(t, Mark(-1).Word()+Mark(99).Word()+Stage(9).Word()+Numerator(9).Word())
}

func TestNothingIsJoinedThatMayNotBe(t *testing.T) {
	root := func(day int, n Numerator, cm float64) Look {
		return Look{Day: day, Roots: Measured, Length: n, LengthCm: cm}
	}
	// other numerators
	runs := rootRuns([]Look{root(0, LongestRoot, 4), root(5, LongestRoot, 5), root(9, RootLength, 30), root(12, CountByMean, 20)})
	require.Len(t, runs, 3)
	assert.Len(t, runs[0].pts, 2)
	d := SoilLine{Looks: []Look{root(0, LongestRoot, 4), root(9, RootLength, 30)}}.Draw()
	assert.NotContains(t, string(d.HTML), `class="r"`)
	assert.NotContains(t, string(d.HTML), `class="r thin-out"`)
	assert.Contains(t, d.Notes, "longest root up to day 0, root length from day 9: not joined")
	// too far apart
	require.Len(t, rootRuns([]Look{root(0, RootLength, 4), root(JoinDays, RootLength, 5)}), 1)
	require.Len(t, rootRuns([]Look{root(0, RootLength, 4), root(JoinDays+1, RootLength, 5)}), 2)
	area := func(day int) Look { return Look{Day: day, Leaf: Measured, AreaCm2: 9} }
	require.Len(t, leafRuns([]Look{area(0), area(JoinDays)}), 1)
	require.Len(t, leafRuns([]Look{area(0), area(JoinDays + 1)}), 2)
	// grades and counts: dots, no edge, no strand
	g := string(sparseSoil().Draw().HTML)
	for _, class := range []string{"edge", "fill", "r", "r m", "vein"} {
		assert.NotContains(t, g, `class="`+class+`"`)
	}
	assert.Contains(t, g, "roots not seen since day 28")
	assert.Equal(t, 11, strings.Count(g[strings.Index(g, `class="dot"`):][:400], "h0"), "a dot a count")
}

// A cut falls upright: the value before it is carried to its day.
func TestCutsFallUpright(t *testing.T) {
	runs := leafRuns([]Look{{Day: 0, Leaf: Measured, AreaCm2: 214}, {Day: 7, Leaf: Measured, AreaCm2: 118, Falls: true}, {Day: 14, Leaf: Measured, AreaCm2: 100}})
	require.Len(t, runs, 1)
	e := runs[0].edge()
	require.Len(t, e, 4)
	assert.Equal(t, []float64{0, 7, 7, 14}, []float64{e[0].day, e[1].day, e[2].day, e[3].day})
	assert.Equal(t, []float64{214, 214, 118, 100}, []float64{e[0].v, e[1].v, e[2].v, e[3].v})
}

// Missing deficit days stay blank; a stage's bars wear its class.
func TestMissingDaysStayBlank(t *testing.T) {
	s := SoilLine{Stays: []Stay{{0, 3, Bin, ""}, {3, 9, Room, ""}}, DeficitKPa: []DayValue{{0, .2}, {2, .2}, {3, 1.2}, {7, math.NaN()}}}
	h := string(s.Draw().HTML)
	bars := h[strings.LastIndex(h, `class="s3"`):]
	assert.Contains(t, bars, "M.12 ")
	assert.NotContains(t, bars, "M1.12 ")
	assert.Contains(t, bars, "M2.12 ")
	assert.Contains(t, bars[strings.Index(bars, `class="s1"`):], "M3.12 ")
	assert.NotContains(t, bars, "M7.12 ")
	assert.Equal(t, "< 0.1", kPaWords(.0999))
	assert.Equal(t, "0.10", kPaWords(.1))
}

// One square centimetre is drawn as tall as one centimetre.
func TestOneScale(t *testing.T) {
	c := newSoilPicture(wholeSoil(), leafRuns(wholeSoil().Looks), rootRuns(wholeSoil().Looks))
	assert.InDelta(t, 345.0/(214+131), c.u, 1e-12)
	assert.Equal(t, 214, c.up)
	assert.Equal(t, 131, c.down)
}

// Under watch, lost and left add up to n on each day.
func TestCountsAddUp(t *testing.T) {
	for _, in := range []Curve{importCurve(), allLost(), noneLost(), manyLines(), threeSeasons().Groups[1]} {
		c, ok := cleanCurve(in)
		require.True(t, ok)
		for d := 0; d <= c.last+10; d++ {
			n, lost, left := c.counts(d)
			assert.Equal(t, c.N, n+lost+left)
			assert.GreaterOrEqual(t, n, 0)
		}
		n, _, _ := c.counts(0)
		assert.Equal(t, c.N, n, "all on day 0")
	}
	d := Curve{Steps: []Step{{Day: 3, AtRisk: 4, Lost: 1, Share: .75}, {Day: 5, AtRisk: 4, Lost: 1, Share: .5}}}.Draw()
	assert.Equal(t, []string{"1 row left out: the counts don't add up"}, d.Notes)
}

// Dashed where fewer than the larger of 5 and a tenth of n are at risk.
func TestDashes(t *testing.T) {
	for _, c := range []struct {
		n, leave int // n lines, all but leave lost on day 10, the rest on day 20
		dashed   int
	}{{14, 5, -1}, {14, 4, 10}, {4, 3, 0}, {200, 20, -1}, {200, 19, 10}, {50, 5, -1}} {
		s, ok := cleanCurve(Curve{Steps: []Step{{Day: 10, AtRisk: c.n, Lost: c.n - c.leave, Share: float64(c.leave) / float64(c.n)}, {Day: 20, AtRisk: c.leave, Left: c.leave, Share: float64(c.leave) / float64(c.n)}}})
		require.True(t, ok)
		assert.Equal(t, c.dashed, s.dashed, "%d of %d", c.leave, c.n)
	}
}

// Thumbnails below two dates are left out; the others share days and scale.
func TestThumbs(t *testing.T) {
	d := sampleThumbs().Draw()
	require.Len(t, d.Cells, 14)
	assert.Empty(t, d.Cells[3], "one date only")
	for i, c := range d.Cells {
		if i != 3 {
			assert.Contains(t, string(c), `viewBox="0 0 84 `)
			assert.Contains(t, string(c), `aria-hidden="true"`)
			assert.True(t, strings.HasPrefix(string(c), string(d.Cells[0][:30])), "all as high as the first")
		}
	}
	none := Thumbs{Cells: []Thumb{{Number: "a"}, {Number: "b", Looks: []Look{{Day: 3, Leaf: Measured, AreaCm2: 9}, {Day: 3, Roots: Measured, Length: RootLength, LengthCm: 2}}}}}.Draw()
	assert.Equal(t, []HTML{"", ""}, none.Cells)
}

// An end stands 8 px after the last day, or clear of a disc on it.
func TestEndsStandAfterTheLastDay(t *testing.T) {
	r := RowChart{Days: 84, Rows: []Row{
		{Stays: []Stay{{0, 9, Bin, ""}}, End: End{9, Lost}},
		{Stays: []Stay{{0, 9, Bin, ""}}, Events: []Event{{9, Established, "", ""}}, End: End{9, AliveLastSeen}},
		{Stays: []Stay{{0, 9, Bin, ""}}, End: End{9, Established}},
	}}.Draw()
	assert.Contains(t, string(r.Bars[0]), `<svg x="10.71%" y="30" width="1" height="1"><g transform="translate(8)">`)
	assert.Contains(t, string(r.Bars[0]), `class="soil thin" d="M0 30H9"`)
	assert.Contains(t, string(r.Bars[1]), `translate(17)`)
	assert.NotContains(t, string(r.Bars[2]), `translate(8)`)
}

func TestManyCurves(t *testing.T) {
	d := six().Draw()
	assert.Contains(t, d.Notes, "in the table only: season 6")
	for i := range MaxCurves {
		assert.Contains(t, string(d.HTML), `class="`+dashClass[i])
	}
	seen := map[string]bool{}
	for _, r := range d.Tables[0].Rows {
		seen[r[0]] = true
	}
	assert.Len(t, seen, 7)
}
