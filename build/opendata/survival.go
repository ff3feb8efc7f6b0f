package opendata

import (
	"wardian/build/cohort"
)

// curveRow is one row of survival.csv.
type curveRow struct {
	scope, by, group       string
	day                    int
	atRisk, lost, left     int
	share, stdError        float64
	lower, upper           float64
	hasLimits, hasStdError bool
}

var survivalColumns = []column[curveRow]{
	{field{name: "scope", kind: "string", required: true, says: "all imports that may be pooled (all), or one import's ID"}, func(r curveRow) cell { return text(r.scope) }},
	{field{name: "group_by", kind: "string", says: "by what the scope is parted; empty for the whole scope", words: []string{"season"}}, func(r curveRow) cell { return text(r.by) }},
	{field{name: "group", kind: "string", says: "the group; empty for the whole scope"}, func(r curveRow) cell { return text(r.group) }},
	{field{name: "day", kind: "integer", unit: "days since arrival", required: true, says: "day 0, or a day with a loss or a leaving"}, func(r curveRow) cell { return whole(r.day) }},
	{field{name: "at_risk", kind: "integer", unit: "lines", required: true, says: "lines under watch on this day or longer"}, func(r curveRow) cell { return whole(r.atRisk) }},
	{field{name: "lost", kind: "integer", unit: "lines", required: true, says: "lines found lost on this day"}, func(r curveRow) cell { return whole(r.lost) }},
	{field{name: "left", kind: "integer", unit: "lines", required: true, says: "lines that left alive on this day: passed on, not seen since, never looked at, or still under watch on the as-of day"}, func(r curveRow) cell { return whole(r.left) }},
	{field{name: "share", kind: "number", unit: "share", required: true, says: "product-limit share alive after this day's losses (Kaplan and Meier 1958)"}, func(r curveRow) cell { return number(r.share) }},
	{field{name: "std_error", kind: "number", unit: "share", says: "Greenwood's standard error of the share; empty once the share is 0"}, func(r curveRow) cell { return maybe(r.stdError, r.hasStdError) }},
	{field{name: "lower", kind: "number", unit: "share", says: "lower 95 % log-log limit; empty while the share is 1 or 0"}, func(r curveRow) cell { return maybe(r.lower, r.hasLimits) }},
	{field{name: "upper", kind: "number", unit: "share", says: "upper 95 % log-log limit; empty while the share is 1 or 0"}, func(r curveRow) cell { return maybe(r.upper, r.hasLimits) }},
}

// survivalCurves writes survival.csv: the product-limit share alive of every
// scope and group, a row for day 0 and each day with a loss or a leaving,
// ascending. The unit is the line as received. First all imports that may be
// pooled, whole and by season, then each import by its ID, all in order of their
// bytes; what has no lines has no rows.
func survivalCurves(c *cohort.Cohort) resource {
	rows := curveRows(nil, "all", "", "", c.All())
	for _, season := range c.Seasons() {
		rows = curveRows(rows, "all", "season", season, c.Season(season))
	}
	for _, i := range c.Diary.Imports {
		rows = curveRows(rows, i.ID, "", "", c.Import(i))
	}
	r := fillTable("survival", "A row is a day on which lines were lost or left, for all imports together, each season and each import.", survivalColumns, rows)
	r.from = workedOut
	r.key = []string{"scope", "group_by", "group", "day"}
	return r
}

func curveRows(rows []curveRow, scope, by, group string, s cohort.Scope) []curveRow {
	for _, step := range s.Curve().FromDayZero() {
		rows = append(rows, curveRow{
			scope: scope, by: by, group: group, day: int(step.Time),
			atRisk: step.AtRisk, lost: step.Lost, left: step.Left,
			share: step.Share, stdError: step.StdError, hasStdError: step.HasStdError,
			lower: step.Lower, upper: step.Upper, hasLimits: step.HasLimits,
		})
	}
	return rows
}
