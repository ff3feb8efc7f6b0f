package survival

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRestrictedMeanDifferenceReference(t *testing.T) {
	eachRecord(t, "rmst_diff", 5, func(t *testing.T, r record) {
		p := decode[common](t, r.Params)
		want := decode[struct {
			Groups             []string
			RMST, SE           []float64
			Diff               float64
			DiffSE             float64 `json:"diff_se"`
			Lower, Upper, Z, P float64
		}](t, r.Expected)
		rows := dataset(t, r.Dataset, p.Filter)
		names, _ := levels(rows, p.Group)
		require.Equal(t, want.Groups, names)
		var curves [2]Curve
		for i, name := range names {
			curves[i] = ProductLimit(subjectsOf(t, dataset(t, r.Dataset, map[string]any{p.Group: name})))
			m, ok := curves[i].RestrictedMean(p.Tau)
			require.True(t, ok)
			near(t, want.RMST[i], m.Days, 1e-9, "mean of %s", name)
			near(t, want.SE[i], m.StdError, 1e-9, "standard error of %s", name)
		}
		d, ok := RestrictedMeanDifference(curves[0], curves[1], p.Tau, p.Conf)
		require.True(t, ok)
		require.True(t, d.HasTest)
		near(t, want.Diff, d.Value, 1e-9, "difference")
		near(t, want.DiffSE, d.StdError, 1e-9, "standard error")
		near(t, want.Lower, d.Lower, 1e-9, "lower")
		near(t, want.Upper, d.Upper, 1e-9, "upper")
		near(t, want.Z, d.Z, 1e-9, "z")
		near(t, want.P, d.P, 1e-9, "p")
	})
}

func TestRestrictedMeanDifferenceWithoutSpread(t *testing.T) {
	whole := ProductLimit([]Subject{{84, false}, {84, false}})
	d, ok := RestrictedMeanDifference(whole, whole, 84, 0.95)
	assert.True(t, ok)
	assert.Equal(t, Difference{}, d, "no spread, no test, and no NaN")
	_, ok = RestrictedMeanDifference(whole, Curve{}, 84, 0.95)
	assert.False(t, ok)
}
