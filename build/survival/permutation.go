package survival

import (
	"slices"
)

// A permutation test asks how many ways of dealing the labels out anew, within
// strata and with the numbers of each group kept, would look at least as
// uneven as the labels seen. It needs no large numbers and no formula for the
// variance, which is why it is the one test that pages print. It does assume
// that inside a stratum both groups were followed alike, so that only the
// labels are exchanged; a common horizon sees to that (Heinze, Gnant and
// Schemper 2003, Biometrics 59:1151-1157; Wang, Lagakos and Gray 2010,
// Biostatistics 11:676-692).
//
// Relabellings are counted, not walked through, wherever that is possible: the
// numerator is a sum over units, so the number of relabellings that reach each
// sum is built up unit by unit, ties merged, in two halves that meet in the
// middle (distribution.go). 2.7 million arrangements of 12 against 12 then
// take less than the time of 10 000. Where even the halves grow too large, a
// fixed number of draws stands in (draws.go).

// Method says how a permutation p was found.
type Method int

const (
	// Counted: every relabelling was counted, the p is exact.
	Counted Method = iota
	// Drawn: the p was estimated from random relabellings.
	Drawn
)

func (m Method) String() string { return [...]string{"counted", "drawn"}[m] }

// Permutation is the result of a permutation test.
type Permutation struct {
	// Groups lists the groups' numbers ascending; N counts their units.
	Groups []int
	N      []int
	Method Method
	// Statistic is U = Σ scores of the first group (observed minus expected
	// losses) for two groups, Σ w·U for ordered ones, and the quadratic form
	// U′C⁻U for three or more, where C is the permutation covariance.
	Statistic float64
	// Relabellings is the number of ways to deal the labels out; exact up to
	// 2⁵³, and infinite numbers are given as 0.
	Relabellings float64
	// AtLeast counts those with |Statistic| at least that seen, the one seen
	// included; Greater and Less those with Statistic at least, at most that
	// seen (for a quadratic form Greater is AtLeast and Less isn't counted).
	// Equality is to 1e-9. Drawn tests count draws instead.
	AtLeast, Greater, Less float64
	// P is AtLeast as a share: of all relabellings, or (1 + b)/(1 + B) of
	// draws. PGreater and PLess are the same for one side.
	P, PGreater, PLess float64
	// Draws is B and MonteCarloError √(P(1−P)/B); both 0 where counted.
	Draws           int
	MonteCarloError float64
	// SmallestP is the p of the most uneven relabelling there is. Where it
	// exceeds 0.05 the losses are too few to tell anything. HasSmallestP is
	// false only for drawn quadratic forms.
	SmallestP    float64
	HasSmallestP bool
	// Strata counts the strata, Contributing the units in strata that hold two
	// groups or more; the others can't tell anything.
	Strata, Contributing int
	// Exists is false, and all p are 0, where fewer than two groups stand.
	Exists bool
}

// equal says when two statistics are the same; they are sums of rounded
// fractions.
const equal = 1e-9

// PermutationLogRank relabels members within strata: two groups by the linear
// numerator, more by the quadratic form.
func PermutationLogRank(members []Member) Permutation { return Relabel(Units(members)) }

// Relabel is the permutation test on units that carry their scores: see Units
// and WholeParcels.
func Relabel(units []Unit) Permutation {
	d := dealOf(units)
	switch len(d.groups) {
	case 0, 1:
		return d.result()
	case 2:
		return d.linear([]float64{1, 0})
	}
	return d.quadratic()
}

// RelabelOrdered is the permutation test for a trend over ordered groups,
// |Σ w_g U_g|. weights go with the groups in ascending order and must differ;
// it panics otherwise.
func RelabelOrdered(units []Unit, weights []float64) Permutation {
	d := dealOf(units)
	sorted := slices.Clone(weights)
	slices.Sort(sorted)
	if len(weights) != len(d.groups) || len(slices.Compact(sorted)) != len(weights) {
		panic("survival: ordered groups need one weight each, all different")
	}
	if len(d.groups) < 2 {
		return d.result()
	}
	return d.linear(weights)
}

// linear tests Σ w_g U_g.
func (d deal) linear(weights []float64) Permutation {
	p := d.result()
	p.Exists = true
	for _, h := range d.strata {
		for i, g := range h.labels {
			p.Statistic += weights[g] * h.scores[i]
		}
	}
	p.SmallestP, p.HasSmallestP = d.smallest(weights), true
	if p.Relabellings > 0 {
		if left, right, ok := d.halves(weights); ok {
			p.AtLeast, p.Greater, p.Less = count(left, right, p.Statistic)
			p.P, p.PGreater, p.PLess = p.AtLeast/p.Relabellings, p.Greater/p.Relabellings, p.Less/p.Relabellings
			return p
		}
	}
	d.draw(&p, func(sums []float64) float64 {
		u := 0.0
		for g, w := range weights {
			u += w * sums[g]
		}
		return u
	})
	return p
}
