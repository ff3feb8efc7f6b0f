package page

import (
	"fmt"
	"html/template"
	"slices"
	"sort"
	"strings"

	"wardian/build/address"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/build/taxon"
	"wardian/content"
	"wardian/content/measure"
)

// placeData fills place.html.
type placeData struct {
	Name    string
	Label   label
	Says    string
	Words   template.HTML
	Plot    picture
	Stood   []stoodRow
	Rounds  []roundData
	Amended []content.Amendment
}

// stoodRow is who stood at a place, and when.
type stoodRow struct {
	Href, ID string
	Name     template.HTML
	When     string
}

// roundData is a round or a note of a place, in its own words.
type roundData struct {
	Anchor  string
	Date    string
	Title   string
	Words   template.HTML
	Got     string
	Named   template.HTML
	Figures []figure
	Amended []content.Amendment
}

func (s *site) placePages() []Page {
	pages := []Page{{Path: address.Places(), Make: s.placeList}}
	for _, p := range s.Diary.Places {
		pages = append(pages, Page{Path: address.Place(p.ID), Make: func() ([]byte, error) { return s.placePage(p) }})
	}
	return pages
}

func (s *site) placePage(p *content.Place) ([]byte, error) {
	return s.set(address.Place(p.ID), "place", places, p.Name, "A place at stage "+p.Stage.String()+": what it was like there, and who stood there.", func(v view) any {
		d := placeData{Name: p.Name, Label: v.placeLabel(p), Says: v.placeSays(p), Plot: drawn(placePlot(s.Cohort, p, nil).Draw()), Amended: p.Amended}
		if p.Words != nil {
			d.Words = v.body(p.Words, 1)
		}
		for _, st := range stood(s.Cohort, p) {
			d.Stood = append(d.Stood, stoodRow{
				Href: v.Href(address.Specimen(st.part.Specimen.ID)), ID: st.part.Specimen.ID, Name: taxon.Name(st.part.Specimen.Name), When: stoodWords(st),
			})
		}
		d.Rounds = v.rounds(p)
		return d
	})
}

func (v view) placeLabel(p *content.Place) label {
	l := label{Of: "Places of " + v.s.Diary.Settings.Name, Left: p.ID, Right: p.Stage.String(), Name: template.HTML(template.HTMLEscapeString(p.Name))}
	add := func(term, says string) {
		if says != "" {
			l.Fields = append(l.Fields, fieldRow{term, template.HTML(template.HTMLEscapeString(says))})
		}
	}
	add("Stage", p.Stage.String()+", "+stageWords[p.Stage])
	var typical []string
	if p.Temperature != nil {
		typical = append(typical, tilde(p.Temperature.Estimate)+v.s.temperature(p.Temperature.Value))
	}
	if p.Humidity != nil {
		typical = append(typical, tilde(p.Humidity.Estimate)+digits(float64(p.Humidity.Value))+"% relative humidity")
	}
	add("Typically", strings.Join(typical, ", "))
	if p.BottomHeat {
		add("Heat", "from below")
	}
	if p.Quarantine {
		add("Quarantine", "plants stand apart here")
	}
	if p.CheckEvery > 0 {
		add("Looked at", "every "+said.Noun(p.CheckEvery, "day", "days"))
	}
	return l
}

// placeSays sums up what was measured at a place.
func (v view) placeSays(p *content.Place) string {
	air := v.s.Cohort.Air(p)
	if len(air.Days) == 0 {
		if air.Typical.Known {
			return "Nothing was measured here; where its air counts, the typical figures stand for it."
		}
		return "Nothing was measured here."
	}
	lowest, highest := air.Days[0].Deficit.Mean, air.Days[0].Deficit.Mean
	var sum measure.Pressure
	for _, d := range air.Days {
		lowest, highest = min(lowest, d.Deficit.Mean), max(highest, d.Deficit.Mean)
		sum += d.Deficit.Mean
	}
	return airSays(len(air.Days), air.Days[0].Day, air.Days[len(air.Days)-1].Day, sum/measure.Pressure(len(air.Days)), lowest, highest)
}

