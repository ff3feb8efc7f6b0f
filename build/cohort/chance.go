package cohort

import (
	"fmt"
	"math"
	"strconv"
)

// TwoFigures is a p to two figures. It is never 0, since the labels that were
// seen are among those counted; p is above 0 and at most 1. From 0.995 on it is
// 1.00, which has a figure more.
func TwoFigures(p float64) string {
	decimals := max(2, 1-int(math.Floor(math.Log10(p))))
	// 0.0996 has one decimal fewer once it is rounded: 0.10, not 0.100.
	if next := math.Pow(10, float64(2-decimals)); decimals > 2 && p >= next-next/200 {
		decimals--
	}
	return strconv.FormatFloat(p, 'f', decimals, 64)
}

// OneOf is a p as a count: "about 1 of 12", or towards a half and beyond "about 7
// of 10".
func OneOf(p float64) string {
	switch {
	case p >= 0.995:
		return "all"
	case p > 0.95:
		return "about 19 of 20"
	case p > 0.45:
		return fmt.Sprintf("about %.0f of 10", 10*p)
	}
	n := 1 / p
	if scale := math.Pow(10, math.Floor(math.Log10(n))-1); scale > 1 {
		n = math.Round(n/scale) * scale
	}
	return fmt.Sprintf("about 1 of %.0f", n)
}
