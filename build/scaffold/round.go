package scaffold

import (
	"fmt"
	"strings"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// Round writes a round of the plants at a place: who stands there at the end of
// the day that the cohort was told to, each on an empty line, in standing order.
// Beside each stands what was known of it last, its name and its day. The reading
// is empty beside the last one, and others is a question.
func Round(c *cohort.Cohort, place *content.Place, on measure.Day) string {
	units := c.Diary.Settings.Units
	plants := c.Standing(place)
	var b strings.Builder
	b.WriteString("---\ndate: " + on.String())
	if lookedAt(plants, on) {
		b.WriteString("  # some were looked at on this day already: a time, such as 18:30, puts this behind")
	}
	b.WriteString("\nplace: " + place.ID + "\n")
	reading := "24 C 98%"
	if units.Fahrenheit {
		reading = "75 F 98%"
	}
	said := "such as"
	if last := c.LastReading(place); last != nil {
		said, reading = "last", last.Temperature.In(units)+" "+last.Humidity.String()
	}
	b.WriteString("reading:  # " + said + " " + reading + "\nspecimens:\n")
	wide := 0
	for _, p := range plants {
		wide = max(wide, len(p.Specimen.ID))
	}
	for _, p := range plants {
		fmt.Fprintf(&b, "  %s:%*s# %s\n", p.Specimen.ID, wide-len(p.Specimen.ID)+2, "", beside(p, on, units))
	}
	b.WriteString("others:  # same, or not seen\n---\n")
	return b.String()
}

// lookedAt tells whether any of the plants was looked at on a day.
func lookedAt(plants []*cohort.Part, on measure.Day) bool {
	for _, p := range plants {
		if p.LastSeen() == on {
			return true
		}
	}
	return false
}

// beside is the comment on a plant's line.
func beside(p *cohort.Part, on measure.Day, units measure.Units) string {
	words := p.KnownWords(units)
	if words == "" {
		words = "no figures yet"
	}
	return fmt.Sprintf("%s | %s, day %d", words, oneLine(p.Specimen.NameOn(on)), int(on-p.Specimen.Root().Import.Day0()))
}

// oneLine keeps words that stand in a comment to its line.
func oneLine(words string) string { return strings.Join(strings.Fields(words), " ") }
