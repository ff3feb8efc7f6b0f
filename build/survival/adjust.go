package survival

import (
	"fmt"
	"math"
	"slices"
)

// Holm adjusts p values for having looked at all of them: the chance of any
// false alarm among them stays at the level (Holm 1979, Scand J Stat 6:65-70).
// The order is kept. All adjustments here panic at a p outside 0 to 1.
func Holm(p []float64) []float64 {
	return stepDown(p, func(rank, n int) float64 { return float64(n - rank) })
}

// Bonferroni multiplies each by their number (Bonferroni 1936, Pubbl Ist Sup
// Sci Econ Commer Firenze 8:3-62).
func Bonferroni(p []float64) []float64 {
	adjusted := make([]float64, len(p))
	for i, v := range checked(p) {
		adjusted[i] = math.Min(1, v*float64(len(p)))
	}
	return adjusted
}

// Hochberg is Holm's from the other end; it needs independent tests, or nearly
// (Hochberg 1988, Biometrika 75:800-802).
func Hochberg(p []float64) []float64 {
	return stepUp(p, func(rank, n int) float64 { return float64(n - rank) })
}

// BenjaminiHochberg bounds the share of false alarms among the alarms
// (Benjamini and Hochberg 1995, J R Stat Soc B 57:289-300).
func BenjaminiHochberg(p []float64) []float64 {
	return stepUp(p, func(rank, n int) float64 { return float64(n) / float64(rank+1) })
}

// BenjaminiYekutieli does so whatever the tests' dependence (Benjamini and
// Yekutieli 2001, Ann Stat 29:1165-1188).
func BenjaminiYekutieli(p []float64) []float64 {
	sum := 0.0
	for i := range p {
		sum += 1 / float64(i+1)
	}
	return stepUp(p, func(rank, n int) float64 { return sum * float64(n) / float64(rank+1) })
}

// stepDown multiplies from the smallest up, never letting a larger p fall
// below a smaller one; stepUp from the largest down.
func stepDown(p []float64, factor func(rank, n int) float64) []float64 {
	adjusted, floor := make([]float64, len(p)), 0.0
	for rank, i := range ranked(p) {
		floor = math.Max(floor, math.Min(1, factor(rank, len(p))*p[i]))
		adjusted[i] = floor
	}
	return adjusted
}

func stepUp(p []float64, factor func(rank, n int) float64) []float64 {
	adjusted, ceiling := make([]float64, len(p)), 1.0
	order := ranked(p)
	for rank := len(order) - 1; rank >= 0; rank-- {
		i := order[rank]
		ceiling = math.Min(ceiling, factor(rank, len(p))*p[i])
		adjusted[i] = ceiling
	}
	return adjusted
}

// ranked gives the places of p from the smallest up.
func ranked(p []float64) []int {
	checked(p)
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case p[a] < p[b]:
			return -1
		case p[a] > p[b]:
			return 1
		}
		return 0
	})
	return order
}

func checked(p []float64) []float64 {
	for _, v := range p {
		if !(v >= 0 && v <= 1) {
			panic(fmt.Sprintf("survival: %v is no p value", v))
		}
	}
	return p
}
