package page

import (
	"fmt"
	"strings"

	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
	"wardian/content/measure"
)

// A plant from a list has no timeline: its page says so, and gives what the list
// holds, with days half known as they were written.

// listedWord marks a plant from a list wherever its outcome is told.
const listedWord = "from a list"

// listedOutcome is how a row without a day ended, as far as it is known.
func listedOutcome(p *cohort.Part) string {
	const noDay = ", day not known"
	switch {
	case p.Fate == cohort.Lost:
		return "lost" + noDay
	case p.Fate == cohort.PassedOn:
		return "passed on" + noDay
	case p.Listed.Alive.Said:
		return "alive" + noDay
	}
	return "nothing known"
}

// listedRow tells whether a part is the row of a list.
func listedRow(p *cohort.Part) bool { return p.Listed != nil }

// dayless tells whether no day of a row of a list is known by which its outcome
// could be told.
func dayless(p *cohort.Part) bool {
	if !listedRow(p) {
		return false
	}
	if p.Fate == cohort.Lost {
		return p.LostOn == cohort.Never
	}
	return p.LastAlive == cohort.Never
}

// listedSays tells what a list holds of a plant: "From a list, without a
// timeline: last seen alive 2024-05, lost 2 June 2024."
func listedSays(p *cohort.Part) string {
	row := p.Listed
	var facts []string
	add := func(stated content.Stated, words string) {
		switch {
		case stated.Day.Known():
			facts = append(facts, words+" "+span(stated.Day))
		case stated.Said:
			facts = append(facts, words+" on a day that isn’t known")
		}
	}
	add(row.Alive, "last seen alive")
	add(row.Lost, "lost")
	add(row.Left, "passed on")
	says := "From a list, without a timeline"
	if len(facts) > 0 {
		says += ": " + strings.Join(facts, ", ")
	}
	if p.ListedBack != nil {
		says += "; the loss was taken back on " + dayWord(p.ListedBack.Day)
	}
	says += "."
	if row.Words != "" {
		says += " “" + row.Words + "”"
	}
	return says
}

// arrivalWords says how well a day of arrival is known; "" where it is known in
// full.
func arrivalWords(s measure.Span) string {
	switch {
	case s.About:
		return "arrival known to about a day"
	case !s.Half():
		return ""
	case len(s.Written) == len("2024-05"):
		return "arrival known to the month"
	case len(s.Written) == len("2024"):
		return "arrival known to the year"
	}
	return fmt.Sprintf("arrival known to within %d days", s.Width())
}

// listWords tells of an import that is kept as a list; "" of another.
func listWords(scope cohort.Scope, im *content.Import) string {
	if im.List == nil {
		return ""
	}
	rows := 0
	for _, l := range scope.Everyone() {
		if l.FromList() {
			rows++
		}
	}
	words := "a list of " + said.NounInWords(rows, "row", "rows") + ", without timelines"
	if im.LookedEvery > 0 {
		words += "; somebody looked every " + said.Noun(im.LookedEvery, "day", "days")
	}
	return words
}

// undatedSays tells how many rows have no day, and what is known of them; ""
// where all have one.
func undatedSays(scope cohort.Scope) string {
	n := len(scope.Undated)
	if n == 0 {
		return ""
	}
	all := cohort.Scope{Undated: scope.Undated}.Shares()
	have := "have"
	if n == 1 {
		have = "has"
	}
	stand := "They stand"
	if n == 1 {
		stand = "It stands"
	}
	return fmt.Sprintf("%s of the %s %s no day to count from (%s). %s in the season’s shares, and in no curve, table or test.",
		said.Upper(said.InWords(n)), said.NounInWords(len(scope.Everyone()), "plant", "plants"), have, sharesOf(all), stand)
}

// withADay follows a count of lines where others have no day; "" where all have.
func withADay(scope cohort.Scope) string {
	if len(scope.Undated) == 0 {
		return ""
	}
	return " with a day"
}

// sharesSay are the shares of a scope in which lists stand: counts on one whole.
func sharesSay(scope cohort.Scope) string {
	listed := false
	for _, l := range scope.Everyone() {
		listed = listed || l.FromList()
	}
	if !listed {
		return ""
	}
	all := scope.Shares()
	says := fmt.Sprintf("of %s: %s", said.Noun(all.N, "plant", "plants"), sharesOf(all))
	if all.Undated > 0 {
		says += fmt.Sprintf("; %d without a day", all.Undated)
	}
	return says
}

// sharesOf counts what became of plants: "4 alive, 3 lost".
func sharesOf(all cohort.Shares) string {
	var parts []string
	for _, s := range []struct {
		n     int
		words string
	}{{all.Alive, "alive"}, {all.Lost, "lost"}, {all.PassedOn, "passed on"}, {all.Unknown, "not known"}} {
		if s.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", s.n, s.words))
		}
	}
	return said.List(parts)
}
