package main

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"text/tabwriter"

	english "wardian/build/said"

	"wardian/build/opendata"
)

// besideTold prints two growers side by side: their counts, what their plants died
// of, and by what days and places each of them goes.
func besideTold(v voice, b opendata.Beside) error {
	var w strings.Builder
	fmt.Fprintf(&w, "two diaries side by side on day %d since arrival, never pooled\n", b.Day)
	for _, s := range b.Diaries {
		said := fmt.Sprintf("%s: %s", s.Side, s.Diary)
		if s.AsOf != nil {
			said += ", as of " + *s.AsOf
		}
		if len(s.Licences) > 0 {
			said += ", " + strings.Join(s.Licences, ", ")
		}
		if s.Homepage != nil {
			said += ", " + *s.Homepage
		}
		lines(&w, said)
	}
	w.WriteString("\n")
	sideTable(&w, b)
	for _, s := range b.Diaries {
		lines(&w, sideNotes(s, b.Day)...)
	}
	termsTable(&w, b)
	placesTable(&w, b)
	w.WriteString("\n")
	lines(&w, "Two growers have other plants, other windows and other eyes. Whatever differs between them is in these figures, so that no difference and no p is made of them.")
	_, err := fmt.Fprint(v.out, unsteered(w.String()))
	return err
}

// sideTable has a row for each grower, and one for each group.
func sideTable(w *strings.Builder, b opendata.Beside) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	by := ""
	if b.By != nil {
		by = *b.By
	}
	fmt.Fprintf(t, "\t%s\tday\timports\tlines\talive\tlost\tunknown\tshare alive, 95%% limits\n", by)
	row := func(side string, g opendata.SideGroup) {
		alive, unknown := "not yet", "not yet"
		if g.Alive != nil && g.Unknown != nil {
			alive, unknown = strconv.Itoa(*g.Alive), strconv.Itoa(*g.Unknown)
		}
		fmt.Fprintf(t, "%s\t%s\t%d\t%d\t%d\t%s\t%d\t%s\t%s\n", side, cmp.Or(g.Name, "all"), g.Day, g.Imports, g.N, alive, g.Lost, unknown, sideShare(g))
	}
	for _, s := range b.Diaries {
		row(s.Side, s.All)
		for _, g := range s.Groups {
			row(s.Side, g)
		}
	}
	t.Flush()
	if b.By == nil {
		return
	}
	for _, s := range b.Diaries {
		switch {
		case len(s.Groups) == 0:
			lines(w, fmt.Sprintf("%s has no groups by %s", s.Diary, *b.By))
		case s.Groups[0].Day != b.Day:
			lines(w, fmt.Sprintf("the groups of %s are told of day %d and can't be set beside those of day %d; --at %d tells both of it", s.Diary, s.Groups[0].Day, b.Day, s.Groups[0].Day))
		}
	}
}

// sideShare is a share as a count of all lines where nothing is unknown, else as a
// range; why there is none, where there is none.
func sideShare(g opendata.SideGroup) string {
	limits := ""
	if g.Lower != nil && g.Upper != nil {
		limits = ", " + english.Limits(*g.Lower, *g.Upper)
	}
	switch {
	case g.Alive == nil || g.Unknown == nil:
		return "not yet"
	case g.Share == nil && g.N < 5:
		return "under 5 lines"
	case g.Share == nil:
		return "–"
	case *g.Unknown == 0:
		return english.Of(*g.Alive, g.N) + limits
	}
	return fmt.Sprintf("between %d and %d of %d; product limit %s", *g.Alive, *g.Alive+*g.Unknown, g.N, english.Percent(*g.Share)) + limits
}

// sideNotes are a grower's causes of loss and who isn't counted.
func sideNotes(s opendata.SideOfTwo, day int) []string {
	var causes, out []string
	for _, c := range s.Causes {
		causes = append(causes, fmt.Sprintf("%s %d", c.Cause, c.N))
	}
	if len(causes) > 0 {
		out = append(out, fmt.Sprintf("%s, lost by day %d: %s", s.Side, day, strings.Join(causes, ", ")))
	}
	if s.Apart > 0 {
		out = append(out, fmt.Sprintf("%s: %s left out, bought nearby or of a diary that began late", s.Side, counted(s.Apart, "line", "lines")))
	}
	if s.Undated > 0 {
		out = append(out, fmt.Sprintf("%s: %s left out, of which no day is known", s.Side, counted(s.Undated, "line", "lines")))
	}
	return out
}

// termsTable tells by what days each grower goes.
func termsTable(w *strings.Builder, b opendata.Beside) {
	w.WriteString("\nthe days that each goes by\n")
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprint(t, "\thorizon\tlandmark\tnot seen since, when unseen for longer than\n")
	for _, s := range b.Diaries {
		if s.Horizon == nil {
			fmt.Fprintf(t, "%s\tnot told\tnot told\tnot told\n", s.Side)
			continue
		}
		seen := "7 days, or twice the days between looks at its place"
		if s.SeenWithin != nil {
			seen = counted(*s.SeenWithin, "day", "days")
		}
		fmt.Fprintf(t, "%s\tday %d\tday %d\t%s\n", s.Side, *s.Horizon, *s.Landmark, seen)
	}
	t.Flush()
}

// placesTable tells what each grower calls a place.
func placesTable(w *strings.Builder, b opendata.Beside) {
	w.WriteString("\nwhere the plants stand, in each grower's words\n")
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprint(t, "\tplace\tstage\thumidity\ttemperature\tlooked at\t\n")
	for _, s := range b.Diaries {
		if len(s.Places) == 0 {
			fmt.Fprintf(t, "%s\tnot told\t\t\t\t\n", s.Side)
		}
		for _, p := range s.Places {
			var marks []string
			if p.BottomHeat {
				marks = append(marks, "bottom heat")
			}
			if p.Quarantine {
				marks = append(marks, "quarantine")
			}
			every := ""
			if p.CheckEvery != nil {
				every = "every " + counted(*p.CheckEvery, "day", "days")
			}
			fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\n", s.Side, cmp.Or(p.Name, p.ID), p.Stage, withUnit(p.Humidity, " %"), withUnit(p.Temperature, " °C"), every, strings.Join(marks, ", "))
		}
	}
	t.Flush()
}

func withUnit(x *float64, unit string) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(*x, 'f', -1, 64) + unit
}
