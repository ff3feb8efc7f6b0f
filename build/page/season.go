package page

import (
	"fmt"
	"html/template"
	"slices"
	"sort"
	"strings"

	"wardian/build/address"
	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
	"wardian/content/measure"
)

// A season's page is its reckoning: what came, what was lost and why, what it
// cost where that is public, what differs from the season before, and the
// grower's own words. It is made to stand on one sheet of paper.

// seasonData fills season.html.
type seasonData struct {
	Season, Says string
	Apart        string // why it stands in no figures with others; may be ""
	Came         []cameRow
	Horizon      int
	TableSays    string
	Table        []tableRow
	Boxes        *boxesData
	Causes       []causeData
	Lost         int
	Reached      *milestonesData
	Costs        bool // some of the imports' costs are told
	Changed      *changedData
	Words        template.HTML
	All, Compare string // hrefs of the seasons' and the comparisons' pages
}

// cameRow is one import of a season.
type cameRow struct {
	way
	From, Arrived, Count, Alive string
	costWords
}

// costWords are what an import cost, where that is public and known.
type costWords struct{ Landed, Refunded, Each, Last string }

// changedData sets a season beside the one before it.
type changedData struct {
	Before, Now, Href string
	Says              string
	Rows              []changedRow
}

type changedRow struct{ What, Before, Now string }

// seasonLabels are all seasons that anything is written of, pooled or not.
func (s *site) seasonLabels() []string {
	var labels []string
	for _, im := range s.Diary.Imports {
		labels = append(labels, im.Season)
	}
	for _, w := range s.Diary.Seasons {
		labels = append(labels, w.Season)
	}
	slices.Sort(labels)
	return slices.DeleteFunc(slices.Compact(labels), func(label string) bool { return label == "" })
}

func (s *site) seasonPages() []Page {
	var pages []Page
	for _, label := range s.seasonLabels() {
		path := address.Season(label)
		pages = append(pages, Page{Path: path, Make: func() ([]byte, error) {
			return s.set(path, "season", seasons, label, "The season’s reckoning: what came, what was lost and why.", func(v view) any {
				return v.season(label)
			})
		}})
	}
	return pages
}

func (v view) season(label string) seasonData {
	c := v.s.Cohort
	scope := c.Season(label)
	d := seasonData{Season: label, Horizon: v.s.horizon(), All: v.Href(address.Seasons()), Compare: v.Href(address.Comparisons())}
	for _, im := range v.s.importsByArrival() {
		if im.Season != label {
			continue
		}
		one := c.Import(im)
		row := cameRow{way: way{Words: im.ID, Href: v.Href(address.Import(im.ID))}, Arrived: span(im.Arrived), Count: said.Noun(len(one.Everyone()), "plant", "plants")}
		row.From = strings.Join(slices.DeleteFunc([]string{im.Exporter, im.Origin}, func(w string) bool { return w == "" }), ", ")
		row.Alive, _ = rowWords(one.At(d.Horizon))
		if !cohort.Pooled(im) {
			row.Count += ", " + apartWord(im)
		}
		if row.costWords = v.costOf(im); row.Landed != "" {
			d.Costs = true
		}
		d.Came = append(d.Came, row)
	}
	if len(scope.Imports) > 0 {
		d.Says = importSays(scope, scope.Imports[0])
	} else if len(d.Came) > 0 {
		d.Says = "None of its imports stands in figures with others."
	}
	if shares := sharesSay(scope); shares != "" { // the shares that undatedSays speaks of
		d.Apart = strings.TrimSpace(said.Upper(shares) + ". " + undatedSays(scope))
	}
	if len(scope.Lines) > 0 {
		d.Table, d.TableSays = tableOf(scope)
		d.Boxes = boxesOf(scope)
		d.Causes, d.Lost = v.causes(scope), scope.Count(cohort.Lost)
		d.Reached = milestonesOf(scope)
		d.Changed = v.changed(label, scope)
	}
	for _, w := range v.s.Diary.Seasons {
		if w.Season == label && w.Words != nil {
			d.Words += v.body(w.Words, 1)
		}
	}
	return d
}

// apartWord says why an import stands in no figures with others.
func apartWord(im *content.Import) string {
	if im.Local {
		return "bought nearby, so apart"
	}
	return "followed from later than its arrival, so apart"
}

