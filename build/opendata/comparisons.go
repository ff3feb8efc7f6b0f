package opendata

import (
	"slices"

	"wardian/build/cohort"
)

// comparedRow is one row of comparisons.csv.
type comparedRow struct {
	r cohort.Comparison
	t testJSON
}

// withoutTest are the columns of groups.csv: what a comparison's test gave stands
// once, in comparisons.csv.
func withoutTest() []column[groupRow] {
	return slices.DeleteFunc(slices.Clone(comparisonColumns), func(c column[groupRow]) bool {
		return c.name == "p" || c.name == "p_adjusted" || c.name == "reason"
	})
}

var comparedColumns = []column[comparedRow]{
	{field{name: "by", kind: "string", required: true, says: "the word by which lines are grouped"}, func(r comparedRow) cell { return text(r.r.By.Word) }},
	{field{name: "level", kind: "string", required: true, says: "whether the word is a fact of the parcel or of each plant", words: []string{"import", "specimen"}}, func(r comparedRow) cell { return text(r.r.By.Level.String()) }},
	{field{name: "horizon", kind: "integer", unit: "days since arrival", required: true, says: "the day on which everything in the comparison ends"}, func(r comparedRow) cell { return whole(r.r.Horizon) }},
	{field{name: "landmark", kind: "integer", unit: "days since arrival", says: "the day up to which records form groups; empty for words known on day 0"}, func(r comparedRow) cell {
		if r.r.Landmark == nil {
			return missing
		}
		return whole(r.r.Landmark.Day)
	}},
	{field{name: "method", kind: "string", says: "the test and what was relabelled; empty where there was nothing to relabel"}, func(r comparedRow) cell {
		if r.t.Method == nil {
			return missing
		}
		return text(*r.t.Method)
	}},
	{field{name: "statistic", kind: "number", unit: "lines for two groups, else none", says: "losses of the first group over those expected if all groups were alike, for two groups; else the quadratic form"}, func(r comparedRow) cell { return optional(r.t.Statistic) }},
	{field{name: "degrees_of_freedom", kind: "integer", unit: "count", says: "1 for two groups and for a trend, else the groups tied to one another less one"}, func(r comparedRow) cell { return optionalWhole(r.t.DegreesOfFreedom) }},
	{field{name: "p", kind: "number", unit: "share", says: "share of relabellings with losses at least this unevenly spread, the one seen among them"}, func(r comparedRow) cell { return optional(r.t.P) }},
	{field{name: "p_adjusted", kind: "number", unit: "share", says: "Holm's, over all words with a p on this horizon"}, func(r comparedRow) cell { return optional(r.t.PAdjusted) }},
	{field{name: "monte_carlo_se", kind: "number", unit: "share", says: "standard error of p where relabellings were drawn; empty where all were counted"}, func(r comparedRow) cell { return optional(r.t.MonteCarloSE) }},
	{field{name: "strata", kind: "integer", unit: "imports", says: "imports within which lines were relabelled; 1 where whole imports were"}, func(r comparedRow) cell { return optionalWhole(r.t.Strata) }},
	{field{name: "contributing", kind: "integer", unit: "lines or imports", says: "lines of imports that hold two groups; imports where whole imports were relabelled"}, func(r comparedRow) cell { return optionalWhole(r.t.Contributing) }},
	{field{name: "reason", kind: "string", says: "why there is no p"}, func(r comparedRow) cell {
		if r.t.Reason == nil {
			return missing
		}
		return text(*r.t.Reason)
	}},
}

// comparisons writes comparisons.csv, a row a word, and groups.csv, a row a group,
// of all imports that may be pooled, in the order of the words. Without a line
// there are no rows.
func comparisons(compared []cohort.Comparison) (words, groups resource) {
	var rows []comparedRow
	var parts []groupRow
	for _, r := range compared {
		if len(r.Scope.Lines) == 0 {
			continue
		}
		t := testOf(r.Test)
		rows = append(rows, comparedRow{r, t})
		for _, g := range r.Groups {
			parts = append(parts, groupRow{r: r, g: groupOf(g), t: t})
		}
	}
	words = fillTable("comparisons", "A row is a word by which all imports together are compared, on one day.", comparedColumns, rows)
	words.key = []string{"by"}
	groups = fillTable("groups", "A row is a group of a comparison.", withoutTest(), parts)
	words.from, groups.from = workedOut, workedOut
	groups.key = []string{"by", "group"}
	groups.foreign = []foreignKey{{field: "by", resource: "comparisons", of: "by"}}
	return words, groups
}
