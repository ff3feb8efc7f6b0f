package page

import (
	"html/template"
	"slices"
	"strconv"
	"strings"
	"sync"

	"wardian/build/address"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/build/taxon"
	"wardian/content"
)

// fact is a figure that hangs from a soil line.
type fact struct {
	Term, Figure, Note string
}

// specimenData fills "about-specimen", what stands above a plant's entries, and
// "line-of-specimen", what stands below them.
type specimenData struct {
	Label   label
	Picture *figure
	Says    template.HTML
	Facts   []fact
	Chart   picture
	Drawn   bool // a leaf area or a root length is drawn
	Listed  bool // the row of a list of which no check-in tells: no timeline
	Words   template.HTML
	Line    *picture
	Kin     []kin
}

// orders fill "specimen": a plant's entries in one order or the other, and what
// stands above and below them.
type orders struct {
	About, Line template.HTML
	Entries     []template.HTML // oldest first until one order is chosen
	Looks       int
	Listed      bool
	Oldest      bool   // the order shown
	Other       string // href of the other order
}

// kin is a plant of the same line.
type kin struct {
	Href    string
	ID      string
	Says    string
	Outcome string
	Here    bool
}

// specimenPages plans the page of every plant, sections too, in both orders, and
// the list of all.
func (s *site) specimenPages() []Page {
	pages := []Page{{Path: address.Specimens(), Make: s.specimenList}}
	for _, l := range s.Cohort.Lines {
		for _, p := range l.Parts {
			id := p.Specimen.ID
			set := twice(func() orders { return view{s: s, Path: address.Specimen(id)}.ordersOf(p) })
			pages = append(pages,
				Page{Path: address.Specimen(id), Make: func() ([]byte, error) { return s.specimen(p, set(), address.Specimen(id), false) }},
				Page{Path: address.SpecimenOldest(id), Make: func() ([]byte, error) { return s.specimen(p, set(), address.SpecimenOldest(id), true) }},
			)
		}
	}
	return pages
}

// twice gives what make makes to two who ask, one after the other, and then lets
// it go: whoever asks next has it made anew.
func twice[T any](make func() T) func() T {
	var mu sync.Mutex
	var kept *T
	return func() T {
		mu.Lock()
		defer mu.Unlock()
		if kept != nil {
			given := *kept
			kept = nil
			return given
		}
		made := make()
		kept = &made
		return made
	}
}

// specimen makes a plant's page in one of its two orders. Both stand in one
// folder, so that the same links lead from them.
func (s *site) specimen(p *cohort.Part, set orders, path string, oldest bool) ([]byte, error) {
	sp := p.Specimen
	title := sp.ID + ", " + strings.Join(taxon.Words(sp.Name), " ")
	description := sp.Name + ", " + outcomeWords(p) + "."
	return s.set(path, "specimen", specimens, title, description, func(v view) any {
		set.Oldest, set.Other = oldest, v.Href(address.Specimen(sp.ID))
		if !oldest {
			set.Other = v.Href(address.SpecimenOldest(sp.ID))
			set.Entries = slices.Clone(set.Entries)
			slices.Reverse(set.Entries)
		}
		return set
	})
}

// ordersOf sets what both orders of a plant's page have in common.
func (v view) ordersOf(p *cohort.Part) orders {
	sp, s := p.Specimen, v.s
	d := specimenData{Label: v.specimenLabel(p), Says: v.specimenSays(p), Facts: v.specimenFacts(p), Listed: listedRow(p) && len(p.Looks) == 0}
	if photos := s.photos(p); len(photos) > 0 {
		last := photos[len(photos)-1]
		f, _ := v.shown(last.Photo, altOf(p, last.Look))
		f.Caption = template.HTML(template.HTMLEscapeString(caption(last.Look)) + `. <a href="#` + address.Anchor(last.Look.Entry) + `">The entry</a>`)
		d.Picture = &f
	}
	for _, l := range looksOf(p) {
		d.Drawn = d.Drawn || l.Leaf != chart.Unknown || l.Roots != chart.Unknown
	}
	d.Chart = s.drawSoilLine(s.Cohort, p, "soil-line")
	if sp.Words != nil {
		d.Words = v.body(sp.Words, 1)
	}
	if len(p.Line.Parts) > 1 {
		line := drawn(lineTree(p.Line).Draw())
		d.Line = &line
		for _, part := range p.Line.Parts {
			d.Kin = append(d.Kin, kin{
				Href: v.Href(address.Specimen(part.Specimen.ID)), ID: part.Specimen.ID, Says: partWords(part), Outcome: outcomeWords(part), Here: part == p,
			})
		}
	}
	return orders{
		About: template.HTML(v.fill("about-specimen", d)), Line: template.HTML(v.fill("line-of-specimen", d)),
		Entries: v.dayByDay(p), Looks: len(p.Looks), Listed: d.Listed,
	}
}

