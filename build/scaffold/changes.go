package scaffold

import (
	"fmt"
	"slices"
	"strings"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// kinds are the kinds of change a letter lists, in its order.
var kinds = []string{"Arrived", "Lost", "Alive after all", "Cut into sections", "Passed on", "Established", "Moved to drier air",
	"Moved back to wetter air", "Moved", "First new root", "First new leaf", "More leaf than came", "What befell a place"}

// change is one of them.
type change struct {
	kind string
	day  measure.Day
	line string
}

// changes lists what changed in an import after a day, by kind and by day, as
// Markdown; "" where nothing did.
func changes(c *cohort.Cohort, i *content.Import, since measure.Day) string {
	var list []change
	add := func(kind string, day measure.Day, line string) {
		if day > since {
			list = append(list, change{kind, day, line})
		}
	}
	scope := c.Import(i)
	if n := len(scope.Lines); n > 0 && (!c.Times.Until.Known() || i.Day0() <= c.Times.Until) {
		add("Arrived", i.Day0(), counted(n, "plant", "plants")+" on "+dated(i.Arrived.First, i))
	}
	for _, l := range scope.Lines {
		for _, p := range l.Parts {
			ofPart(p, add)
		}
		for _, m := range []struct {
			kind string
			on   int
		}{
			{"First new root", l.Milestones.FirstRoot}, {"First new leaf", l.Milestones.FirstLeaf}, {"More leaf than came", l.Milestones.Recovered},
		} {
			if m.on != cohort.Never {
				day := i.Day0() + measure.Day(m.on)
				add(m.kind, day, plant(l.Part, day)+", "+dated(day, i))
			}
		}
	}
	for _, e := range c.Times.Notes {
		if e.Place != nil && e.Event != "" && stoodAt(scope, e.Place, e.When.Day) {
			add("What befell a place", e.When.Day, fmt.Sprintf("%s: [%s](places/%s), %s", escape(e.Event), escape(e.Place.Name), e.Place.ID, dated(e.When.Day, i)))
		}
	}
	slices.SortStableFunc(list, func(a, b change) int { return int(a.day - b.day) })
	var b strings.Builder
	for _, kind := range kinds {
		said := false
		for _, c := range list {
			if c.kind != kind {
				continue
			}
			if !said {
				b.WriteString("\n**" + kind + "**\n\n")
				said = true
			}
			b.WriteString("- " + c.line + "\n")
		}
	}
	return b.String()
}

// ofPart lists what changed of one plant.
func ofPart(p *cohort.Part, add func(kind string, day measure.Day, line string)) {
	i := p.Specimen.Root().Import
	for _, l := range p.Looks {
		who, when := plant(p, l.When.Day), dated(l.When.Day, i)
		switch {
		case l.Outcome == content.Lost && l == p.Losing() && p.Fate == cohort.Lost:
			line := who + ", found " + when
			if cause := cohort.CauseWords(l.Cause); cause != "" {
				line += ": " + escape(cause)
				if l.Cause.Doubt {
					line += "?"
				}
			}
			add("Lost", l.When.Day, line)
		case l.Outcome == content.AliveAfterAll:
			add("Alive after all", l.When.Day, who+", "+when)
		case l.Outcome == content.PassedOn:
			add("Passed on", l.When.Day, who+", "+when)
		case l.Outcome == content.Established:
			add("Established", l.When.Day, who+", "+when)
		}
		if len(l.CutInto) > 0 {
			var pieces []string
			for _, piece := range l.CutInto {
				pieces = append(pieces, fmt.Sprintf("%s (%s)", piece.ID, escape(piece.Position)))
			}
			add("Cut into sections", l.When.Day, who+", "+when+": "+strings.Join(pieces, ", "))
		}
	}
	for n, s := range p.Stays {
		if n == 0 || s.Move == nil {
			continue
		}
		was := p.Stays[n-1].Place
		kind := "Moved"
		switch {
		case s.Place.Stage > was.Stage:
			kind = "Moved to drier air"
		case s.Place.Stage < was.Stage:
			kind = "Moved back to wetter air"
		}
		add(kind, s.From.Day, fmt.Sprintf("%s, %s: to [%s](places/%s)", plant(p, s.From.Day), dated(s.From.Day, i), escape(s.Place.Name), s.Place.ID))
	}
}

// plant names a plant with a link to its page, by its name of that day.
func plant(p *cohort.Part, on measure.Day) string {
	return fmt.Sprintf("[%s](specimens/%s) %s", escape(p.Specimen.NameOn(on)), p.Specimen.ID, p.Specimen.ID)
}

// dated is a day in the calendar and in the import's count.
func dated(d measure.Day, i *content.Import) string {
	return fmt.Sprintf("%s, day %d", d.Time().Format("2 January"), int(d-i.Day0()))
}

// stoodAt tells whether a plant of a scope stood at a place at any time of a day.
func stoodAt(s cohort.Scope, place *content.Place, on measure.Day) bool {
	for _, l := range s.Lines {
		for _, p := range l.Parts {
			if slices.ContainsFunc(p.Stays, func(s content.Stay) bool {
				return s.Place == place && s.From.Day <= on && (!s.Until.Known() || s.Until.Day >= on)
			}) {
				return true
			}
		}
	}
	return false
}
