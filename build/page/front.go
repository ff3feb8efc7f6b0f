package page

import (
	"fmt"
	"html/template"
	"sort"
	"strings"

	"wardian/build/address"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/build/taxon"
	"wardian/content"
)

// frontData fills front.html.
type frontData struct {
	Pair    []figure
	PairOf  template.HTML
	Update  *updateRow
	About   string
	Current *way
	Says    string
	Soil    manyData
	Lately  []change
	Span    string // the seven days, in words
	Seasons []seasonRow
	Horizon int
	Bears   string // href of what these counts can bear
	Empty   bool
}

// change is one thing that happened of late.
type change struct {
	Icon template.HTML
	Day  string
	Says template.HTML
}

// seasonRow is a season's or an import's count on the front page.
type seasonRow struct {
	Season, Exporter, Href, Count, Note string
}

func (s *site) frontPage() Page {
	return Page{Path: address.Front(), Make: func() ([]byte, error) {
		settings := s.Diary.Settings
		return s.set(address.Front(), "front", front, "", settings.About, func(v view) any {
			d := frontData{About: settings.About, Empty: len(s.Diary.Imports) == 0, Horizon: s.horizon()}
			if list := s.updatesByDate(); len(list) > 0 {
				row := v.updateRow(list[0])
				d.Update = &row
			}
			current := s.current()
			if current != nil {
				scope := s.Cohort.Import(current)
				d.Current = &way{Words: "Import " + current.ID + ", " + current.Season, Href: v.Href(address.Import(current.ID))}
				d.Says = fmt.Sprintf("day %d. %s", max(scope.AsOfDay(), 0), importSays(scope, current))
				d.Soil = v.soilLines(scope, s.Cohort, true)
				d.Soil.Key = template.HTML(chart.Key(endMarks(scope)...))
				d.Pair, d.PairOf = v.thenAndNow(scope)
			}
			d.Lately, d.Span = v.lately()
			for _, label := range s.Cohort.SeasonsByArrival() {
				scope := s.Cohort.Season(label)
				row := seasonRow{Season: label, Href: v.Href(address.Season(label)), Exporter: exporters(scope)}
				at := scope.At(s.horizon())
				row.Count, row.Note = rowWords(at)
				if at.Kind == cohort.Counted || at.Kind == cohort.Estimated {
					d.Bears = v.Href(address.Seasons()) + "#bear"
				}
				d.Seasons = append(d.Seasons, row)
			}
			return d
		})
	}}
}

func (s *site) horizon() int { return s.Diary.Settings.Horizon }

// current is the import that arrived last.
func (s *site) current() *content.Import {
	if list := s.importsByArrival(); len(list) > 0 {
		return list[0]
	}
	return nil
}

// endMarks are the marks of how watching ended that occur in a scope.
func endMarks(scope cohort.Scope) []chart.KeyItem {
	occurs := map[chart.Mark]bool{}
	for _, l := range scope.Lines {
		occurs[endOf(l.Part).Mark] = true
	}
	var items []chart.KeyItem
	for _, m := range []chart.Mark{chart.PassedOn, chart.Lost, chart.Divided, chart.AliveLastSeen} {
		if occurs[m] {
			items = append(items, chart.KeyItem{Mark: m})
		}
	}
	return items
}

func exporters(scope cohort.Scope) string {
	var names []string
	seen := map[string]bool{}
	for _, i := range scope.Imports {
		if i.Exporter != "" && !seen[i.Exporter] {
			seen[i.Exporter] = true
			names = append(names, i.Exporter)
		}
	}
	return said.List(names)
}

// thenAndNow is the first and the latest picture of the plant of a scope that
// lives and has come the longest way between them.
func (v view) thenAndNow(scope cohort.Scope) (pair []figure, of template.HTML) {
	var best *cohort.Part
	longest := 0
	for _, l := range scope.Lines {
		if l.Part.Fate == cohort.Lost {
			continue
		}
		photos := v.s.photos(l.Part)
		if n := len(photos); n > 1 {
			if apart := photos[n-1].Look.Day - photos[0].Look.Day; apart > longest {
				best, longest = l.Part, apart
			}
		}
	}
	if best == nil {
		return nil, ""
	}
	return v.pairOf(best, v.s.photos(best)), template.HTML(`<a href="`+v.Href(address.Specimen(best.Specimen.ID))+`">`+template.HTMLEscapeString(best.Specimen.ID)+"</a>, ") + taxon.Name(best.Specimen.Name)
}

