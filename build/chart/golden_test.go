package chart

import (
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write testdata anew; look at each change before committing it")

// small holds a drawing of each kind, small enough to be read as text.
func small() map[string]HTML {
	// Six lines with (day, lost) (0,1)(0,0)(5,1)(9,1)(9,0)(30,0): shares and
	// limits as R's survival package gives them (survfit, log-log limits):
	// 0.8333333333333334 [0.273122849928356, 0.9747124266908939],
	// 0.625 [0.14185338993165508, 0.8930506044985778],
	// 0.4166666666666667 [0.05599186485205291, 0.76652221955058].
	curve := Curve{Head: Head{ID: "c", Title: "Six lines"}, EndWords: "2 of 6 alive", EndLimits: "95% limits 6 to 77%", HeightPx: 200, Steps: []Step{
		{0, 6, 1, 1, 0.8333333333333334, true, 0.273122849928356, 0.9747124266908939},
		{5, 4, 1, 0, 0.625, true, 0.14185338993165508, 0.8930506044985778},
		{9, 3, 1, 1, 0.4166666666666667, true, 0.05599186485205291, 0.76652221955058},
		{30, 1, 0, 1, 0.4166666666666667, true, 0.05599186485205291, 0.76652221955058},
	}}
	soil := SoilLine{Head: Head{ID: "s", Title: "Root to leaf, b26-07"}, End: End{12, Lost},
		Looks: []Look{
			{Day: 0, Leaf: Measured, AreaCm2: 58, Roots: Measured, Length: RootLength, LengthCm: 10},
			{Day: 8, Leaf: Estimated, AreaCm2: 58, Roots: Measured, Length: RootLength, LengthCm: 9},
			{Day: 10, Leaf: Measured, AreaCm2: 40, Falls: true},
			{Day: 12, Leaf: Measured, AreaCm2: 12, Roots: Estimated, Length: RootLength, LengthCm: 4},
		},
		Events:     []Event{{8, MoveDrier, "×6.2", "+0.82 kPa"}, {10, LeafDropped, "", ""}},
		Stays:      []Stay{{0, 8, Bin, "clear tote"}, {8, 12, StepDown, "cabinet"}},
		DeficitKPa: []DayValue{{0, .12}, {1, .04}, {3, .16}, {8, .98}, {9, 1.02}},
	}
	grades := SoilLine{Head: Head{ID: "g", Title: "Leaves and roots, b26-10"}, Looks: []Look{
		{Day: 0, Counted: true, Leaves: 4, Graded: true, Grade: 1}, {Day: 7, Counted: true, Leaves: 3}, {Day: 14, Counted: true, Leaves: 3}}}
	row := RowChart{Days: 14, Rows: []Row{{Number: "b26-07", Stays: soil.Stays, Events: []Event{{Day: 5, Mark: FirstNewRoot}}, End: soil.End}}}.Draw()
	thumb := Thumbs{Days: 14, Cells: []Thumb{{"b26-07", soil.Looks, soil.End}, {"b26-10", grades.Looks, End{}}}}.Draw()
	tree := Line{Head: Head{ID: "l", Title: "The line of b26-03", Days: 28}, Parts: []Part{
		{Number: "b26-03", Words: "alive day 28", Parent: -1, Stays: []Stay{{0, 28, Bin, ""}}, Events: []Event{{Day: 10, Mark: SectionCut}}, End: End{28, AliveLastSeen}},
		{Number: "b26-03-top", Words: "lost day 20, rot", Parent: 0, Born: 10, Stays: []Stay{{10, 20, Bin, ""}}, End: End{20, Lost}}}}
	place := PlacePlot{Head: Head{ID: "p", Title: "Clear tote"}, First: Date{2026, 3, 9}, Stage: Bin,
		DeficitKPa:   []PlaceDay{{Day: 0, Mean: .12}, {Day: 1, Mean: .02}, {Day: 4, Mean: .2}},
		TemperatureC: []PlaceDay{{0, 24, true, 22, 26}, {1, 25, true, 22, 27}, {4, 23, false, 0, 0}},
		Notes:        []Event{{2, PlaceNote, "power cut", "13 h"}},
		Stood:        []Stood{{"b26-07", "Hoya ‘So’", 0, 3, NoMark}}}
	two := Curves{Head: Head{ID: "t", Title: "Two seasons"}, HeightPx: 170, Groups: []Curve{curve, {Name: "2025 autumn", Steps: []Step{{Day: 21, AtRisk: 4, Lost: 1, Left: 3, Share: .75}}}}}
	two.Groups[0].Name = "2026 spring"
	cd := curve.Draw()
	strips := Milestones{Head: Head{ID: "m", Title: "First new root"}, Rows: []Milestone{{Name: "first new root", Words: "2 of 5 by day 14", Others: "1 lost first, 2 waiting", Steps: stacked(0, [2]int{4, 1}, [2]int{9, 2}, [2]int{11, 1}, [2]int{12, 0}, [2]int{13, 0})}}}
	return map[string]HTML{
		"soilline": soil.Draw().HTML, "soilline-key": soil.Draw().Key, "grades": grades.Draw().HTML, "curve": cd.HTML, "curve-key": cd.Key, "curves": two.Draw().HTML, "milestones": strips.Draw().HTML, "milestones-key": strips.Draw().Key,
		"row": row.Bars[0], "row-axis": row.Top, "thumb": thumb.Cells[0], "thumb-howto": thumb.HowTo, "tree": tree.Draw().HTML, "place": place.Draw().HTML,
		"whisker": Whisker(Interval{.75, .25, .9}), "pips": Pips(2), "icon-lost": Icon(Lost), "water": WaterKey(), "emblem": Emblem(), "nothing": SoilLine{}.Draw().HTML,
	}
}

// lines breaks markup at its tags, so that a change is a line.
func lines(h HTML) string { return strings.ReplaceAll(string(h), "><", ">\n<") + "\n" }

func TestSmallDrawings(t *testing.T) {
	for name, h := range small() {
		path := "testdata/" + name + ".html"
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(lines(h)), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), lines(h), name)
	}
	es, err := os.ReadDir("testdata")
	require.NoError(t, err)
	n := 0
	for _, e := range es {
		if strings.HasSuffix(e.Name(), ".html") {
			n++
		}
	}
	assert.Equal(t, len(small()), n, "a file that nothing is compared with")
}

// The share is drawn where it belongs: 100 % at 14 px, 0 % at 214 px, so
// 83 % at 48, 63 % at 88 and 42 % at 130 (the table's own per cents).
func TestCurveStandsAtItsShares(t *testing.T) {
	assert.Contains(t, string(small()["curve"]), `<path class="km few" d="M0 14V48H5V88H9V130H30"/>`)
}
