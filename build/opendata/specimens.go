package opendata

import (
	"wardian/build/cohort"
)

// specimenColumns are the columns of specimens.csv. Line figures stand on the
// row of the specimen as received and are empty on those of its sections.
func specimenColumns(c *cohort.Cohort) []column[*cohort.Part] {
	day := func(name, says string, of func(*cohort.Part) int) column[*cohort.Part] {
		return column[*cohort.Part]{field{name: name, kind: "integer", unit: "days since arrival", says: says, from: workedOut}, func(p *cohort.Part) cell { return dayCell(of(p)) }}
	}
	words := func(name, says string, of func(*cohort.Part) string) column[*cohort.Part] {
		return column[*cohort.Part]{field{name: name, kind: "string", says: says}, func(p *cohort.Part) cell { return text(of(p)) }}
	}
	ofLine := func(f field, of func(*cohort.Line) cell) column[*cohort.Part] {
		if f.from == "" {
			f.from = workedOut
		}
		return column[*cohort.Part]{f, func(p *cohort.Part) cell {
			if p.Parent != nil {
				return missing
			}
			return of(p.Line)
		}}
	}
	lineDay := func(name, says string, of func(*cohort.Line) int) column[*cohort.Part] {
		return ofLine(field{name: name, kind: "integer", unit: "days since arrival", says: says}, func(l *cohort.Line) cell { return dayCell(of(l)) })
	}
	id := words("specimen", "the specimen's or section's number", func(p *cohort.Part) string { return p.Specimen.ID })
	id.required = true
	line := words("line", "the specimen as received that it belongs to", func(p *cohort.Part) string { return p.Line.Specimen.ID })
	line.required, line.from = true, workedOut
	size := words("size", "the plant against its own kind full-grown, at unpacking", func(p *cohort.Part) string { return p.Specimen.Size })
	size.words = []string{"seedling", "small", "medium", "large"}
	fates := []string{cohort.Open.String(), cohort.Lost.String(), cohort.PassedOn.String(), cohort.NotSeen.String()}
	fate := words("fate", "how the watch over this plant ended, or that it is alive", func(p *cohort.Part) string { return p.Fate.String() })
	fate.from = workedOut
	fate.words = append(append([]string(nil), fates...), cohort.Divided.String())

	columns := []column[*cohort.Part]{
		id, line,
		words("parent", "the plant it was cut from; empty for one as received", func(p *cohort.Part) string {
			if p.Parent == nil {
				return ""
			}
			return p.Parent.Specimen.ID
		}),
		words("name", "the botanical name as the grower has it now", func(p *cohort.Part) string { return p.Specimen.Name }),
		words("received_as", "the label's words, where the name was corrected later", func(p *cohort.Part) string { return p.Specimen.Received }),
		words("import", "the consignment it came in", func(p *cohort.Part) string { return p.Specimen.Import.ID }),
		words("season", "the label under which imports are compared", func(p *cohort.Part) string { return p.Specimen.Import.Season }),
		words("origin", "the country of export", func(p *cohort.Part) string { return p.Specimen.Import.Origin }),
		words("exporter", "the exporter's alias", func(p *cohort.Part) string { return p.Specimen.Import.Exporter }),
		{field{name: "arrived", kind: "date", says: "day 0; the first possible day where the day is half known"}, func(p *cohort.Part) cell { return cell(p.Specimen.Import.Day0().String()) }},
		{field{name: "pooled", kind: "boolean", from: workedOut, says: "whether its import stands in figures with others: not bought nearby, and followed from its arrival"}, func(p *cohort.Part) cell { return trueFalse(cohort.Pooled(p.Specimen.Import)) }},
		{field{name: "from_list", kind: "boolean", from: workedOut, says: "whether it stands in a list that was kept of its import, without a timeline; days half known then count as the method tells"}, func(p *cohort.Part) cell { return trueFalse(p.Parent == nil && p.Line.FromList()) }},
		size,
		words("position", "where a section was cut from", func(p *cohort.Part) string { return p.Specimen.Position }),
		{field{name: "began_day", kind: "integer", unit: "days since arrival", from: workedOut, says: "0, or the day of the cut"}, func(p *cohort.Part) cell { return whole(p.Begins) }},
		fate,
		day("lost_day", "the day it was found lost", func(p *cohort.Part) int { return p.LostOn }),
		day("last_seen_alive_day", "the last day it was seen alive", func(p *cohort.Part) int { return p.LastAlive }),
		ofLine(field{name: "line_fate", kind: "string", says: "how the watch over the line ended, or that it is open", words: fates}, func(l *cohort.Line) cell { return text(l.Fate.String()) }),
		lineDay("line_day", "the day on which the line was found lost or left; the as-of day while it is open; empty for a row of a list without a day, which is in no curve", func(l *cohort.Line) int {
			if l.Undated {
				return cohort.Never
			}
			return max(l.Day, 0)
		}),
		ofLine(field{name: "line_lost", kind: "integer", unit: "count", says: "1 if the line was found lost on line_day, else 0; empty without a line_day", words: []string{"0", "1"}}, func(l *cohort.Line) cell {
			switch {
			case l.Undated:
				return missing
			case l.Fate == cohort.Lost:
				return "1"
			}
			return "0"
		}),
		ofLine(field{name: "line_lost_after_day", kind: "integer", unit: "days since arrival", says: "for a lost line the last day it was surely alive: the loss came after it, up to and on line_day; -1 where no look says so"}, func(l *cohort.Line) cell {
			if l.Fate != cohort.Lost || l.Undated {
				return missing
			}
			return whole(l.After)
		}),
		ofLine(field{name: "cause", kind: "string", from: written, says: "why the line was lost, as the grower wrote it; two causes are joined by and"}, func(l *cohort.Line) cell { return text(cohort.CauseWords(l.Cause)) }),
		ofLine(field{name: "cause_doubted", kind: "boolean", from: written, says: "whether the cause was written with a question mark"}, func(l *cohort.Line) cell {
			if l.Fate != cohort.Lost {
				return missing
			}
			return trueFalse(l.Cause.Doubt)
		}),
		ofLine(field{name: "dead_on_arrival", kind: "boolean", says: "found lost on or before the day of unpacking"}, func(l *cohort.Line) cell { return trueFalse(l.OnArrival) }),
		lineDay("first_new_root_day", "the check-in that first saw a new root on any part of the line", func(l *cohort.Line) int { return l.Milestones.FirstRoot }),
		lineDay("first_new_leaf_day", "the check-in that first saw a new leaf", func(l *cohort.Line) int { return l.Milestones.FirstLeaf }),
		lineDay("left_bin_day", "the first move from soak or bin to step-down or room", func(l *cohort.Line) int { return l.Milestones.LeftBin }),
		lineDay("recovered_day", "the first look with more leaf than at the record of arrival", func(l *cohort.Line) int { return l.Milestones.Recovered }),
		lineDay("established_day", "the first look at which the grower called it established", func(l *cohort.Line) int { return l.Milestones.Established }),
	}
	if c.Diary.Settings.PublishCosts {
		currency := c.Diary.Settings.Currency
		columns = append(columns, ofLine(
			field{name: "landed_cost", kind: "number", unit: currency, says: "price plus the specimen's share of the import's shared costs"},
			func(l *cohort.Line) cell {
				if landed, ok := c.Landed(l.Specimen); ok {
					return cell(landed.Amount.String())
				}
				return missing
			}))
	}
	return columns
}

// specimens writes specimens.csv: a row a plant, sections under their line.
func specimens(c *cohort.Cohort) resource {
	var parts []*cohort.Part
	for _, l := range c.Lines {
		parts = append(parts, l.Parts...)
	}
	r := fillTable("specimens", "A row is a plant: a specimen as received, or a section cut from one.", specimenColumns(c), parts)
	r.from = written
	r.key = []string{"specimen"}
	r.foreign = []foreignKey{{"line", "specimens", "specimen"}, {"parent", "specimens", "specimen"}}
	return r
}

// dayCell writes a day, or nothing for one that never came.
func dayCell(day int) cell {
	if day == cohort.Never {
		return missing
	}
	return whole(day)
}
