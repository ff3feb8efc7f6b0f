package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/survival"
)

// Every figure of the tables of coverage is printed, for 5 to 60 plants, and none
// that isn't there.
func TestCoverageIsPrinted(t *testing.T) {
	d := survivalCoverage()
	assert.Equal(t, []int{5, 10, 15, 20, 30, 40, 60}, d.Ns)
	printed := 0
	for _, row := range d.Rows {
		require.Len(t, row.Held, len(d.Ns), row.Interval)
		for _, held := range row.Held {
			assert.Regexp(t, `^(?:[5-9]\d|100)$`, held, row.Interval)
			printed++
		}
	}
	assert.Equal(t, len(survival.Coverage()), printed)
	// 0.7633 and 0.9119 of 5 and 10 a group, 0.9375 of five plants of which half live
	assert.Equal(t, coverageLine{"of a count (Wilson)", "share 50 in 100", []string{"94", "98", "96", "96", "96", "96", "95"}}, d.Rows[0])
	for _, row := range d.Rows {
		if row.Interval == intervalNames["difference"] {
			assert.Equal(t, []string{"76", "91"}, row.Held[:2])
		}
	}
	f := forecastCoverage()
	assert.Equal(t, d.Ns, f.Ns)
	assert.Equal(t, "80%, from one import", f.Rows[0].Interval)
	for _, row := range f.Rows {
		require.Len(t, row.Held, len(f.Ns), row.Interval)
	}
}
