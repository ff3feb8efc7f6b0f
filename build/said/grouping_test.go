package said

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wardian/build/cohort"
)

// A group's name must say in a sentence what it is.
func TestGroupsInASentence(t *testing.T) {
	for _, c := range [][3]string{
		{"root-grade", "2", "grade 2"}, {"leaves", "0", "no leaves"}, {"leaves", "6+", "6+ leaves"}, {"transit", "8+", "8+ days"},
		{"leaves-cut", "0 %", "no leaf cut"}, {"leaves-cut", "1–33 %", "1–33 % of leaves cut"}, {"roots-cut", "0 %", "no root cut"}, {"roots-cut", "67–100 %", "67–100 % of roots cut"},
		{"soak", "none", "not soaked"}, {"soak", "over 24 h", "over 24 h in water"}, {"bottom-heat", "yes", "bottom heat"}, {"bottom-heat", "no", "no bottom heat"},
		{"rot-at-landmark", "none", "no rot"}, {"rot-at-landmark", "stem", "rot: stem"}, {"size", "small", "small"}, {"leaves", cohort.NotRecorded, cohort.NotRecorded},
	} {
		assert.Equal(t, c[2], Group(cohort.Grouping{Word: c[0]}, c[1]))
	}
}

// The reasons for no p, each in a sentence of its own.
func TestNoPSaysWhy(t *testing.T) {
	told := map[string]bool{}
	for reason := cohort.OneGroup; reason <= cohort.FewLosses; reason++ {
		r := cohort.Comparison{Horizon: 42, Test: cohort.Test{Reason: reason, Imports: []int{3, 1}}}
		words := NoP(r)
		assert.False(t, told[words], words)
		assert.Equal(t, words, Chance(r))
		told[words] = true
	}
	assert.True(t, told["No p: 3 imports against 1: whatever else differed between the parcels is in this difference."])
	assert.True(t, told["No p: too few losses to tell."])
}
