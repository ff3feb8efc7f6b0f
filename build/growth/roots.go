package growth

import "wardian/content/measure"

// Roots is what one look measured of a plant's roots. A length of 0 means that
// it wasn't given.
type Roots struct {
	Day     measure.Day
	Length  measure.Figure[measure.Length] // all roots together
	Mean    measure.Figure[measure.Length] // of one root
	Longest measure.Figure[measure.Length]
	Counted bool
	Count   measure.Figure[int] // read only if Counted
}

// Kind says what a root length is a length of. Points of different kinds are
// never joined.
type Kind int

// The kinds of root length, the best first.
const (
	NoRootLength Kind = iota // nothing that makes a length; a grade alone stays a grade
	AllRoots                 // all roots together, measured
	CountTimes               // number of roots times their mean length
	LongestAlone             // the longest root, in place of all
)

// RootLength is a root length in cm, with what it is a length of.
type RootLength struct {
	Day       measure.Day
	Kind      Kind
	Length    measure.Length // 0 for NoRootLength, and where the roots were counted and there were none
	Estimated bool           // from a figure with a tilde
}

// LengthOf takes the best length that a look gives: all roots together, else
// number times mean (common practice: root number × mean length = total
// length), else the longest. Roots counted as none have the length 0.
func LengthOf(r Roots) RootLength {
	l := RootLength{Day: r.Day}
	switch {
	case r.Length.Value > 0:
		l.Kind, l.Length, l.Estimated = AllRoots, r.Length.Value, r.Length.Estimate
	case r.Counted && r.Count.Value == 0:
		l.Kind, l.Estimated = CountTimes, r.Count.Estimate
	case r.Counted && r.Mean.Value > 0:
		l.Kind = CountTimes
		l.Length = measure.Length(r.Count.Value) * r.Mean.Value
		l.Estimated = r.Count.Estimate || r.Mean.Estimate
	case r.Longest.Value > 0:
		l.Kind, l.Length, l.Estimated = LongestAlone, r.Longest.Value, r.Longest.Estimate
	}
	return l
}

// Runs cuts root lengths, in their order, into stretches that may be joined by a
// line: neighbours of one kind. Looks that gave no length are passed over.
func Runs(lengths []RootLength) [][]RootLength {
	var runs [][]RootLength
	for _, l := range lengths {
		if l.Kind == NoRootLength {
			continue
		}
		if n := len(runs); n > 0 && runs[n-1][0].Kind == l.Kind {
			runs[n-1] = append(runs[n-1], l)
		} else {
			runs = append(runs, []RootLength{l})
		}
	}
	return runs
}

// Ratio is root length over leaf area at one look.
type Ratio struct {
	Day       measure.Day
	Kind      Kind
	Known     bool
	Leafless  bool    // the area is 0: no ratio, and the page says leafless
	Value     float64 // cm of root per cm² of leaf; read only if Known
	Estimated bool    // from an estimated area or length
	General   bool    // from an area by the general shape factor
}

// RootToLeaf is the ratio of root length to leaf area. It is unknown where
// either is, and there is none where the plant is leafless. A field proxy, common
// practice; no threshold was found.
func RootToLeaf(roots RootLength, leaves State) Ratio {
	r := Ratio{Day: roots.Day, Kind: roots.Kind}
	if !leaves.Known() {
		return r
	}
	if leaves.Area <= 0 {
		r.Leafless = true
		return r
	}
	if roots.Kind == NoRootLength {
		return r
	}
	r.Known = true
	r.Value = float64(roots.Length) / float64(leaves.Area)
	r.Estimated = roots.Estimated || leaves.Estimated
	r.General = leaves.General
	return r
}
