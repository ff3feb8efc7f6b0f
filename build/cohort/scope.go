package cohort

import (
	"cmp"
	"slices"

	"wardian/build/survival"
	"wardian/content"
	"wardian/content/measure"
)

// Scope is a set of lines that figures are given for: an import, a season, or
// all that may be pooled.
type Scope struct {
	Name    string  // "all", a season's label or an import's ID
	Lines   []*Line // those that can stand on an axis of days
	Undated []*Line // rows of lists without a day: in Shares alone
	Imports []*content.Import
}

// Import is the scope of one import, whether or not it may be pooled.
func (c *Cohort) Import(i *content.Import) Scope {
	s := Scope{Name: i.ID, Imports: []*content.Import{i}}
	for _, l := range c.Lines {
		if l.Import() == i {
			s.take(l)
		}
	}
	return s
}

// Pooled tells whether an import may stand in figures with others. One bought
// nearby never made the journey, and one whose diary began late lists only the
// plants that had lived so far.
func Pooled(i *content.Import) bool { return !i.Local && !i.FollowedFrom.Known() }

// All is the scope of every line that may be pooled.
func (c *Cohort) All() Scope {
	return c.pool("all", func(*content.Import) bool { return true })
}

// Season is the scope of a season's imports that may be pooled.
func (c *Cohort) Season(label string) Scope {
	return c.pool(label, func(i *content.Import) bool { return i.Season == label })
}

func (c *Cohort) pool(name string, in func(*content.Import) bool) Scope {
	s := Scope{Name: name}
	for _, i := range c.Diary.Imports {
		if Pooled(i) && in(i) {
			s.Imports = append(s.Imports, i)
		}
	}
	for _, l := range c.Lines {
		if Pooled(l.Import()) && in(l.Import()) {
			s.take(l)
		}
	}
	return s
}

func (s *Scope) take(l *Line) {
	if l.Undated {
		s.Undated = append(s.Undated, l)
		return
	}
	s.Lines = append(s.Lines, l)
}

// Seasons lists the labels of all seasons with an import that may be pooled, by
// their bytes.
func (c *Cohort) Seasons() []string {
	seen := map[string]bool{}
	var labels []string
	for _, i := range c.Diary.Imports {
		if Pooled(i) && !seen[i.Season] {
			seen[i.Season] = true
			labels = append(labels, i.Season)
		}
	}
	slices.Sort(labels)
	return labels
}

// SeasonsByArrival lists the same labels, the latest arrival first: the order
// in which readers look for them.
func (c *Cohort) SeasonsByArrival() []string {
	first := map[string]measure.Day{}
	for _, i := range c.Diary.Imports {
		if day, seen := first[i.Season]; Pooled(i) && (!seen || i.Day0() < day) {
			first[i.Season] = i.Day0()
		}
	}
	labels := c.Seasons()
	slices.SortStableFunc(labels, func(a, b string) int { return cmp.Compare(first[b], first[a]) })
	return labels
}

// Curve is the product-limit share alive of the scope's lines (measures:
// Survival). A line still under watch leaves on the as-of day.
func (s Scope) Curve() survival.Curve {
	return survival.ProductLimit(s.subjects())
}

// Count is the number of lines with a fate.
func (s Scope) Count(f Fate) int {
	n := 0
	for _, l := range s.Lines {
		if l.Fate == f {
			n++
		}
	}
	return n
}

// AsOfDay is the as-of day counted from the latest arrival in the scope: the
// last day that every line can have been watched to. It may be below 0.
func (s Scope) AsOfDay() int {
	day := 0
	for n, l := range s.Lines {
		if n == 0 || l.AsOfDay < day {
			day = l.AsOfDay
		}
	}
	return day
}
