package content

import (
	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/readings"
)

// Stage says how wet a place is.
type Stage int

// The stages, from wet to dry.
const (
	Soak Stage = iota
	Bin
	StepDown
	Room
)

// String gives the word of the trade.
func (s Stage) String() string {
	return [...]string{"soak", "bin", "step-down", "room"}[s]
}

// Place is where plants stand.
type Place struct {
	Page
	ID          string
	Name        string
	Stage       Stage
	Humidity    *measure.Figure[measure.Humidity]    // typical
	Temperature *measure.Figure[measure.Temperature] // typical
	BottomHeat  bool
	Quarantine  bool
	CheckEvery  int                // days; 0 where not said
	Readings    []readings.Reading // of the place's loggers, by time, overlaps merged
}

// Update is a letter to readers.
type Update struct {
	Page
	Slug   string
	Title  string
	Date   measure.Day
	Import *Import // nil where it speaks of none
	Plates []Plate // in the order of the body's fenced blocks
}

// Plate is a drawing or a table called into an update.
type Plate struct {
	Block    prose.Plate // where it stands in the body
	Show     string      // survival, causes, rows, soil-lines, root-to-leaf, place, then-and-now, table ...
	Import   *Import
	Specimen *Specimen
	Place    *Place
	By       string
}

// SeasonWords is a season's reckoning in the grower's own words.
type SeasonWords struct {
	Page
	Slug   string
	Season string
}
