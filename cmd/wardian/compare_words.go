package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"

	"wardian/build/cohort"
	"wardian/build/opendata"
)

// told prints a comparison as a table with its sentences: counts first, then how
// often chance alone spreads losses so unevenly, then what can't be said.
func told(v voice, r cohort.Comparison, beside []cohort.Comparison, costs *opendata.Costs) error {
	var b strings.Builder
	fmt.Fprintf(&b, "by %s, followed to day %d since arrival", r.By.Word, r.Horizon)
	if r.Landmark != nil {
		fmt.Fprintf(&b, ", groups as of day %d", r.Landmark.Day)
	}
	fmt.Fprintf(&b, "\nof %s: %s in %s\n", scopeWords(r.Scope), counted(len(r.Scope.Lines), "line", "lines"), counted(len(r.Scope.Imports), "import", "imports"))
	if r.Landmark != nil {
		b.WriteString(landmarkWords(*r.Landmark))
	}
	if r.Split != nil {
		fmt.Fprintf(&b, "the median is %s cm of root a cm² of leaf, of %s; %d with another kind of root length aren't compared\n",
			strconv.FormatFloat(r.Split.Median, 'g', 2, 64), counted(r.Split.Of, "line", "lines"), r.Split.Others)
	}
	b.WriteString("\n")
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "%s\timports\tlines\talive\tlost\tunknown\talive on day %d, 95 %% limits\thalf lost by\tdays alive of %d\n", r.By.Word, r.Horizon, r.Tau)
	for _, g := range r.Groups {
		alive, unknown := "not yet", "not yet"
		if g.Ripe {
			alive, unknown = strconv.Itoa(g.Alive), strconv.Itoa(g.Unknown)
		}
		fmt.Fprintf(t, "%s\t%d\t%d\t%s\t%d\t%s\t%s\t%s\t%s\n", g.Name, len(g.Imports), g.N, alive, g.Lost, unknown, shareWords(g), medianWords(r, g), meanWords(g))
	}
	t.Flush()
	b.WriteString("\n")
	for _, sentence := range sentences(r) {
		b.WriteString(sentence + "\n")
	}
	for _, o := range beside {
		b.WriteString(besideWords(o) + "\n")
	}
	if costs != nil {
		costTable(&b, r, *costs)
	}
	_, err := fmt.Fprint(v.out, unsteered(b.String()))
	return err
}

func scopeWords(s cohort.Scope) string {
	if s.Name == "all" {
		return "all imports"
	}
	return s.Name
}

func landmarkWords(m cohort.Landmark) string {
	return fmt.Sprintf("%s in; left out: %d lost by day %d, %d found dead on unpacking later, %d not seen since before it, %d from a list; %d last seen before day %d and found lost after it\n",
		counted(m.In, "line", "lines"), m.Lost, m.Day, m.OnArrival, m.Unseen, m.Listed, m.Between, m.Day)
}

// shareWords is a group's share alive as a count of its lines, or where some are
// unknown the range and the product limit.
func shareWords(g cohort.Group) string {
	limits := fmt.Sprintf("%s to %s %%", hundredths(g.Row.Lower), hundredths(g.Row.Upper))
	switch {
	case g.State == cohort.Small:
		return "under 5 lines"
	case g.State == cohort.NotRecordedThere:
		return ""
	case g.State == cohort.Unripe:
		return "not yet"
	case !g.HasShare():
		return "–"
	case g.Row.Kind == cohort.Counted:
		return fmt.Sprintf("%d of %d, %s", g.Alive, g.N, limits)
	}
	said := fmt.Sprintf("between %d and %d of %d; product limit %s %%", g.Row.Least, g.Row.Most, g.N, hundredths(g.Row.Share))
	if g.Row.HasLimits {
		return said + ", " + limits
	}
	return said
}

func hundredths(share float64) string { return strconv.Itoa(int(math.Round(100 * share))) }

func medianWords(r cohort.Comparison, g cohort.Group) string {
	switch {
	case g.State != cohort.Told:
		return ""
	case !g.Median.Reached:
		return fmt.Sprintf("more than half alive on day %s", dayWords(min(g.Curve.LastDay(), float64(r.Horizon))))
	}
	return "day " + dayWords(g.Median.Day)
}

