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

// importData fills import.html.
type importData struct {
	Label     label
	Says      string
	Words     template.HTML
	Facts     []fact
	Rows      rowsData
	Soil      manyData
	Curve     picture
	Table     []tableRow
	TableSays string
	Boxes     *boxesData
	When      []whenRow
	Later     string
	Causes    []causeData
	Lost      int
	Reached   *milestonesData
	Missed    string
	Money     *moneyData
	Bears     string
	Amended   []content.Amendment
	Empty     bool
	Undated   string // of rows without a day; may be ""
}

// rowsData is "where each one stood".
type rowsData struct {
	Water       template.HTML
	Top, Bottom template.HTML
	Rows        []rowData
	Key         template.HTML
	Tables      []chart.Table
}

type rowData struct {
	Href, ID string
	Name     template.HTML
	Section  bool
	Bar      template.HTML
	Outcome  string
}

// manyData is the soil lines of an import side by side.
type manyData struct {
	HowTo  template.HTML
	Words  string
	Cells  []cellData
	Bare   []cellData // too little was measured to draw; in a strip they stand among the others
	Strip  bool
	Key    template.HTML
	Across int // cells of a strip side by side where there is room
	Tables []chart.Table
}

type cellData struct {
	Href, ID string
	Name     template.HTML
	Thumb    template.HTML // "" where too little was measured to draw
	Outcome  string
}

func (s *site) importsByArrival() []*content.Import {
	list := append([]*content.Import(nil), s.Diary.Imports...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Day0() > list[j].Day0() })
	return list
}

// importPages plans the page of every import and the list of all.
func (s *site) importPages() []Page {
	pages := []Page{{Path: address.Imports(), Make: s.importList}}
	for _, im := range s.Diary.Imports {
		pages = append(pages, Page{Path: address.Import(im.ID), Make: func() ([]byte, error) { return s.importPage(im) }})
	}
	return pages
}

func (s *site) importPage(im *content.Import) ([]byte, error) {
	scope := s.Cohort.Import(im)
	title := "Import " + im.ID
	return s.set(address.Import(im.ID), "import", imports, title, importTitle(scope, im)+", "+im.Season+".", func(v view) any {
		d := importData{
			Label: v.importLabel(scope, im), Says: importSays(scope, im), Facts: importFacts(scope), Empty: len(scope.Everyone()) == 0, Undated: undatedSays(scope),
			Rows: v.rows(scope, s.Cohort), Soil: v.soilLines(scope, s.Cohort, false), Amended: im.Amended,
		}
		if im.Words != nil {
			d.Words = v.body(im.Words, 1)
		}
		d.Curve = drawn(curveOf(scope, "survival", "Lines alive, import "+im.ID).Draw())
		d.Curve.Notes = append(d.Curve.Notes, strings.Join(curveSays(scope), " "))
		d.Table, d.TableSays = tableOf(scope)
		d.Boxes = boxesOf(scope)
		d.When, d.Later = whenOf(scope)
		d.Reached = milestonesOf(scope)
		d.Causes, d.Lost = v.causes(scope), scope.Count(cohort.Lost)
		d.Missed = missed(scope, im)
		if s.Diary.Settings.PublishCosts {
			d.Money = v.money(im)
		}
		d.Bears = bears(scope)
		return d
	})
}

func importTitle(scope cohort.Scope, im *content.Import) string {
	n := len(scope.Everyone())
	title := said.Upper(said.NounInWords(n, "plant", "plants"))
	if n == 0 {
		title = "No plants yet"
	}
	if im.Local {
		return title + " from nearby"
	}
	if im.Origin != "" {
		title += ", " + im.Origin
	}
	return title
}

