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

// The compare pages set the lines of all pooled imports side by side by one word
// each: a curve, a table, and what can and can't be said. The figures are those
// of build/cohort; all words are compared once, when the first page is made.

// comparisonData fills comparison.html.
type comparisonData struct {
	Title, Lead string
	How         string // how the groups are formed
	Curves      picture
	Told        bool // there is a curve
	Table       groupTable
	Says        []string
	Aside       []string
	Reached     *groupMilestones
	Same        *groupTable // at the age of the youngest import
	SameSays    []string
	Index       string // href
}

// groupTable is the groups' counts on one day.
type groupTable struct {
	Group   string // what a group is: "days on the way"
	Horizon int
	Tau     int
	Limits  string // the method of the limits: "Wilson"
	Costs   bool   // what each survivor cost is told
	PartOf  bool   // some lines stand in no group, and their cost in none
	Rows    []groupLine
}

// groupLine is one group's counts.
type groupLine struct {
	Name, Imports           string
	N, Alive, Lost, Unknown string
	Share                   string // with its limits, or why there is none
	Whisker                 template.HTML
	Mean, Between           string
	Each                    string // landed cost per survivor, where costs are told
}

func (s *site) comparePages() []Page {
	pages := []Page{{Path: address.Comparisons(), Make: func() ([]byte, error) {
		return s.set(address.Comparisons(), "comparisons", seasons, "Compared", "By which words plants can be compared here, and by which they can’t.", func(v view) any {
			return v.comparisons(s.Compared())
		})
	}}}
	if len(s.Cohort.All().Lines) == 0 {
		return pages
	}
	for n, by := range s.Cohort.Groupings() {
		path, title := address.Comparison(by.Word), said.Grouping(by)
		pages = append(pages, Page{Path: path, Make: func() ([]byte, error) {
			return s.set(path, "comparison", seasons, "By "+said.Lower(title), "Plants compared by one word, as counts with their limits.", func(v view) any {
				return v.comparison(s.Compared()[n])
			})
		}})
	}
	return pages
}

func (v view) comparison(r cohort.Comparison) comparisonData {
	d := comparisonData{
		Title: said.Grouping(r.By), Lead: said.Lead(r), How: strings.Join(said.Formed(r), " "), Table: v.tableOfGroups(r),
		Says: said.Comparison(r), Aside: said.Aside(r), Index: v.Href(address.Comparisons()),
	}
	curves := groupCurves(r, "groups")
	if d.Told = len(curves.Groups) > 0; d.Told {
		d.Curves = drawn(curves.Draw())
		d.Curves.Notes = append(d.Curves.Notes, groupsSay(r)...)
	}
	d.Reached = reachedByGroup(r)
	c, all := v.s.Cohort, v.s.Cohort.All()
	if r.Landmark != nil {
		for _, day := range cohort.OtherLandmarks(r.Landmark.Day) {
			d.Aside = append(d.Aside, said.OtherLandmark(c.Compare(all, r.By, r.Horizon, day)))
		}
	}
	if age, ok := all.SameAge(); ok && age < r.Horizon && anyUnripe(r) {
		same := c.Compare(all, r.By, age, cohort.LandmarkDays[0])
		table := v.tableOfGroups(same)
		d.Same, d.SameSays = &table, said.Comparison(same)
	}
	return d
}

func anyUnripe(r cohort.Comparison) bool {
	for _, g := range r.Groups {
		if g.State == cohort.Unripe {
			return true
		}
	}
	return false
}

