package cohort

import (
	"slices"
	"sync"

	"wardian/build/survival"
	"wardian/content"
)

// Reason says why there is no p.
type Reason int

const (
	// Tested: there is one.
	Tested Reason = iota
	// OneGroup: fewer than two groups of five lines or more stand to be
	// compared.
	OneGroup
	// HorizonAhead: there would be two, but they haven't been followed so far.
	HorizonAhead
	// LandmarkAtHorizon: the horizon isn't after the landmark.
	LandmarkAtHorizon
	// NoLosses: nobody in the groups was lost up to the horizon.
	NoLosses
	// FewImports: relabelling whole imports can't give a p of 0.05 or less;
	// whatever else differed between the parcels is in the difference.
	FewImports
	// NoSharedImport: no import holds lines of two groups, so that within
	// imports there is nothing to compare.
	NoSharedImport
	// FewLosses: the most uneven relabelling there is would give a p above 0.05.
	FewLosses
)

// String is the reason in plain words, for programs.
func (r Reason) String() string {
	return [...]string{"", "fewer than two groups of 5 lines or more", "the groups have not been followed so far",
		"the horizon is not after the landmark", "nobody was lost", "too few imports: whatever else differed between the parcels is in this difference",
		"no import holds lines of two groups", "too few losses to tell"}[r]
}

// smallestTold is the p that the labels must be able to reach.
const smallestTold = 0.05

// Test is the permutation log-rank test of a comparison. Import-level words
// relabel whole imports; all others relabel lines within their import.
type Test struct {
	Reason  Reason   // Tested, or why there is no P
	Groups  []string // those tested, in order; the first is group 1 of U
	Imports []int    // imports of each
	Ordered bool     // a trend over three or more ordered groups, weights 0, 1, 2, …
	Parcels bool     // whole imports were relabelled
	// HalfKnown counts lines left out since their arrival is half known.
	HalfKnown int
	// Ran tells whether there was anything to relabel; Permutation is read only
	// then. Its p is to be shown only where Reason is Tested.
	Ran         bool
	Permutation survival.Permutation
	// P is the p to be shown, read only if Tested; Adjusted is Holm's over all
	// groupings with a p at this horizon, where a family was asked for.
	P           float64
	Adjusted    float64
	HasAdjusted bool
	// Strata counts the imports within which lines were compared, Contributing
	// the lines of imports that hold two groups; for whole imports 1 and the
	// number of imports.
	Strata, Contributing int
	// DegreesOfFreedom is 1 for two groups and for a trend, else the number of
	// groups less those that nothing ties to another: a group that shares no
	// import with any adds nothing to the quadratic form.
	DegreesOfFreedom int
}

// LogRank is the unstratified asymptotic log-rank test of all groups tested.
type LogRank struct {
	Exists           bool
	Statistic        float64
	DegreesOfFreedom int
	P                float64
}

// Hazards are hazard ratios against the largest group, with Firth's penalty,
// Efron's ties and a baseline for each import.
type Hazards struct {
	Reason    string // why there are none; "" where there are
	Reference string
	Terms     []Hazard
}

// Hazard is one group's ratio, with profile limits at 95 %, where they exist.
type Hazard struct {
	Name               string
	Ratio              float64
	Lower, Upper       float64
	HasLower, HasUpper bool
	P                  float64
}

// test runs the tests on the groups of five lines or more that are old enough.
func (r *Comparison) test() {
	t := &r.Test
	t.Parcels = r.By.Level == OfImport
	stratum := map[*content.Import]int{}
	for n, i := range r.Scope.Imports {
		stratum[i] = n
	}
	var members []survival.Member
	var parcels []int
	lost, unripe := 0, 0
	for _, g := range r.Groups {
		if g.State == Unripe {
			unripe++
		}
		if g.State == Small || g.State == NotRecordedThere {
			continue
		}
		var lines []*Line
		for _, l := range g.Lines {
			if l.Import().Arrived.Half() {
				t.HalfKnown++
				continue
			}
			lines = append(lines, l)
		}
		if g.State != Told || len(lines) < fewest {
			continue
		}
		imports := map[*content.Import]bool{}
		for _, l := range lines {
			i := l.Import()
			imports[i] = true
			m := survival.Member{Subject: l.upTo(r.Horizon), Group: len(t.Groups), Stratum: stratum[i]}
			if m.Lost {
				lost++
			}
			members, parcels = append(members, m), append(parcels, stratum[i])
		}
		t.Groups, t.Imports = append(t.Groups, g.Name), append(t.Imports, len(imports))
	}
	switch {
	case len(t.Groups) < 2 && len(t.Groups)+unripe >= 2:
		t.Reason = HorizonAhead
	case len(t.Groups) < 2:
		t.Reason = OneGroup
	case lost == 0:
		t.Reason = NoLosses
	default:
		r.relabel(members, parcels)
	}
	r.others(members)
}

