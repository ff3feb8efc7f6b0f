package survival

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Span is what looks tell of one loss: it lies in (Left, Right]. Left equal to
// Right is a loss whose day is known. Right infinite (math.Inf(1)) is a
// subject that was alive when last seen, on day Left. Left may be below 0 (−1:
// nobody looked before day 0).
type Span struct {
	Left, Right float64
}

// Box is an interval that holds some of the losses. The estimate says how
// much, and nothing about where inside the box.
type Box struct {
	// Left and Right bound the box (Left, Right]; if Point the loss is on that
	// very day, Left = Right. If Open there is no right end, and Right is 0.
	Left, Right float64
	Point, Open bool
	// Mass is the share lost in the box, ShareAfter the share alive after it.
	Mass, ShareAfter float64
}

// Boxes is Turnbull's estimate of when losses came.
type Boxes struct {
	N int
	// Boxes holds the intervals with any mass, ascending; Candidates all those
	// that could have had some.
	Boxes, Candidates []Box
	LogLikelihood     float64
	// Excess is how far the largest derivative of the log-likelihood towards
	// any candidate, divided by N, lies above 1. At the maximum it is 0
	// (Kuhn-Tucker); Converged says that it is at most 1e-7, on the support
	// from below as well.
	Excess    float64
	Converged bool
	// Unique is false where other masses give the same likelihood.
	Unique bool
}

// Turnbull estimates the distribution of losses that were only found at looks,
// by maximum likelihood (Peto 1973, Appl Stat 22:86-91; Turnbull 1976, J R
// Stat Soc B 38:290-295). A few rounds of self-consistency find the
// neighbourhood; then Newton's method on the boxes with mass, which drops a box
// whose mass reaches 0 and takes one in whose derivative is above 1, until the
// Kuhn-Tucker conditions hold (Gentleman and Geyer 1994, Biometrika 81:618-623,
// show that they prove the maximum). Self-consistency alone stops early: up to
// 2e-3 off. Nobody gives no boxes. It panics at a span that can't be: not a
// number, Left above Right, Left infinite.
func Turnbull(spans []Span) Boxes {
	b := Boxes{N: len(spans), Unique: true, Converged: true}
	if len(spans) == 0 {
		return b
	}
	m := newMixture(spans)
	m.selfConsistency(100)
	m.activeSet()
	gradient := m.gradient()
	for j, p := range m.mass {
		b.Excess = math.Max(b.Excess, gradient[j]-1)
		b.Converged = b.Converged && gradient[j]-1 <= 1e-7 && (p == 0 || gradient[j]-1 >= -1e-7)
	}
	b.LogLikelihood, b.Unique = m.logLikelihood(m.mass), m.unique()
	alive := 1.0
	for j, p := range m.mass {
		box := m.boxes[j]
		b.Candidates = append(b.Candidates, box)
		if p > 0 {
			alive = math.Max(0, alive-p)
			box.Mass, box.ShareAfter = p, alive
			b.Boxes = append(b.Boxes, box)
		}
	}
	if n := len(b.Boxes); n > 0 {
		b.Boxes[n-1].ShareAfter = 0 // the masses add up to 1
	}
	return b
}

// At bounds the share alive after day: between the two it depends on where in
// a box the losses fell.
func (b Boxes) At(day float64) (lower, upper float64) {
	lower, upper = 1, 1
	for _, box := range b.Boxes {
		if !box.Open && box.Right <= day {
			upper -= box.Mass
		}
		if box.Left < day || box.Point && box.Left == day {
			lower -= box.Mass
		}
	}
	return math.Max(0, lower), math.Max(0, upper)
}

// end is an end of a span: at equal times a known day's left end comes first,
// then right ends, then the left ends that exclude their day.
type end struct {
	time  float64
	order int
}

func (s Span) ends() (left, right end) {
	if math.IsNaN(s.Left) || math.IsInf(s.Left, 0) || !(s.Left <= s.Right) {
		panic(fmt.Sprintf("survival: a loss can't lie in (%v, %v]", s.Left, s.Right))
	}
	left, right = end{s.Left, 2}, end{s.Right, 1}
	if s.Left == s.Right {
		left.order = 0
	}
	return left, right
}

func (e end) compare(o end) int {
	return cmp.Or(cmp.Compare(e.time, o.time), cmp.Compare(e.order, o.order))
}

// candidates are the only intervals that can hold mass: from a left end to the
// next end after it, where that is a right end.
func candidates(spans []Span) []Box {
	var all []end
	for _, s := range spans {
		left, right := s.ends()
		all = append(all, left, right)
	}
	slices.SortFunc(all, end.compare)
	all = slices.Compact(all)
	var boxes []Box
	for i := 1; i < len(all); i++ {
		left, right := all[i-1], all[i]
		if left.order == 1 || right.order != 1 {
			continue
		}
		b := Box{Left: left.time, Right: right.time, Point: left.order == 0, Open: math.IsInf(right.time, 1)}
		if b.Open {
			b.Right = 0
		}
		boxes = append(boxes, b)
	}
	return boxes
}

// holds says whether a candidate lies inside the span.
func (s Span) holds(b Box) bool {
	left, right := s.ends()
	start, stop := end{b.Left, 2}, end{b.Right, 1}
	if b.Point {
		start.order = 0
	}
	if b.Open {
		stop.time = math.Inf(1)
	}
	return left.compare(start) <= 0 && stop.compare(right) <= 0
}
