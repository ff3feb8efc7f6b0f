package cohort

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// aml is the data set of that name in build/survival/testdata/datasets (Miller
// 1981, Survival Analysis, p. 49; Embury et al. 1977), its weeks written as days of
// a diary of one box: a loss, or "passed on" where the patient was censored.
func aml(t *testing.T) *Cohort {
	text := "import box 2026-03-09\n"
	for _, arm := range []struct {
		name string
		time []int
		lost []bool
	}{
		{"Maintained", []int{9, 13, 13, 18, 23, 28, 31, 34, 45, 48, 161}, []bool{true, true, false, true, true, false, true, true, false, true, false}},
		{"Nonmaintained", []int{5, 5, 8, 8, 12, 16, 23, 27, 30, 33, 43, 45}, []bool{true, true, true, true, true, false, true, true, true, true, true, true}},
	} {
		for n, day := range arm.time {
			end := "passed on"
			if arm.lost[n] {
				end = "lost"
			}
			text += fmt.Sprintf("p-%s-%d {traits: {arm: %s}}: 0 firm; %d %s\n", string(arm.name[0]|0x20), n, arm.name, day, end)
		}
	}
	return kept(t, text)
}

// Expected: R 4.2.2, survival 3.5-3, by the records of build/survival/testdata:
// logrank_permutation/aml/all/arm (all 1 352 078 relabellings), logrank/aml/all/arm,
// cox_firth/aml/all/arm=Nonmaintained/efron (its group as covariate, here as the
// reference: ratio and limits inverted), km/aml/arm=…, rmst_diff/aml/all/arm/tau=45.
func TestACompareOfPublishedData(t *testing.T) {
	c := aml(t)
	r := c.Compare(c.All(), c.by(t, "arm"), 161, 3)
	require.Len(t, r.Groups, 2)
	assert.InEpsilon(t, -3.6893359923007245, r.Test.Permutation.Statistic, 1e-9)
	assert.InEpsilon(t, 0.06469301327290289, r.Test.P, 1e-8)
	assert.Zero(t, r.Test.Permutation.Draws)
	assert.InEpsilon(t, 3.3963886989776007, r.LogRank.Statistic, 1e-9)
	assert.InEpsilon(t, 0.06533932204050513, r.LogRank.P, 1e-8)

	require.Equal(t, "Nonmaintained", r.Hazards.Reference, "the largest group")
	require.Len(t, r.Hazards.Terms, 1)
	h := r.Hazards.Terms[0]
	assert.InEpsilon(t, 1/2.411066623146223, h.Ratio, 1e-6)
	assert.InEpsilon(t, math.Exp(-1.9135197972982143), h.Lower, 1e-6)
	assert.InEpsilon(t, math.Exp(0.06609984358869077), h.Upper, 1e-6)
	assert.InEpsilon(t, 0.06848625376622416, h.P, 1e-6)

	maintained, other := r.Groups[0], r.Groups[1]
	assert.Equal(t, []int{11, 7, 4}, []int{maintained.N, maintained.Lost, maintained.Left + maintained.Alive})
	assert.Equal(t, 31.0, maintained.Median.Day)
	assert.Equal(t, 13.0, maintained.Median.Lower)
	assert.Equal(t, 23.0, other.Median.Day)
	assert.InEpsilon(t, 0.18409090909090908, maintained.Curve.At(161).Share, 1e-12)

	r = c.Compare(c.All(), c.by(t, "arm"), 45, 3)
	assert.Equal(t, 45, r.Tau)
	for n, want := range [][2]float64{{30.738636363636363, 4.114086240011467}, {22.708333333333336, 4.180941981033154}} {
		assert.InEpsilon(t, want[0], r.Groups[n].Mean.Days, 1e-9)
		assert.InEpsilon(t, want[1], r.Groups[n].Mean.StdError, 1e-9)
	}
}
