package content

import (
	"wardian/content/measure"
)

// Order is a planned order. It is no part of the diary: its plants haven't come,
// and may never.
type Order struct {
	Exporter string // as imports write it; "" where not said
	Lines    []Planned
	Costs    []Cost // of the whole order, as written; a discount is negative
	Rates    []Rate
}

// Planned is one line of an order: plants of one kind.
type Planned struct {
	Name  string
	Size  string         // seedling, small, medium, large or ""
	Count int            // 1 or more
	Price *measure.Money // of one, 0 or more; nil where not said
}

// Plants is how many plants the order is of.
func (o *Order) Plants() int {
	n := 0
	for _, l := range o.Lines {
		n += l.Count
	}
	return n
}
