package cohort

import (
	"wardian/build/cost"
	"wardian/content"
	"wardian/content/measure"
)

// Bill is what an import cost, in the diary's currency.
type Bill struct {
	Import   *content.Import
	Currency string
	Shared   []SharedCost // as written, in the diary's currency
	Landed   cost.Landed
	// Short counts the amounts that could not be converted or are too large;
	// reading reports them, so that a bill of a checked diary has none.
	Short int
}

// SharedCost is one shared cost of an import.
type SharedCost struct {
	Words   string
	Written measure.Money // in the currency it was paid in
	Amount  measure.Money // in the diary's
}

// Bill is what an import cost; nil where the diary tells of no money for it.
func (c *Cohort) Bill(i *content.Import) *Bill { return c.costs[i.ID] }

// Landed is a specimen's landed cost: its price and its share of the shared
// costs. ok is false for sections, and where nothing is known.
func (c *Cohort) Landed(s *content.Specimen) (landed measure.Money, ok bool) {
	b := c.costs[s.Import.ID]
	if b == nil || s.Parent != nil {
		return measure.Money{}, false
	}
	for _, p := range b.Landed.Plants {
		if p.ID == s.ID && p.Priced {
			return measure.Money{Amount: p.Landed, Currency: b.Currency}, true
		}
	}
	return measure.Money{}, false
}

// bills adds up every import that names any money. Refunds count from their
// date on; prices and costs from the start.
func (c *Cohort) bills() map[string]*Bill {
	out := map[string]*Bill{}
	home := c.Diary.Settings.Currency
	came := map[*content.Import][]*content.Specimen{}
	for _, s := range c.Diary.Specimens {
		if s.Parent == nil {
			came[s.Import] = append(came[s.Import], s)
		}
	}
	for _, i := range c.Diary.Imports {
		b := &Bill{Import: i, Currency: home}
		rates := cost.Rates{}
		for _, r := range i.Rates {
			rates[r.Currency] = r.PerOne
		}
		said := false
		convert := func(m measure.Money) measure.Money {
			said = true
			got, problem := cost.Convert(m, home, rates)
			if problem != cost.Converted {
				b.Short++
			}
			return got
		}
		in := cost.Import{}
		if i.SharedBy == "price" {
			in.By = cost.ByPrice
		}
		for _, extra := range i.Costs {
			amount := convert(extra.Amount)
			b.Shared = append(b.Shared, SharedCost{Words: extra.Words, Written: extra.Amount, Amount: amount})
			in.Shared = append(in.Shared, amount.Amount)
		}
		for _, r := range i.Refunds {
			if c.Times.Until.Known() && r.Date.Known() && r.Date > c.Times.Until {
				continue
			}
			refund := cost.Refund{Amount: convert(r.Amount).Amount}
			if c.Diary.Specimen(r.For) != nil {
				refund.ID = r.For
			}
			in.Refunds = append(in.Refunds, refund)
		}
		for _, s := range came[i] {
			p := cost.Plant{ID: s.ID}
			if s.Price != nil {
				p.Price, p.Priced = convert(*s.Price).Amount, true
			}
			in.Plants = append(in.Plants, p)
		}
		if said {
			b.Landed = cost.Land(in)
			out[i.ID] = b
		}
	}
	return out
}

// Each is the landed cost per survivor of an import on a day: all that was paid,
// the dead ones too, less refunds, over the lines alive then. Lines whose state
// is unknown give a range.
type Each struct {
	NotYet  bool // the day hasn't come
	None    bool // none survived; nothing is divided
	OpenEnd bool // nobody is known alive: Low if all unknown lines live, no upper end
	Low     measure.Money
	High    measure.Money // equal to Low where every line's state is known
}

// EachSurvivor gives the landed cost per survivor of an import on a day of its
// own. ok is false where the diary tells of no money, and where a plant has no
// price written down.
func (c *Cohort) EachSurvivor(i *content.Import, day int) (each Each, ok bool) {
	b := c.costs[i.ID]
	if b == nil || b.Landed.Unpriced > 0 {
		return Each{}, false
	}
	s := c.Import(i)
	r := s.At(day)
	// Of rows without a day nobody knows whether they lived on that one.
	return eachOf(cost.Each(b.Landed.Net, r.Alive, r.Most-r.Least+len(s.Undated), r.Kind == NotYet), b.Currency), true
}

func eachOf(e cost.PerSurvivor, currency string) Each {
	return Each{
		NotYet: e.Answer == cost.NotYet, None: e.Answer == cost.NoneSurvived, OpenEnd: e.Answer == cost.FromOn,
		Low: measure.Money{Amount: e.Low, Currency: currency}, High: measure.Money{Amount: e.High, Currency: currency},
	}
}
