package said

import (
	"fmt"
	"strconv"
	"strings"

	"wardian/build/cohort"
)

// Chance tells how often relabelling spreads losses at least as unevenly; or why
// that isn't told.
func Chance(r cohort.Comparison) string {
	t := r.Test
	if t.Reason != cohort.Tested {
		return NoP(r)
	}
	deal := "Deal the groups’ labels out anew among the plants of each import"
	if t.Parcels {
		deal = "Deal the groups’ labels out anew, to whole imports at a time"
	}
	words := fmt.Sprintf("%s: losses up to day %d at least this unevenly spread turn up in %s reshuffles of the labels (p %s: %s).", deal, r.Horizon, cohort.OneOf(t.P), cohort.TwoFigures(t.P), method(t))
	if t.HasAdjusted && t.Adjusted > t.P {
		words += fmt.Sprintf(" So many words were looked at that some spread unevenly by luck; with all of them counted, p is %s (Holm).", cohort.TwoFigures(t.Adjusted))
	}
	return words
}

// method names the test behind a p.
func method(t cohort.Test) string {
	words := "permutation log-rank"
	if t.Ordered {
		words += " for a trend over the ordered groups"
	}
	if t.Permutation.Draws > 0 {
		return words + fmt.Sprintf(", %d reshuffles drawn", t.Permutation.Draws)
	}
	return words + ", every reshuffle counted"
}

// NoP gives the reason why no p is told.
func NoP(r cohort.Comparison) string {
	t := r.Test
	switch t.Reason {
	case cohort.FewImports:
		return "No p: " + against(t.Imports) + ": whatever else differed between the parcels is in this difference."
	case cohort.FewLosses:
		return "No p: too few losses to tell."
	case cohort.NoLosses:
		return fmt.Sprintf("No p: nobody in these groups was lost by day %d.", r.Horizon)
	case cohort.NoSharedImport:
		return "No p: no import holds lines of two groups, so within imports there is nothing to compare."
	case cohort.HorizonAhead:
		return fmt.Sprintf("No p: not all groups have been followed to day %d yet.", r.Horizon)
	case cohort.LandmarkAtHorizon:
		return "No p: the last day compared isn’t after the day by which groups are formed."
	}
	return "No p: fewer than two groups of five lines or more."
}

// against sets numbers of imports against one another: "1 import against 2".
func against(imports []int) string {
	words := make([]string, len(imports))
	for n, k := range imports {
		words[n] = strconv.Itoa(k)
	}
	if len(words) > 0 {
		words[0] = Noun(imports[0], "import", "imports")
	}
	return strings.Join(words, " against ")
}
