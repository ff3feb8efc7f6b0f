package page

import (
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
