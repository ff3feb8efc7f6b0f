package page

import (
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/chart"
	"wardian/build/cohort"
)

// A stated day's counts: reached, lost first, waiting and unknown are all of n.
func TestMilestonesAddUpToTheLines(t *testing.T) {
	s := box(t, 6,
		"0: p-1: leaves 2 / p-2: leaves 2 / p-3: leaves 2 / p-4: leaves 2 / p-5: leaves 2",
		"10: p-1: new root / p-2: lost rot / p-3: same / p-4: same", "20: p-3: passed on / p-4: new root",
		"60: p-1: same / p-4: same")
	d := milestonesOf(s.scope())
	require.NotNil(t, d)
	require.Len(t, d.Rows, len(cohort.AllMilestones))
	root := d.Rows[0]
	assert.Equal(t, "First new root", root.Milestone)
	assert.Equal(t, []string{"1 of 6", "2 of 6", "2 of 6"}, []string{root.Cells[0].Count, root.Cells[1].Count, root.Cells[2].Count})
	assert.Equal(t, "1 lost first, 2 waiting, 2 unknown", root.Cells[0].Others, "p-5 was last seen on day 0, p-6 never")
	assert.Equal(t, "1 lost first, 3 unknown", root.Cells[2].Others)
	whole := regexp.MustCompile(`\d+`)
	for _, row := range d.Rows {
		for _, c := range row.Cells {
			if c.Count == "–" {
				continue
			}
			numbers := whole.FindAllString(c.Count+" "+c.Others, -1)
			sum := 0
			for i, w := range numbers {
				n, err := strconv.Atoi(w)
				require.NoError(t, err)
				switch i {
				case 1:
					sum -= n
				default:
					sum += n
				}
			}
			assert.Zero(t, sum, "%s: %s; %s", row.Milestone, c.Count, c.Others)
		}
	}
	assert.Contains(t, d.Says[1], "So by day 42 a new root was seen on two of six plants; one was lost without it and of three nothing is known by then.")
	assert.Contains(t, d.Rows[3].Note, "left out: six with no leaf counted on arrival", "no record of arrival was kept")
}

func TestMilestonesOfAYoungOrEmptyImport(t *testing.T) {
	assert.Nil(t, milestonesOf(box(t, 0).scope()))
	d := milestonesOf(box(t, 2, "0: all", "3: others").scope())
	require.NotNil(t, d)
	assert.Equal(t, "not yet", d.Rows[0].Cells[0].Count)
	assert.Empty(t, d.Rows[0].Cells[0].Others)
	assert.Equal(t, "fewer than half by day 3", d.Rows[0].Half)
	assert.Len(t, d.Says, 1, "nothing to read aloud")
}

// Small and medium plants, three and two of six lost on day 10; nothing was reached.
// Each group is counted on the stated days up to the horizon, and drawn where it has
// five lines or more.
func TestMilestonesByGroup(t *testing.T) {
	r := sizes(t, 6, 3, 6, 2).by(t, "size", 28)
	d := reachedByGroup(r)
	require.NotNil(t, d)
	assert.Equal(t, "14 and 28", d.Days)
	assert.Equal(t, []string{"First new root", "First new leaf", "Left the bin", "Recovered", "Established"}, d.Columns)
	require.Len(t, d.Rows, 2)
	assert.Equal(t, reachedCell{"First new root", "0 and 0 of 6", "lost first 3 and 3"}, d.Rows[0].Cells[0])
	assert.Equal(t, reachedCell{Label: "Left the bin", Count: "–"}, d.Rows[0].Cells[2], "none stood in a bin")
	require.Len(t, d.Drawn, 3, "root, leaf, established")
	assert.Len(t, d.Drawn[0].Tables[0].Rows, 6, "a row for day 0, 10 and 28 of each group")

	few := reachedByGroup(sizes(t, 6, 3, 4, 2).by(t, "size", 28))
	assert.Len(t, few.Rows, 2)
	assert.Len(t, few.Drawn[0].Tables[0].Rows, 3, "four lines stand with their counts alone")
	assert.Nil(t, reachedByGroup(sizes(t, 6, 3, 6, 2).by(t, "size", 10)), "no stated day lies before it")
}

// By landmark the strips start on it, with what was reached before in their first
// step; the counts still add up.
func TestStripsStartOnTheLandmark(t *testing.T) {
	s := box(t, 6, "0: all", "1: p-1: new root / others", "9: p-2: lost rot / p-3: new root / others", "45: others")
	scope := s.scope()
	m := strip(scope.MilestoneUpTo(cohort.FirstRoot, 28), "roots", 28, 3)
	require.NotEmpty(t, m.Steps)
	assert.Equal(t, []int{3, 6, 1, 0, 0}, []int{m.Steps[0].Day, m.Steps[0].Waiting, m.Steps[0].Reached, m.Steps[0].Lost, m.Steps[0].Left})
	assert.InDelta(t, 1.0/6, m.Steps[0].Share, 1e-12)
	assert.Equal(t, "2 of 6 by day 28", m.Words)
	assert.Equal(t, "1 lost first, 3 waiting", m.Others)
	gone := 0
	for _, st := range m.Steps {
		gone += st.Reached + st.Lost + st.Left
	}
	assert.Equal(t, 6, gone)
	assert.Empty(t, (chart.Milestones{Rows: []chart.Milestone{m}}).Draw().Notes, "nothing had to be left out")
}
