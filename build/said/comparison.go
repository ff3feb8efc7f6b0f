package said

import (
	"fmt"
	"strings"

	"wardian/build/cohort"
)

// Comparison is what is said first of groups side by side: their counts, their
// differences, and how often chance spreads losses so or why that isn't told.
func Comparison(r cohort.Comparison) []string {
	var says []string
	if counts := Counts(r); counts != "" {
		says = append(says, counts)
	}
	says = append(says, Differences(r)...)
	return append(says, Chance(r))
}

// WithShare are the groups that have a share on the last day compared, by their
// place among the comparison's groups.
func WithShare(r cohort.Comparison) (out []int) {
	for n, g := range r.Groups {
		if g.HasShare() {
			out = append(out, n)
		}
	}
	return out
}

// Alive is what a count of the living may claim: where the state of some is
// unknown, it counts those known alive.
func Alive(r cohort.Row) string {
	if r.Kind == cohort.Counted {
		return "alive"
	}
	return "known alive"
}

// Counts gives each group's living and lost, of all its lines; "" where no group
// has a share.
func Counts(r cohort.Comparison) string {
	var parts []string
	for _, n := range WithShare(r) {
		g := r.Groups[n]
		words := fmt.Sprintf("%s, %s %s and %s lost", Group(r.By, g.Name), Of(g.Alive, g.N), Alive(g.Row), InWords(g.Lost))
		if g.Unknown > 0 {
			words += fmt.Sprintf(" (of %s nothing is known by then)", InWords(g.Unknown))
		}
		parts = append(parts, words)
	}
	if len(parts) == 0 {
		return ""
	}
	return fmt.Sprintf("On day %d: %s.", r.Horizon, strings.Join(parts, "; "))
}

// landmarkSentence stands under every comparison of what the grower did.
const landmarkSentence = "The grower chose which plants got this; the choice may have followed how they looked."

// Aside is what stands small below: what a comparison can't say.
func Aside(r cohort.Comparison) []string {
	var says []string
	t := r.Test
	if r.By.Landmark {
		says = append(says, landmarkSentence)
	}
	if r.By.Level == cohort.OfImport && t.Reason != cohort.FewImports {
		says = append(says, "Whatever else differed between the parcels is in this difference.")
	}
	if r.By.Level == cohort.OfSpecimen && !r.By.Landmark {
		says = append(says, "Plants weren’t dealt into these groups by lot: whatever else the groups differ in is in this difference too.")
	}
	if t.Ran && !t.Parcels && t.Contributing > 0 {
		says = append(says, fmt.Sprintf("Only imports that hold two groups can tell: %s in %s.", Noun(t.Contributing, "line", "lines"), Noun(t.Strata, "import", "imports")))
	}
	if t.HalfKnown > 0 {
		says = append(says, fmt.Sprintf("%s out of the test: the arrival is half known.", Upper(NounInWords(t.HalfKnown, "line stays", "lines stay"))))
	}
	if len(r.Scope.Imports) > 1 && len(WithShare(r)) > 0 {
		says = append(says, "The limits are as if plants of one parcel were independent; they aren’t, so read them as too narrow.")
	}
	return says
}

// OtherLandmark is the same comparison at another landmark, in a line. It is for a
// comparison by landmark alone.
func OtherLandmark(r cohort.Comparison) string {
	var parts []string
	for _, n := range WithShare(r) {
		g := r.Groups[n]
		parts = append(parts, fmt.Sprintf("%s %s %s", Group(r.By, g.Name), Of(g.Alive, g.N), Alive(g.Row)))
	}
	words := "no group of five lines or more has been followed so far"
	if len(parts) > 0 {
		words = strings.Join(parts, "; ")
	}
	words = fmt.Sprintf("With groups as of day %d instead: %s", r.Landmark.Day, words)
	if r.Test.Reason == cohort.Tested {
		return words + fmt.Sprintf("; p %s (%s).", cohort.TwoFigures(r.Test.P), method(r.Test))
	}
	return words + "; no p."
}
