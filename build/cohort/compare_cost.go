package cohort

import (
	"github.com/govalues/decimal"

	"wardian/build/cost"
	"wardian/content"
	"wardian/content/measure"
)

// GroupCost is what the lines of one group cost, and each of them that was alive
// on the comparison's day.
type GroupCost struct {
	Currency string
	// Unpriced counts the lines whose cost isn't known: without a price, of an
	// import of which no money is told, or of one whose shared costs go by prices
	// that aren't all written down. Above 0, the rest isn't read.
	Unpriced int
	Landed   measure.Money // prices and shares of the shared costs
	Refunds  measure.Money // what came back for these lines, and their share of what came back for the import
	// PerSurvivor is Landed less Refunds over the lines alive on the day, the
	// dead ones' cost in it; lines of which nobody knows give a range.
	PerSurvivor Each
}

// GroupCosts gives the landed cost per survivor of each group of a comparison, in
// their order. The definition is that of an import (measures: Money), parted among
// its lines: a refund for a plant is its line's, any other is parted as the shared
// costs are, so that the groups of a comparison which leaves no line out add up to
// what their imports cost, to the cent. What is left out of a comparison (lines
// lost before a landmark, rows without a day) leaves its cost out with it.
//
// Costs count whether or not the diary publishes them: whoever shows them judges
// that.
func (c *Cohort) GroupCosts(r Comparison) []GroupCost {
	back := map[*content.Import]map[string]decimal.Decimal{}
	out := make([]GroupCost, len(r.Groups))
	for n, g := range r.Groups {
		out[n] = c.groupCost(g, back)
	}
	return out
}

func (c *Cohort) groupCost(g Group, back map[*content.Import]map[string]decimal.Decimal) GroupCost {
	out := GroupCost{Currency: c.Diary.Settings.Currency}
	landed, refunds, sound := decimal.Zero, decimal.Zero, true
	add := func(sum *decimal.Decimal, more decimal.Decimal) {
		var err error
		if *sum, err = sum.Add(more); err != nil {
			sound = false
		}
	}
	for _, l := range g.Lines {
		i := l.Import()
		b := c.costs[i.ID]
		price, ok := c.Landed(l.Specimen)
		if !ok || b.Landed.Unpriced > 0 && i.SharedBy == "price" {
			out.Unpriced++
			continue
		}
		if back[i] == nil {
			back[i] = refundsOf(b)
		}
		add(&landed, price.Amount)
		add(&refunds, back[i][l.Specimen.ID])
	}
	net, err := landed.Sub(refunds)
	if out.Unpriced > 0 || err != nil || !sound {
		// A sum beyond nineteen figures is no cost that anybody knows.
		out.Unpriced = max(out.Unpriced, 1)
		return out
	}
	out.Landed = measure.Money{Amount: landed, Currency: out.Currency}
	out.Refunds = measure.Money{Amount: refunds, Currency: out.Currency}
	out.PerSurvivor = eachOf(cost.Each(net, g.Alive, g.Unknown, !g.Ripe), out.Currency)
	return out
}

// refundsOf parts what came back for an import among its plants, by ID.
func refundsOf(b *Bill) map[string]decimal.Decimal {
	out := map[string]decimal.Decimal{}
	rest := b.Landed.Refunds
	in := cost.Import{}
	if b.Import.SharedBy == "price" {
		in.By = cost.ByPrice
	}
	for _, p := range b.Landed.Plants {
		out[p.ID] = p.Refunded
		rest, _ = rest.Sub(p.Refunded) // parts of a sum that stands already
		in.Plants = append(in.Plants, cost.Plant{ID: p.ID, Price: p.Price, Priced: p.Priced})
	}
	largest := decimal.MustNew(cost.Largest, 0)
	for ; largest.Less(rest); rest, _ = rest.Sub(largest) {
		in.Shared = append(in.Shared, largest) // a sum may lie beyond what one amount may be
	}
	in.Shared = append(in.Shared, rest)
	for _, p := range cost.Land(in).Plants {
		out[p.ID], _ = out[p.ID].Add(p.Share)
	}
	return out
}
