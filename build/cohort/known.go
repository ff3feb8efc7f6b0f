package cohort

import (
	"strings"

	"wardian/content"
	"wardian/content/measure"
)

// Known gathers what the looks at a part so far tell of it as it is now, each
// figure from the last look that gave it: turgor; leaves, less what fell or was
// cut since (then with a tilde); the roots as seen together at one look, with
// the last grade; rot, pests and rest while they last. Sizes of leaves are left
// out once a leaf went. What no look ever told stays empty.
func (p *Part) Known() content.Facts {
	f := content.Facts{QuarantineUntil: measure.NoDay, LastGood: measure.NoDay}
	for _, l := range p.Looks {
		if l.Turgor != "" {
			f.Turgor = l.Turgor
		}
		if r := l.Facts.Roots; r != nil {
			f.Roots = rootsAfter(f.Roots, r)
		}
	}
	f.Leaves = p.knownLeaves()
	if n := len(p.Looks); n > 0 {
		last := p.Looks[n-1]
		f.Resting = last.AtRest
		f.Rot, f.Pests = lasting(last.RotNow), lasting(last.PestsNow)
	}
	return f
}

// rootsAfter is what is known of roots after a look at them. Figures measured on
// different days are never mixed, but the grade, which is a glance, is carried.
func rootsAfter(was, seen *content.Roots) *content.Roots {
	now := content.Roots{Grade: seen.Grade, Longest: seen.Longest, Mean: seen.Mean, Count: seen.Count, Length: seen.Length}
	switch {
	case now == (content.Roots{}) && seen.New && was != nil && was.Grade != nil && *was.Grade == 0:
		return nil // no longer none, and not graded since
	case now == (content.Roots{}) && seen.Cut == nil:
		return was // "new root" alone: no figure changed
	case now == (content.Roots{}):
		return nil // cut, and not looked at since
	case now.Grade == nil && was != nil && seen.Cut == nil:
		now.Grade = was.Grade
	}
	return &now
}

// knownLeaves is the count of leaves, with their sizes where none went since
// they were measured; nil where the count isn't known.
func (p *Part) knownLeaves() *content.Leaves {
	var known content.Leaves
	for _, point := range p.Points {
		if !point.Leaves.Said {
			continue
		}
		said := point.Look.Facts.Leaves
		if !point.Leaves.CountKnown {
			known = content.Leaves{}
			continue
		}
		if point.Leaves.Counted {
			known.Count = said.Count
		} else {
			known.Count = &measure.Figure[int]{Value: point.Leaves.Count, Estimate: true}
		}
		if point.Falls || said.New {
			known.Sizes = nil
		}
		if len(said.Sizes) > 0 {
			known.Sizes = said.Sizes
		}
		if len(known.Sizes) > known.Count.Value {
			known.Sizes = nil
		}
	}
	if known.Count == nil {
		return nil
	}
	return &known
}

// lasting is a state while it lasts; "" once it is seen off.
func lasting(state string) string {
	if state == "none" {
		return ""
	}
	return state
}

// KnownWords writes what is known in the closed phrases of a plant's line, in
// the diary's units: "firm, leaves 3 13x6 12x6, roots 1 longest 2"; "" where
// nothing is. Root figures that never had a grade follow "roots ?".
func (p *Part) KnownWords(u measure.Units) string {
	f := p.Known()
	ungraded := f.Roots != nil && f.Roots.Grade == nil
	if ungraded {
		roots, none := *f.Roots, 0
		roots.Grade = &none
		f.Roots = &roots
	}
	words, err := f.Words(u)
	if err != nil { // nothing is known, or a map held what has no phrase
		f.Pests = ""
		if words, err = f.Words(u); err != nil {
			return ""
		}
	}
	if ungraded {
		words = strings.Replace(words, "roots 0 ", "roots ? ", 1)
	}
	return words
}
