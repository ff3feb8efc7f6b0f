package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
)

// The example's own lines, told as if from elsewhere, count as they do at home, on
// every day.
func TestLinesFromElsewhereCountAsOurs(t *testing.T) {
	d, report, err := content.Load(example.Files(), content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors())
	c := At(d, measure.NoDay)
	s := c.All()
	var told []Elsewhere
	for _, l := range s.Lines {
		told = append(told, Elsewhere{Import: l.Import().ID, Fate: l.Fate, Day: max(l.Day, 0), AsOfDay: l.AsOfDay})
	}
	shares := 0
	for day := 1; day < 200; day++ {
		home, away := groupAt("", s.Lines, day), GroupElsewhere(told, day)
		assert.Equal(t, []int{home.N, home.Alive, home.Lost, home.Left, home.Unknown, len(home.Imports)}, []int{away.N, away.Alive, away.Lost, away.Left, away.Unknown, len(away.Imports)}, day)
		assert.Equal(t, home.Row, away.Row, day)
		assert.Equal(t, home.Median, away.Median, day)
		if away.HasShare() {
			shares++
		}
	}
	assert.Greater(t, shares, 20)
	assert.Equal(t, 0, GroupElsewhere(nil, 42).N)
	assert.False(t, GroupElsewhere(nil, 42).HasShare())
}
