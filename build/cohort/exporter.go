package cohort

import (
	"cmp"
	"slices"

	"github.com/govalues/decimal"

	"wardian/content"
	"wardian/content/measure"
)

// Parcel is what one import says of its exporter's work: what was sent, what was
// short or dead, how long it was on the way, how warm it was on opening, what could
// be claimed and what came back.
type Parcel struct {
	Import *content.Import
	// Sent is plants in the box: received, else the lines that are told of, which
	// are not all where the diary began late (SentKnown).
	Sent      int
	SentKnown bool
	Short     int // ordered, and not in the box
	// OnArrival counts lines found lost on or before unpacking; OnArrivalKnown is
	// false where the diary began late and lists survivors only.
	OnArrival      int
	OnArrivalKnown bool
	// Days are the fewest and the most days on the way; the same where both days
	// are known in full.
	DaysLeast, DaysMost int
	DaysKnown           bool
	// Claimable counts what a claim can be made for: plants short, lines dead on
	// arrival, those found lost while the exporter's window for claims was open,
	// and any other that money came back for. Refunded are those of them that it
	// came back for.
	Claimable, Refunded int
	// Refunds is all that came back, for whatever reason. RefundsKnown is false
	// where an amount couldn't be converted.
	Refunds      measure.Money
	RefundsKnown bool
}

// Record is an exporter's parcels, by arrival. It is for the grower alone: it
// stands on no page and in no published file.
type Record struct {
	Exporter string // the public alias; "" where none is named
	Parcels  []Parcel
}

// Exporters gives the record of each exporter, by name, the nameless last. Imports
// bought nearby made no journey and are counted apart.
func (c *Cohort) Exporters() (records []Record, nearby int) {
	for _, i := range c.Diary.Imports {
		if i.Local {
			nearby++
			continue
		}
		n := slices.IndexFunc(records, func(r Record) bool { return r.Exporter == i.Exporter })
		if n < 0 {
			n = len(records)
			records = append(records, Record{Exporter: i.Exporter})
		}
		records[n].Parcels = append(records[n].Parcels, c.parcel(i))
	}
	slices.SortFunc(records, func(a, b Record) int {
		if (a.Exporter == "") != (b.Exporter == "") {
			return cmp.Compare(b.Exporter, a.Exporter)
		}
		return cmp.Compare(a.Exporter, b.Exporter)
	})
	for _, r := range records {
		slices.SortStableFunc(r.Parcels, func(a, b Parcel) int { return cmp.Compare(a.Import.Day0(), b.Import.Day0()) })
	}
	return records, nearby
}

func (c *Cohort) parcel(i *content.Import) Parcel {
	p := Parcel{Import: i, OnArrivalKnown: !i.FollowedFrom.Known(), SentKnown: i.Received >= 0 || !i.FollowedFrom.Known()}
	refunded := map[string]bool{}
	for _, r := range i.Refunds {
		refunded[r.For] = true
	}
	for _, s := range i.Short {
		p.Short += s.Count
	}
	p.Claimable = p.Short
	if refunded["short"] {
		p.Refunded = p.Short
	}
	s := c.Import(i)
	p.Sent = len(s.Lines) + len(s.Undated)
	if i.Received >= 0 {
		p.Sent = i.Received
	}
	for _, l := range s.Lines {
		if l.OnArrival {
			p.OnArrival++
		}
	}
	for _, l := range slices.Concat(s.Lines, s.Undated) {
		back := refunded[l.Specimen.ID]
		if back {
			p.Refunded++
		}
		if back || l.OnArrival || l.lostBy(i.ClaimUntil) {
			p.Claimable++
		}
	}
	if i.Dispatched.Known() && i.Arrived.Known() {
		p.DaysLeast, p.DaysMost, p.DaysKnown = max(0, int(i.Arrived.First-i.Dispatched.Last)), int(i.Arrived.Last-i.Dispatched.First), true
	}
	p.Refunds = measure.Money{Amount: decimal.MustNew(0, 2), Currency: c.Diary.Settings.Currency}
	p.RefundsKnown = true
	if b := c.Bill(i); b != nil {
		p.Refunds.Amount, p.RefundsKnown = b.Landed.Refunds, b.Short == 0
	}
	return p
}

// lostBy tells whether a line was found lost while a window was open. A window that
// ends at a time of day is judged by its day: losses have no other.
func (l *Line) lostBy(until measure.Moment) bool {
	return l.Fate == Lost && !l.Undated && until.Known() && l.Day <= int(until.Day-l.Import().Day0())
}
