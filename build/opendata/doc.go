// Package opendata writes a diary's public figures for other programs: CSVs and
// the Data Package (version 2.0, datapackage.org) that describes them.
//
// Every column has its definition, unit and type in one place, beside the
// function that fills it, and the package's descriptor is made from these. Days
// count from the arrival of the import; an empty field is not known, or doesn't
// exist. What is private, unfinished or held back never reaches Files, and costs are
// written there only where the diary publishes them. What a grower asks for in a
// terminal (ComparisonJSON, Beside, ExportersJSON and the like) is written here as
// well, so that one column has one definition; none of it is in Files unless it
// says so.
package opendata

import (
	"wardian/build/cohort"
)

// File is one file of the open data.
type File struct {
	Name  string // in the folder of the open data
	Bytes []byte
	Says  string // what a row is, in a sentence
	Rows  int    // of data, the header not counted; 0 for the descriptor
}

// Names are the names of the files that Files writes, in its order.
func Names() []string {
	return []string{"specimens.csv", "check-ins.csv", "places.csv", "survival.csv", "milestones.csv", "comparisons.csv", "groups.csv", "datapackage.json"}
}

// Files writes all open data of a diary as of its day: the tables, then the
// descriptor. compared are its comparisons by every word (cohort.Comparisons).
func Files(c *cohort.Cohort, compared []cohort.Comparison) ([]File, error) {
	words, groups := comparisons(compared)
	resources := []resource{
		specimens(c),
		checkIns(c),
		placesTable(c),
		survivalCurves(c),
		milestoneCurves(c),
		words, groups,
	}
	var files []File
	for _, r := range resources {
		files = append(files, File{Name: r.name + ".csv", Bytes: r.data, Says: r.says, Rows: r.rows})
	}
	descriptor, err := describe(c, resources)
	if err != nil {
		return nil, err
	}
	return append(files, File{Name: "datapackage.json", Bytes: descriptor, Says: "What each column means, with its type and unit, for programs and people."}), nil
}