func (v view) importLabel(scope cohort.Scope, im *content.Import) label {
	l := label{
		Of: "Plants of " + v.s.Diary.Settings.Name, Left: "Import " + im.ID, Right: im.Season,
		Name: template.HTML(template.HTMLEscapeString(importTitle(scope, im))), As: generaWords(scope),
	}
	add := func(term, says string) {
		if says != "" {
			l.Fields = append(l.Fields, fieldRow{term, template.HTML(template.HTMLEscapeString(says))})
		}
	}
	add("Exporter", im.Exporter)
	add("Ordered", span(im.Ordered))
	add("On the way", wayWords(im))
	add("Arrived", span(im.Arrived))
	if im.Arrived.Half() {
		add("Day 0", "the first possible day; "+arrivalWords(im.Arrived))
	}
	add("Kept as", listWords(scope, im))
	if im.Received >= 0 {
		add("In the box", said.Noun(im.Received, "plant", "plants"))
	}
	var short []string
	for _, p := range im.Short {
		short = append(short, itoa(p.Count)+" "+string(taxon.Name(p.Name)))
	}
	if len(short) > 0 {
		l.Fields = append(l.Fields, fieldRow{"Not in the box", template.HTML(said.List(short))})
	}
	if im.Box != nil {
		add("The box, on opening", tilde(im.Box.Estimate)+v.s.temperature(im.Box.Value))
	} else {
		add("The parcel", im.Parcel)
	}
	add("Packing", strings.Join(im.Packing, "; "))
	papers := append([]string(nil), im.Permits...)
	if im.Phytosanitary {
		papers = append([]string{"phytosanitary certificate"}, papers...)
	}
	add("Papers", strings.Join(papers, "; "))
	if im.QuarantineUntil.Known() {
		add("Quarantine until", im.QuarantineUntil.InWords())
	}
	if im.FollowedFrom.Known() {
		add("Followed from", im.FollowedFrom.InWords()+": earlier losses aren't known, so it stands in no figures with others")
	}
	return l
}

// wayWords tells how long the parcel travelled.
func wayWords(im *content.Import) string {
	if !im.Dispatched.Known() {
		return ""
	}
	words := "from " + span(im.Dispatched)
	if !im.Dispatched.Half() && !im.Arrived.Half() {
		words += ", " + said.Noun(int(im.Arrived.First-im.Dispatched.First), "day", "days")
	}
	return words
}

// generaWords counts the plants of a scope by genus: "Hoya 4, Begonia 3".
func generaWords(scope cohort.Scope) template.HTML {
	at := map[string]int{}
	var genera []string
	for _, l := range scope.Everyone() {
		g := taxon.Genus(l.Specimen.Name)
		if g == "" {
			g = "not named"
		}
		if at[g] == 0 {
			genera = append(genera, g)
		}
		at[g]++
	}
	sort.SliceStable(genera, func(i, j int) bool {
		if at[genera[i]] != at[genera[j]] {
			return at[genera[i]] > at[genera[j]]
		}
		return genera[i] < genera[j]
	})
	for i, g := range genera {
		set := string(taxon.Name(g))
		if g == "not named" {
			set = g
		}
		genera[i] = fmt.Sprintf("%s&nbsp;%d", set, at[g])
	}
	return template.HTML(strings.Join(genera, ", "))
}

