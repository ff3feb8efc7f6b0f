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
	"wardian/content"
	"wardian/content/measure"
)

// nameDay is the day whose names a cohort bears: its last told day, or the end
// of time.
func nameDay(c *cohort.Cohort) measure.Day {
	if c.Times.Until.Known() {
		return c.Times.Until
	}
	return 1 << 30
}

// curveOf is a scope's survival curve, ready to draw.
func curveOf(scope cohort.Scope, id, title string) chart.Curve {
	curve := chart.Curve{Head: chart.Head{ID: id, Title: title}, Name: scope.Name, N: len(scope.Lines), Steps: stepsOf(scope)}
	last := 0
	for _, l := range scope.Lines {
		last = max(last, l.Day)
	}
	curve.Head.Days = axisDays(last)
	if n := len(scope.Lines); n > 0 {
		end := scope.At(endDay(scope))
		curve.EndWords, curve.EndLimits = endWords(end)
	}
	return curve
}

// shortEnd is what stands at the end of a curve among others: the name stands
// there too, so there is room for a count alone, and the words over the drawing say
// that it counts those known alive.
func shortEnd(scope cohort.Scope) string {
	if len(scope.Lines) == 0 {
		return ""
	}
	r := scope.At(endDay(scope))
	return said.Of(r.Alive, r.N)
}

// endDay is the last day on which a scope's curve says anything.
func endDay(scope cohort.Scope) int { return int(scope.Curve().LastDay()) }

// endWords are what stands at the end of a curve: counts first.
func endWords(r cohort.Row) (words, interval string) {
	words = fmt.Sprintf("%s %s on day %d", said.Of(r.Alive, r.N), said.Alive(r), r.Day)
	if r.HasLimits && r.Upper > 0 {
		interval = "95% limits " + said.Limits(r.Lower, r.Upper) + ", " + said.MethodOfLimits(r)
	}
	return words, interval
}

func stepsOf(scope cohort.Scope) []chart.Step {
	var out []chart.Step
	for _, st := range scope.Curve().FromDayZero() {
		out = append(out, chart.Step{
			Day: int(st.Time), AtRisk: st.AtRisk, Lost: st.Lost, Left: st.Left, Share: st.Share,
			HasLimits: st.HasLimits, Lower: st.Lower, Upper: st.Upper,
		})
	}
	return out
}

// tableRow is a row of the survival table, in words.
type tableRow struct {
	Day                                    int
	AtRisk, Lost, PassedOn, NotSeen, Alive string
	Share                                  string
	Limits                                 string
	Between                                string
	Whisker                                template.HTML
}

// tableOf is the survival table of a scope, with the sentence that says which
// interval its rows bear.
func tableOf(scope cohort.Scope) (rows []tableRow, says string) {
	kinds := map[cohort.Kind]bool{}
	for _, r := range scope.Table() {
		row := tableRow{Day: r.Day}
		switch r.Kind {
		case cohort.NotYet:
			row.Alive = "not yet"
		case cohort.Over:
			row.Alive = "–"
		default:
			kinds[r.Kind] = true
			row.AtRisk, row.Lost, row.PassedOn, row.NotSeen = itoa(r.AtRisk), itoa(r.Lost), itoa(r.PassedOn), itoa(r.NotSeen)
			row.Alive = said.Of(r.Alive, r.N)
			row.Limits = said.Limits(r.Lower, r.Upper)
			if r.Kind == cohort.Estimated {
				row.Share = said.Percent(r.Share)
				row.Between = fmt.Sprintf("between %d and %d of %d", r.Least, r.Most, r.N)
			}
			row.Whisker = template.HTML(chart.Whisker(chart.Interval{Share: r.Share, Lower: r.Lower, Upper: r.Upper}))
		}
		rows = append(rows, row)
	}
	var parts []string
	if kinds[cohort.Counted] {
		parts = append(parts, "Where every plant’s state is known: the count, with Wilson’s 95% limits.")
	}
	if kinds[cohort.Estimated] {
		parts = append(parts, "Where some are unknown: the product-limit share with log-log 95% limits, and the range from all of them lost to all alive.")
	}
	return rows, strings.Join(parts, " ")
}

// rowWords is one row of the table as a figure with a note.
func rowWords(r cohort.Row) (words, note string) {
	switch r.Kind {
	case cohort.NotYet:
		return "not yet", ""
	case cohort.Over:
		return "–", "nobody was under watch any more"
	case cohort.Counted:
		return said.Of(r.Alive, r.N), said.Percent(r.Share) + ", 95% limits " + said.Limits(r.Lower, r.Upper)
	}
	return said.Of(r.Alive, r.N), fmt.Sprintf("between %d and %d of %d; 95%% limits %s", r.Least, r.Most, r.N, said.Limits(r.Lower, r.Upper))
}

