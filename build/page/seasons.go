package page

import (
	"fmt"
	"html/template"
	"strings"

	"wardian/build/address"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
)

// seasonsData fills seasons.html.
type seasonsData struct {
	Title, Says string
	Horizon     int
	Curves      picture
	Rows        []seasonLine
	Bears       string
	Apart       []apartRow
	Reckonings  []way  // the seasons' own pages
	Compare     string // href of the comparisons' page
}

// seasonLine is a season's row among the counts.
type seasonLine struct {
	Anchor  string
	Season  string
	Href    string // of the season's own page
	Imports []way
	Of      string
	Shares  string // of all plants, where lists are among them
	Alive   string
	Note    string
	Whisker template.HTML
	Last    string
	LastDay string
	Mean    string
	Causes  string
}

// apartRow is an import that stands in no season's figures.
type apartRow struct {
	way
	Why, Count string
}

func (s *site) seasonsPage() Page {
	return Page{Path: address.Seasons(), Make: func() ([]byte, error) {
		labels := s.Cohort.SeasonsByArrival()
		title := "Seasons"
		return s.set(address.Seasons(), "seasons", seasons, title, "The seasons side by side, as counts with their limits.", func(v view) any {
			d := seasonsData{Horizon: s.horizon(), Compare: v.Href(address.Comparisons())}
			d.Title = said.Upper(said.NounInWords(len(labels), "season", "seasons"))
			if len(labels) > 1 {
				d.Title += " side by side"
			}
			if len(labels) == 0 {
				d.Title = "No season yet"
			}
			var known []string
			var rows []cohort.Row
			for _, label := range labels {
				scope := s.Cohort.Season(label)
				row, at := v.seasonLine(label, scope)
				d.Rows = append(d.Rows, row)
				if at.Kind == cohort.Counted || at.Kind == cohort.Estimated {
					known = append(known, label)
					rows = append(rows, at)
				}
			}
			d.Curves = drawn(seasonCurves(s.Cohort, "seasons").Draw())
			d.Says = seasonsSay(known, rows, d.Horizon)
			d.Bears = seasonsBear(rows, known)
			for _, im := range s.importsByArrival() {
				if cohort.Pooled(im) {
					continue
				}
				why := "followed from later than its arrival, so its early losses aren't known"
				if im.Local {
					why = "bought nearby: no parcel, so it stands apart"
				}
				count, _ := rowWords(s.Cohort.Import(im).At(d.Horizon))
				d.Apart = append(d.Apart, apartRow{way{Words: im.ID, Href: v.Href(address.Import(im.ID))}, why, count})
			}
			for _, label := range s.seasonLabels() {
				d.Reckonings = append(d.Reckonings, way{Words: label, Href: v.Href(address.Season(label))})
			}
			return d
		})
	}}
}

// seasonCurves are the seasons' curves on one axis, the latest first.
func seasonCurves(c *cohort.Cohort, id string) chart.Curves {
	drawing := chart.Curves{Head: chart.Head{ID: id, Title: "Lines alive, by season"}}
	for _, label := range c.SeasonsByArrival() {
		scope := c.Season(label)
		curve := curveOf(scope, "", "")
		curve.Name, curve.EndWords, curve.EndLimits = label, shortEnd(scope), ""
		drawing.Groups = append(drawing.Groups, curve)
		drawing.Head.Days = max(drawing.Head.Days, curve.Head.Days)
	}
	return drawing
}

func (v view) seasonLine(label string, scope cohort.Scope) (seasonLine, cohort.Row) {
	at := scope.At(v.s.horizon())
	row := seasonLine{Anchor: address.SeasonAnchor(label), Season: label, Href: v.Href(address.Season(label)), Of: said.Noun(len(scope.Lines), "line", "lines"), Shares: sharesSay(scope)}
	for _, im := range scope.Imports {
		words := im.ID
		if im.Exporter != "" {
			words += ", " + im.Exporter
		}
		if im.Origin != "" {
			words += ", " + im.Origin
		}
		row.Imports = append(row.Imports, way{Words: words, Href: v.Href(address.Import(im.ID))})
	}
	row.Alive, row.Note = rowWords(at)
	if at.Kind == cohort.Counted || at.Kind == cohort.Estimated {
		row.Whisker = template.HTML(chart.Whisker(chart.Interval{Share: at.Share, Lower: at.Lower, Upper: at.Upper}))
	}
	last, note := rowWords(scope.At(84))
	row.Last, row.LastDay = last, note
	if days, horizon, ok := scope.MeanDays(84); ok && horizon > 0 {
		row.Mean = fmt.Sprintf("%.0f of the first %d days", days, horizon)
	}
	var causes []string
	for _, c := range scope.Causes() {
		causes = append(causes, fmt.Sprintf("%s %d", c.Cause, len(c.Lines)))
	}
	row.Causes = strings.Join(causes, ", ")
	return row, at
}

// seasonsSay sets the seasons' counts side by side in a sentence.
func seasonsSay(labels []string, rows []cohort.Row, horizon int) string {
	if len(rows) == 0 {
		return fmt.Sprintf("No season has reached day %d yet.", horizon)
	}
	parts := make([]string, len(rows))
	for i, r := range rows {
		parts[i] = fmt.Sprintf("%s in %s", said.Of(r.Alive, r.N), labels[i])
	}
	says := fmt.Sprintf("Known alive at day %d: %s.", horizon, said.List(parts))
	switch {
	case len(rows) < 2:
	case len(rows) == 2 && overlap(rows):
		says += " Their limits overlap."
	case len(rows) == 2:
		says += " Their limits do not overlap."
	case overlap(rows):
		says += " The limits of all of them overlap."
	default:
		says += " Not all of their limits overlap."
	}
	return says
}

// overlap tells whether every two intervals have a share in common.
func overlap(rows []cohort.Row) bool {
	for i, a := range rows {
		for _, b := range rows[:i] {
			if a.Lower > b.Upper || b.Lower > a.Upper {
				return false
			}
		}
	}
	return true
}

// seasonsBear says what so few plants can bear. It tests nothing and says so.
func seasonsBear(rows []cohort.Row, labels []string) string {
	if len(rows) == 0 {
		return ""
	}
	n := 0
	for _, r := range rows {
		n += r.N
	}
	words := fmt.Sprintf("%s in %s: the limits say how far chance alone can carry a share of so few.", said.Upper(said.NounInWords(n, "plant", "plants")), said.NounInWords(len(rows), "season", "seasons"))
	if len(rows) > 1 {
		words += " The seasons also differ in exporter, in country, in how the parcels travelled and in which plants were ordered, and these can’t be told apart here. No test is made: the plants of one parcel share its fate, and a parcel is one fact, not a dozen."
	}
	return words
}
