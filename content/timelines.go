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
	Specimen *Specimen
	Begins   measure.Moment // day 0 of its import, or the cut it came from
	Looks    []*Look        // in order: every entry that saw it
	Stays    []Stay         // where it stood, in order
	Pieces   []*Timeline    // sections cut from it, in order of the cut
	Divided  measure.Moment // cut up whole then; NoMoment where it wasn't
	Withdrawn []*Look // losses taken back by "alive after all"
}

// Look is one look at one specimen: a check-in that names it, or a round that
// speaks for it with "others: same".
type Look struct {
	Timeline *Timeline
	Entry    *Entry
	When     measure.Moment
	Day      int    // days since its import's day 0; sections count like their parents
	Named    bool   // false: spoken for by "others: same"
	At       *Place // where it stood when looked at (before a move); nil where nobody said
	Facts           // with what the round says of all; photos that belong by their path included
	AtRest   bool   // resting at the end of this look: said here, or carried on from before
}

// Stay is a specimen at a place. Until is NoMoment while it still stands there.
type Stay struct {
	Place *Place
	From  measure.Moment
	Until measure.Moment
	Move  *Look // the move that began it; nil for the first place
}
