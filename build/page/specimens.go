package page

import (
	"html/template"

	"wardian/build/address"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/taxon"
)

// listRow is one plant in a list.
type listRow struct {
	Href, ID string
	Name     template.HTML
	Sort     string
	Import   way
	Outcome  string
	Icon     template.HTML
	Section  bool
}

// specimenList is the list of all plants, the newest import first.
func (s *site) specimenList() ([]byte, error) {
	return s.set(address.Specimens(), "specimens", specimens, "Specimens", "Every plant of the diary.", func(v view) any {
		type group struct {
			Import way
			Says   string
			Rows   []listRow
		}
		var groups []group
		for _, im := range s.importsByArrival() {
			g := group{Import: way{Words: im.Season + ", " + im.ID, Href: v.Href(address.Import(im.ID))}, Says: span(im.Arrived)}
			for _, l := range s.Cohort.Import(im).Everyone() {
				for _, p := range l.Parts {
					g.Rows = append(g.Rows, listRow{
						Href: v.Href(address.Specimen(p.Specimen.ID)), ID: p.Specimen.ID, Name: taxon.Name(p.Specimen.Name), Outcome: outcomeWords(p),
						Icon: template.HTML(chart.Icon(outcomeMark(p))), Section: p.Parent != nil,
					})
				}
			}
			groups = append(groups, g)
		}
		return groups
	})
}

// outcomeMark is the mark beside a plant in a list.
func outcomeMark(p *cohort.Part) chart.Mark {
	if p.Fate == cohort.Open && establishedOn(p) != cohort.Never {
		return chart.Established
	}
	return endOf(p).Mark
}
