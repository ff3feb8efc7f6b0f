package page

import (
	"fmt"
	"html/template"
	"slices"

	"wardian/build/address"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
)

// The seasons page sets seasons side by side, each time on one printed day and no
// further: the diary's horizon, day 84 where a season has come to it, and the age of
// the running season where one runs.

// seasonsData fills seasons.html.
type seasonsData struct {
	Title, Says string
	Views       []seasonsView
	Beside      []besideLine // what has no day in common
	Horizon     int
	Costs       bool
	Bears       []string
	Apart       []apartRow
	Reckonings  []way  // the seasons' own pages
	Compare     string // href of the comparisons' page
}

// seasonsView is the seasons on one day.
type seasonsView struct {
	ID, Title, Says string
	Day, Tau        int
	Curves          picture
	Told            bool   // there is a curve
	Limits          string // as in groupTable
	Rows            []seasonLine
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
	Lost    string
	Causes  string
	Mean    string
}

// besideLine is what stands beside a season's counts.
type besideLine struct {
	Season, Href              string
	Landed, Each              string
	Pieces, FirstRoot, Latest string
}

// apartRow is an import that stands in no season's figures.
type apartRow struct {
	way
	Why, Count string
}

// lastStatedDay is the last day of the survival table.
var lastStatedDay = cohort.StatedDays[len(cohort.StatedDays)-1]

func (s *site) seasonsPage() Page {
	return Page{Path: address.Seasons(), Make: func() ([]byte, error) {
		return s.set(address.Seasons(), "seasons", seasons, "Seasons", "The seasons side by side, as counts with their limits.", func(v view) any {
			return v.seasons()
		})
	}}
}

func (v view) seasons() seasonsData {
	s := v.s
	labels := s.Cohort.SeasonsByArrival()
	d := seasonsData{Horizon: s.horizon(), Compare: v.Href(address.Comparisons()), Title: "No season yet", Costs: s.Diary.Settings.PublishCosts}
	if len(labels) > 0 {
		d.Title = said.Upper(said.NounInWords(len(labels), "season", "seasons"))
	}
	if len(labels) > 1 {
		d.Title += " side by side"
	}
	r := s.seasonsAt(d.Horizon)
	d.Says = said.Counts(r)
	if d.Says == "" {
		d.Says = fmt.Sprintf("No season has reached day %d yet.", d.Horizon)
		if slices.ContainsFunc(r.Groups, func(g cohort.Group) bool { return g.Ripe }) {
			d.Says = fmt.Sprintf("No season of five plants or more has reached day %d yet.", d.Horizon)
		}
	}
	if len(labels) > 0 {
		d.Views = append(d.Views, v.seasonsView(r, "by-season", "Lines alive, by season", ""))
		if far := s.seasonsAt(lastStatedDay); d.Horizon < lastStatedDay && len(said.WithShare(far)) > 0 {
			d.Views = append(d.Views, v.seasonsView(far, "later", "Later on", "The same seasons up to another day."))
		}
		if age, ok := s.Cohort.All().SameAge(); ok && age < d.Horizon {
			d.Views = append(d.Views, v.seasonsView(s.seasonsAt(age), "same-age", "At the same age", "Every season cut on the day that the running one has come to."))
		}
		d.Beside = v.besides(labels, r)
		d.Bears = seasonsBear(r)
	}
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
}

// seasonsAt compares the seasons on a day.
func (s *site) seasonsAt(day int) cohort.Comparison {
	by, ok := s.Cohort.Grouping("season")
	if !ok {
		panic("page: no grouping by season") // every diary has it
	}
	return s.Cohort.Compare(s.Cohort.All(), by, day, cohort.LandmarkDays[0])
}

