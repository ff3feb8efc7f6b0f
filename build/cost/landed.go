package cost

import (
	"math/big"

	"github.com/govalues/decimal"
)

// Import is what one import cost, every amount in the diary's currency.
type Import struct {
	Plants  []Plant           // as received; no sections, which carry nothing
	Shared  []decimal.Decimal // shared costs, what was paid for plants that never came among them; a discount is negative
	By      Key
	Refunds []Refund
}

// Refund is money that came back.
type Refund struct {
	ID     string // the plant that it was for; else empty
	Amount decimal.Decimal
}

// LandedPlant is one plant's landed cost: its price and its share of the shared
// costs.
type LandedPlant struct {
	ID            string
	Price         decimal.Decimal
	Priced        bool
	Share, Landed decimal.Decimal
	Refunded      decimal.Decimal // for this plant; not taken off Landed
}

// Landed is an import's landed cost. Landed = Prices + Shared, which is also the
// sum over its plants; Net is what is left after refunds.
type Landed struct {
	Plants   []LandedPlant // in the order given
	Prices   decimal.Decimal
	Shared   decimal.Decimal
	Landed   decimal.Decimal
	Refunds  decimal.Decimal
	Net      decimal.Decimal
	Unpriced int  // plants without a known price: every figure with prices in it is too low
	FellBack bool // shared by price though all prices are 0: shared by count instead, a warning
}

// Land adds an import up. The shared costs are added first and split once, so
// that no plant is rounded more than once. Without plants nothing is split, and
// the totals stand.
func Land(im Import) Landed {
	var l Landed
	var prices, shared, refunds int64
	for _, amount := range im.Shared {
		shared += centsOf(amount)
	}
	refunded := map[string]int64{}
	for _, r := range im.Refunds {
		refunds += centsOf(r.Amount)
		refunded[r.ID] += centsOf(r.Amount)
	}
	parts, fellBack := split(shared, im.Plants, im.By)
	l.FellBack = fellBack
	for i, p := range im.Plants {
		price, share := int64(0), parts[i]
		if p.Priced {
			price = centsOf(p.Price)
		} else {
			l.Unpriced++
		}
		prices += price
		l.Plants = append(l.Plants, LandedPlant{
			ID: p.ID, Price: inCents(price), Priced: p.Priced,
			Share: inCents(share), Landed: inCents(price + share), Refunded: inCents(refunded[p.ID]),
		})
	}
	l.Prices, l.Shared, l.Refunds = inCents(prices), inCents(shared), inCents(refunds)
	l.Landed, l.Net = inCents(prices+shared), inCents(prices+shared-refunds)
	return l
}

// Answer says what is known of the cost of one survivor.
type Answer int

// What is known of the cost of one survivor.
const (
	NotYet       Answer = iota // the day lies after the as-of day
	NoneSurvived               // all lost: nothing is divided
	Exactly                    // Low and High are the same
	Between                    // Low if all unknown lines live, High if none does
	FromOn                     // none is known alive: Low if all unknown lines live, no upper end
)

// PerSurvivor is what each survivor cost at some day.
type PerSurvivor struct {
	Answer    Answer
	Low, High decimal.Decimal // read as Answer says
}

// Each divides an import's net landed cost, dead plants and all, by its lines
// alive at a day: so many known alive, and so many of which nobody knows. A line
// passed on is alive on its last day and unknown after. Each end is rounded half
// to even to the cent. Both counts are of lines as received, 0 or above: sections
// raise them for nothing.
func Each(net decimal.Decimal, alive, unknown int, notYet bool) PerSurvivor {
	switch {
	case notYet:
		return PerSurvivor{Answer: NotYet}
	case alive+unknown <= 0:
		return PerSurvivor{Answer: NoneSurvived}
	case alive <= 0:
		return PerSurvivor{Answer: FromOn, Low: divided(net, unknown)}
	case unknown <= 0:
		each := divided(net, alive)
		return PerSurvivor{Answer: Exactly, Low: each, High: each}
	}
	low, high := divided(net, alive+unknown), divided(net, alive)
	if high.Less(low) { // refunds beyond what was paid
		low, high = high, low
	}
	return PerSurvivor{Answer: Between, Low: low, High: high}
}

// divided is an amount over a number above 0, rounded half to even to the cent.
// The amount may be a sum, and so beyond Largest.
func divided(amount decimal.Decimal, by int) decimal.Decimal {
	cents := scaled(coefficient(amount), amount.Scale())
	return inCents(halfEven(cents, big.NewInt(int64(by))).Int64())
}
