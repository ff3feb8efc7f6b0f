package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"wardian/build/cohort"
)

// What is said of a comparison, in this order: counts on one denominator, alive
// and lost; the difference with its limits; how often chance alone spreads losses
// so, from the same number that the p is; what can't be said. No sentence names a
// reason for a difference: plants weren't dealt out by lot.

// comparisonLead says who is compared, and on what day it all ends.
func comparisonLead(r cohort.Comparison) string {
	words := fmt.Sprintf("%s of %s, side by side, followed to day %d and no further.", upper(nounInWords(len(r.Scope.Lines), "line", "lines")), nounInWords(len(r.Scope.Imports), "import", "imports"), r.Horizon)
	if r.By.Level == cohort.OfImport {
		words += " This is one fact a parcel, not one a plant."
	}
	return words
}

// howGrouped says how the groups are formed and who stands in none.
func howGrouped(r cohort.Comparison) string {
	var says []string
	switch m := r.Landmark; {
	case m != nil:
		says = append(says, fmt.Sprintf("Groups as of day %d, from what was written down by then; the axis still counts from arrival, and the curves start on day %d. %s in.", m.Day, m.Day, upper(nounInWords(m.In, "line stands", "lines stand"))))
		var out []string
		for _, p := range []struct {
			n     int
			words string
		}{{m.Lost, "lost by then"}, {m.OnArrival, "found dead on unpacking, later than that"}, {m.Unseen, "not seen since before it"}, {m.Listed, "from a list, which tells of no treatment"}} {
			if p.n > 0 {
				out = append(out, inWords(p.n)+" "+p.words)
			}
		}
		if len(out) > 0 {
			says = append(says, "Left out: "+list(out)+".")
		}
		if m.Between > 0 {
			says = append(says, fmt.Sprintf("%s last seen before day %d and found lost after it.", upper(inWords(m.Between)), m.Day))
		}
	case r.By.Level == cohort.OfImport:
		says = append(says, "Known of the parcel when it came.")
	default:
		says = append(says, "Known of each plant on arrival.")
	}
	if s := r.Split; s != nil {
		says = append(says, fmt.Sprintf("Parted at the median, %s cm of root for each cm² of leaf, of %s.", strconv.FormatFloat(s.Median, 'g', 2, 64), noun(s.Of, "line", "lines")))
		if s.Others > 0 {
			says = append(says, fmt.Sprintf("%s another kind of root length and can’t be set beside these.", upper(nounInWords(s.Others, "line has", "lines have"))))
		}
	}
	if n := r.FollowedLate; n > 0 {
		says = append(says, fmt.Sprintf("%s left out: the diary of their import began late and knows survivors only.", upper(nounInWords(n, "line is", "lines are"))))
	}
	if n := r.Undated; n > 0 {
		says = append(says, fmt.Sprintf("%s left out: no day is known of them.", upper(nounInWords(n, "plant is", "plants are"))))
	}
	return strings.Join(says, " ")
}

// comparisonSays are the sentences that a comparison's page leads with.
func comparisonSays(r cohort.Comparison) []string {
	var says []string
	if counts := countsSay(r); counts != "" {
		says = append(says, counts)
	}
	if d := differenceSays(r); d != "" {
		says = append(says, d)
	}
	return append(says, chanceSays(r))
}

// shared are the groups that have a share on the horizon.
func shared(r cohort.Comparison) (out []int) {
	for n, g := range r.Groups {
		if g.HasShare() {
			out = append(out, n)
		}
	}
	return out
}

// countsSay gives each group's living and lost, of all its lines.
func countsSay(r cohort.Comparison) string {
	var parts []string
	for _, n := range shared(r) {
		g := r.Groups[n]
		words := fmt.Sprintf("%s: %s %s and %s lost", g.Name, ofCount(g.Alive, g.N), aliveWord(g.Row), inWords(g.Lost))
		if g.Unknown > 0 {
			words += fmt.Sprintf(", of %s nothing is known by then", inWords(g.Unknown))
		}
		parts = append(parts, words)
	}
	if len(parts) == 0 {
		return ""
	}
	return fmt.Sprintf("On day %d, %s.", r.Horizon, strings.Join(parts, "; "))
}

