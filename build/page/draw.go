package page

import (
	"html/template"
	"strconv"

	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
	"wardian/content/measure"
)

// stageOf is a stage as drawings know it.
func stageOf(s content.Stage) chart.Stage {
	return map[content.Stage]chart.Stage{content.Soak: chart.Soak, content.Bin: chart.Bin, content.StepDown: chart.StepDown, content.Room: chart.Room}[s]
}

// looksOf are the looks at a part that measured or counted something, as drawings
// take them.
func looksOf(p *cohort.Part) []chart.Look {
	var out []chart.Look
	for i := range p.Points {
		pt := &p.Points[i]
		l := chart.Look{Day: pt.Day, Falls: pt.Falls}
		if pt.Leaves.Said && pt.Leaves.Known() {
			l.Leaf, l.AreaCm2 = chart.Measured, float64(pt.Leaves.Area)
			if pt.Leaves.Estimated {
				l.Leaf = chart.Estimated
			}
		}
		if pt.HasRoots() {
			l.Roots, l.LengthCm = chart.Measured, float64(pt.Roots.Length)
			if pt.Roots.Estimated {
				l.Roots = chart.Estimated
			}
			l.Length = map[string]chart.Numerator{"all roots": chart.RootLength, "count times mean": chart.CountByMean, "longest root": chart.LongestRoot}[pt.RootsOf()]
		}
		if f := pt.Look.Facts.Leaves; f != nil && f.Count != nil {
			l.Counted, l.Leaves = true, f.Count.Value
		}
		if pt.Grade != nil {
			l.Graded, l.Grade = true, *pt.Grade
		}
		if l.Leaf != chart.Unknown || l.Roots != chart.Unknown || l.Counted || l.Graded {
			out = append(out, l)
		}
	}
	return out
}

// staysOf are a part's times at places.
func staysOf(p *cohort.Part) []chart.Stay {
	var out []chart.Stay
	for _, s := range p.Spans() {
		out = append(out, chart.Stay{From: s.From, To: s.Until, Stage: stageOf(s.Place.Stage), Place: s.Place.Name})
	}
	return out
}

// endOf is how the watch over a part ended, or stands.
func endOf(p *cohort.Part) chart.End {
	e := chart.End{Day: p.End(), Mark: chart.AliveLastSeen}
	switch p.Fate {
	case cohort.Lost:
		e.Mark = chart.Lost
	case cohort.PassedOn:
		e.Mark = chart.PassedOn
	case cohort.Divided:
		e.Mark = chart.Divided
	}
	if p.LastAlive == cohort.Never && p.Fate != cohort.Lost || dayless(p) {
		e.Mark = chart.NoMark
	}
	return e
}

// happening is something done or seen at a look, with its mark and words.
type happening struct {
	chart.Event
	look *content.Look
}

// marksOf are happenings as drawings take them.
func marksOf(list []happening) []chart.Event {
	out := make([]chart.Event, len(list))
	for i, h := range list {
		out[i] = h.Event
	}
	return out
}

// happenings are what was done to a part and what it did, in order. A first new
// root or leaf is that of the part itself.
func happenings(p *cohort.Part) []happening {
	var out []happening
	rooted, leafed := false, false
	before := measure.Area(0)
	known := false
	for i := range p.Points {
		pt := &p.Points[i]
		fell := ""
		if pt.Leaves.Said {
			if known && pt.Leaves.Known() && pt.Leaves.Area < before {
				fell = "−" + area(before-pt.Leaves.Area)
			}
			before, known = pt.Leaves.Area, pt.Leaves.Known()
		}
		add := func(mark chart.Mark, words, note string) {
			out = append(out, happening{chart.Event{Day: pt.Day, Mark: mark, Words: words, Note: note}, pt.Look})
		}
		// what fell is known of the look as a whole: beside several takings it would
		// be told of each
		if takings(pt.Look) > 1 {
			fell = ""
		}
		if f := pt.Look.Facts.Leaves; f != nil {
			if f.Cut > 0 {
				add(chart.LeavesCut, said.Noun(f.Cut, "leaf cut", "leaves cut"), fell)
			}
			if f.Dropped > 0 {
				add(chart.LeafDropped, said.Noun(f.Dropped, "leaf dropped", "leaves dropped"), fell)
			}
			if f.New && pt.Day > 0 && !leafed {
				leafed = true
				add(chart.FirstNewLeaf, "", "")
			}
		}
		if f := pt.Look.Facts.Roots; f != nil {
			if f.Cut != nil && f.Cut.Value > 0 {
				add(chart.RootsCut, rootsCutWords(f.Cut), "")
			}
			if f.New && pt.Day > 0 && !rooted {
				rooted = true
				add(chart.FirstNewRoot, "", "")
			}
		}
		if n := sectionsOf(pt.Look); n > 0 {
			add(chart.SectionCut, said.NounInWords(n, "section cut", "sections cut"), fell)
		}
		for _, m := range p.Moves {
			if m.Look == pt.Look {
				if e, ok := moveEvent(m); ok {
					out = append(out, happening{e, pt.Look})
				}
			}
		}
		if pt.Look.Outcome == content.Established {
			add(chart.Established, "", "")
		}
	}
	return out
}

