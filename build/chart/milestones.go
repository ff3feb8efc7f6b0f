package chart

import (
	"sort"
)

// Milestones are stacked shares of lines by day, a strip a milestone or a group,
// all on one axis: from below those that reached it, from above those lost without
// it, and between them those that neither happened to. The three make up the strip
// on every day. One minus a survival curve would draw a plant that is dead as one
// that may root yet.
type Milestones struct {
	Head
	Rows []Milestone
}

// Milestone is one strip.
type Milestone struct {
	Name string // "first new root", or the group
	// Words stand beside the name, counts first: "9 of 17 by day 42"; Others under
	// them: "6 lost first, 2 waiting". Both may be empty.
	Words, Others string
	From          int // landmark day on which the strip starts; else 0
	Steps         []Reaching
}

// Reaching is a day with a reaching, a loss or a leaving.
type Reaching struct {
	Day                 int
	Waiting             int // lines without it and under watch as the day begins
	Reached, Lost, Left int // of these, on this day; Left: alive and without it
	Share               float64
	HasLimits           bool // false where Share is 0 or 1
	Lower, Upper        float64
	LostShare           float64 // lost without it, by the end of the day
	between, lostFrom   float64 // as drawn: waiting, and where the lost begin
}

// strip is a cleaned milestone, ready to draw.
type strip struct {
	Milestone
	n, dec, last, dropped int
}

// cleanMilestone sorts and rounds. What can't be (shares that fall or add up to
// more than 1, counts that don't add up with those before) is left out. Shares are
// rounded where they meet, so that the three of a table's row add up to 100 %.
func cleanMilestone(in Milestone) (s strip, ok bool) {
	s = strip{Milestone: in}
	s.Steps = nil
	if !dayOK(s.From) {
		s.From = 0
	}
	steps := append([]Reaching(nil), in.Steps...)
	sort.SliceStable(steps, func(i, j int) bool { return steps[i].Day < steps[j].Day })
	day, waiting, share, lost := -1, 0, 0.0, 0.0
	const slack = 1e-9
	for _, st := range steps {
		fits := dayOK(st.Day) && st.Day >= s.From && st.Day > day && finite(st.Share, 0, 1) && finite(st.LostShare, 0, 1) &&
			st.Share >= share-slack && st.LostShare >= lost-slack && st.Share+st.LostShare <= 1+slack &&
			st.Reached >= 0 && st.Lost >= 0 && st.Left >= 0 && st.Waiting > 0 && st.Reached+st.Lost+st.Left <= st.Waiting
		if fits && len(s.Steps) > 0 {
			fits = st.Waiting == waiting
		}
		if !fits {
			continue
		}
		if st.HasLimits && (!finite(st.Lower, 0, st.Share) || !finite(st.Upper, st.Share, 1)) {
			st.HasLimits = false
		}
		if len(s.Steps) == 0 {
			s.n, s.dec = st.Waiting, shareDecimals(st.Waiting)
		}
		day, waiting, share, lost = st.Day, st.Waiting-st.Reached-st.Lost-st.Left, st.Share, st.LostShare
		s.Steps = append(s.Steps, st)
	}
	s.dropped = len(in.Steps) - len(s.Steps)
	for i := range s.Steps {
		st := &s.Steps[i]
		st.lostFrom = roundShare(1-st.LostShare, s.dec)
		st.Share = min(roundShare(st.Share, s.dec), st.lostFrom)
		st.between = roundShare(st.lostFrom-st.Share, s.dec)
		if st.HasLimits {
			st.Lower, st.Upper = roundShare(st.Lower, s.dec), roundShare(st.Upper, s.dec)
		} else {
			st.Lower, st.Upper = 0, 0
		}
		s.last = st.Day
	}
	return s, len(s.Steps) > 0
}

// waiting are those without it and under watch as a day begins.
func (s strip) waiting(day int) int {
	n := s.n
	for _, st := range s.Steps {
		if st.Day < day {
			n -= st.Reached + st.Lost + st.Left
		}
	}
	return n
}
