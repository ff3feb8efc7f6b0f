package content

import (
	"sort"

	"wardian/content/measure"
)

// Timelines is the diary told specimen by specimen, up to and including a day.
type Timelines struct {
	Diary *Diary
	Until measure.Day // the last day told; measure.NoDay: everything
	List  []*Timeline // by ID; every specimen that had begun by then
	Notes []*Entry    // place notes and rounds' events, in order
	Taken []*Entry    // entries that took a reading at a place, in order

	unfinished []*Entry
}

// Timeline is what was done to one specimen and when.
type Timeline struct {
	Specimen  *Specimen
	Begins    measure.Moment // day 0 of its import, or the cut it came from
	Looks     []*Look        // in order: every entry that saw it; a section's first is the cut
	Stays     []Stay         // where it stood, in order
	Pieces    []*Timeline    // sections cut from it, in order of the cut
	Divided   measure.Moment // cut up whole then; NoMoment where it wasn't
	Loss      *Look          // the loss that stands; nil where it isn't lost
	PassedOn  *Look          // sold or given away by this look; nil where it wasn't
	Withdrawn []*Look        // losses taken back by "alive after all", in order

	Listed     *Listed // what a list tells of the days up to the last told; nil but for a specimen from a list
	ListedBack *Look   // the look that took back the list's loss; nil where none did
}

// Look is one look at one specimen: a check-in that names it, a round that
// speaks for it with "others: same", or the cut that made a section.
type Look struct {
	Timeline *Timeline
	Entry    *Entry
	When     measure.Moment
	Day      int    // days since its import's day 0; sections count like their parents
	Named    bool   // false: spoken for by "others: same", or a cut that says no more of the section
	Cutting  bool   // the cut that made this section: a look that saw it alive
	At       *Place // where it stood when looked at (before a move); nil where nobody said
	Facts           // with what the round says of all; photos that belong by their path included
	AtRest   bool   // resting at the end of this look: said here, or carried on from before

	RotNow    string // rot at the end of this look: said here, or carried on; "" never spoken of, "none" seen off
	PestsNow  string // pests, in the same way
	MediumNow string // what the roots are in at the end of this look; "water" at a soak; "" unknown

	TakenBack *Look // on a loss: the later look that found it alive after all
}

// Stay is a specimen at a place. Until is NoMoment while it still stands there;
// a stay ends with the next move, or when the specimen is lost, divided or
// passed on.
type Stay struct {
	Place *Place
	From  measure.Moment
	Until measure.Moment
	Move  *Look // the move that began it; nil for the first place
}

// Timelines tells the diary specimen by specimen, up to and including a day;
// measure.NoDay tells everything. It is one walk over the entries in order:
//
// The first place said of a specimen is where it stands; after that only a move
// changes it. A section begins with its cut, where its parent stands after that
// look. "others: same" speaks for every specimen that stood at the round's place
// before the round, isn't lost, divided or passed on, and is neither named with
// something nor under not-seen. Resting is carried on until a leaf is counted,
// rot and pests until they are none, the medium until another is said or it
// stands in a soak. "alive after all" takes the loss before it back, as from its
// own day. A picture whose path holds a day and an ID joins the last look of
// that day at that specimen.
//
// The work is proportional to the entries, the looks told and the pictures.
func (d *Diary) Timelines(until measure.Day) *Timelines {
	if d.told != nil && d.told.Diary == d && !until.Known() {
		return d.told
	}
	return d.tell(until, false).timelines()
}

// Of gives the timeline of a specimen, or nil where it hadn't begun.
func (t *Timelines) Of(s *Specimen) *Timeline {
	n := sort.Search(len(t.List), func(i int) bool { return t.List[i].Specimen.ID >= s.ID })
	if n < len(t.List) && t.List[n].Specimen == s {
		return t.List[n]
	}
	return nil
}

// Place is where the specimen stands at the end of what is told; nil where
// nobody said, and once it is lost, divided or passed on.
func (t *Timeline) Place() *Place {
	if n := len(t.Stays); n > 0 && !t.Stays[n-1].Until.Known() {
		return t.Stays[n-1].Place
	}
	return nil
}