// takings counts the ways in which a look tells that leaf was taken from a plant.
func takings(l *content.Look) int {
	n := 0
	if f := l.Facts.Leaves; f != nil {
		n += min(f.Cut, 1) + min(f.Dropped, 1)
	}
	return n + min(sectionsOf(l), 1)
}

// sectionsOf counts the pieces cut at a look that are new plants.
func sectionsOf(l *content.Look) int {
	n := 0
	for _, piece := range l.CutInto {
		if piece.ID != l.Timeline.Specimen.ID {
			n++
		}
	}
	return n
}

func rootsCutWords(cut *measure.Figure[measure.Share]) string {
	switch cut.Value {
	case 1:
		return "all roots cut"
	case 0.5:
		return "half the roots cut"
	}
	return tilde(cut.Estimate) + said.Percent(float64(cut.Value)) + " of roots cut"
}

// moveEvent is a move's mark; a move between places of one stage has none.
func moveEvent(m cohort.Move) (chart.Event, bool) {
	e := chart.Event{Day: m.Day, Words: demandWords(m)}
	switch {
	case m.Drier():
		e.Mark = chart.MoveDrier
		if e.Words == "" {
			e.Words = "to " + m.To.Stage.String()
		}
	case m.Wetter():
		e.Mark = chart.MoveWetter
		e.Words = "back to " + m.To.Stage.String()
	default:
		return e, false
	}
	e.Note = differenceWords(m)
	return e, true
}

// demandWords is a move's step in demand: "×6.2", "at least ×11"; "" where none
// can be told.
func demandWords(m cohort.Move) string {
	digits := m.Step.Digits()
	if digits == "" {
		return ""
	}
	return m.Bounded() + "×" + digits
}

// differenceWords is a move's difference in deficit: "+0.82 kPa"; "" where it
// isn't known.
func differenceWords(m cohort.Move) string {
	if !m.Known() {
		return ""
	}
	d := float64(m.Step.Difference)
	sign := "+"
	if d < 0 {
		sign, d = "−", -d
	}
	return sign + strconv.FormatFloat(d, 'f', 2, 64) + " kPa"
}

// picture is a drawing with the tables it was drawn from, ready for a template.
type picture struct {
	Drawing template.HTML
	Key     template.HTML
	Notes   []string
	Tables  []chart.Table
}

// drawn takes a drawing into a template.
func drawn(d chart.Drawing) picture {
	return picture{Drawing: template.HTML(d.HTML), Key: template.HTML(d.Key), Notes: d.Notes, Tables: d.Tables}
}

// axisDays is the last day of a page's common axis: twelve weeks, or longer
// where more is drawn.
func axisDays(days ...int) int {
	longest := 84
	for _, d := range days {
		longest = max(longest, d)
	}
	return chart.NiceDays(longest)
}

// outcomeWords is how a part's watch ended or stands: "lost day 38, rot". A plant
// from a list is marked so.
func outcomeWords(p *cohort.Part) string {
	if listedRow(p) {
		return endWordsOf(p) + "; " + listedWord
	}
	return endWordsOf(p)
}

func endWordsOf(p *cohort.Part) string {
	if dayless(p) {
		return listedOutcome(p)
	}
	switch p.Fate {
	case cohort.Lost:
		words := "lost " + dayWord(p.LostOn)
		if deadOnArrival(p) {
			words = "dead on arrival"
		}
		if cause := causeOf(p); cause != "" {
			words += ", " + cause
		}
		return words
	case cohort.Divided:
		return "divided " + dayWord(p.End())
	case cohort.PassedOn:
		return "passed on " + dayWord(p.End())
	}
	if p.LastAlive == cohort.Never {
		return "not looked at yet"
	}
	if on := establishedOn(p); on != cohort.Never {
		return "established " + dayWord(on)
	}
	words := "alive " + dayWord(p.LastAlive)
	if resting(p) {
		words += ", resting"
	}
	return words
}

// deadOnArrival tells whether a part was found lost on or before the unpacking.
func deadOnArrival(p *cohort.Part) bool {
	return p.Fate == cohort.Lost && p.Parent == nil && p.LostOn != cohort.Never && (p.LostOn <= 0 || p.Line.OnArrival)
}

// causeOf is the cause of a part's loss in words, doubts told.
func causeOf(p *cohort.Part) string {
	cause := p.CauseOf()
	words := causeWords(cause)
	if words != "" && cause.Doubt {
		words = "perhaps " + words
	}
	return words
}

// causeWords is a cause where nothing before it says that it is one.
func causeWords(c content.Cause) string {
	words := cohort.CauseWords(c)
	if words == "unknown" {
		return "cause unknown"
	}
	return words
}

func establishedOn(p *cohort.Part) int {
	for _, l := range p.Looks {
		if l.Outcome == content.Established {
			return l.Day
		}
	}
	return cohort.Never
}

func resting(p *cohort.Part) bool {
	return len(p.Looks) > 0 && p.Looks[len(p.Looks)-1].AtRest
}
