package page

import (
	"fmt"
	"slices"
	"strings"

	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/build/survival"
)

// What stands in words under a curve: who was followed, for how long, to what end,
// and how far one more loss would move it (STROBE items 13 and 14: von Elm et al.
// 2007, PLoS Med 4:e296; Gebski et al. 2018, Int J Epidemiol 47:850-859, from
// memory).

// fates are what became of some lines by a day; together they are all that were
// looked at.
type fates struct {
	lost, passedOn, notSeen, alive int
	aliveWord                      string // "under watch", "alive", "known alive"
}

// list writes the fates that befell anybody: "one lost", "two passed on".
func (f fates) list() (words []string) {
	for _, p := range []struct {
		n     int
		words string
	}{{f.lost, "lost"}, {f.passedOn, "passed on"}, {f.notSeen, "not seen since"}, {f.alive, f.aliveWord}} {
		if p.n > 0 {
			words = append(words, said.InWords(p.n)+" "+p.words)
		}
	}
	return words
}

// fatesOf are those of a scope as it stands, fatesBy those by a day.
func fatesOf(scope cohort.Scope) fates {
	return fates{scope.Count(cohort.Lost), scope.Count(cohort.PassedOn), scope.Count(cohort.NotSeen) - neverSeen(scope), scope.Count(cohort.Open), "under watch"}
}

func fatesBy(scope cohort.Scope, day int) fates {
	r := scope.At(day)
	return fates{r.Lost, r.PassedOn, r.NotSeen - neverSeen(scope), r.Alive, said.Alive(r)}
}

// establishedBy are the lines of a scope that were called established by a day. They
// go on being watched, so each has one of the other fates besides.
func establishedBy(scope cohort.Scope, day int) cohort.Scope {
	out := cohort.Scope{Name: scope.Name}
	for _, l := range scope.Lines {
		if e := l.Milestones.Established; e != cohort.Never && e <= day {
			out.Lines = append(out.Lines, l)
		}
	}
	return out
}

// medianWatched is the number of days for which half of some lines or more were
// watched: up to their loss, to the day on which they left, or to the last day that
// is compared.
func medianWatched(scope cohort.Scope, last int) int {
	var days []int
	for _, l := range scope.Lines {
		days = append(days, min(max(l.Day, 0), last))
	}
	slices.Sort(days)
	return days[len(days)/2]
}

// oneMoreLoss is how far one more loss would lower a curve at its end, in hundredths
// in words; ok is false where no other can come.
func oneMoreLoss(curve survival.Curve) (words string, ok bool) {
	steps := curve.FromDayZero()
	fall, ok := curve.OneMoreLoss(curve.LastDay())
	if !ok || len(steps) == 0 || steps[len(steps)-1].Share == 0 {
		return "", false
	}
	if fall < .005 {
		return "less than one in a hundred", true
	}
	return fmt.Sprintf("%d in a hundred", int(fall*100+.5)), true
}

// endOfTime is a day after all that is compared.
const endOfTime = 1 << 30

// curveSays are the sentences under a scope's curve: when half were lost, what one
// more loss would do, and who was followed to what end.
func curveSays(scope cohort.Scope) []string {
	n := len(scope.Lines)
	if n == 0 || scope.AsOfDay() < 0 {
		return nil
	}
	curve := scope.Curve()
	says := []string{fmt.Sprintf("More than half alive on day %d, the last day watched.", int(curve.LastDay()))}
	if m := curve.Median(); m.Reached {
		says[0] = fmt.Sprintf("Half were lost by day %g.", m.Day)
	}
	if fall, ok := oneMoreLoss(curve); ok {
		says = append(says, "At its end one more loss would lower the curve by "+fall+".")
	}
	flow := fmt.Sprintf("%s received, %s looked at", said.Upper(said.InWords(n)), said.InWords(n-neverSeen(scope)))
	if ends := fatesOf(scope).list(); len(ends) > 0 {
		flow += ": " + said.List(ends)
	}
	says = append(says, flow+".")
	if e := establishedBy(scope, endOfTime); len(e.Lines) > 0 {
		says = append(says, fmt.Sprintf("Established, among these, %s: %s.", said.InWords(len(e.Lines)), said.List(fatesOf(e).list())))
	}
	return append(says, fmt.Sprintf("Watched for a median of %s: half of the lines that long or longer.", said.Noun(medianWatched(scope, endOfTime), "day", "days")))
}

// groupsSay are the same of each group that has a curve, up to the last day compared,
// a line a group.
func groupsSay(r cohort.Comparison) (says []string) {
	for _, g := range r.Groups {
		if g.State == cohort.Told {
			says = append(says, said.Upper(said.Group(r.By, g.Name))+": "+followed(cohort.Scope{Lines: g.Lines}, g.Curve, r.Horizon))
		}
	}
	return says
}

// followed is one group's line.
func followed(scope cohort.Scope, curve survival.Curve, day int) string {
	n := len(scope.Lines)
	words := fmt.Sprintf("%s, %d looked at", said.Noun(n, "line", "lines"), n-neverSeen(scope))
	if ends := fatesBy(scope, day).list(); len(ends) > 0 {
		words += fmt.Sprintf("; by day %d %s", day, said.List(ends))
	}
	if e := establishedBy(scope, day); len(e.Lines) > 0 {
		words += fmt.Sprintf(", %s of them established", said.InWords(len(e.Lines)))
	}
	words += fmt.Sprintf("; watched for a median of %s", said.Noun(medianWatched(scope, day), "day", "days"))
	if fall, ok := oneMoreLoss(curve); ok {
		words += "; at its end one more loss would lower the curve by " + fall
	}
	return words + "."
}

// seasonsSay are the lines of the seasons' curves, each up to its own last day.
func seasonsSay(c *cohort.Cohort) (says []string) {
	for _, label := range c.SeasonsByArrival() {
		scope := c.Season(label)
		if len(scope.Lines) > 0 && scope.AsOfDay() >= 0 {
			says = append(says, label+": "+strings.Join(curveSays(scope), " "))
		}
	}
	return says
}
