package page

import (
	"slices"
	"strings"

	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
)

// plateData fills plate.html: a drawing or a table called into an update.
type plateData struct {
	Says    string
	Drawing *picture
	Rows    *rowsData
	Soil    *manyData
	Table   []tableRow
	Causes  *causesData
	Pair    []figure
	Nothing string // in place of a drawing, where there was nothing to draw by then
}

// causesData is a table of causes.
type causesData struct {
	Causes []causeData
	Lost   int
}

// plate draws a plate as of its update's date: nothing that happened later is in
// then, so nothing of it can show.
func (v view) plate(then *cohort.Cohort, u *content.Update, p content.Plate, id string) string {
	scope, of := v.plateScope(then, u, p)
	d := plateData{}
	switch p.Show {
	case "survival":
		curve := curveOf(scope, id, "Lines alive, "+of)
		picture := drawn(curve.Draw())
		picture.Notes = append(picture.Notes, strings.Join(curveSays(scope), " "))
		d.Drawing, d.Says = &picture, asOf(then, "Lines alive, "+of)+" Shaded: 95% limits. An upright tick: one left watch alive."
		if p.By == "season" {
			picture = drawn(seasonCurves(then, id).Draw())
			picture.Notes = append(picture.Notes, seasonsSay(then)...)
			d.Says = asOf(then, "Lines alive, by season") + " At the end of each: how many are known alive, of how many."
		}
	case "table":
		rows, says := tableOf(scope)
		d.Table, d.Says = rows, asOf(then, "At the stated days, "+of)+" "+says
	case "causes":
		d.Causes, d.Says = &causesData{v.causes(scope), scope.Count(cohort.Lost)}, asOf(then, "Causes of loss, "+of)
	case "rows":
		rows := v.rows(scope, then)
		d.Rows, d.Says = &rows, asOf(then, "Where each one stood, "+of)
	case "soil-lines":
		many := v.soilLines(scope, then, false)
		d.Soil, d.Says = &many, asOf(then, "Leaf above, root below, "+of)
	case "milestones":
		strips := milestoneStrips(scope)
		strips.Head.ID, strips.Head.Title = id, "Milestones, "+of
		picture := drawn(strips.Draw())
		d.Drawing, d.Says = &picture, milestonesSay(then, scope, of)
	case "place":
		picture := drawn(platePlace(then, p, id).Draw())
		d.Drawing, d.Says = &picture, asOf(then, "The air at "+p.Place.Name)
	case "root-to-leaf":
		part := then.Part(p.Specimen.ID)
		if part == nil {
			d.Nothing = p.Specimen.ID + " had not arrived by then."
			break
		}
		picture := v.s.drawSoilLine(then, part, id)
		d.Drawing, d.Says = &picture, asOf(then, "Root to leaf, "+p.Specimen.ID)
	case "then-and-now":
		part := then.Part(p.Specimen.ID)
		var photos []photoOf
		if part != nil {
			photos = v.s.photos(part)
		}
		if len(photos) < 2 {
			d.Nothing = "Of " + p.Specimen.ID + " there were not two pictures by then."
			break
		}
		d.Pair = v.pairOf(part, photos)
	}
	return v.fill("plate", d)
}

// plateScope is whose figures a plate shows: its own import, else its update's,
// else all.
func (v view) plateScope(then *cohort.Cohort, u *content.Update, p content.Plate) (cohort.Scope, string) {
	im := p.Import
	if im == nil && p.Specimen == nil && p.Place == nil {
		im = u.Import
	}
	if im == nil {
		return then.All(), "all imports"
	}
	return then.Import(im), "import " + im.ID
}

func platePlace(then *cohort.Cohort, p content.Plate, id string) chart.PlacePlot {
	plot := placePlot(then, p.Place, p.Import)
	plot.Head.ID = id
	return plot
}

// milestonesSay counts who had reached what by the days that are stated.
func milestonesSay(then *cohort.Cohort, scope cohort.Scope, of string) string {
	says := asOf(then, "Milestones, "+of)
	for _, m := range cohort.AllMilestones {
		curve := scope.Milestone(m)
		says += " " + said.Upper(m.String()) + ": " + said.Of(reachedSoFar(curve), len(curve.Lines)) + "."
	}
	return says
}

// drawSoilLine draws a part's root-to-leaf chart. When its roots were last seen
// stands in the drawing itself and not a second time under it.
func (s *site) drawSoilLine(c *cohort.Cohort, p *cohort.Part, id string) picture {
	out := drawn(s.soilLineOf(c, p, id).Draw())
	out.Notes = slices.DeleteFunc(out.Notes, func(note string) bool { return strings.HasPrefix(note, "roots not seen") })
	return out
}

// soilLineOf is a part's root-to-leaf chart.
func (s *site) soilLineOf(c *cohort.Cohort, p *cohort.Part, id string) chart.SoilLine {
	soil := chart.SoilLine{
		Head:  chart.Head{ID: id, Title: "Root to leaf, " + p.Specimen.ID, Days: axisDays(p.End())},
		Looks: looksOf(p), Events: marksOf(happenings(p)), End: endOf(p), Stays: staysOf(p),
	}
	for _, a := range c.DayAirs(p) {
		soil.DeficitKPa = append(soil.DeficitKPa, chart.DayValue{Day: a.Day, Value: float64(a.Deficit)})
	}
	return soil
}