// pairOf sets a plant's first and last picture against one another.
func (v view) pairOf(p *cohort.Part, photos []photoOf) []figure {
	var pair []figure
	for _, photo := range []photoOf{photos[0], photos[len(photos)-1]} {
		f, ok := v.shown(photo.Photo, altOf(p, photo.Look))
		if !ok {
			continue
		}
		f.Bold = said.Upper(dayWord(photo.Look.Day))
		for i := range p.Points {
			if p.Points[i].Look == photo.Look {
				f.Caption = template.HTML(template.HTMLEscapeString(v.s.pairWords(&p.Points[i])))
			}
		}
		pair = append(pair, f)
	}
	return pair
}

// pairWords tells in a few words how a plant stood in a picture.
func (s *site) pairWords(pt *cohort.Point) string {
	var words []string
	if pt.Leaves.Known() && pt.Leaves.Area > 0 {
		words = append(words, areaWords(pt.Leaves.Area, pt.Leaves.Estimated))
	}
	if length := s.lengthWords(pt); length != "" {
		words = append(words, length)
	}
	if t := pt.Look.Turgor; t != "" {
		words = append(words, string(t))
	}
	return strings.Join(words, ", ")
}

// lately is what changed in the seven days up to the as-of day, the latest first,
// and which days these are.
func (v view) lately() (changes []change, days string) {
	c := v.s.Cohort
	if !c.AsOf.Known() {
		return nil, ""
	}
	type dated struct {
		change
		day int
	}
	var all []dated
	first := c.AsOf - 6
	link := func(p *cohort.Part) string {
		return `<a href="` + v.Href(address.Specimen(p.Specimen.ID)) + `">` + template.HTMLEscapeString(p.Specimen.ID) + "</a>, " + string(taxon.Name(p.Specimen.Name)) + ","
	}
	for _, l := range c.Lines {
		for _, p := range l.Parts {
			for _, h := range happenings(p) {
				if h.look.When.Day < first {
					continue
				}
				all = append(all, dated{change{template.HTML(chart.Icon(h.Mark)), dayWord(h.Day), template.HTML(link(p) + " " + template.HTMLEscapeString(happened(p, h)))}, int(h.look.When.Day)})
			}
			for _, look := range p.Looks {
				if look.When.Day < first {
					continue
				}
				says, mark := "", chart.NoMark
				switch look.Outcome {
				case content.Lost:
					says, mark = "lost", chart.Lost
					if cause := causeOf(p); cause != "" {
						says += ": " + cause
					}
				case content.PassedOn:
					says, mark = "passed on", chart.PassedOn
				case content.AliveAfterAll:
					says, mark = "is alive after all", chart.AliveLastSeen
				default:
					continue
				}
				all = append(all, dated{change{template.HTML(chart.Icon(mark)), dayWord(look.Day), template.HTML(link(p) + " " + template.HTMLEscapeString(says) + ".")}, int(look.When.Day)})
			}
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].day > all[j].day })
	for _, a := range all {
		changes = append(changes, a.change)
	}
	if seen := v.seenLately(int(first)); seen != "" {
		changes = append(changes, change{template.HTML(chart.Icon(chart.CheckIn)), "", template.HTML(template.HTMLEscapeString(seen))})
	}
	return changes, shortDate(first) + " to " + c.AsOf.InWords()
}

// seenLately counts the plants seen alive since a day.
func (v view) seenLately(first int) string {
	n := 0
	for _, l := range v.s.Cohort.Lines {
		for _, p := range l.Parts {
			if p.Fate == cohort.Open && p.LastAlive != cohort.Never && int(p.Specimen.Import.Day0())+p.LastAlive >= first {
				n++
			}
		}
	}
	if n == 0 {
		return ""
	}
	return said.Upper(said.NounInWords(n, "plant", "plants")) + " " + wasWere(n) + " seen alive in these days."
}

// happened tells of a happening in a sentence that begins with the plant.
func happened(p *cohort.Part, h happening) string {
	switch h.Mark {
	case chart.FirstNewLeaf, chart.FirstNewRoot:
		return "has its " + h.Mark.Word() + "."
	case chart.Established:
		return "is established."
	case chart.SectionCut:
		return "was cut: " + h.Words + "."
	case chart.MoveDrier, chart.MoveWetter:
		for _, m := range p.Moves {
			if m.Look == h.look {
				words := "moved to " + m.To.Name
				if m.Wetter() {
					words = "went back to " + m.To.Name
				}
				if demand := demandWords(m); demand != "" {
					words += ", " + demand
				}
				if d := differenceWords(m); d != "" {
					words += " (" + d + ")"
				}
				return words + "."
			}
		}
	}
	words := h.Words
	if words == "" {
		words = h.Mark.Word()
	}
	return "had " + words + "."
}