// airSays tells of a place's deficit, measured on so many days between two: the
// mean of the day means, the lowest and the highest of them.
func airSays(days int, first, last measure.Day, mean, lowest, highest measure.Pressure) string {
	if days == 1 {
		return fmt.Sprintf("Measured on one day, %s: a deficit of %s.", first.InWords(), kpaWords(mean))
	}
	when := fmt.Sprintf("Measured on %d days between %s and %s", days, first.InWords(), last.InWords())
	if kpa(lowest) == kpa(highest) {
		return fmt.Sprintf("%s: a deficit of %s on each.", when, kpaWords(mean))
	}
	return fmt.Sprintf("%s: a deficit of %s on average, from %s on the wettest day to %s on the driest.", when, kpaWords(mean), kpaWords(lowest), kpaWords(highest))
}

// stay is a part's time at a place, in calendar days.
type stay struct {
	part        *cohort.Part
	from, until measure.Day
	onward      bool // it moved on, or its watch ended
}

// stood are the stays at a place in order of their beginning.
func stood(c *cohort.Cohort, p *content.Place) []stay {
	var out []stay
	for _, l := range c.Lines {
		for _, part := range l.Parts {
			spans := part.Spans()
			for n, s := range spans {
				if s.Place == p {
					day0 := part.Specimen.Import.Day0()
					out = append(out, stay{part, day0 + measure.Day(s.From), day0 + measure.Day(s.Until), n+1 < len(spans) || !part.Open})
				}
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].from != out[j].from {
			return out[i].from < out[j].from
		}
		return out[i].part.Specimen.ID < out[j].part.Specimen.ID
	})
	return out
}

func stoodWords(s stay) string {
	words := s.from.InWords() + " to " + s.until.InWords()
	if !s.onward {
		words = "since " + s.from.InWords()
	}
	return words
}

// placePlot is a place on calendar days: its air, and who stood there beneath. With
// an import given it keeps to the days on which that import's plants stood there,
// and to them.
func placePlot(c *cohort.Cohort, p *content.Place, only *content.Import) chart.PlacePlot {
	plot := chart.PlacePlot{Head: chart.Head{ID: "place-" + p.ID, Title: "The air at " + p.Name}, Stage: stageOf(p.Stage)}
	days, stays := c.Air(p).Days, stood(c, p)
	if only != nil {
		stays = slices.DeleteFunc(stays, func(s stay) bool { return s.part.Specimen.Import != only })
	}
	first, last := measure.Day(1<<30), measure.NoDay
	for _, s := range stays {
		first, last = min(first, s.from), max(last, s.until)
	}
	if only == nil && len(days) > 0 {
		first, last = min(first, days[0].Day), max(last, days[len(days)-1].Day)
	}
	if !last.Known() {
		return plot
	}
	at := func(d measure.Day) int { return int(d - first) }
	t := first.Time()
	plot.First = chart.Date{Year: t.Year(), Month: int(t.Month()), Day: t.Day()}
	plot.Head.Days = at(last) + 1
	for _, d := range days {
		if d.Day < first || d.Day > last {
			continue
		}
		plot.DeficitKPa = append(plot.DeficitKPa, placeDay(at(d.Day), float64(d.Deficit.Mean), float64(d.Deficit.Min), float64(d.Deficit.Max), d.Readings))
		plot.TemperatureC = append(plot.TemperatureC, placeDay(at(d.Day), float64(d.T.Mean), float64(d.T.Min), float64(d.T.Max), d.Readings))
		plot.HumidityPct = append(plot.HumidityPct, placeDay(at(d.Day), float64(d.RH.Mean), float64(d.RH.Min), float64(d.RH.Max), d.Readings))
	}
	for _, n := range c.Times.Notes {
		if n.Place == p && n.When.Day >= first && n.When.Day <= last && n.Event != "" {
			plot.Notes = append(plot.Notes, chart.Event{Day: at(n.When.Day), Mark: chart.PlaceNote, Words: eventWords(n)})
		}
	}
	for _, s := range stays {
		row := chart.Stood{Number: s.part.Specimen.ID, Name: s.part.Specimen.NameOn(nameDay(c)), From: at(s.from), To: at(s.until)}
		if !s.onward {
			row.To++
		}
		if s.until == s.part.Specimen.Import.Day0()+measure.Day(s.part.End()) {
			row.Mark = endOf(s.part).Mark
		}
		plot.Stood = append(plot.Stood, row)
	}
	return plot
}