// importSays is an import's summary: alive, lost, passed on, not seen.
func importSays(scope cohort.Scope, im *content.Import) string {
	n := len(scope.Lines)
	switch {
	case n == 0 && len(scope.Undated) > 0:
		return "No day is known of any of its plants: " + sharesOf(scope.Shares()) + "."
	case n == 0:
		return "No plant of it was written down yet."
	}
	day := scope.AsOfDay()
	if day < 0 {
		return "It arrived after the latest look at any plant; nothing is known of its " + said.NounInWords(n, "plant", "plants") + " yet."
	}
	lost, open, passed, unseen := scope.Count(cohort.Lost), scope.Count(cohort.Open), scope.Count(cohort.PassedOn), scope.Count(cohort.NotSeen)
	early := 0
	for _, l := range scope.Lines {
		if l.Fate == cohort.Lost && l.Day <= 35 {
			early++
		}
	}
	var says []string
	switch {
	case unseen == n && neverSeen(scope) == n && n == 1:
		return "It was not looked at yet."
	case unseen == n && neverSeen(scope) == n:
		return fmt.Sprintf("None of the %s was looked at yet.", said.NounInWords(n, "plant", "plants"))
	case lost == 0 && n == 1:
		says = append(says, "The one plant is not known to be lost.")
	case lost == 0:
		says = append(says, fmt.Sprintf("None of the %s%s is known to be lost.", said.NounInWords(n, "plant", "plants"), withADay(scope)))
	case lost == n:
		words := fmt.Sprintf("All %s%s are lost.", said.InWords(n), withADay(scope))
		if n < 3 {
			words = map[int]string{1: "The one plant is lost.", 2: "Both plants are lost."}[n]
		}
		says = append(says, words)
	default:
		words := fmt.Sprintf("%s of the %s%s %s lost", said.Upper(said.InWords(lost)), said.InWords(n), withADay(scope), isAre(lost))
		if early > 0 && early < lost && day > 35 {
			words += fmt.Sprintf(", %s of them in the first five weeks", said.InWords(early))
		}
		says = append(says, words+".")
	}
	if passed > 0 {
		says = append(says, fmt.Sprintf("%s %s passed on.", said.Upper(said.InWords(passed)), wasWere(passed)))
	}
	if unseen > 0 {
		says = append(says, unseenWords(scope))
	}
	if open > 0 {
		established := 0
		for _, l := range scope.Lines {
			if l.Fate == cohort.Open && l.Milestones.Established != cohort.Never {
				established++
			}
		}
		words := fmt.Sprintf("%s %s alive on day %d", said.Upper(said.InWords(open)), isAre(open), day)
		if established > 0 {
			words += fmt.Sprintf(", %s of them established", said.InWords(established))
		}
		says = append(says, words+".")
	}
	return strings.Join(says, " ")
}

// neverSeen counts the lines that nobody looked at.
func neverSeen(scope cohort.Scope) int {
	n := 0
	for _, l := range scope.Lines {
		if !l.Seen {
			n++
		}
	}
	return n
}

