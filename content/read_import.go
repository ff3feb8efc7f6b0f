package content

import (
	"fmt"
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/source"
)

// importFile reads a file under imports/.
func (l *loader) importFile(f *source.File, id string) *Import {
	o := l.open(f)
	c := l.top(o, &format.Import, format.Import.Keys)
	i := &Import{ID: id, Season: c.line("season"), Origin: c.line("origin"), Exporter: c.line("exporter")}
	i.Ordered, i.Dispatched, i.Arrived = c.halfDay("ordered"), c.halfDay("dispatched"), c.halfDay("arrived")
	i.Unpacked = c.moment("unpacked")
	i.Received = c.whole("received", -1)
	i.Short = c.short("short")
	i.Phytosanitary, i.Permits, i.Packing = c.yes("phytosanitary"), c.texts("permits"), c.texts("packing")
	i.Box, i.Parcel = c.temperature("box"), c.choice("parcel")
	i.ClaimUntil, i.QuarantineUntil = c.moment("claim-until"), c.day("quarantine-until")
	i.Costs, i.SharedBy = c.costs("costs")
	i.Rates = c.rates("rates")
	i.Refunds = c.refunds("refunds")
	i.FollowedFrom, i.Local = c.day("followed-from"), c.yes("local")
	i.List, i.LookedEvery = c.list(), c.days("looked-every", 0)
	l.listAmiss = l.listAmiss || c.field("list") != nil && i.List == nil
	if c.has("box") && c.has("parcel") && !o.header.Broken {
		c.fault("key-elsewhere", c.keyOf("parcel"), "parcel stands beside box", "parcel only where nobody measured", "leave parcel out")
	}
	if !i.Unpacked.Known() && i.Arrived.Known() {
		i.Unpacked = measure.At(i.Arrived.First)
	}
	i.Page = c.page(o)
	return i
}

// short reads the plants that weren't in the box.
func (c *record) short(name string) []ShortPlant {
	fields, want := c.table(name)
	var out []ShortPlant
	for i := range fields {
		v := &fields[i].Value
		if v.Faulty {
			continue
		}
		if v.Kind == header.Empty {
			c.fault("not-a-number", fields[i].KeySpan, "how many of them is missing", want.Item.Kind.Expected(), "write "+fields[i].Key+": 1")
			continue
		}
		if n, ok := c.wholeOf(v, want.Item); ok {
			out = append(out, ShortPlant{Name: fields[i].Key, Count: n})
		}
	}
	return out
}

// costs reads the shared costs and how they are shared.
func (c *record) costs(name string) (costs []Cost, sharedBy string) {
	fields, want := c.table(name)
	sharedBy = "count"
	for i := range fields {
		f := &fields[i]
		if f.Value.Faulty || f.Value.Kind == header.Empty {
			continue
		}
		if key := format.Find(want.Keys, f.Key); key != nil {
			if asked != nil {
				asked(c.kind, name+"."+key.Name)
			}
			if word := c.choiceOf(&f.Value, &key.Value); word != "" {
				sharedBy = word
			}
			continue
		}
		if m, ok := c.money(&f.Value, want.Item); ok {
			costs = append(costs, Cost{Words: f.Key, Amount: m})
			c.spans = append(c.spans, KeySpan{Key: name + "." + f.Key, Span: f.Value.Span})
		}
	}
	return costs, sharedBy
}

// rates reads what one of each other currency cost.
func (c *record) rates(name string) []Rate {
	fields, want := c.table(name)
	var out []Rate
	for i := range fields {
		f := &fields[i]
		if f.Value.Faulty || f.Value.Kind == header.Empty {
			continue
		}
		key := header.Value{Kind: header.Text, Text: f.Key, Span: f.KeySpan}
		currency := c.currencyOf(&key, &format.Value{Kind: format.Currency})
		if rate, ok := c.rate(&f.Value, want.Item); ok && currency != "" {
			out = append(out, Rate{Currency: currency, PerOne: rate})
		}
	}
	return out
}

// refunds reads the money that came back. What it came back for is tied to
// specimens once all are known.
func (c *record) refunds(name string) []Refund {
	items, want := c.each(name)
	var out []Refund
	for i := range items {
		v := &items[i]
		if v.Kind != header.Map {
			if !v.Faulty && v.Kind != header.Empty {
				c.wrongKind(v, want, "{date: 2026-03-20, amount: 14 USD, for: short}")
			}
			out = append(out, Refund{Date: measure.NoDay}) // keeps the numbers of their places
			continue
		}
		r := c.reader.record(v.Fields, want.Keys, fmt.Sprintf("%s.%d.", name, i), &v.Span)
		refund := Refund{Date: r.day("date"), For: r.line("for")}
		if m := r.amount("amount"); m != nil {
			refund.Amount = *m
		}
		c.spans = append(c.spans, r.spans...)
		out = append(out, refund)
	}
	return out
}

// otherWords says whether words open with "other", as those for which there is
// no word of the diary's own do.
func otherWords(words string) bool { return words == "other" || strings.HasPrefix(words, "other ") }
