package content

import (
	"fmt"
	"strconv"
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/ledger"
	"wardian/content/measure"
	"wardian/content/source"
)

// ReadOrder reads a planned order as a diary's files are read: every finding goes
// to the report with its place. A bare amount is in the diary's currency, and any
// other needs a rate. The order is never nil, but fit for a forecast only where
// the report holds no error.
func ReadOrder(f *source.File, s *Settings, report *source.Report) *Order {
	noMoney := false
	rd := &reader{file: f, report: report, kind: format.Order.Name, units: s.Units, currency: s.Currency, today: measure.NoDay, noMoney: &noMoney}
	h := header.Whole(f, report)
	required := &h.Head
	if h.Broken {
		required = nil
	}
	c := rd.record(h.Top.Fields, format.Order.Keys, "", required)
	o := &Order{Exporter: c.line("exporter")}
	c.value("private", format.Anything) // known, and never looked at
	o.Costs, _ = c.costs("costs")
	o.Rates = c.rates("rates")
	for _, cost := range o.Costs {
		rd.inOrder(cost.Amount, o.Rates, c.spans.Of("costs."+cost.Words, h.Head))
	}
	o.Lines = c.planned("lines", o.Rates)
	return o
}

// planned reads the lines of an order.
func (c *record) planned(name string, rates []Rate) []Planned {
	items, want := c.each(name)
	if v, _ := c.value(name, format.List); v != nil && v.Kind == header.List && len(items) == 0 {
		c.fault("missing-key", v.Span, "an order of nothing", "a line for each kind of plant", "write "+name+": "+format.Find(c.keys, name).Example)
	}
	var out []Planned
	for i := range items {
		v := &items[i]
		switch {
		case v.Faulty:
		case v.Kind == header.Empty:
			c.fault("missing-key", c.keyOf(name), fmt.Sprintf("line %d of the order is empty", i+1), "a map with the plant's name", "write it, or leave it out")
		case v.Kind != header.Map:
			c.wrongKind(v, want, c.asLine(v))
		default:
			out = append(out, c.plannedLine(v, want, name+".", rates))
		}
	}
	return out
}

// plannedLine reads one line of an order.
func (c *record) plannedLine(v *header.Value, want *format.Value, prefix string, rates []Rate) Planned {
	r := c.reader.record(v.Fields, want.Keys, prefix, &v.Span)
	p := Planned{Name: r.line("name"), Size: r.choice("size"), Count: r.whole("count", 1), Price: r.amount("price")}
	if p.Count < 1 {
		c.fault("not-a-number", r.spanOf("count"), "a line of no plants", "a whole number from 1 on", "leave the line out")
	}
	if p.Price != nil {
		if p.Price.Amount.IsNeg() {
			c.fault("not-an-amount", r.spanOf("price"), "a price below nought", "the price of one plant, or 0 for a gift", "write a discount under costs")
		}
		c.inOrder(*p.Price, rates, r.spanOf("price"))
	}
	return p
}

// inOrder reports money in another currency than the diary's, where the order has
// no rate for it.
func (rd *reader) inOrder(m measure.Money, rates []Rate, at source.Span) {
	if m.Zero() || m.Currency == "" || m.Currency == rd.currency {
		return
	}
	have := make([]string, len(rates))
	for i, r := range rates {
		if have[i] = r.Currency; r.Currency == m.Currency {
			return
		}
	}
	if rd.currency == "" {
		if !*rd.noMoney {
			*rd.noMoney = true
			rd.fault("no-currency", at, "an amount, and a diary that names no currency", "currency: in diary.yaml", "write currency: "+m.Currency+" in diary.yaml")
		}
		return
	}
	hint := nearest(m.Currency, have)
	if hint == "" {
		hint = "write rates: {" + m.Currency + ": what one costs}"
	}
	rd.fault("no-rate", at, "the order has no rate for "+m.Currency, "a rate under rates, in "+rd.currency+" for one "+m.Currency, hint)
}

// asLine is a line of an order in plain words ("2x Hoya lacunosa M 45 USD"), set
// as an order's line is written; an example where it can't be read so.
func (c *record) asLine(v *header.Value) string {
	example := strings.Trim(format.Find(format.Order.Keys, "lines").Example, "[]")
	if v.Kind != header.Text || strings.ContainsAny(v.Text, "{}[]\n\"") {
		return example
	}
	lines := ledger.Order(v.Text, c.currency)
	if len(lines) != 1 || lines[0].Trouble != "" {
		return example
	}
	l := lines[0]
	words := "{name: " + l.Name
	if l.Size != "" {
		words += ", size: " + l.Size
	}
	words += ", count: " + strconv.Itoa(l.Count)
	if l.Price != nil {
		words += ", price: " + l.Price.String()
	}
	return words + "}"
}
