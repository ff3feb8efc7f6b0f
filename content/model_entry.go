package content

import (
	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/source"
)

// Others says what a round says of the plants at its place that it doesn't name.
type Others int

const (
	OthersUnsaid  Others = iota // they weren't looked at
	OthersSame                  // looked at, nothing to add
	OthersNotSeen               // there, but not looked at
)

// Entry is one file under check-ins/: a check-in of one specimen, a round of
// several, or a place note.
type Entry struct {
	Page
	Path    string // diary path without ".md": check-ins/2026/04-06
	When    measure.Moment
	Place   *Place // nil where not said
	Round   bool   // written with specimens, others or not-seen
	Named   []*CheckIn
	Common  Facts // keys beside specimens, for all that the round speaks for
	Others  Others
	NotSeen []Mention
	Reading *Climate
	Event   string         // power cut, heat, cold, dried out, other words, or ""
	Since   measure.Moment // of the event; NoMoment where not said
	By      string
	Photos  []Photo                   // the round's own
	WordsOf map[string]*prose.Section // the body's words under "## ID"
	Opening *prose.Section            // the body's words before the first such heading; nil where none

	unread bool // whom it speaks for couldn't be read, which was reported
	asked  bool // it doesn't say yet whether it speaks for the others, which was reported
}

// PlaceNote says whether the entry is a check-in of a place alone: no look at
// any plant.
func (e *Entry) PlaceNote() bool { return !e.Round && len(e.Named) == 0 }

// Mention is an ID named in an entry, with its place in the file.
type Mention struct {
	ID   string
	Span source.Span
}

// Climate is a measured temperature and relative humidity.
type Climate struct {
	Temperature measure.Temperature
	Humidity    measure.Humidity
}

// CheckIn is what one entry says of one specimen. In Named, Facts holds what
// was written of the specimen together with what the round says of all.
type CheckIn struct {
	Entry   *Entry
	Mention       // the specimen's ID and where it is named
	Spans   Spans // where its keys (or the phrases that stand for them) are written
	Empty   bool  // named on an empty line: as if it weren't there
	Facts
}

// Turgor is how full the leaves stand.
type Turgor string

const (
	Firm Turgor = "firm"
	Soft Turgor = "soft"
	Limp Turgor = "limp"
)

// Outcome is what became of a specimen.
type Outcome string

const (
	Lost          Outcome = "lost"
	Established   Outcome = "established"
	PassedOn      Outcome = "passed on"
	AliveAfterAll Outcome = "alive after all"
)

// Facts is what can be said of one specimen in one look. A nil or empty field
// wasn't mentioned.
type Facts struct {
	Same            bool
	To              *Place // a move
	Medium          string
	Roots           *Roots
	Leaves          *Leaves
	Turgor          Turgor
	Resting         bool
	Rot             string // none, roots, stem, growing point
	Pests           string // none, or words
	Soak            *measure.Figure[measure.Hours]
	Did             []string
	Note            string // a short public remark
	Outcome         Outcome
	Cause           Cause
	CutInto         []Piece
	Arrival         bool // the record of arrival
	QuarantineUntil measure.Day
	LastGood        measure.Day // the days are NoDay where not said
	Photos          []Photo
}

// Roots is what was seen below the soil line. Figures beside a cut are those
// after cutting.
type Roots struct {
	Grade   *int // 0 none, 1 stubs, 2 few short, 3 several, 4 many, 5 fills the pot
	Longest *measure.Figure[measure.Length]
	Mean    *measure.Figure[measure.Length]
	Count   *measure.Figure[int]
	Length  *measure.Figure[measure.Length] // all roots together
	New     bool
	Cut     *measure.Figure[measure.Share]
}

// Leaves is what was seen above the soil line. Figures beside a cut are those
// after cutting.
type Leaves struct {
	Count   *measure.Figure[int]
	Sizes   []measure.Figure[measure.Size]
	New     bool
	Cut     int // whole leaves cut off
	Dropped int
}

// Cause is why a plant was lost: one word, or two that worked together. Words of
// the grower's own keep the "other" before them: "other the cat".
type Cause struct {
	Words []string // none where not said
	Doubt bool     // written with a question mark
}

// Piece is a section made by a cut.
type Piece struct {
	ID       string
	Position string
	Span     source.Span
}

// Photo is a picture that an entry shows.
type Photo struct {
	Path  string      // diary path: photos/2026-04-06/b26-03.jpg
	Alt   string      // "" where not said
	Taken measure.Day // NoDay where not said
	Span  source.Span // where it is named; the zero span where its path alone says so
}