// lineTree is a line as a dated tree of water levels.
func lineTree(l *cohort.Line) chart.Line {
	tree := chart.Line{Head: chart.Head{ID: "line", Title: "The line of " + l.Specimen.ID}}
	at := map[*cohort.Part]int{}
	last := 0
	for i, p := range l.Parts {
		at[p] = i
		parent := -1
		if p.Parent != nil {
			parent = at[p.Parent]
		}
		tree.Parts = append(tree.Parts, chart.Part{
			Number: p.Specimen.ID, Words: outcomeWords(p), Parent: parent, Born: p.Begins,
			Stays: staysOf(p), Events: marksOf(happenings(p)), End: endOf(p),
		})
		last = max(last, p.End())
	}
	tree.Head.Days = axisDays(last)
	return tree
}

// partWords tells what a part of a line is: "as received", "top piece, cut day 20".
func partWords(p *cohort.Part) string {
	if p.Parent == nil {
		return "as received"
	}
	what := p.Specimen.Position
	if what == "" {
		what = "a"
	}
	if what != "offset" && what != "division" {
		what += " piece"
	}
	return what + ", cut " + dayWord(p.Begins)
}

// specimenSays is the summary of a plant in two or three sentences.
func (v view) specimenSays(p *cohort.Part) template.HTML {
	var says []string
	if listedRow(p) {
		says = append(says, listedSays(p))
	}
	switch {
	case dayless(p):
	case p.Fate == cohort.Lost:
		words := "Lost: found dead on " + dayWord(p.LostOn)
		if deadOnArrival(p) {
			words = "Dead on arrival, found on " + dayWord(p.LostOn)
		}
		if cause := causeOf(p); cause != "" {
			words += ", " + cause
		}
		says = append(says, words+".")
		if p.LastAlive != cohort.Never && p.LastAlive < p.LostOn {
			says = append(says, "It was last seen alive on "+dayWord(p.LastAlive)+".")
		}
	case p.Fate == cohort.Divided:
		says = append(says, "Cut up whole on "+dayWord(p.End())+".")
	case p.Fate == cohort.PassedOn:
		says = append(says, "Passed on alive on "+dayWord(p.End())+", and followed no further.")
	case p.LastAlive == cohort.Never:
		says = append(says, "Not looked at yet: nothing is known of it but its name.")
	default:
		words := "Alive on " + dayWord(p.LastAlive)
		switch on := establishedOn(p); {
		case on == p.LastAlive:
			words = "Established on " + dayWord(on)
		case on != cohort.Never:
			words = "Established on " + dayWord(on) + " and alive on " + dayWord(p.LastAlive)
		case resting(p):
			words += ", resting without a leaf"
		}
		if !p.Open {
			words += "; not looked at since"
		}
		says = append(says, words+".")
	}
	if now := v.carries(p); now != "" && p.Fate != cohort.Lost {
		says = append(says, now)
	}
	for _, w := range p.Withdrawn {
		says = append(says, "On "+dayWord(w.Day)+" it was called lost; that was taken back.")
	}
	words := template.HTMLEscapeString(strings.Join(says, " "))
	if on := v.goesOn(p); on != "" && (p.Fate == cohort.Lost || p.Fate == cohort.Divided) {
		words += " " + on
	}
	return template.HTML(words)
}

// carries tells what leaf and root a plant carried when last measured, and what
// it came with. Each figure has its day where that isn't the latest look's.
func (v view) carries(p *cohort.Part) string {
	var leaf, root *cohort.Point
	for i := range p.Points {
		pt := &p.Points[i]
		if pt.Leaves.Said {
			leaf = pt
		}
		if pt.HasRoots() {
			root = pt
		}
	}
	if leaf == nil || !leaf.Leaves.Known() {
		return ""
	}
	came := v.came(p)
	words := v.s.carriedWords(leaf)
	if root != nil && leaf.Leaves.Area > 0 && (came == nil || root.Day > came.Day || leaf == came) {
		words += " " + v.s.rootPhrase(root)
		if root.Day != leaf.Day {
			words += " (" + dayWord(root.Day) + ")"
		}
	}
	switch {
	case leaf.Day != p.LastAlive:
		words = "On " + dayWord(leaf.Day) + " it carried " + words
	case p.Fate == cohort.Open && p.Open:
		words = "It carries " + words
	default:
		words = "It carried " + words
	}
	if came != nil && came.Day < leaf.Day {
		words += "; it came with " + v.s.carriedWords(came)
		if came.HasRoots() && came.Leaves.Area > 0 {
			words += " " + v.s.rootPhrase(came)
		}
	}
	return words + "."
}

