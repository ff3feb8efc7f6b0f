package main

import (
	"fmt"
	"strconv"
	"strings"
	"text/tabwriter"

	"wardian/build/cohort"
	"wardian/build/opendata"
	english "wardian/build/said"
)

// told prints a comparison: who is compared, the table, and the sentences that pages
// say of it (build/said).
func told(v voice, r cohort.Comparison, beside []cohort.Comparison, costs *opendata.Costs) error {
	var b strings.Builder
	fmt.Fprintf(&b, "by %s, of %s\n", r.By.Word, scopeWords(r.Scope))
	lines(&b, english.Lead(r))
	lines(&b, english.Formed(r)...)
	b.WriteString("\n")
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "%s\timports\tlines\talive\tlost\tunknown\talive on day %d, 95%% limits\thalf lost by\tdays alive of %d\n", r.By.Word, r.Horizon, r.Tau)
	for _, g := range r.Groups {
		alive, unknown := "not yet", "not yet"
		if g.Ripe {
			alive, unknown = strconv.Itoa(g.Alive), strconv.Itoa(g.Unknown)
		}
		fmt.Fprintf(t, "%s\t%d\t%d\t%s\t%d\t%s\t%s\t%s\t%s\n", g.Name, len(g.Imports), g.N, alive, g.Lost, unknown, shareWords(g), medianWords(r, g), meanWords(g))
	}
	t.Flush()
	b.WriteString("\n")
	lines(&b, english.Comparison(r)...)
	if r.Test.Reason == cohort.HorizonAhead {
		if day, ok := r.Scope.SameAge(); ok {
			lines(&b, fmt.Sprintf("The youngest import is at day %d: --at %d compares all at that age.", day, day))
		}
	}
	lines(&b, english.Aside(r)...)
	for _, o := range beside {
		lines(&b, english.OtherLandmark(o))
	}
	if costs != nil {
		costTable(&b, r, *costs)
	}
	_, err := fmt.Fprint(v.out, unsteered(b.String()))
	return err
}

// lines writes sentences, one a line.
func lines(b *strings.Builder, sentences ...string) {
	for _, s := range sentences {
		b.WriteString(s + "\n")
	}
}

func scopeWords(s cohort.Scope) string {
	if s.Name == "all" {
		return "all imports"
	}
	return s.Name
}

// shareWords is a group's share alive as a count of its lines, or where some are
// unknown the range and the product limit.
func shareWords(g cohort.Group) string {
	limits := english.Limits(g.Row.Lower, g.Row.Upper)
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
		return english.Of(g.Alive, g.N) + ", " + limits
	}
	words := fmt.Sprintf("between %d and %d of %d; product limit %s", g.Row.Least, g.Row.Most, g.N, english.Percent(g.Row.Share))
	if g.Row.HasLimits {
		words += ", " + limits
	}
	return words
}

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