func (v view) seasonsView(r cohort.Comparison, id, title, says string) seasonsView {
	d := seasonsView{ID: id, Title: title, Says: says, Day: r.Horizon, Tau: r.Tau, Limits: methodsOfLimits(r)}
	curves := groupCurves(r, id+"-curves")
	slices.Reverse(curves.Groups) // the latest first, as in the table
	if d.Told = len(curves.Groups) > 0; d.Told {
		says := groupsSay(r)
		slices.Reverse(says)
		d.Curves = drawn(curves.Draw())
		d.Curves.Notes = append(d.Curves.Notes, says...)
	}
	for _, label := range v.s.Cohort.SeasonsByArrival() {
		row := v.seasonLine(label, r)
		if id == "by-season" {
			row.Anchor = address.SeasonAnchor(label)
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

// seasonLine is a season's row of a view. A season of rows without a day alone has
// its shares and nothing else.
func (v view) seasonLine(label string, r cohort.Comparison) seasonLine {
	scope := v.s.Cohort.Season(label)
	row := seasonLine{Season: label, Href: v.Href(address.Season(label)), Of: said.Noun(len(scope.Lines), "line", "lines"), Shares: sharesSay(scope), Alive: "–"}
	for _, im := range scope.Imports {
		words := im.ID
		if im.Exporter != "" {
			words += ", " + im.Exporter
		}
		if im.Origin != "" {
			words += ", " + im.Origin
		}
		if im.List != nil {
			words += ", " + listedWord
		}
		row.Imports = append(row.Imports, way{Words: words, Href: v.Href(address.Import(im.ID))})
	}
	n := slices.IndexFunc(r.Groups, func(g cohort.Group) bool { return g.Name == label })
	if n < 0 {
		return row
	}
	g := r.Groups[n]
	if !g.Ripe {
		row.Alive = "not yet"
		return row
	}
	row.Alive, row.Lost = said.Of(g.Alive, g.N), said.Of(g.Lost, g.N)
	row.Note = groupShare(g)
	if g.HasShare() {
		_, row.Note = rowWords(g.Row)
		row.Whisker = template.HTML(chart.Whisker(chart.Interval{Share: g.Row.Share, Lower: g.Row.Lower, Upper: g.Row.Upper}))
	}
	if g.HasMean && r.Tau > 0 {
		row.Mean = fmt.Sprintf("%.0f of the first %d", g.Mean.Days, r.Tau)
	}
	row.Causes = causeCounts(cohort.Scope{Lines: g.Lines}.CausesUpTo(r.Horizon))
	return row
}

// besides are what each survivor cost, where that is public, the pieces saved and
// the first roots of each season.
func (v view) besides(labels []string, r cohort.Comparison) []besideLine {
	var costs []cohort.GroupCost
	if v.s.Diary.Settings.PublishCosts {
		costs = v.s.Cohort.GroupCosts(r)
	}
	var out []besideLine
	for _, label := range labels {
		scope := v.s.Cohort.Season(label)
		row := besideLine{Season: label, Href: v.Href(address.Season(label)), Pieces: piecesSay(scope)}
		roots := scope.Milestone(cohort.FirstRoot)
		if n := len(roots.Lines); n > 0 {
			row.FirstRoot = said.Of(reachedSoFar(roots), n)
			if day, ok := roots.LatestReached(); ok {
				row.Latest = "the latest of these by day " + itoa(day)
			}
		}
		for n, c := range costs {
			if r.Groups[n].Name != label {
				continue
			}
			row.Landed, row.Each = "not all prices are written down", ""
			if c.Unpriced == 0 {
				row.Landed, row.Each = c.Landed.String(), eachWords(c.PerSurvivor)
				if !c.Refunds.Amount.IsZero() {
					row.Landed += ", of which " + c.Refunds.Amount.String() + " came back"
				}
			}
		}
		out = append(out, row)
	}
	return out
}

// piecesSay counts the pieces saved by the part of the plant they were cut from:
// "top 2 of 3, base 0 of 1"; "" where none was cut.
func piecesSay(scope cohort.Scope) string {
	words := ""
	for _, p := range scope.Pieces() {
		position := p.Position
		if position == "" {
			position = "unsaid"
		}
		if words != "" {
			words += ", "
		}
		words += position + " " + said.Of(p.Saved, p.Cut)
	}
	return words
}

// seasonsBear says what so few plants can bear.
func seasonsBear(r cohort.Comparison) []string {
	with := said.WithShare(r)
	if len(with) == 0 {
		return []string{fmt.Sprintf("Not a share yet: it takes a season of five plants or more that has come to day %d. What stands here is what was seen.", r.Horizon)}
	}
	n := 0
	for _, i := range with {
		n += r.Groups[i].N
	}
	says := []string{fmt.Sprintf("%s in %s: the limits say how far chance alone can carry a share of so few.", said.Upper(said.NounInWords(n, "plant", "plants")), said.NounInWords(len(with), "season", "seasons"))}
	if len(with) > 1 {
		says = append(says, said.Differences(r)...)
		says = append(says, said.Chance(r), "The seasons also differ in exporter, in country, in how the parcels travelled and in which plants were ordered, and these can’t be told apart here. The plants of one parcel share its fate: a parcel is one fact, not a dozen.")
	}
	return append(says, said.Aside(r)...)
}

// seasonCurves are the seasons' curves on one axis, the latest first, as of an
// update's day: each up to its own last day.
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
