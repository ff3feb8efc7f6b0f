package cohort

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
)

// exampleCohort is the invented example diary, all of it.
func exampleCohort(t testing.TB) *Cohort {
	t.Helper()
	d, report, err := content.Load(example.Files(), content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors())
	return At(d, measure.NoDay)
}

// One word at a time, as the seasons page asks for all of them.
func BenchmarkCompareExample(b *testing.B) {
	c := exampleCohort(b)
	for _, by := range c.Groupings() {
		b.Run(by.Word, func(b *testing.B) {
			for b.Loop() {
				c.Compare(c.All(), by, 42, 3)
			}
		})
	}
}