// came is a plant's record of arrival, where its leaf area is known.
func (v view) came(p *cohort.Part) *cohort.Point {
	record := p.Line.Arrival()
	if record == nil || p.Parent != nil {
		return nil
	}
	for i := range p.Points {
		if pt := &p.Points[i]; pt.Look == record && pt.Leaves.Known() {
			return pt
		}
	}
	return nil
}

// rootPhrase is a root length in a sentence, behind a leaf area: "on 131 cm of
// root", "with a longest root of 12 cm".
func (s *site) rootPhrase(pt *cohort.Point) string {
	length := s.length(pt.Roots.Length)
	if pt.Roots.Estimated {
		length = "about " + length
	}
	switch pt.RootsOf() {
	case "longest root":
		return "with a longest root of " + length
	case "count times mean":
		return "on " + length + " of root by count and mean"
	}
	return "on " + length + " of root"
}

// carriedWords is the leaf of a look in a sentence: "147 cm² of leaf", "no leaf".
func (s *site) carriedWords(pt *cohort.Point) string {
	if pt.Leaves.Area == 0 {
		return "no leaf"
	}
	return areaWords(pt.Leaves.Area, pt.Leaves.Estimated)
}

// goesOn tells which pieces cut from a part are alive; "" where none was cut.
func (v view) goesOn(p *cohort.Part) string {
	var alive []string
	cut := 0
	for _, piece := range p.Line.Parts {
		if !cutFrom(piece, p) {
			continue
		}
		cut++
		if piece.Fate == cohort.Open && piece.LastAlive != cohort.Never {
			alive = append(alive, `<a href="`+v.Href(address.Specimen(piece.Specimen.ID))+`">`+template.HTMLEscapeString(piece.Specimen.ID)+"</a>")
		}
	}
	switch {
	case cut == 0:
		return ""
	case len(alive) == 0:
		return "Nothing that was cut from it is followed any more."
	}
	return "Of what was cut from it, " + said.List(alive) + " " + isAre(len(alive)) + " alive."
}

// cutFrom tells whether a piece comes from a part, through other pieces too.
func cutFrom(piece, part *cohort.Part) bool {
	for p := piece.Parent; p != nil; p = p.Parent {
		if p == part {
			return true
		}
	}
	return false
}

// specimenFacts are the figures under a plant's head.
func (v view) specimenFacts(p *cohort.Part) []fact {
	if deadOnArrival(p) || p.LastAlive == cohort.Never || p.Parent == nil && !p.Line.Told() {
		return nil
	}
	notSeen := "not seen by " + dayWord(p.LastAlive)
	ratio := fact{Term: "Root to leaf", Figure: "–", Note: "not measured together"}
	if r := p.LastRatio(); r != nil {
		ratio.Figure = strconv.FormatFloat(r.Ratio.Value, 'f', 2, 64) + " cm/cm²"
		ratio.Note = dayWord(r.Day)
		if r.RootsOf() != "all roots" {
			ratio.Note += ", " + r.RootsOf()
		}
	}
	root, leaf := fact{Term: "First new root", Figure: "–", Note: notSeen}, fact{Term: "First new leaf", Figure: "–", Note: notSeen}
	for _, h := range happenings(p) {
		switch h.Mark {
		case chart.FirstNewRoot:
			root.Figure, root.Note = dayWord(h.Day), ""
		case chart.FirstNewLeaf:
			leaf.Figure, leaf.Note = dayWord(h.Day), ""
		}
	}
	facts := []fact{ratio, root, leaf}
	if p.Parent == nil {
		m := p.Line.Milestones
		back := fact{Term: "More leaf than it came with", Figure: "–", Note: notSeen}
		switch {
		case !m.Measured:
			back.Note = "not counted on arrival"
		case m.Recovered != cohort.Never:
			back.Figure, back.Note = dayWord(m.Recovered), ""
		}
		facts = append(facts, back)
	}
	if soak, bin := p.DaysAt(content.Soak), p.DaysAt(content.Bin); soak+bin > 0 || len(p.Stays) > 0 {
		f := fact{Term: "In the bin", Figure: said.Noun(bin, "day", "days")}
		if went := p.Line.Milestones.WentBack; went > 0 && p.Parent == nil {
			f.Note = "went back " + times(went)
		}
		facts = append(facts, f)
	}
	return facts
}

// times says how often.
func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return said.InWords(n) + " times"
}