// differenceSays is the difference of two groups with its limits, of a hundred
// plants each; "" where there aren't exactly two, or it has no limits.
func differenceSays(r cohort.Comparison) string {
	two := shared(r)
	if len(two) != 2 {
		return ""
	}
	a, b := two[0], two[1]
	if r.Groups[a].Row.Share < r.Groups[b].Row.Share {
		a, b = b, a
	}
	value, lower, upper, ok := r.Difference(a, b)
	if !ok {
		return ""
	}
	if math.Round(100*value) == 0 {
		return fmt.Sprintf("Of a hundred plants each that would be as many alive under “%s” as under “%s”; the 95%% limits run from %s to %s.",
			r.Groups[a].Name, r.Groups[b].Name, moreFewer(lower), moreFewer(upper))
	}
	return fmt.Sprintf("Of a hundred plants each that would be %s alive under “%s” than under “%s”; the 95%% limits run from %s to %s.",
		moreFewer(value), r.Groups[a].Name, r.Groups[b].Name, moreFewer(lower), moreFewer(upper))
}

// moreFewer writes a difference of shares as plants in a hundred.
func moreFewer(share float64) string {
	switch n := int(math.Round(100 * share)); {
	case n < 0:
		return itoa(-n) + " fewer"
	case n == 0:
		return "no more"
	default:
		return itoa(n) + " more"
	}
}

// chanceSays tells how often relabelling spreads losses at least as unevenly; or
// why it isn't told.
func chanceSays(r cohort.Comparison) string {
	t := r.Test
	if t.Reason != cohort.Tested {
		return noPSays(r)
	}
	what := "the labels within each import"
	if t.Parcels {
		what = "the labels, whole imports at a time"
	}
	words := fmt.Sprintf("Losses up to day %d at least this unevenly spread turn up in %s reshuffles of %s (p %s: %s).", r.Horizon, cohort.OneOf(t.P), what, cohort.TwoFigures(t.P), methodWords(t))
	if t.HasAdjusted && t.Adjusted > t.P {
		words += fmt.Sprintf(" So many words were looked at that some spread unevenly by luck; with all of them counted, p is %s (Holm).", cohort.TwoFigures(t.Adjusted))
	}
	return words
}

// methodWords name the test behind a p.
func methodWords(t cohort.Test) string {
	words := "permutation log-rank"
	if t.Ordered {
		words += " for a trend over the ordered groups"
	}
	if t.Permutation.Draws > 0 {
		return words + fmt.Sprintf(", %d reshuffles drawn", t.Permutation.Draws)
	}
	return words + ", every reshuffle counted"
}

// noPSays gives the reason why no p is told.
func noPSays(r cohort.Comparison) string {
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
		words[n] = itoa(k)
	}
	if len(words) > 0 {
		words[0] = noun(imports[0], "import", "imports")
	}
	return strings.Join(words, " against ")
}

// landmarkSentence stands under every comparison of what the grower did.
const landmarkSentence = "The grower chose which plants got this; the choice may have followed how they looked."

// comparisonAside is what stands small below: what can't be said.
func comparisonAside(r cohort.Comparison) []string {
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
		says = append(says, fmt.Sprintf("Only imports that hold two groups can tell: %s in %s.", noun(t.Contributing, "line", "lines"), noun(t.Strata, "import", "imports")))
	}
	if t.HalfKnown > 0 {
		says = append(says, fmt.Sprintf("%s out of the test: the arrival is half known.", upper(nounInWords(t.HalfKnown, "line stays", "lines stay"))))
	}
	if len(r.Scope.Imports) > 1 && len(shared(r)) > 0 {
		says = append(says, "The limits are as if plants of one parcel were independent; they aren’t, so read them as too narrow.")
	}
	return says
}

// otherLandmarkSays is the same comparison at another landmark, in a line.
func otherLandmarkSays(r cohort.Comparison) string {
	var parts []string
	for _, n := range shared(r) {
		g := r.Groups[n]
		parts = append(parts, fmt.Sprintf("%s %s %s", g.Name, ofCount(g.Alive, g.N), aliveWord(g.Row)))
	}
	words := "no group of five lines or more has been followed so far"
	if len(parts) > 0 {
		words = strings.Join(parts, "; ")
	}
	words = fmt.Sprintf("With groups as of day %d instead: %s", r.Landmark.Day, words)
	if r.Test.Reason == cohort.Tested {
		return words + "; p " + cohort.TwoFigures(r.Test.P) + "."
	}
	return words + "; no p."
}
