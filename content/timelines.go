package content

import "wardian/content/measure"

// Timelines is the diary told specimen by specimen, up to and including a day.
type Timelines struct {
	Diary *Diary
	Until measure.Day // the last day told; measure.NoDay: everything
	List  []*Timeline // by ID; every specimen that had begun by then
	Notes []*Entry    // place notes and rounds' events, in order
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

// Stay is a specimen at a place. Until is NoMoment while it still stands there,
// and where nobody said when it left.
type Stay struct {
	Place *Place
	From  measure.Moment
	Until measure.Moment
	Move  *Look // the move that began it; nil for the first place
}

// Timelines tells the diary specimen by specimen, up to and including a day;
// measure.NoDay tells everything.
func (d *Diary) Timelines(until measure.Day) *Timelines {
	return &Timelines{Diary: d, Until: until}
}

// Of gives the timeline of a specimen, or nil where it hadn't begun.
func (t *Timelines) Of(s *Specimen) *Timeline {
	for _, l := range t.List {
		if l.Specimen == s {
			return l
		}
	}
	return nil
}