// whenRow is a stretch of days and the losses in it.
type whenRow struct {
	Days, Lost, Of string
	Pips           template.HTML
}

// whenOf tells when losses came, and what became of those alive on day 14.
func whenOf(scope cohort.Scope) (rows []whenRow, later string) {
	for _, st := range scope.WhenLost() {
		row := whenRow{Days: fmt.Sprintf("%d to %d", st.From, st.To), Lost: itoa(st.Lost), Of: itoa(st.Of), Pips: template.HTML(chart.Pips(st.Lost))}
		if !st.Reached {
			row.Days += ", so far"
		}
		rows = append(rows, row)
	}
	if l := scope.AliveFrom(14, 84); l.Reached {
		later = fmt.Sprintf("Of the %s alive on day 14, %s %s alive on day 84", said.InWords(l.Of), said.InWords(l.Alive), wasWere(l.Alive))
		if l.Unknown > 0 {
			later += fmt.Sprintf("; of %s nothing is known by then", said.InWords(l.Unknown))
		}
		later += "."
	}
	return rows, later
}

// causeData is a row among the causes of loss.
type causeData struct {
	Cause string
	Pips  template.HTML
	Count string
	Which template.HTML
}

// causes are the causes of loss of a scope, with the plants lost to each.
func (v view) causes(scope cohort.Scope) []causeData {
	var out []causeData
	lost := scope.Count(cohort.Lost)
	for _, r := range scope.Causes() {
		var which []string
		for _, l := range r.Lines {
			which = append(which, `<a href="`+v.Href(address.Specimen(l.Specimen.ID))+`">`+template.HTMLEscapeString(l.Specimen.ID)+"</a> (day "+itoa(l.Day)+")")
		}
		c := causeData{Cause: r.Cause, Pips: template.HTML(chart.Pips(len(r.Lines))), Count: said.Of(len(r.Lines), lost), Which: template.HTML(strings.Join(which, ", "))}
		if r.Doubted > 0 {
			c.Cause += fmt.Sprintf(" (%d in doubt)", r.Doubted)
		}
		out = append(out, c)
	}
	return out
}

// missed tells who the figures miss; "" where nobody.
func missed(scope cohort.Scope, im *content.Import) string {
	var never []string
	var days []int
	since := map[int][]string{}
	for _, l := range scope.Unseen() {
		if l.Seen {
			day := max(l.LastAlive, 0)
			if since[day] == nil {
				days = append(days, day)
			}
			since[day] = append(since[day], l.Specimen.ID)
		} else {
			never = append(never, l.Specimen.ID)
		}
	}
	sort.Ints(days)
	var says []string
	for _, day := range days {
		says = append(says, fmt.Sprintf("Not seen since day %d: %s.", day, said.List(since[day])))
	}
	if len(never) > 0 {
		says = append(says, "Never looked at: "+said.List(never)+".")
	}
	established, day := 0, 0
	for _, l := range scope.Unseen() {
		if l.Milestones.Established != cohort.Never {
			established++
			day = max(day, l.LastAlive)
		}
	}
	if established > 0 {
		says = append(says, fmt.Sprintf("%s of them %s established, last seen by day %d.", said.Upper(said.InWords(established)), wasWere(established), day))
	}
	if im.Received >= 0 && im.Received != len(scope.Everyone()) {
		says = append(says, fmt.Sprintf("%d were in the box and %d are written down.", im.Received, len(scope.Everyone())))
	}
	return strings.Join(says, " ")
}

// bears says in a sentence or two what so few plants can bear.
func bears(scope cohort.Scope) string {
	n := len(scope.Lines)
	if n == 0 || scope.AsOfDay() < 0 {
		return ""
	}
	day := 0
	for _, d := range cohort.StatedDays {
		if d <= scope.AsOfDay() {
			day = d
		}
	}
	if day == 0 {
		return fmt.Sprintf("It is day %d: too early for a share. What stands here is what was seen so far.", scope.AsOfDay())
	}
	r := scope.At(day)
	if r.Kind == cohort.NotYet || r.Kind == cohort.Over {
		return ""
	}
	if n < 5 {
		return fmt.Sprintf("%s %s too few for a share. What stands here is what was seen.", said.Upper(said.NounInWords(n, "plant", "plants")), isAre(n))
	}
	return fmt.Sprintf("Of %s %s %s %s on day %d. The limits, from %d to %d in a hundred, are wide with so few, and should be read as wider still: they take each plant by itself, and the plants of one parcel shared its road. The curve says what happened here, not what to expect.",
		said.NounInWords(n, "plant", "plants"), said.InWords(r.Alive), isAre(r.Alive), said.Alive(r), day, int(r.Lower*100+.5), int(r.Upper*100+.5))
}
