package opendata

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"wardian/build/cohort"
)

// The keys of a comparison, in their order. A pointer is null where there is no
// such figure. Shares are 0 to 1, days are whole or half days since arrival.
type (
	comparisonJSON struct {
		By       string      `json:"by"`
		Level    string      `json:"level"`
		Horizon  int         `json:"horizon"`
		Landmark *int        `json:"landmark"`
		Groups   []groupJSON `json:"groups"`
		Test     testJSON    `json:"test"`
		LogRank  logRankJSON `json:"logrank"`
		Hazard   hazardJSON  `json:"hazard"`
		Fisher   fisherJSON  `json:"fisher"`
		Costs    *costsJSON  `json:"costs"`
	}
	groupJSON struct {
		Name             string   `json:"name"`
		Imports          int      `json:"imports"`
		N                int      `json:"n"`
		Lost             int      `json:"lost"`
		Left             int      `json:"left"`
		AliveAt          *int     `json:"alive_at"`
		UnknownAt        *int     `json:"unknown_at"`
		Share            *float64 `json:"share"`
		Lower            *float64 `json:"lower"`
		Upper            *float64 `json:"upper"`
		Median           *float64 `json:"median"`
		MedianLower      *float64 `json:"median_lower"`
		MedianUpper      *float64 `json:"median_upper"`
		RestrictedMean   *float64 `json:"restricted_mean"`
		RestrictedMeanSE *float64 `json:"restricted_mean_se"`
		ExactLower       *float64 `json:"exact_lower"`
		ExactUpper       *float64 `json:"exact_upper"`
	}
	testJSON struct {
		Method           *string  `json:"method"`
		Statistic        *float64 `json:"statistic"`
		DegreesOfFreedom *int     `json:"degrees_of_freedom"`
		P                *float64 `json:"p"`
		PAdjusted        *float64 `json:"p_adjusted"`
		MonteCarloSE     *float64 `json:"monte_carlo_se"`
		Strata           *int     `json:"strata"`
		Contributing     *int     `json:"contributing"`
		Reason           *string  `json:"reason"`
	}
	logRankJSON struct {
		Statistic        *float64 `json:"statistic"`
		DegreesOfFreedom *int     `json:"degrees_of_freedom"`
		P                *float64 `json:"p"`
	}
	hazardJSON struct {
		Method    *string    `json:"method"`
		Reference *string    `json:"reference"`
		Terms     []termJSON `json:"terms"`
		Reason    *string    `json:"reason"`
	}
	fisherJSON struct {
		P      *float64 `json:"p"`
		Reason *string  `json:"reason"`
	}
	termJSON struct {
		Name  string   `json:"name"`
		Ratio float64  `json:"ratio"`
		Lower *float64 `json:"lower"`
		Upper *float64 `json:"upper"`
		P     float64  `json:"p"`
	}
)

// HazardMethod names how hazard ratios are fitted.
const HazardMethod = "Cox regression with Firth's penalty, Efron ties, import strata, profile limits"

// given is a value that is null unless it exists.
func given[T any](x T, exists bool) *T {
	if !exists {
		return nil
	}
	return &x
}

