package page

import (
	"wardian/build/address"
	"wardian/build/said"
)

// importList is the list of all imports, the newest first, each as its soil
// lines.
func (s *site) importList() ([]byte, error) {
	return s.set(address.Imports(), "imports", imports, "Imports", "Every consignment of the diary.", func(v view) any {
		type row struct {
			Href, Title, Says string
			Soil              manyData
		}
		var rows []row
		for _, im := range s.importsByArrival() {
			scope := s.Cohort.Import(im)
			says := "Arrived " + span(im.Arrived) + ". " + importSays(scope, im)
			if im.Exporter != "" {
				says = said.Upper(im.Exporter) + ". " + says
			}
			soil := v.soilLines(scope, s.Cohort, true)
			soil.Tables = nil // the import's own page has them
			rows = append(rows, row{Href: v.Href(address.Import(im.ID)), Title: im.Season + ", " + im.ID + ": " + said.Lower(importTitle(scope, im)), Says: says, Soil: soil})
		}
		return rows
	})
}