func placeDay(day int, mean, lowest, highest float64, readings int) chart.PlaceDay {
	return chart.PlaceDay{Day: day, Mean: mean, HasRange: readings > 1, Lowest: lowest, Highest: highest}
}

// rounds are the rounds and notes of a place, the newest first.
func (v view) rounds(p *content.Place) []roundData {
	var out []roundData
	for i := len(v.s.Diary.Entries) - 1; i >= 0; i-- {
		e := v.s.Diary.Entries[i]
		if e.Place != p || !e.Round && !e.PlaceNote() {
			continue
		}
		r := roundData{Anchor: address.Anchor(e), Date: e.When.Day.InWords(), Amended: e.Amended, Title: "round"}
		if e.PlaceNote() {
			r.Title = "note"
		}
		if e.Event != "" {
			r.Title = eventWords(e)
		}
		if e.Opening != nil {
			r.Words = v.words(e.Opening, 2)
		}
		var got []string
		if e.Since.Known() {
			got = append(got, "since "+e.Since.String())
		}
		if e.Reading != nil {
			got = append(got, v.s.temperature(e.Reading.Temperature), digits(float64(e.Reading.Humidity))+"%")
		}
		if e.By != "" {
			got = append(got, "seen by "+e.By)
		}
		r.Got = strings.Join(got, " · ")
		r.Named = v.namedIn(e)
		for _, photo := range e.Photos {
			if f, ok := v.shown(photo, p.Name+" on "+e.When.Day.InWords()); ok {
				f.Later = true
				r.Figures = append(r.Figures, f)
			}
		}
		out = append(out, r)
	}
	return out
}

// namedIn links to every plant that an entry names with something.
func (v view) namedIn(e *content.Entry) template.HTML {
	var links []string
	for _, c := range e.Named {
		if c.Empty || v.s.Cohort.Part(c.ID) == nil {
			continue
		}
		links = append(links, `<a href="`+v.Href(address.Specimen(c.ID))+"#"+address.Anchor(e)+`">`+template.HTMLEscapeString(c.ID)+"</a>")
	}
	words := strings.Join(links, ", ")
	if e.Others == content.OthersSame {
		if words != "" {
			words += "; "
		}
		words += "the others there as before"
	}
	return template.HTML(words)
}

// standingWords counts who stands at a place on the as-of day.
func standingWords(n int) string {
	switch n {
	case 0:
		return "no plant stands there"
	case 1:
		return "one plant stands there"
	}
	return said.InWords(n) + " plants stand there"
}

// placeList is the list of all places, wettest first.
func (s *site) placeList() ([]byte, error) {
	return s.set(address.Places(), "places", places, "Places", "Where plants stand, from wet to dry.", func(v view) any {
		type row struct {
			Href, Name, Stage, Standing, Says string
		}
		var rows []row
		list := append([]*content.Place(nil), s.Diary.Places...)
		sort.SliceStable(list, func(i, j int) bool { return list[i].Stage < list[j].Stage })
		for _, p := range list {
			r := row{Href: v.Href(address.Place(p.ID)), Name: p.Name, Stage: p.Stage.String() + ", " + stageWords[p.Stage], Says: v.placeSays(p)}
			standing := 0
			for _, st := range stood(s.Cohort, p) {
				if !st.onward {
					standing++
				}
			}
			r.Standing = standingWords(standing)
			rows = append(rows, r)
		}
		return struct {
			Rows []row
			Key  template.HTML
		}{rows, template.HTML(chart.WaterKey())}
	})
}
