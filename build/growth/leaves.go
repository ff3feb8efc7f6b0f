package growth

import "wardian/content/measure"

// Leaves is what one look says of a plant's leaves. Counts and sizes are as they
// were after any cutting at that look.
type Leaves struct {
	Day     measure.Day
	Counted bool
	Count   measure.Figure[int] // read only if Counted
	Sizes   []measure.Figure[measure.Size]
	Cut     int  // whole leaves cut off
	Dropped int  // leaves that fell
	New     bool // a new leaf since the last look
}

// said tells whether the look says anything of leaves.
func (l Leaves) said() bool {
	return l.Counted || len(l.Sizes) > 0 || l.Cut > 0 || l.Dropped > 0 || l.New
}

// Why says why an area isn't known.
type Why int

// Why an area isn't known.
const (
	IsKnown      Why = iota
	NeverCounted     // no look so far counted the leaves
	NewUncounted     // a new leaf came and the leaves weren't counted since
	NeverSized       // no leaf was measured so far
	TooManySizes     // at this look more leaves were measured than there were: a fault for the caller to report
	TooManyGone      // at this look more leaves were cut or dropped than there were: likewise
	CountLost        // that happened at an earlier look, and the leaves weren't counted since
)

// State is a plant's leaves as known after one look.
type State struct {
	Day        measure.Day
	Said       bool // this look says something of leaves; else the state is the one before
	CountKnown bool
	Count      int  // read only if CountKnown
	Counted    bool // counted at this look, not worked out
	Sized      int  // leaves measured at this look

	Why       Why // IsKnown, or why there is no area
	Area      measure.Area
	Estimated bool // worked out from an earlier look, from a part of the leaves or from figures with a tilde
	General   bool // by the general shape factor
}

// Known says whether the area is known; 0 is.
func (s State) Known() bool { return s.Why == IsKnown }

// Over follows a plant's leaves through its looks, which must be in their order,
// and gives the state after each.
//
// n is the count of a look, else the last count less what was cut and dropped
// since (estimated); a new leaf that wasn't counted makes n unknown until the
// next count. m is the number of leaves measured at the look. With m = n the
// area is their sum; with 0 < m < n the sum and n − m times their mean,
// estimated; with m = 0 it is n times the mean of the leaves measured last,
// estimated; with n = 0 it is 0. With m > n, or more leaves gone than there
// were, it is unknown and Why says so; a caller reports it where the state Said
// so, since states after it repeat it. A cut without new sizes gives an estimate
// and is never carried unchanged. A look that says nothing of leaves repeats the
// state before it. Areas are sums of k·L·W.
func Over(looks []Leaves, k Factor) []State {
	states := make([]State, len(looks))
	f := follower{k: k, count: count{why: NeverCounted}}
	for i, look := range looks {
		states[i] = f.next(look)
	}
	return states
}

// count is n as known so far.
type count struct {
	n         int
	why       Why // IsKnown, or why n isn't
	estimated bool
}

// follower carries what a plant's next state depends on.
type follower struct {
	k     Factor
	count count
	last  State
	begun bool

	mean      measure.Area // of the leaves measured last
	sized     bool
	meanAbout bool // some of their sizes had a tilde
}

func (f *follower) next(look Leaves) State {
	if !look.said() {
		if !f.begun {
			f.last = State{Why: NeverCounted}
		}
		s := f.last
		s.Day, s.Said, s.Counted, s.Sized = look.Day, false, false, 0
		return s
	}
	f.begun = true
	f.count = f.count.after(look)
	s := State{
		Day: look.Day, Said: true, Counted: look.Counted, Sized: len(look.Sizes),
		CountKnown: f.count.why == IsKnown, Count: f.count.n, Why: f.count.why,
	}
	sum := f.measure(look.Sizes)
	if s.CountKnown {
		f.area(&s, sum)
	}
	f.last = s
	return s
}

// after gives n after a look.
func (c count) after(look Leaves) count {
	gone := look.Cut + look.Dropped
	switch {
	case look.Counted:
		return count{n: look.Count.Value, estimated: look.Count.Estimate}
	case look.New:
		return count{why: NewUncounted}
	case c.why == TooManyGone:
		return count{why: CountLost}
	case c.why != IsKnown:
		return c
	case gone > c.n:
		return count{why: TooManyGone}
	}
	return count{n: c.n - gone, estimated: true}
}

// measure takes in the sizes of a look and gives the sum of their areas.
func (f *follower) measure(sizes []measure.Figure[measure.Size]) (sum measure.Area) {
	if len(sizes) == 0 {
		return 0
	}
	f.sized, f.meanAbout = true, false
	for _, size := range sizes {
		sum += f.k.Leaf(size.Value)
		f.meanAbout = f.meanAbout || size.Estimate
	}
	f.mean = sum / measure.Area(len(sizes))
	return sum
}

// area fills in the area of a state whose count is known.
func (f *follower) area(s *State, sum measure.Area) {
	n, m := s.Count, s.Sized
	switch {
	case m > n:
		s.Why = TooManySizes
		return
	case n == 0:
		s.Estimated = f.count.estimated
		return
	case !f.sized:
		s.Why = NeverSized
		return
	case m == n:
		s.Area = sum
		s.Estimated = f.count.estimated || f.meanAbout
	case m > 0:
		s.Area = sum + measure.Area(n-m)*f.mean
		s.Estimated = true
	default:
		s.Area = measure.Area(n) * f.mean
		s.Estimated = true
	}
	s.General = f.k.General
}