// relabel runs the permutation test.
func (r *Comparison) relabel(members []survival.Member, parcels []int) {
	t := &r.Test
	units := survival.Units(members)
	if t.Parcels {
		units = survival.WholeParcels(members, parcels)
	}
	if t.Ordered = r.By.Ordered && len(t.Groups) > 2; t.Ordered {
		weights := make([]float64, len(t.Groups))
		for g := range weights {
			weights[g] = float64(g)
		}
		t.Permutation = survival.RelabelOrdered(units, weights)
	} else {
		t.Permutation = survival.Relabel(units)
	}
	p := t.Permutation
	t.Ran, t.Strata, t.Contributing = true, p.Strata, p.Contributing
	if t.DegreesOfFreedom = 1; !t.Ordered {
		t.DegreesOfFreedom = tied(units, len(t.Groups))
	}
	switch {
	case p.Contributing == 0:
		t.Reason = NoSharedImport
	case !p.HasSmallestP || p.SmallestP <= smallestTold:
		t.P = p.P
	case t.Parcels && fewestParcels(t.Imports, p.Relabellings) > smallestTold:
		t.Reason = FewImports
	default:
		t.Reason = FewLosses
	}
}

// tied is the rank of the permutation covariance: the groups less the sets of
// groups that no stratum joins.
func tied(units []survival.Unit, groups int) int {
	set := make([]int, groups)
	for g := range set {
		set[g] = g
	}
	first := map[int]int{} // of each stratum
	rank := 0
	for _, u := range units {
		g, seen := first[u.Stratum]
		if !seen {
			first[u.Stratum] = u.Group
			continue
		}
		if a, b := set[g], set[u.Group]; a != b {
			rank++
			for n := range set {
				if set[n] == b {
					set[n] = a
				}
			}
		}
	}
	return rank
}

// fewestParcels is the smallest p that relabelling these numbers of imports could
// give whatever the losses were: one relabelling of all, and those that swap
// groups with as many imports, since they give the same statistic.
func fewestParcels(imports []int, relabellings float64) float64 {
	if relabellings == 0 {
		return 0
	}
	alike, sizes := 1.0, map[int]int{}
	for _, n := range imports {
		sizes[n]++
		alike *= float64(sizes[n])
	}
	return alike / relabellings
}

// others runs the tests for programs. The asymptotic log-rank takes lines of one
// parcel for independent, so there is none where imports differ as wholes: by a
// word of the parcel that is refused, or where no import holds two groups.
func (r *Comparison) others(members []survival.Member) {
	t, h := &r.Test, &r.Hazards
	switch {
	case r.By.Level == OfImport:
		h.Reason = "the word is a fact of the parcel, not of the plant"
	case t.Reason == NoSharedImport || t.Reason == NoLosses || !t.Ran:
		h.Reason = t.Reason.String()
	default:
		h.fit(members, t.Groups)
	}
	if !t.Ran || t.Reason == NoSharedImport || t.Parcels && t.Reason != Tested {
		return
	}
	pooled := slices.Clone(members)
	for n := range pooled {
		pooled[n].Stratum = 0
	}
	l := survival.CompareLosses(pooled)
	r.LogRank = LogRank{Exists: l.Exists, Statistic: l.ChiSquare, DegreesOfFreedom: l.DegreesOfFreedom, P: l.P}
}

func (h *Hazards) fit(members []survival.Member, names []string) {
	sizes := make([]int, len(names))
	for _, m := range members {
		sizes[m.Group]++
	}
	reference := 0
	for g, n := range sizes {
		if n > sizes[reference] {
			reference = g
		}
	}
	observations, groups := survival.Indicators(members, reference)
	fit := survival.Firth(observations, survival.Efron)
	if !fit.Exists {
		h.Reason = fit.Reason
		return
	}
	h.Reference = names[reference]
	for n, g := range groups {
		c := fit.Coefficients[n]
		term := Hazard{Name: names[g], Ratio: c.Ratio(), P: c.P, HasLower: c.HasLower, HasUpper: c.HasUpper}
		lower, upper := survival.Coefficient{Value: c.Lower}, survival.Coefficient{Value: c.Upper}
		if c.HasLower {
			term.Lower = lower.Ratio()
		}
		if c.HasUpper {
			term.Upper = upper.Ratio()
		}
		h.Terms = append(h.Terms, term)
	}
}

// Comparisons compares the scope's lines by every word the diary has, at one
// horizon and landmark, and adjusts the p values for having looked at all of them
// (survival.Holm). It is the family of the seasons page: where a comparison is
// shown on a page of its own, the adjusted p is still the family's.
func (c *Cohort) Comparisons(s Scope, horizon, landmarkDay int) []Comparison {
	by := c.Groupings()
	out := make([]Comparison, len(by))
	var wait sync.WaitGroup
	for n := range by {
		// A word with many groups is tested by draws, which take a second.
		wait.Go(func() { out[n] = c.Compare(s, by[n], horizon, landmarkDay) })
	}
	wait.Wait()
	var ps []float64
	for _, r := range out {
		if r.Test.Reason == Tested {
			ps = append(ps, r.Test.P)
		}
	}
	adjusted := survival.Holm(ps)
	for n := range out {
		if t := &out[n].Test; t.Reason == Tested {
			t.Adjusted, t.HasAdjusted = adjusted[0], true
			adjusted = adjusted[1:]
		}
	}
	return out
}
