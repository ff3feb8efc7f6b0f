package survival

import (
	"fmt"
	"maps"
	"slices"
)

// Unit is what a permutation test relabels: one subject, or one parcel of
// subjects that share a label. Score is the sum of its log-rank scores.
type Unit struct {
	Score          float64
	Group, Stratum int
}

// Scores gives each member its log-rank score within its stratum,
// δ − Σ_{t_j ≤ t} d_j/n_j, all groups pooled (Peto and Peto 1972, J R Stat Soc
// A 135:185-207; with ties as in Kalbfleisch and Prentice 1980, section 6.2).
// A loss scores more the earlier it came, a long life scores below 0. The
// scores of a stratum add up to 0, and those of one group to its observed
// minus its expected losses.
func Scores(members []Member) []float64 {
	strata := map[int][]Subject{}
	for _, m := range members {
		strata[m.Stratum] = append(strata[m.Stratum], m.Subject)
	}
	hazards := map[int]Curve{}
	for s, subjects := range strata {
		hazards[s] = ProductLimit(subjects)
	}
	scores := make([]float64, len(members))
	for i, m := range members {
		scores[i] = -hazards[m.Stratum].step(m.Time).Hazard
		if m.Lost {
			scores[i]++
		}
	}
	return scores
}

// Units makes every member a unit of its own.
func Units(members []Member) []Unit {
	units := make([]Unit, len(members))
	for i, score := range Scores(members) {
		units[i] = Unit{score, members[i].Group, members[i].Stratum}
	}
	return units
}

// WholeParcels makes every parcel one unit, for a word that is one fact a
// parcel and not one a subject: relabelling subjects would treat box-mates as
// independent. parcel names each member's parcel. Scores are pooled over all
// members and strata are not used, since a parcel can't be compared within
// itself. Units come in the order of their parcels' numbers. It panics if
// members of one parcel are in different groups, or if parcel and members
// differ in length.
func WholeParcels(members []Member, parcel []int) []Unit {
	if len(parcel) != len(members) {
		panic("survival: every member needs a parcel")
	}
	pooled := slices.Clone(members)
	for i := range pooled {
		pooled[i].Stratum = 0
	}
	scores := map[int][]float64{}
	group := map[int]int{}
	for i, score := range Scores(pooled) {
		p := parcel[i]
		if g, known := group[p]; known && g != members[i].Group {
			panic(fmt.Sprintf("survival: parcel %d has members of groups %d and %d", p, g, members[i].Group))
		}
		group[p] = members[i].Group
		scores[p] = append(scores[p], score)
	}
	var units []Unit
	for _, p := range slices.Sorted(maps.Keys(scores)) {
		u := Unit{Group: group[p]}
		slices.Sort(scores[p]) // one sum whatever the order of the members
		for _, s := range scores[p] {
			u.Score += s
		}
		units = append(units, u)
	}
	return units
}
