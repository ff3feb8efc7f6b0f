package opendata

import (
	"wardian/build/cohort"
)

// milestoneRow is one row of milestones.csv.
type milestoneRow struct {
	scope, by, group, milestone string
	day                         int
	atRisk, reached, lost, left int
	share, stdError             float64
	hasStdError                 bool
	lower, upper                float64
	hasLimits                   bool
	lostShare                   float64
}

func milestoneWords() []string {
	var words []string
	for _, m := range cohort.AllMilestones {
		words = append(words, m.String())
	}
	return words
}

var milestoneColumns = []column[milestoneRow]{
	{field{name: "scope", kind: "string", required: true, says: "all imports that may be pooled (all), or one import's ID"}, func(r milestoneRow) cell { return text(r.scope) }},
	{field{name: "group_by", kind: "string", says: "by what the scope is parted; empty for the whole scope", words: []string{"season"}}, func(r milestoneRow) cell { return text(r.by) }},
	{field{name: "group", kind: "string", says: "the group; empty for the whole scope"}, func(r milestoneRow) cell { return text(r.group) }},
	{field{name: "milestone", kind: "string", required: true, says: "what is reached; lines that never stood in soak or bin are left out of left the bin, and those whose record of arrival has neither leaf area nor count out of recovered", words: milestoneWords()}, func(r milestoneRow) cell { return text(r.milestone) }},
	{field{name: "day", kind: "integer", unit: "days since arrival", required: true, says: "day 0, or a day with a reaching, a loss or a leaving"}, func(r milestoneRow) cell { return whole(r.day) }},
	{field{name: "at_risk", kind: "integer", unit: "lines", required: true, says: "lines that had neither reached it, nor been lost, nor left before this day"}, func(r milestoneRow) cell { return whole(r.atRisk) }},
	{field{name: "reached", kind: "integer", unit: "lines", required: true, says: "lines first seen to have reached it on this day"}, func(r milestoneRow) cell { return whole(r.reached) }},
	{field{name: "lost", kind: "integer", unit: "lines", required: true, says: "lines found lost on this day without it"}, func(r milestoneRow) cell { return whole(r.lost) }},
	{field{name: "left", kind: "integer", unit: "lines", required: true, says: "lines that left alive on this day without it: passed on, not seen since, never looked at, or still under watch on the as-of day"}, func(r milestoneRow) cell { return whole(r.left) }},
	{field{name: "share", kind: "number", unit: "share", required: true, says: "share that reached it by this day, loss competing (Aalen and Johansen 1978)"}, func(r milestoneRow) cell { return number(r.share) }},
	{field{name: "std_error", kind: "number", unit: "share", says: "standard error of the share, of Greenwood's type (Marubini and Valsecchi 1995, section 10.2); 0 while the share is 0 or 1"}, func(r milestoneRow) cell { return maybe(r.stdError, r.hasStdError) }},
	{field{name: "lower", kind: "number", unit: "share", says: "lower 95 % limit, symmetric in ln(-ln(1 - share)); empty while the share is 0 or 1"}, func(r milestoneRow) cell { return maybe(r.lower, r.hasLimits) }},
	{field{name: "upper", kind: "number", unit: "share", says: "upper 95 % limit, likewise"}, func(r milestoneRow) cell { return maybe(r.upper, r.hasLimits) }},
	{field{name: "lost_share", kind: "number", unit: "share", required: true, says: "share lost without it by this day; the rest to 1 is alive without it"}, func(r milestoneRow) cell { return number(r.lostShare) }},
}

// milestoneCurves writes milestones.csv: the scopes, groups and order of
// survival.csv, and within each a block for every milestone.
func milestoneCurves(c *cohort.Cohort) resource {
	rows := milestoneRows(nil, "all", "", "", c.All())
	for _, season := range c.Seasons() {
		rows = milestoneRows(rows, "all", "season", season, c.Season(season))
	}
	for _, i := range c.Diary.Imports {
		rows = milestoneRows(rows, i.ID, "", "", c.Import(i))
	}
	r := fillTable("milestones", "A row is a day on which lines reached a milestone, were lost without it or left, for all imports together, each season and each import.", milestoneColumns, rows)
	r.from = workedOut
	r.key = []string{"scope", "group_by", "group", "milestone", "day"}
	return r
}

func milestoneRows(rows []milestoneRow, scope, by, group string, s cohort.Scope) []milestoneRow {
	for _, m := range cohort.AllMilestones {
		for _, step := range s.Milestone(m).FromDayZero() {
			e := step.Shares[cohort.CauseReached-1]
			rows = append(rows, milestoneRow{
				scope: scope, by: by, group: group, milestone: m.String(), day: int(step.Time),
				atRisk: step.AtRisk, reached: step.Events[cohort.CauseReached-1], lost: step.Events[cohort.CauseLost-1], left: step.Left,
				share: e.Share, stdError: e.StdError, hasStdError: e.HasStdError, lower: e.Lower, upper: e.Upper, hasLimits: e.HasLimits,
				lostShare: step.Shares[cohort.CauseLost-1].Share,
			})
		}
	}
	return rows
}
