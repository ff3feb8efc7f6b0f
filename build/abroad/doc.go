// Package abroad reads the open data that another grower published: a folder with
// a Data Package and its CSVs, as build/opendata writes them.
//
// Whoever reads a stranger's folder trusts nothing in it. The package is judged
// first and whole: that the descriptor is JSON of the shape that the standard asks
// for (Data Package 2.0, datapackage.org/standard, from memory), that every path in
// it stays in the folder, that each file is the one that was described (bytes and
// hash), that its columns, rows, types, categories and keys are as described, and
// that what this package needs is among them. What is wrong is a finding with its
// place: file, line and column, and in words the JSON pointer (RFC 6901), or the row
// and the column's name. Nothing is guessed, mended or left out in silence, and
// nothing of a package with a finding is used.
//
// Nothing is fetched, no link is followed, and no file is read beyond a bound:
// a descriptor of 1 MiB, a table of 64 MiB, 256 MiB in all.
//
// Of the standard it judges what matters for reading: constraints other than
// required and unique, formats of dates and patterns are the publisher's business.
// What the figures mean (who counts as alive, which lines may be pooled) is as
// defined by the publisher's descriptor, which is that of build/opendata. The package
// refuses to compute: it hands out lines, places and groups as they were published,
// and never mixes two growers'.
package abroad

import (
	"io/fs"

	"wardian/content/measure"
	"wardian/content/source"
)

// Descriptor is the name of the file that describes the others.
const Descriptor = "datapackage.json"

// The most that is read.
const (
	mostDescriptor = 1 << 20
	mostTable      = 64 << 20
	mostInAll      = 256 << 20
)

// Code is the code of every finding of this package.
const Code = "open-data"

// Diary is what another grower published.
type Diary struct {
	Title    string
	Homepage string   // "" where not said
	Licences []string // names, or paths where only those are given
	AsOf     measure.Day
	Terms    *Terms  // nil where the package doesn't tell
	Places   []Place // in order of the file
	HasPlaces,
	HasGroups bool // whether the package has those tables
	Lines  []Line  // plants as received, in order of the file
	Groups []Group // of comparisons by every word
}

// Terms are the days by which a grower judges, counted from arrival.
type Terms struct {
	Horizon    int
	Landmark   int
	SeenWithin int // -1 where it goes by the place
}

// Place is where plants stand, as its grower defines it.
type Place struct {
	ID, Name, Stage        string
	Humidity, Temperature  *float64 // per cent and °C, typical; nil where not said
	BottomHeat, Quarantine bool
	CheckEvery             int // days; 0 where not said
}

// The fates of a line, as specimens.csv tells them.
const (
	Alive    = "alive"
	Lost     = "lost"
	PassedOn = "passed on"
	NotSeen  = "not seen since"
)

// Line is a plant as received, with everything that was cut from it.
type Line struct {
	ID, Import string
	Arrived    measure.Day
	Pooled     bool // its import may stand in figures with others
	Fate       string
	// Undated: no day is known of it, so that it is on no axis of days; Day is 0.
	Undated bool
	Day     int // days since arrival: found lost, left, or the as-of day while it is alive
	AsOfDay int // the as-of day, counted from its arrival
	Cause   string
}

// Group is one group of a comparison, as published.
type Group struct {
	By, Name            string
	Horizon             int
	Landmark            *int
	Imports, N          int
	Lost, Left          int
	AliveAt, UnknownAt  *int
	Share, Lower, Upper *float64
}

// Read reads and judges a published folder. What is wrong with it is in the report;
// then the diary is nil. The error is for a disk that fails.
func Read(root fs.FS, report *source.Report) (*Diary, error) {
	r := &reader{root: root, report: report}
	r.get = r.open
	return r.judged()
}

// ReadFiles is Read of files that are in memory, by name: our own, as they would be
// published.
func ReadFiles(files map[string][]byte, report *source.Report) *Diary {
	r := &reader{report: report}
	r.get = func(name string, _ int64) ([]byte, bool, error) {
		data, ok := files[name]
		if !ok {
			r.absent(name)
		}
		return data, ok, nil
	}
	d, _ := r.judged() // memory doesn't fail
	return d
}

func (r *reader) judged() (*Diary, error) {
	before := r.report.Errors()
	d, err := r.read()
	if err != nil || r.report.Errors() > before {
		return nil, err
	}
	return d, nil
}