// costOf is what an import cost, where the diary publishes that and tells of it.
func (v view) costOf(im *content.Import) (words costWords) {
	b := v.s.Cohort.Bill(im)
	if b == nil || !v.s.Diary.Settings.PublishCosts {
		return words
	}
	words.Landed = measure.Money{Amount: b.Landed.Net, Currency: b.Currency}.String()
	if !b.Landed.Refunds.IsZero() {
		words.Refunded = "refunds taken off"
	}
	words.Each, words.Last = v.survivorWords(im, v.s.horizon()), v.survivorWords(im, 84)
	if words.Each == "" {
		words.Each = "not all prices are written down"
	}
	if words.Last == words.Each {
		words.Last = ""
	}
	return words
}

// before is the season whose first parcel came next before that of a season; ""
// where there is none.
func (s *site) before(label string) string {
	labels := s.Cohort.SeasonsByArrival() // the latest first
	for i := slices.Index(labels, label) + 1; i > 0 && i < len(labels); i++ {
		if len(s.Cohort.Season(labels[i]).Lines) > 0 {
			return labels[i]
		}
	}
	return ""
}

// changed sets a season beside the one before it, as counts on one day that both
// have reached.
func (v view) changed(label string, now cohort.Scope) *changedData {
	name := v.s.before(label)
	if name == "" {
		return nil
	}
	was := v.s.Cohort.Season(name)
	d := &changedData{Before: name, Now: label, Href: v.Href(address.Season(name))}
	day := v.s.horizon()
	age := min(now.AsOfDay(), was.AsOfDay())
	if age < 1 {
		return nil
	}
	same := ""
	if age < day {
		day, same = age, " (the day that both have reached)"
	}
	add := func(what, before, now string) { d.Rows = append(d.Rows, changedRow{what, before, now}) }
	a, b := was.At(day), now.At(day)
	count := func(s cohort.Scope) string {
		return said.Noun(len(s.Lines), "plant", "plants") + " in " + said.Noun(len(s.Imports), "import", "imports")
	}
	add("came", count(was), count(now))
	add("exporter", orDash(exporters(was)), orDash(exporters(now)))
	add("days on the way", orDash(daysOnTheWay(was)), orDash(daysOnTheWay(now)))
	add("known alive on "+dayWord(day), aliveCount(a), aliveCount(b))
	add("lost by "+dayWord(day), lostCount(a), lostCount(b))
	add("causes by "+dayWord(day), orDash(causeCounts(was.CausesUpTo(day))), orDash(causeCounts(now.CausesUpTo(day))))
	root := func(s cohort.Scope) string {
		r := s.Milestone(cohort.FirstRoot).By(day)
		if r.N == 0 {
			return "–"
		}
		return said.Of(r.Reached, r.N)
	}
	add("new root seen by "+dayWord(day), root(was), root(now))
	if b.Kind != cohort.Over && a.Kind != cohort.Over {
		d.Says = fmt.Sprintf("By day %d%s, %s %s known alive and %s lost, against %s alive and %s lost of %s. Whatever else differed between the parcels is in this difference.",
			day, same, said.Of(b.Alive, b.N), wasWere(b.Alive), said.InWords(b.Lost), said.InWords(a.Alive), said.InWords(a.Lost), said.InWords(a.N))
	}
	return d
}

func orDash(words string) string {
	if words == "" {
		return "–"
	}
	return words
}

func aliveCount(r cohort.Row) string {
	if r.Kind == cohort.Over {
		return "–"
	}
	words := said.Of(r.Alive, r.N)
	if unknown := r.PassedOn + r.NotSeen; unknown > 0 {
		words += fmt.Sprintf(", %d unknown", unknown)
	}
	return words
}

func lostCount(r cohort.Row) string {
	if r.Kind == cohort.Over {
		return "–"
	}
	return said.Of(r.Lost, r.N)
}

// causeCounts counts losses by cause: "rot 2, cold 1".
func causeCounts(rows []cohort.CauseRow) string {
	var causes []string
	for _, c := range rows {
		causes = append(causes, fmt.Sprintf("%s %d", c.Cause, len(c.Lines)))
	}
	return strings.Join(causes, ", ")
}

// daysOnTheWay lists how long the parcels of a scope travelled, where both ends
// are known in full.
func daysOnTheWay(scope cohort.Scope) string {
	var days []int
	for _, im := range scope.Imports {
		if im.Dispatched.Known() && im.Arrived.Known() && !im.Dispatched.Half() && !im.Arrived.Half() {
			days = append(days, int(im.Arrived.First-im.Dispatched.First))
		}
	}
	sort.Ints(days)
	words := make([]string, len(days))
	for i, n := range days {
		words[i] = itoa(n)
	}
	return said.List(words)
}