func dayWords(day float64) string { return strconv.FormatFloat(day, 'g', -1, 64) }

func meanWords(g cohort.Group) string {
	if !g.HasMean {
		return ""
	}
	return strconv.FormatFloat(g.Mean.Days, 'f', 0, 64)
}

// sentences are what is said below the table.
func sentences(r cohort.Comparison) []string {
	var out []string
	t := r.Test
	if told := toldGroups(r); len(told) == 2 {
		if d, lower, upper, ok := r.Difference(told[0], told[1]); ok {
			out = append(out, fmt.Sprintf("alive on day %d, %s less %s: %+.0f of 100, 95 %% limits %+.0f to %+.0f",
				r.Horizon, r.Groups[told[0]].Name, r.Groups[told[1]].Name, 100*d, 100*lower, 100*upper))
		}
	}
	switch {
	case len(r.Groups) == 0:
		out = append(out, "no lines to compare")
	case t.Reason == cohort.Tested:
		out = append(out,
			fmt.Sprintf("losses up to day %d at least this unevenly spread turn up in %s reshuffles of the labels", r.Horizon, cohort.OneOf(t.P)),
			fmt.Sprintf("p %s: %s", cohort.TwoFigures(t.P), opendata.MethodOf(t)))
		if t.HasAdjusted {
			out = append(out, fmt.Sprintf("p %s after Holm, for all words with a p on day %d", cohort.TwoFigures(t.Adjusted), r.Horizon))
		}
	case t.Reason == cohort.FewImports:
		out = append(out, fmt.Sprintf("no p: %s. Whatever else differed between the parcels is in this difference", againstWords(t.Imports)))
	case t.Reason == cohort.HorizonAhead:
		said := "no p: " + t.Reason.String()
		if day, ok := r.Scope.SameAge(); ok {
			said += fmt.Sprintf("; the youngest import is at day %d: --at %d compares all at that age", day, day)
		}
		out = append(out, said)
	default:
		out = append(out, "no p: "+t.Reason.String())
	}
	if t.Ran && !t.Parcels && t.Contributing > 0 {
		out = append(out, fmt.Sprintf("%s of imports that hold two groups tell; the others can't", counted(t.Contributing, "line", "lines")))
	}
	if t.HalfKnown > 0 {
		out = append(out, fmt.Sprintf("%s of a half-known arrival stay out of the test", counted(t.HalfKnown, "line", "lines")))
	}
	if r.FollowedLate > 0 {
		out = append(out, fmt.Sprintf("%s left out: the diary of their import began late and lists survivors only", counted(r.FollowedLate, "line", "lines")))
	}
	if r.Undated > 0 {
		out = append(out, fmt.Sprintf("%s left out: their list gives no day", counted(r.Undated, "line", "lines")))
	}
	if r.By.Landmark {
		out = append(out, "the grower chose which plants got this; the choice may have followed how they looked")
	}
	if len(r.Scope.Imports) > 1 {
		out = append(out, "limits as if plants of one parcel were independent; they aren't, so read them as too narrow")
	}
	return out
}

func toldGroups(r cohort.Comparison) (out []int) {
	for n, g := range r.Groups {
		if g.State == cohort.Told {
			out = append(out, n)
		}
	}
	return out
}

func againstWords(imports []int) string {
	words := make([]string, len(imports))
	for n, k := range imports {
		words[n] = strconv.Itoa(k)
	}
	words[0] = counted(imports[0], "import", "imports")
	return strings.Join(words, " against ")
}

// besideWords is the same comparison at another landmark, in a line.
func besideWords(r cohort.Comparison) string {
	var groups []string
	for _, g := range r.Groups {
		if g.State == cohort.Told && g.HasShare() {
			groups = append(groups, g.Name+" "+shareWords(g))
		}
	}
	said := fmt.Sprintf("with groups as of day %d: %s", r.Landmark.Day, strings.Join(groups, "; "))
	if len(groups) == 0 {
		said = fmt.Sprintf("with groups as of day %d: no group of 5 lines or more", r.Landmark.Day)
	}
	if r.Test.Reason == cohort.Tested {
		return said + "; p " + cohort.TwoFigures(r.Test.P)
	}
	return said + "; no p"
}