// ComparisonJSON writes a comparison as one JSON object; its costs are null where
// none are given.
func ComparisonJSON(r cohort.Comparison, costs *Costs) ([]byte, error) {
	out := comparisonJSON{
		By: r.By.Word, Level: r.By.Level.String(), Horizon: r.Horizon, Groups: []groupJSON{}, Costs: costsOf(r, costs),
		Test: testOf(r.Test), Hazard: hazardOf(r.Hazards),
		LogRank: logRankJSON{
			Statistic:        given(r.LogRank.Statistic, r.LogRank.Exists),
			DegreesOfFreedom: given(r.LogRank.DegreesOfFreedom, r.LogRank.Exists),
			P:                given(r.LogRank.P, r.LogRank.Exists),
		},
	}
	p, reason := r.Fisher()
	out.Fisher = fisherJSON{P: given(p, reason == ""), Reason: given(reason, reason != "")}
	if r.Landmark != nil {
		out.Landmark = &r.Landmark.Day
	}
	for _, g := range r.Groups {
		out.Groups = append(out.Groups, groupOf(g))
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(out)
	return b.Bytes(), err
}

func groupOf(g cohort.Group) groupJSON {
	told := g.State == cohort.Told
	limits := g.HasShare() && g.Row.HasLimits
	exact, counted := g.Exact()
	return groupJSON{
		Name: g.Name, Imports: len(g.Imports), N: g.N, Lost: g.Lost, Left: g.Left,
		AliveAt: given(g.Alive, g.Ripe), UnknownAt: given(g.Unknown, g.Ripe),
		Share: given(g.Row.Share, g.HasShare()), Lower: given(g.Row.Lower, limits), Upper: given(g.Row.Upper, limits),
		Median:         given(g.Median.Day, told && g.Median.Reached),
		MedianLower:    given(g.Median.Lower, told && g.Median.HasLower),
		MedianUpper:    given(g.Median.Upper, told && g.Median.HasUpper),
		RestrictedMean: given(g.Mean.Days, g.HasMean), RestrictedMeanSE: given(g.Mean.StdError, g.HasMean),
		ExactLower: given(exact.Lower, counted), ExactUpper: given(exact.Upper, counted),
	}
}

func testOf(t cohort.Test) testJSON {
	p := t.Permutation
	tested := t.Reason == cohort.Tested
	return testJSON{
		Method: given(MethodOf(t), t.Ran), Statistic: given(p.Statistic, t.Ran), DegreesOfFreedom: given(t.DegreesOfFreedom, t.Ran),
		P: given(t.P, tested), PAdjusted: given(t.Adjusted, t.HasAdjusted), MonteCarloSE: given(p.MonteCarloError, tested && p.Draws > 0),
		Strata: given(t.Strata, t.Ran), Contributing: given(t.Contributing, t.Ran), Reason: given(t.Reason.String(), !tested),
	}
}

// MethodOf names a test: what was relabelled, and whether every relabelling was
// counted or some were drawn.
func MethodOf(t cohort.Test) string {
	name, within := "permutation log-rank", "within imports"
	if t.Ordered {
		name = "permutation log-rank for trend"
	}
	if t.Parcels {
		within = "whole imports relabelled"
	}
	how := "every relabelling counted"
	if t.Permutation.Draws > 0 {
		how = fmt.Sprintf("%d relabellings drawn", t.Permutation.Draws)
	}
	return name + ", " + within + ", " + how
}

func hazardOf(h cohort.Hazards) hazardJSON {
	exists := h.Reason == ""
	out := hazardJSON{Method: given(HazardMethod, exists), Reference: given(h.Reference, exists), Terms: []termJSON{}, Reason: given(h.Reason, !exists)}
	for _, t := range h.Terms {
		out.Terms = append(out.Terms, termJSON{Name: t.Name, Ratio: t.Ratio, Lower: given(t.Lower, t.HasLower), Upper: given(t.Upper, t.HasUpper), P: t.P})
	}
	return out
}

// groupRow is one row of a comparison's CSV.
type groupRow struct {
	r cohort.Comparison
	g groupJSON
	t testJSON
	c costsJSON // read only where costs are given
	m groupCostJSON
}

func optional(x *float64) cell {
	if x == nil {
		return missing
	}
	return number(*x)
}

func optionalWhole(n *int) cell {
	if n == nil {
		return missing
	}
	return whole(*n)
}

var comparisonColumns = []column[groupRow]{
	{field{name: "by", kind: "string", required: true, says: "the word by which lines are grouped"}, func(r groupRow) cell { return text(r.r.By.Word) }},
	{field{name: "level", kind: "string", required: true, says: "whether the word is a fact of the parcel or of each plant", words: []string{"import", "specimen"}}, func(r groupRow) cell { return text(r.r.By.Level.String()) }},
	{field{name: "horizon", kind: "integer", unit: "days since arrival", required: true, says: "the day on which everything in the comparison ends"}, func(r groupRow) cell { return whole(r.r.Horizon) }},
	{field{name: "landmark", kind: "integer", unit: "days since arrival", says: "the day up to which records form groups; empty for words known on day 0"}, func(r groupRow) cell {
		if r.r.Landmark == nil {
			return missing
		}
		return whole(r.r.Landmark.Day)
	}},
	{field{name: "group", kind: "string", required: true, says: "the group"}, func(r groupRow) cell { return text(r.g.Name) }},
	{field{name: "imports", kind: "integer", unit: "imports", required: true, says: "imports with a line in the group"}, func(r groupRow) cell { return whole(r.g.Imports) }},
	{field{name: "n", kind: "integer", unit: "lines", required: true, says: "lines in the group"}, func(r groupRow) cell { return whole(r.g.N) }},
	{field{name: "lost", kind: "integer", unit: "lines", required: true, says: "lines found lost up to and on the horizon"}, func(r groupRow) cell { return whole(r.g.Lost) }},
	{field{name: "left", kind: "integer", unit: "lines", required: true, says: "lines that left alive before the horizon"}, func(r groupRow) cell { return whole(r.g.Left) }},
	{field{name: "alive_at", kind: "integer", unit: "lines", says: "lines known alive on the horizon; empty where a line hasn't been followed so far"}, func(r groupRow) cell { return optionalWhole(r.g.AliveAt) }},
	{field{name: "unknown_at", kind: "integer", unit: "lines", says: "lines whose state on the horizon is unknown; empty likewise"}, func(r groupRow) cell { return optionalWhole(r.g.UnknownAt) }},
	{field{name: "share", kind: "number", unit: "share", says: "share alive on the horizon: a count where nobody is unknown, else the product limit; empty for groups of under 5 lines, not recorded, or not followed so far"}, func(r groupRow) cell { return optional(r.g.Share) }},
	{field{name: "lower", kind: "number", unit: "share", says: "lower 95 % limit of the share: Wilson's for a count, log-log for a product limit"}, func(r groupRow) cell { return optional(r.g.Lower) }},
	{field{name: "upper", kind: "number", unit: "share", says: "upper 95 % limit, likewise"}, func(r groupRow) cell { return optional(r.g.Upper) }},
	{field{name: "median", kind: "number", unit: "days since arrival", says: "the day by which half were lost; empty where it wasn't reached by the horizon"}, func(r groupRow) cell { return optional(r.g.Median) }},
	{field{name: "median_lower", kind: "number", unit: "days since arrival", says: "lower 95 % limit of the median"}, func(r groupRow) cell { return optional(r.g.MedianLower) }},
	{field{name: "median_upper", kind: "number", unit: "days since arrival", says: "upper 95 % limit of the median"}, func(r groupRow) cell { return optional(r.g.MedianUpper) }},
	{field{name: "restricted_mean", kind: "number", unit: "days", says: "days alive on average, of those up to the horizon or the last day that every group with a curve has a line at risk"}, func(r groupRow) cell { return optional(r.g.RestrictedMean) }},
	{field{name: "restricted_mean_se", kind: "number", unit: "days", says: "its standard error"}, func(r groupRow) cell { return optional(r.g.RestrictedMeanSE) }},
	{field{name: "p", kind: "number", unit: "share", says: "the comparison's permutation p; the same in each of its rows, empty where there is none"}, func(r groupRow) cell { return optional(r.t.P) }},
	{field{name: "p_adjusted", kind: "number", unit: "share", says: "Holm's, over all words with a p on this horizon"}, func(r groupRow) cell { return optional(r.t.PAdjusted) }},
	{field{name: "reason", kind: "string", says: "why there is no p"}, func(r groupRow) cell {
		if r.t.Reason == nil {
			return missing
		}
		return text(*r.t.Reason)
	}},
}

// ComparisonCSV writes a comparison as a CSV, a row a group; where costs are given,
// with theirs.
func ComparisonCSV(r cohort.Comparison, costs *Costs) []byte {
	var rows []groupRow
	columns := comparisonColumns
	told := costsOf(r, costs)
	if told != nil {
		columns = append(slices.Clone(columns), costColumns...)
	}
	for n, g := range r.Groups {
		row := groupRow{r: r, g: groupOf(g), t: testOf(r.Test)}
		if told != nil {
			row.c, row.m = *told, told.Groups[n]
		}
		rows = append(rows, row)
	}
	return fillTable("comparison", "A row is a group of a comparison.", columns, rows).data
}