// unseenWords tells of the lines that were not seen since some day.
func unseenWords(scope cohort.Scope) string {
	first, last, never, since, established := 1<<30, 0, 0, 0, 0
	for _, l := range scope.Unseen() {
		if !l.Seen || l.LastAlive == cohort.Never {
			never++
			continue
		}
		since++
		first, last = min(first, l.LastAlive), max(last, l.LastAlive)
		if l.Milestones.Established != cohort.Never {
			established++
		}
	}
	var says []string
	if since > 0 {
		days := dayWord(last)
		if first < last {
			days = fmt.Sprintf("days %d to %d", first, last)
		}
		words := fmt.Sprintf("%s %s last seen alive on %s and not since", said.Upper(said.InWords(since)), wasWere(since), days)
		if established > 0 {
			words += fmt.Sprintf(", %s of them established", said.InWords(established))
		}
		says = append(says, words+".")
	}
	if never > 0 {
		says = append(says, fmt.Sprintf("%s %s never looked at.", said.Upper(said.InWords(never)), wasWere(never)))
	}
	return strings.Join(says, " ")
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

func wasWere(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// importFacts are the three figures under an import's summary.
func importFacts(scope cohort.Scope) []fact {
	if len(scope.Lines) == 0 {
		return nil
	}
	day := 42
	for _, d := range cohort.StatedDays {
		if d <= scope.AsOfDay() {
			day = d
		}
	}
	alive := fact{Term: "Alive at day 42"}
	if scope.AsOfDay() < 42 {
		alive.Term = fmt.Sprintf("Alive at day %d", day)
	} else {
		day = 42
	}
	alive.Figure, alive.Note = rowWords(scope.At(day))
	root, left := milestoneFact(scope, cohort.FirstRoot, day), milestoneFact(scope, cohort.LeftBin, day)
	for _, l := range scope.Lines {
		if l.Told() {
			return []fact{alive, root, left}
		}
	}
	return []fact{alive} // a list without a check-in can't tell of the others
}

// rows are the water levels of a scope's plants, sections under their parents.
func (v view) rows(scope cohort.Scope, c *cohort.Cohort) rowsData {
	var chartRows []chart.Row
	var parts []*cohort.Part
	last := 0
	for _, l := range scope.Everyone() {
		for _, p := range l.Parts {
			parts = append(parts, p)
			last = max(last, p.End())
			chartRows = append(chartRows, chart.Row{
				Number: p.Specimen.ID, Name: p.Specimen.NameOn(nameDay(c)), Section: p.Parent != nil, Born: p.Begins,
				Stays: staysOf(p), Events: milestoneMarks(p), End: endOf(p), Outcome: outcomeWords(p),
			})
		}
	}
	if len(parts) == 0 {
		return rowsData{}
	}
	drawings := chart.RowChart{Days: axisDays(last), Rows: chartRows}.Draw()
	d := rowsData{
		Water: template.HTML(chart.WaterKey()), Top: template.HTML(drawings.Top), Bottom: template.HTML(drawings.Bottom),
		Key: template.HTML(drawings.Key), Tables: drawings.Tables,
	}
	for i, p := range parts {
		r := rowData{
			Href: v.Href(address.Specimen(p.Specimen.ID)), ID: p.Specimen.ID, Name: taxon.Name(p.Specimen.NameOn(nameDay(c))), Section: p.Parent != nil,
			Bar: template.HTML(drawings.Bars[i]), Outcome: outcomeWords(p),
		}
		if r.Section {
			r.Name = template.HTML(template.HTMLEscapeString(partWords(p)))
		}
		d.Rows = append(d.Rows, r)
	}
	return d
}

// milestoneMarks are the happenings that stand on a row: first root, first leaf,
// established.
func milestoneMarks(p *cohort.Part) []chart.Event {
	var out []chart.Event
	for _, h := range happenings(p) {
		switch h.Mark {
		case chart.FirstNewRoot, chart.FirstNewLeaf, chart.Established:
			out = append(out, h.Event)
		}
	}
	return out
}

// soilLines are the soil lines of a scope's plants as received, on common axes.
func (v view) soilLines(scope cohort.Scope, c *cohort.Cohort, strip bool) manyData {
	t := chart.Thumbs{}
	if strip {
		t.PxPerCm2 = 0.325
	}
	last := 0
	for _, l := range scope.Everyone() {
		t.Cells = append(t.Cells, chart.Thumb{Number: l.Specimen.ID, Looks: looksOf(l.Part), End: endOf(l.Part)})
		last = max(last, l.End())
	}
	if len(t.Cells) == 0 {
		return manyData{}
	}
	t.Days = axisDays(last)
	drawings := t.Draw()
	d := manyData{HowTo: template.HTML(drawings.HowTo), Words: drawings.Words, Strip: strip, Across: across(len(t.Cells)), Tables: drawings.Tables}
	for i, l := range scope.Everyone() {
		name := l.Specimen.NameOn(nameDay(c))
		cell := cellData{
			Href: v.Href(address.Specimen(l.Specimen.ID)), ID: l.Specimen.ID, Name: taxon.Name(name), Thumb: template.HTML(drawings.Cells[i]), Outcome: outcomeWords(l.Part),
		}
		if strip {
			cell.Name = taxon.ShortName(name)
		}
		if cell.Thumb == "" && !strip {
			d.Bare = append(d.Bare, cell)
			continue
		}
		d.Cells = append(d.Cells, cell)
	}
	return d
}

// across is how many cells of a strip stand side by side: all, up to fourteen,
// else rows of much the same length. Fewer than seven would be broad and low.
func across(cells int) int {
	rows := (cells + 13) / 14
	return max(7, (cells+rows-1)/max(1, rows))
}
