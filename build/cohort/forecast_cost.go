package cohort

import (
	"github.com/govalues/decimal"

	"wardian/build/cost"
	"wardian/build/forecast"
	"wardian/content"
	"wardian/content/measure"
)

// OrderCost is what a planned order costs, in the diary's currency, and each of
// its plants that is alive on the day.
type OrderCost struct {
	// Known is false where the landed cost isn't: a line without a price
	// (Unpriced plants), an amount without a rate or too large, or more taken
	// off than there is to pay.
	Known    bool
	Unpriced int
	Landed   measure.Money // prices and costs of the whole order

	// Each tells whether the cost of a survivor is given: Expected by the
	// expected number alive, Low and High by the ends of the range that holds
	// it with a chance of Usual. Without HasHigh none may be alive, without
	// HasLow none is at either end: "none survived".
	Each            bool
	Expected        measure.Money
	Low, High       measure.Money
	HasLow, HasHigh bool
}

// landing adds a planned order up as an import is added up.
func (c *Cohort) landing(o *content.Order) OrderCost {
	home := c.Diary.Settings.Currency
	rates := cost.Rates{}
	for _, r := range o.Rates {
		rates[r.Currency] = r.PerOne
	}
	sound := true
	convert := func(m measure.Money) decimal.Decimal {
		got, problem := cost.Convert(m, home, rates)
		sound = sound && problem == cost.Converted
		return got.Amount
	}
	in := cost.Import{}
	for _, l := range o.Lines {
		p := cost.Plant{}
		if l.Price != nil {
			p.Price, p.Priced = convert(*l.Price), true
		}
		for range l.Count {
			in.Plants = append(in.Plants, p)
		}
	}
	for _, extra := range o.Costs {
		in.Shared = append(in.Shared, convert(extra.Amount))
	}
	landed := cost.Land(in)
	out := OrderCost{Unpriced: landed.Unpriced, Landed: measure.Money{Amount: landed.Landed, Currency: home}}
	out.Known = sound && out.Unpriced == 0 && !landed.Landed.IsNeg()
	return out
}

// among divides a landed cost by a forecast's number alive: at the ends, which are
// whole plants, exactly; in the middle, where it is a mean, to the cent.
func (o OrderCost) among(count forecast.Count) OrderCost {
	if !o.Known {
		return o
	}
	landed, _ := o.Landed.Amount.Float64()
	each, ok := count.CostEach(landed, Usual)
	if !ok {
		return o
	}
	expected, err := decimal.NewFromFloat64(each.Expected)
	if err != nil {
		return o
	}
	money := func(d decimal.Decimal) measure.Money {
		return measure.Money{Amount: d.Round(2), Currency: o.Landed.Currency}
	}
	r := count.Range(Usual)
	ends := cost.Each(o.Landed.Amount, r.Low, r.High-r.Low, false)
	o.Each, o.Expected = true, money(expected)
	if o.HasLow = ends.Answer != cost.NoneSurvived; o.HasLow {
		o.Low = money(ends.Low)
	}
	if o.HasHigh = o.HasLow && ends.Answer != cost.FromOn; o.HasHigh {
		o.High = money(ends.High)
	}
	return o
}
