package survival

import (
	"cmp"
	"math"
	"slices"
)

// deal is a permutation problem made ready: units by stratum, in an order that
// doesn't depend on the order in which they were given.
type deal struct {
	groups []int
	sizes  []int
	strata []hand
}

// hand is one stratum: its scores ascending, the group of each, and how many
// units of each group it holds.
type hand struct {
	scores []float64
	labels []int
	counts []int
}

func dealOf(units []Unit) deal {
	units = slices.Clone(units)
	slices.SortStableFunc(units, func(a, b Unit) int {
		return cmp.Or(cmp.Compare(a.Stratum, b.Stratum), cmp.Compare(a.Score, b.Score), cmp.Compare(a.Group, b.Group))
	})
	var d deal
	for _, u := range units {
		d.groups = append(d.groups, u.Group)
	}
	slices.Sort(d.groups)
	d.groups = slices.Compact(d.groups)
	d.sizes = make([]int, len(d.groups))
	for i, u := range units {
		if i == 0 || u.Stratum != units[i-1].Stratum {
			d.strata = append(d.strata, hand{counts: make([]int, len(d.groups))})
		}
		h := &d.strata[len(d.strata)-1]
		g, _ := slices.BinarySearch(d.groups, u.Group)
		h.scores, h.labels = append(h.scores, u.Score), append(h.labels, g)
		h.counts[g]++
		d.sizes[g]++
	}
	return d
}

func (h hand) contributes() bool {
	for _, n := range h.counts {
		if n > 0 && n < len(h.scores) {
			return true
		}
	}
	return false
}

// ways is the number of relabellings; infinite if it passes the largest float.
func (h hand) ways() float64 { return multinomial(h.counts) }

// result is the frame of a result without a test.
func (d deal) result() Permutation {
	p := Permutation{Groups: d.groups, N: d.sizes, Strata: len(d.strata), Relabellings: 1}
	for _, h := range d.strata {
		p.Relabellings *= h.ways()
		if h.contributes() {
			p.Contributing += len(h.scores)
		}
	}
	if math.IsInf(p.Relabellings, 0) {
		p.Relabellings = 0
	}
	return p
}

// class is a run of tied scores.
type class struct {
	score float64
	n     int
}

// classes merges ascending scores that differ by rounding only.
func classes(scores []float64) []class {
	var c []class
	for _, s := range scores {
		if n := len(c); n > 0 && s-c[n-1].score <= same {
			c[n-1].n++
		} else {
			c = append(c, class{s, 1})
		}
	}
	return c
}
