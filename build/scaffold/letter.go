package scaffold

import (
	"fmt"
	"strings"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// LastLetter is the last finished update up to a day that readers of an import
// have had: one about it, or about none; nil where there was none. For no import
// in particular it is the last of all.
func LastLetter(d *content.Diary, about *content.Import, on measure.Day) *content.Update {
	var last *content.Update
	for _, u := range d.Updates { // by date
		if !u.Unfinished && u.Date <= on && (about == nil || u.Import == nil || u.Import == about) {
			last = u
		}
	}
	return last
}

// Letter writes an unfinished update: what changed in the days behind the last
// letter up to the day that the cohort was told to, as notes for the grower's own
// words. What was found on the last letter's own day counts as told in it. It is
// about one import, or with nil about every import in which something changed.
// stem is the file's path without .md; it is "" where nothing changed.
func Letter(c *cohort.Cohort, about *content.Import, last *content.Update, on measure.Day) (stem, text string) {
	since := measure.NoDay
	if last != nil {
		since = last.Date
	}
	var told []*content.Import
	var notes []string
	for _, i := range c.Diary.Imports {
		if about != nil && i != about {
			continue
		}
		if n := changes(c, i, since); n != "" {
			told, notes = append(told, i), append(notes, n)
		}
	}
	if len(told) == 0 {
		return "", ""
	}
	title := "Up to " + on.InWords()
	stem = "updates/" + on.String()
	if len(told) == 1 {
		day := int(on - told[0].Day0())
		title = fmt.Sprintf("Day %d", day)
		stem = fmt.Sprintf("updates/%s-day-%d", told[0].ID, day)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "---\ntitle: %s  # in your own words\ndate: %s\n", title, on)
	if len(told) == 1 {
		b.WriteString("import: " + told[0].ID + "\n")
	}
	b.WriteString("unfinished: yes  # delete this line when it is a letter\n---\n")
	if last != nil {
		fmt.Fprintf(&b, "Notes on what changed since [%s](updates/%s), %s:\n", escape(last.Title), last.Slug, last.Date.InWords())
	} else {
		b.WriteString("Notes on what happened so far:\n")
	}
	for n, i := range told {
		if len(told) > 1 {
			b.WriteString("\n## [" + i.ID + "](imports/" + i.ID + ")\n")
		}
		b.WriteString(notes[n])
		b.WriteString("\n" + standing(c, i) + "\n")
		fmt.Fprintf(&b, "\n```plate\nshow: rows\nimport: %s\n```\n", i.ID)
	}
	return stem, b.String()
}

// standing counts an import's lines by what became of them.
func standing(c *cohort.Cohort, i *content.Import) string {
	s := c.Import(i)
	words := fmt.Sprintf("Of %s, %d alive", counted(len(s.Lines), "line", "lines"), s.Count(cohort.Open))
	for _, f := range []cohort.Fate{cohort.Lost, cohort.PassedOn, cohort.NotSeen} {
		if n := s.Count(f); n > 0 {
			words += fmt.Sprintf(", %d %s", n, map[cohort.Fate]string{cohort.Lost: "lost", cohort.PassedOn: "passed on", cohort.NotSeen: "not seen lately"}[f])
		}
	}
	if !c.AsOf.Known() {
		return words + "."
	}
	return words + fmt.Sprintf(" at the last look, %s.", c.AsOf.InWords())
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// escape keeps a name's characters from meaning something in Markdown.
func escape(words string) string {
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `_`, `\_`, `[`, `\[`, `]`, `\]`, "`", "\\`", `<`, `\<`, `&`, `\&`, `!`, `\!`).Replace(oneLine(words))
}