// groupCurves are the groups' curves on one axis that ends at the horizon.
func groupCurves(r cohort.Comparison, id string) chart.Curves {
	drawing := chart.Curves{Head: chart.Head{ID: id, Title: "Lines alive, by " + said.Lower(said.Grouping(r.By)), Days: chart.NiceDays(r.Horizon)}}
	from := 0
	if r.Landmark != nil {
		from = r.Landmark.Day
	}
	for _, g := range r.Groups {
		if g.State != cohort.Told {
			continue
		}
		curve := chart.Curve{Name: said.Group(r.By, g.Name), N: g.N, From: from}
		for _, st := range g.Curve.FromDayZero() {
			curve.Steps = append(curve.Steps, chart.Step{
				Day: max(int(st.Time), from), AtRisk: st.AtRisk, Lost: st.Lost, Left: st.Left, Share: st.Share,
				HasLimits: st.HasLimits, Lower: st.Lower, Upper: st.Upper,
			})
		}
		if g.HasShare() {
			curve.EndWords = said.Of(g.Alive, g.N) + " " + said.Alive(g.Row)
		}
		drawing.Groups = append(drawing.Groups, curve)
	}
	return drawing
}

func (v view) tableOfGroups(r cohort.Comparison) groupTable {
	t := groupTable{Group: said.Lower(said.Grouping(r.By)), Horizon: r.Horizon, Tau: r.Tau, Limits: methodsOfLimits(r)}
	costs := v.groupCosts(r)
	t.Costs = costs != nil
	t.PartOf = r.Undated+r.FollowedLate > 0 || r.Landmark != nil && r.Landmark.In < len(r.Scope.Lines)
	for n, g := range r.Groups {
		row := groupLine{Name: said.Group(r.By, g.Name), Imports: said.Noun(len(g.Imports), "import", "imports"), N: itoa(g.N), Alive: "not yet", Lost: itoa(g.Lost), Unknown: "not yet", Share: groupShare(g)}
		if g.Ripe {
			row.Alive, row.Unknown = said.Of(g.Alive, g.N), itoa(g.Unknown)
		} else {
			row.Lost += " so far"
		}
		if g.HasShare() {
			row.Whisker = template.HTML(chart.Whisker(chart.Interval{Share: g.Row.Share, Lower: g.Row.Lower, Upper: g.Row.Upper}))
			if g.Row.Kind == cohort.Estimated {
				row.Between = fmt.Sprintf("between %d and %d of %d", g.Row.Least, g.Row.Most, g.N)
			}
		}
		if g.HasMean && r.Tau > 0 {
			row.Mean = fmt.Sprintf("%.0f of %d", g.Mean.Days, r.Tau)
		}
		if t.Costs {
			row.Each = costs[n]
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// groupCosts is what each survivor of a group cost, in the order of the groups; nil
// where costs aren't public, or none is known of any group.
func (v view) groupCosts(r cohort.Comparison) []string {
	if !v.s.Diary.Settings.PublishCosts {
		return nil
	}
	known := false
	out := make([]string, len(r.Groups))
	for n, c := range v.s.Cohort.GroupCosts(r) {
		out[n] = "not all prices are written down"
		if c.Unpriced == 0 {
			known, out[n] = true, eachWords(c.PerSurvivor)
		}
	}
	if !known {
		return nil
	}
	return out
}

// methodsOfLimits names how the limits of a comparison's groups were made; "" where
// none has any.
func methodsOfLimits(r cohort.Comparison) string {
	methods := map[string]bool{}
	for _, n := range said.WithShare(r) {
		methods[said.MethodOfLimits(r.Groups[n].Row)] = true
	}
	if len(methods) > 1 {
		return "Wilson where every state is known, else log-log"
	}
	for method := range methods {
		return method
	}
	return ""
}

// groupShare is a group's limits, or why it has none.
func groupShare(g cohort.Group) string {
	switch {
	case g.State == cohort.Small:
		return "under five lines: counts only"
	case g.State == cohort.NotRecordedThere:
		return "counts only"
	case g.State == cohort.Unripe:
		return "not yet"
	case !g.HasShare():
		return "–"
	case g.Row.Kind == cohort.Estimated:
		return "about " + said.Percent(g.Row.Share) + ", " + said.Limits(g.Row.Lower, g.Row.Upper)
	}
	return said.Limits(g.Row.Lower, g.Row.Upper)
}
