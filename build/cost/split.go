package cost

import (
	"cmp"
	"math/big"
	"slices"

	"github.com/govalues/decimal"
)

// Key says how shared costs are split.
type Key int

// The keys of sharing.
const (
	ByCount Key = iota // the same for each plant
	ByPrice            // in proportion to what each plant cost
)

// Plant is one plant as received, in the diary's currency. A gift has the price
// 0; a plant whose price nobody knows is not Priced, and counts as 0 by price.
type Plant struct {
	ID     string // unique in an import; ties go to the smaller by bytes
	Price  decimal.Decimal
	Priced bool
}

// Split parts an amount, which may be negative, among plants, in the order
// given, so that the parts add up to it to the cent: each gets its share cut off
// to whole cents, and the cents left over go, one each, to the largest
// remainders, ties to the smaller ID. The order of the plants changes nothing.
// By price, a plant at 0 gets nothing; where all prices are 0 the amount is
// split by count, and fellBack says so. Without plants there are no parts.
// Negative prices weigh nothing.
func Split(amount decimal.Decimal, plants []Plant, by Key) (parts []decimal.Decimal, fellBack bool) {
	cents, fellBack := split(centsOf(amount), plants, by)
	for _, c := range cents {
		parts = append(parts, inCents(c))
	}
	return parts, fellBack
}

// split is Split in cents. The amount may be a sum, and so beyond Largest.
func split(amount int64, plants []Plant, by Key) (parts []int64, fellBack bool) {
	weights, total := weigh(plants, by)
	if total == 0 && len(plants) > 0 {
		weights, total = weigh(plants, ByCount)
		fellBack = true
	}
	sign := int64(1)
	if amount < 0 {
		amount, sign = -amount, -1
	}
	parts, remainder := make([]int64, len(plants)), make([]int64, len(plants))
	left := amount
	for i, w := range weights {
		share, rest := new(big.Int).DivMod(
			new(big.Int).Mul(big.NewInt(amount), big.NewInt(w)), big.NewInt(total), new(big.Int))
		parts[i], remainder[i] = share.Int64(), rest.Int64()
		left -= parts[i]
	}
	for _, i := range byRemainder(plants, remainder) {
		if left > 0 {
			parts[i]++
			left--
		}
		parts[i] *= sign
	}
	return parts, fellBack
}

// weigh gives what each plant weighs under a key, and the sum.
func weigh(plants []Plant, by Key) (weights []int64, total int64) {
	for _, p := range plants {
		w := int64(1)
		if by == ByPrice {
			w = 0
			if p.Priced {
				w = max(0, centsOf(p.Price))
			}
		}
		weights = append(weights, w)
		total += w
	}
	return weights, total
}

// byRemainder gives the places of the plants, the largest remainder first, ties
// by ID.
func byRemainder(plants []Plant, remainder []int64) []int {
	order := make([]int, len(plants))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(
			cmp.Compare(remainder[b], remainder[a]),
			cmp.Compare(plants[a].ID, plants[b].ID),
			cmp.Compare(a, b),
		)
	})
	return order
}
