package opendata

import (
	"encoding/json"
	"fmt"

	"wardian/build/cohort"
	"wardian/content/measure"
)

// Costs are what the groups of a comparison cost, for a comparison that the grower
// asks for at home: the site tells them only where Published.
type Costs struct {
	Groups    []cohort.GroupCost // in the order of the comparison's
	Published bool
}

type (
	costsJSON struct {
		Currency  string          `json:"currency"`
		Published bool            `json:"published"`
		Groups    []groupCostJSON `json:"groups"`
	}
	groupCostJSON struct {
		Name        string       `json:"name"`
		Landed      *json.Number `json:"landed"`
		Refunds     *json.Number `json:"refunds"`
		PerSurvivor *rangeJSON   `json:"per_survivor"`
		Reason      *string      `json:"reason"`
	}
	rangeJSON struct {
		Low  *json.Number `json:"low"`
		High *json.Number `json:"high"`
	}
)

// amount is money without its currency, exact.
func amount(m measure.Money) *json.Number {
	n := json.Number(m.Amount.String())
	return &n
}

func costsOf(r cohort.Comparison, c *Costs) *costsJSON {
	if c == nil {
		return nil
	}
	out := &costsJSON{Published: c.Published, Groups: []groupCostJSON{}}
	for n, g := range c.Groups {
		out.Currency = g.Currency
		row := groupCostJSON{Name: r.Groups[n].Name}
		if g.Unpriced == 0 {
			row.Landed, row.Refunds = amount(g.Landed), amount(g.Refunds)
		}
		if reason := WithoutCost(g); reason != "" {
			row.Reason = &reason
		} else {
			row.PerSurvivor = &rangeJSON{Low: amount(g.PerSurvivor.Low)}
			if !g.PerSurvivor.OpenEnd {
				row.PerSurvivor.High = amount(g.PerSurvivor.High)
			}
		}
		out.Groups = append(out.Groups, row)
	}
	return out
}

// WithoutCost says why there is no landed cost per survivor; "" where there is
// one.
func WithoutCost(g cohort.GroupCost) string {
	switch each := g.PerSurvivor; {
	case g.Unpriced == 1:
		return "1 line without a known cost"
	case g.Unpriced > 1:
		return fmt.Sprintf("%d lines without a known cost", g.Unpriced)
	case each.NotYet:
		return "not yet"
	case each.None:
		return "none survived"
	}
	return ""
}

// costColumns are added to a comparison's CSV where costs are asked for.
var costColumns = []column[groupRow]{
	{field{name: "currency", kind: "string", says: "the currency of the following"}, func(r groupRow) cell { return text(r.c.Currency) }},
	{field{name: "landed", kind: "number", says: "prices and shares of the shared costs of the group's lines"}, func(r groupRow) cell { return amountCell(r.m.Landed) }},
	{field{name: "refunds", kind: "number", says: "what came back for them"}, func(r groupRow) cell { return amountCell(r.m.Refunds) }},
	{field{name: "cost_per_survivor_low", kind: "number", says: "landed less refunds for each line alive on the horizon, if all of which nothing is known live"}, func(r groupRow) cell {
		if r.m.PerSurvivor == nil {
			return missing
		}
		return amountCell(r.m.PerSurvivor.Low)
	}},
	{field{name: "cost_per_survivor_high", kind: "number", says: "the same if none of those lives; empty where then none survived"}, func(r groupRow) cell {
		if r.m.PerSurvivor == nil {
			return missing
		}
		return amountCell(r.m.PerSurvivor.High)
	}},
	{field{name: "cost_reason", kind: "string", says: "why there is no cost per survivor"}, func(r groupRow) cell {
		if r.m.Reason == nil {
			return missing
		}
		return text(*r.m.Reason)
	}},
}

func amountCell(n *json.Number) cell {
	if n == nil {
		return missing
	}
	return cell(*n)
}
