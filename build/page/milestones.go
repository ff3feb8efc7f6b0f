package page

import (
	"fmt"
	"strings"

	"wardian/build/cohort"
	"wardian/build/said"
)

// milestonesData is what a scope's lines had reached by the stated days.
type milestonesData struct {
	Strips *picture
	Days   []string // "by day 14"
	Rows   []milestoneLine
	Says   []string // what one row means, taken from the table
}

// milestoneLine is one milestone in it.
type milestoneLine struct {
	Milestone string
	Note      string // lines left out, and those that went back
	Cells     []milestoneCell
	Half      string // when half had reached it
}

// milestoneCell is a milestone on a stated day: "5 of 14", and what became of
// the others, which adds up to all of them.
type milestoneCell struct {
	Label, Count, Others, Limits string
}

// milestonesOf counts who had reached what by the stated days; nil where no line
// can be asked.
func milestonesOf(scope cohort.Scope) *milestonesData {
	strips := drawn(milestoneStrips(scope).Draw())
	d := &milestonesData{Strips: &strips}
	for _, day := range cohort.MilestoneDays {
		d.Days = append(d.Days, "by "+dayWord(day))
	}
	asked := false
	var told *cohort.MilestoneRow
	var of cohort.Milestone
	for _, m := range cohort.AllMilestones {
		curve := scope.Milestone(m)
		asked = asked || len(curve.Lines) > 0
		line := milestoneLine{Milestone: said.Upper(m.String()), Note: milestoneNote(scope, curve), Half: halfReached(curve)}
		for i, day := range cohort.MilestoneDays {
			row := curve.By(day)
			line.Cells = append(line.Cells, milestoneCellOf(row))
			line.Cells[i].Label = d.Days[i]
			if row.Kind != cohort.NotYet && row.N > 0 && row.Reached > 0 && row.Lost > 0 && (told == nil || m == of) {
				told, of = &row, m
			}
		}
		d.Rows = append(d.Rows, line)
	}
	if !asked {
		return nil
	}
	d.Says = append(d.Says, "A plant that was lost first can never reach it, so it stays among the plants counted and is told apart. Waiting: under watch, without it so far. Unknown: no longer under watch by then.")
	if told != nil {
		d.Says = append(d.Says, milestoneSays(of, *told))
	}
	return d
}

// milestoneCellOf sets a count with the others of its n.
func milestoneCellOf(r cohort.MilestoneRow) milestoneCell {
	switch {
	case r.N == 0:
		return milestoneCell{Count: "–"}
	case r.Kind == cohort.NotYet:
		return milestoneCell{Count: "not yet"}
	}
	c := milestoneCell{Count: said.Of(r.Reached, r.N), Others: othersOf(r, ", ")}
	switch {
	case r.Kind == cohort.Counted:
		c.Limits = "limits " + said.Limits(r.Lower, r.Upper)
	case r.Kind == cohort.Estimated && r.HasLimits:
		c.Limits = fmt.Sprintf("about %s, limits %s", said.Percent(r.Share), said.Limits(r.Lower, r.Upper))
	}
	return c
}

// othersOf tells what became of those that hadn't reached it.
func othersOf(r cohort.MilestoneRow, between string) string {
	var parts []string
	for _, p := range []struct {
		n     int
		words string
	}{{r.Lost, "lost first"}, {r.Waiting, "waiting"}, {r.Unknown, "unknown"}} {
		if p.n > 0 {
			parts = append(parts, itoa(p.n)+" "+p.words)
		}
	}
	return strings.Join(parts, between)
}

// milestoneSays reads one cell of the table aloud.
func milestoneSays(m cohort.Milestone, r cohort.MilestoneRow) string {
	has := map[cohort.Milestone]string{
		cohort.FirstRoot: "a new root was seen on", cohort.FirstLeaf: "a new leaf was seen on", cohort.LeftBin: "drier air than the bin’s had been reached by",
		cohort.Recovered: "more leaf than it came with was seen on", cohort.Established: "“established” was written of",
	}[m]
	words := fmt.Sprintf("So by day %d %s %s of %s", r.Day, has, said.InWords(r.Reached), said.NounInWords(r.N, "plant", "plants"))
	others := []string{fmt.Sprintf("%s %s lost without it", said.InWords(r.Lost), wasWere(r.Lost))}
	if r.Waiting > 0 {
		others = append(others, fmt.Sprintf("%s %s still waiting", said.InWords(r.Waiting), wasWere(r.Waiting)))
	}
	if r.Unknown > 0 {
		others = append(others, fmt.Sprintf("of %s nothing is known by then", said.InWords(r.Unknown)))
	}
	words += "; " + said.List(others)
	return words + "."
}

// milestoneNote tells of the lines that can't be asked, and of those that went
// back.
func milestoneNote(scope cohort.Scope, c cohort.MilestoneCurve) string {
	listed := 0
	for _, l := range scope.Lines {
		if !l.Told() {
			listed++
		}
	}
	var notes []string
	if n := c.Out - listed; n > 0 {
		why := "with no leaf counted on arrival"
		if c.Milestone == cohort.LeftBin {
			why = "never in a bin"
		}
		notes = append(notes, said.InWords(n)+" "+why)
	}
	if listed > 0 {
		notes = append(notes, said.InWords(listed)+" from a list, which doesn’t tell")
	}
	note := ""
	if len(notes) > 0 {
		note = "left out: " + said.List(notes)
	}
	if c.WentBack > 0 {
		note = strings.TrimPrefix(note+"; "+said.InWords(c.WentBack)+" went back", "; ")
	}
	return note
}

// halfReached is the day by which half had reached a milestone.
func halfReached(c cohort.MilestoneCurve) string {
	if len(c.Lines) == 0 {
		return ""
	}
	day, last, ok := c.Median()
	if ok {
		return dayWord(day)
	}
	return fmt.Sprintf("fewer than half by day %d", last)
}

// reachedSoFar counts the lines that have reached a milestone, on whatever day.
func reachedSoFar(c cohort.MilestoneCurve) int { return c.By(1 << 30).Reached }

// milestoneFact counts who reached a milestone so far, and by a day.
func milestoneFact(scope cohort.Scope, m cohort.Milestone, day int) fact {
	curve := scope.Milestone(m)
	f := fact{Term: said.Upper(m.String())}
	if len(curve.Lines) == 0 {
		f.Figure, f.Note = "–", "no plant was in a bin"
		return f
	}
	f.Figure = said.Of(reachedSoFar(curve), len(curve.Lines))
	var notes []string
	if day <= scope.AsOfDay() {
		notes = append(notes, fmt.Sprintf("%s by day %d", said.InWords(curve.By(day).Reached), day))
	}
	if out := milestoneNote(scope, curve); out != "" {
		notes = append(notes, out)
	}
	f.Note = strings.Join(notes, "; ")
	return f
}
