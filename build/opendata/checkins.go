package opendata

import (
	"slices"
	"strconv"
	"strings"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// workedOutOfLooks are the columns of check-ins.csv that nobody wrote as they stand.
var workedOutOfLooks = []string{"look", "day", "named", "stage", "leaf_area", "leaf_area_estimated", "root_length", "root_length_of", "resting"}

// checkInColumns are the columns of check-ins.csv.
func checkInColumns(c *cohort.Cohort) []column[*cohort.Point] {
	words := func(name, says string, of func(*content.Look) string) column[*cohort.Point] {
		return column[*cohort.Point]{field{name: name, kind: "string", says: says}, func(p *cohort.Point) cell { return text(of(p.Look)) }}
	}
	closed := func(name, says string, allowed []string, of func(*content.Look) string) column[*cohort.Point] {
		col := words(name, says, of)
		col.words = allowed
		return col
	}
	of := func(name, kind, unit, says string, fill func(*cohort.Point) cell) column[*cohort.Point] {
		return column[*cohort.Point]{field{name: name, kind: kind, unit: unit, says: says}, fill}
	}
	roots := func(name, kind, unit, says string, fill func(*content.Roots) cell) column[*cohort.Point] {
		return of(name, kind, unit, says, func(p *cohort.Point) cell {
			if p.Look.Facts.Roots == nil {
				return missing
			}
			return fill(p.Look.Facts.Roots)
		})
	}
	leaves := func(name, kind, unit, says string, fill func(*content.Leaves) cell) column[*cohort.Point] {
		return of(name, kind, unit, says, func(p *cohort.Point) cell {
			if p.Look.Facts.Leaves == nil {
				return missing
			}
			return fill(p.Look.Facts.Leaves)
		})
	}
	id := words("specimen", "the specimen's or section's number", func(l *content.Look) string { return l.Timeline.Specimen.ID })
	id.required = true
	number := of("look", "integer", "count", "the number of the look at this plant, from 1", nil)
	number.fill = func(p *cohort.Point) cell {
		for i, l := range p.Look.Timeline.Looks {
			if l == p.Look {
				return whole(i + 1)
			}
		}
		return missing
	}
	number.required = true
	columns := []column[*cohort.Point]{
		id, number,
		of("date", "date", "", "the day of the look, in the diary's time zone", func(p *cohort.Point) cell { return cell(p.Look.When.Day.String()) }),
		of("day", "integer", "days since arrival", "the day of the look", func(p *cohort.Point) cell { return whole(p.Day) }),
		of("named", "boolean", "", "true if the check-in names the plant, false if it speaks for it among the others at the place", func(p *cohort.Point) cell { return trueFalse(p.Look.Named) }),
		words("place", "where it was looked at", func(l *content.Look) string { return placeID(l.At) }),
		closed("stage", "the stage of that place", []string{"soak", "bin", "step-down", "room"}, func(l *content.Look) string {
			if l.At == nil {
				return ""
			}
			return l.At.Stage.String()
		}),
		words("moved_to", "where it was moved", func(l *content.Look) string { return placeID(l.To) }),
		words("medium", "what the roots are in from this look on, where it was said", func(l *content.Look) string { return l.Medium }),
		of("leaf_area", "number", "cm2", "one-sided leaf area after any cutting, as known after this look", func(p *cohort.Point) cell {
			return maybe(float64(p.Leaves.Area), p.Leaves.Said && p.Leaves.Known())
		}),
		of("leaf_area_estimated", "boolean", "", "true if the area was worked out from an earlier look, from a part of the leaves or from estimates", func(p *cohort.Point) cell {
			if !p.Leaves.Said || !p.Leaves.Known() {
				return missing
			}
			return trueFalse(p.Leaves.Estimated)
		}),
		leaves("leaves", "integer", "leaves", "leaves counted, after any cutting", func(f *content.Leaves) cell { return countCell(f.Count) }),
		leaves("leaves_cut", "integer", "leaves", "whole leaves cut off", func(f *content.Leaves) cell { return whole(f.Cut) }),
		leaves("leaves_dropped", "integer", "leaves", "leaves that fell", func(f *content.Leaves) cell { return whole(f.Dropped) }),
		leaves("new_leaf", "boolean", "", "true if a new leaf came since the last look", func(f *content.Leaves) cell { return trueFalse(f.New) }),
		of("root_length", "number", "cm", "the best root length that the look gives; root_length_of says of what", func(p *cohort.Point) cell {
			return maybe(float64(p.Roots.Length), p.HasRoots())
		}),
		{field{name: "root_length_of", kind: "string", says: "what root_length is a length of", words: []string{"all roots", "count times mean", "longest root"}}, func(p *cohort.Point) cell { return text(p.RootsOf()) }},
		roots("root_grade", "integer", "grade", "0 none, 1 stubs, 2 few short, 3 several, 4 many, 5 fills the pot", func(f *content.Roots) cell {
			if f.Grade == nil {
				return missing
			}
			return whole(*f.Grade)
		}),
		roots("roots_cut", "number", "share", "the share of root taken off", func(f *content.Roots) cell {
			if f.Cut == nil {
				return missing
			}
			return cell(strconv.FormatFloat(float64(f.Cut.Value), 'g', -1, 64))
		}),
		roots("new_root", "boolean", "", "true if a new root came since the last look", func(f *content.Roots) cell { return trueFalse(f.New) }),
		closed("turgor", "how full the leaves stand", []string{"firm", "soft", "limp"}, func(l *content.Look) string { return string(l.Turgor) }),
		of("resting", "boolean", "", "true if it was leafless but alive, said at this look or carried on", func(p *cohort.Point) cell { return trueFalse(p.Look.AtRest) }),
		closed("rot", "where rot was seen", []string{"none", "roots", "stem", "growing point"}, func(l *content.Look) string { return l.Rot }),
		words("pests", "the pests seen, or none", func(l *content.Look) string { return l.Pests }),
		of("soak_hours", "number", "h", "hours of soaking, as said", func(p *cohort.Point) cell {
			if p.Look.Soak == nil {
				return missing
			}
			return maybe(float64(p.Look.Soak.Value), true)
		}),
		closed("outcome", "what became of it", []string{"lost", "established", "passed on", "alive after all"}, func(l *content.Look) string { return string(l.Outcome) }),
		words("cause", "the cause of a loss; two are joined by and", func(l *content.Look) string { return cohort.CauseWords(l.Cause) }),
		words("cut_into", "the pieces made at this look: number and position, joined by commas", func(l *content.Look) string {
			pieces := make([]string, len(l.CutInto))
			for i, p := range l.CutInto {
				pieces[i] = p.ID + " " + p.Position
			}
			return strings.Join(pieces, ", ")
		}),
		words("remark", "the short public remark", func(l *content.Look) string { return l.Note }),
	}
	for i := range columns {
		if slices.Contains(workedOutOfLooks, columns[i].name) {
			columns[i].from = workedOut
		}
	}
	if c.Diary.Settings.PublishTimes {
		columns = append(columns, of("time", "string", "", "the time of day in the diary's time zone, hours and minutes", func(p *cohort.Point) cell {
			if !p.Look.When.Timed() {
				return missing
			}
			return cell(p.Look.When.String()[len("2006-01-02 "):])
		}))
	}
	return columns
}

// checkIns writes check-ins.csv: a row a look at a plant, plants in order.
func checkIns(c *cohort.Cohort) resource {
	var points []*cohort.Point
	for _, l := range c.Lines {
		for _, p := range l.Parts {
			for i := range p.Points {
				points = append(points, &p.Points[i])
			}
		}
	}
	r := fillTable("check-ins", "A row is a look at one plant: a check-in that names it, or a round that speaks for it.", checkInColumns(c), points)
	r.from = written
	r.key = []string{"specimen", "look"}
	r.foreign = []foreignKey{{"specimen", "specimens", "specimen"}, {"place", "places", "place"}, {"moved_to", "places", "place"}}
	return r
}

func placeID(p *content.Place) string {
	if p == nil {
		return ""
	}
	return p.ID
}

func countCell(n *measure.Figure[int]) cell {
	if n == nil {
		return missing
	}
	return whole(n.Value)
}
