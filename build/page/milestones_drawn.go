package page

import (
	"math"

	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
)

// Milestones are drawn with loss stacked on them, since the two compete: a strip a
// milestone on the page of an import or a season, a strip a group on that of a
// comparison.

// milestoneStrips are a scope's milestones, all that any line can be asked.
func milestoneStrips(scope cohort.Scope) chart.Milestones {
	drawing := chart.Milestones{Head: chart.Head{ID: "milestones", Title: "Milestones, " + scope.Name}}
	last := 0
	for _, l := range scope.Lines {
		last = max(last, l.Day)
	}
	drawing.Head.Days = axisDays(last)
	for _, m := range cohort.AllMilestones {
		curve := scope.Milestone(m)
		drawing.Rows = append(drawing.Rows, strip(curve, said.Upper(m.String()), lastStated(curve, math.MaxInt), 0))
	}
	return drawing
}

// lastStated is the latest of the stated days up to a horizon that a curve has come
// to; 0 where it has come to none.
func lastStated(curve cohort.MilestoneCurve, horizon int) int {
	day := 0
	for _, d := range cohort.MilestoneDays {
		if d <= horizon && curve.By(d).Kind != cohort.NotYet {
			day = d
		}
	}
	return day
}

// strip is one strip: what had been reached by a day stands beside its name, and it
// begins on the landmark, with what was reached before it.
func strip(curve cohort.MilestoneCurve, name string, day, from int) chart.Milestone {
	out := chart.Milestone{Name: name, From: from}
	if row := curve.By(day); day > 0 && row.N > 0 {
		out.Words = said.Of(row.Reached, row.N) + " by " + dayWord(day)
		out.Others = othersOf(row, ", ")
	}
	for _, st := range curve.FromDayZero() {
		e := st.Shares[cohort.CauseReached-1]
		r := chart.Reaching{
			Day: max(int(st.Time), from), Waiting: st.AtRisk, Reached: st.Events[cohort.CauseReached-1], Lost: st.Events[cohort.CauseLost-1], Left: st.Left,
			Share: e.Share, HasLimits: e.HasLimits, Lower: e.Lower, Upper: e.Upper, LostShare: st.Shares[cohort.CauseLost-1].Share,
		}
		if n := len(out.Steps); n > 0 && out.Steps[n-1].Day == r.Day {
			before := out.Steps[n-1]
			r.Waiting, r.Reached, r.Lost, r.Left = before.Waiting, before.Reached+r.Reached, before.Lost+r.Lost, before.Left+r.Left
			out.Steps = out.Steps[:n-1]
		}
		out.Steps = append(out.Steps, r)
	}
	return out
}

// groupMilestones is what the groups of a comparison had reached.
type groupMilestones struct {
	Days     string // "14, 28 and 42"
	Group    string // what a group is
	Drawn    []namedPicture
	Columns  []string
	Rows     []groupReached
	Landmark int // the day on which the strips start; 0 where it is arrival
}

type namedPicture struct {
	Name string
	picture
}

// groupReached is one group's counts, a cell a milestone.
type groupReached struct {
	Name  string
	Cells []reachedCell
}

type reachedCell struct{ Label, Count, Lost string }

// reachedByGroup counts and draws what each group had reached by the stated days up
// to the last day compared; nil where none of these days lies before it. Groups too
// small to be drawn stand with their counts.
func reachedByGroup(r cohort.Comparison) *groupMilestones {
	d := &groupMilestones{Group: said.Lower(said.Grouping(r.By))}
	var days []int
	var words []string
	for _, day := range cohort.MilestoneDays {
		if day <= r.Horizon {
			days, words = append(days, day), append(words, itoa(day))
		}
	}
	if len(days) == 0 || len(r.Groups) == 0 {
		return nil
	}
	if r.Landmark != nil {
		d.Landmark = r.Landmark.Day
	}
	d.Days = said.List(words)
	d.Rows = make([]groupReached, len(r.Groups))
	for n, g := range r.Groups {
		d.Rows[n].Name = said.Group(r.By, g.Name)
	}
	for n, m := range cohort.AllMilestones {
		title := said.Upper(m.String())
		drawing := chart.Milestones{Head: chart.Head{ID: "reached-" + itoa(n+1), Title: title + ", by " + d.Group, Days: chart.NiceDays(r.Horizon)}}
		for i, g := range r.Groups {
			curve := cohort.Scope{Lines: g.Lines}.MilestoneUpTo(m, r.Horizon)
			if g.State == cohort.Told && len(curve.Lines) > 0 && len(drawing.Rows) < chart.MaxCurves {
				drawing.Rows = append(drawing.Rows, strip(curve, d.Rows[i].Name, lastStated(curve, r.Horizon), d.Landmark))
			}
			cell := reachedBy(curve, days)
			cell.Label = title
			d.Rows[i].Cells = append(d.Rows[i].Cells, cell)
		}
		d.Columns = append(d.Columns, title)
		if len(drawing.Rows) > 0 {
			d.Drawn = append(d.Drawn, namedPicture{title, drawn(drawing.Draw())})
		}
	}
	return d
}

// reachedBy counts a group's lines by the stated days: "3, 5 and 6 of 12".
func reachedBy(curve cohort.MilestoneCurve, days []int) reachedCell {
	n := len(curve.Lines)
	if n == 0 {
		return reachedCell{Count: "–"}
	}
	var reached, lost []string
	unknown := 0
	for _, day := range days {
		row := curve.By(day)
		if row.Kind == cohort.NotYet {
			reached = append(reached, "not yet")
			continue
		}
		reached, lost = append(reached, itoa(row.Reached)), append(lost, itoa(row.Lost))
		unknown = row.Unknown
	}
	if len(lost) == 0 {
		return reachedCell{Count: "not yet"}
	}
	cell := reachedCell{Count: said.List(reached) + " of " + itoa(n), Lost: "lost first " + said.List(lost)}
	if unknown > 0 {
		cell.Lost += "; " + itoa(unknown) + " unknown by then"
	}
	return cell
}
