package opendata

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content/example"
)

// groups.csv has every line of a comparison in one group, and its alive, lost and
// unknown add up; comparisons.csv has either a p or the reason why there is none.
func TestComparisonsAndGroupsAddUp(t *testing.T) {
	c := read(t, example.Files())
	compared := c.Comparisons(c.All(), 42, cohort.LandmarkDays[0])
	words, groups := comparisons(compared)
	number := func(s string) int {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		return n
	}
	lines := map[string]int{}
	for _, row := range readBack(t, groups.data) {
		lines[row["by"]] += number(row["n"])
		if row["alive_at"] != "" {
			assert.Equal(t, number(row["n"]), number(row["alive_at"])+number(row["lost"])+number(row["unknown_at"]), "%s: %s", row["by"], row["group"])
		}
	}
	rows := readBack(t, words.data)
	require.Len(t, rows, len(compared))
	for n, row := range rows {
		in := len(compared[n].Scope.Lines)
		if m := compared[n].Landmark; m != nil {
			in = m.In
		}
		assert.Equal(t, in, lines[row["by"]], row["by"])
		assert.NotEqual(t, row["p"] == "", row["reason"] == "", row["by"])
		if row["level"] == "import" {
			assert.Empty(t, row["p"]+row["p_adjusted"], "three imports can't tell: %s", row["by"])
		}
	}
}
