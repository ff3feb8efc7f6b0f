package main

import (
	"fmt"
	"strings"

	"github.com/govalues/decimal"

	"wardian/build/scaffold"
	"wardian/content"
	"wardian/content/ledger"
	"wardian/content/measure"
)

// parcel is what the call and the list say of the parcel.
func (a arrival) parcel(l *asOf, lines []ledger.OrderLine) (scaffold.Box, error) {
	d := l.diary
	b := scaffold.Box{On: l.on, Import: a.id, Season: a.season, Origin: a.origin, Exporter: a.exporter, Lines: lines}
	if b.Import == "" {
		id, ok := scaffold.FreeImport(d, b.On)
		if !ok {
			return b, wrongUse{message: "no import of that year has a letter left", next: "name it: --import ID"}
		}
		b.Import = id
	}
	if !content.CanBeID(b.Import) {
		return b, wrongUse{message: "--import " + b.Import + " can't be an ID", next: "small letters, digits and hyphens, such as 2026-spring-b"}
	}
	if d.Import(b.Import) != nil {
		return b, wrongUse{message: "there is an import " + b.Import + " already", next: "another --import, or none"}
	}
	if b.Season == "" {
		b.Season = ledger.SeasonOf(b.On)
	}
	plants := 0
	for _, line := range b.Lines {
		plants += line.Count
	}
	for _, id := range scaffold.SpecimenIDs(b.Import, plants) {
		if d.Specimen(id) != nil {
			return b, wrongUse{message: "there is a specimen " + id + " already", next: "name the import otherwise: --import ID"}
		}
	}
	b.Place = scaffold.ArrivalPlace(d)
	if a.place != "" {
		if b.Place = d.Place(a.place); b.Place == nil {
			return b, wrongUse{message: "there is no place " + a.place, next: "the places: " + strings.Join(placeIDs(d), ", ")}
		}
	}
	for _, r := range a.rates {
		code, amount, ok := strings.Cut(r, "=")
		per, err := decimal.Parse(amount)
		if !ok || err != nil || !per.IsPos() || len(code) != 3 {
			return b, wrongUse{message: "--rate " + r + " can't be read", next: "write it like --rate USD=10.52"}
		}
		b.Rates = append(b.Rates, content.Rate{Currency: strings.ToUpper(code), PerOne: per})
	}
	return b, a.figures(&b, d.Settings)
}

// figures reads what the call says of days, the box and what all plants share.
func (a arrival) figures(b *scaffold.Box, s content.Settings) error {
	for _, f := range []struct {
		flag, words string
		to          *measure.Span
	}{{"ordered", a.ordered, &b.Ordered}, {"dispatched", a.dispatched, &b.Dispatched}} {
		*f.to = measure.NoSpan
		if f.words == "" {
			continue
		}
		span, trouble := measure.ParseSpan(f.words)
		if trouble != nil {
			return wrongUse{message: fmt.Sprintf("--%s %s: %s", f.flag, f.words, trouble.Message), next: "write a day such as --" + f.flag + " 2026-03-02"}
		}
		if span.First > b.On {
			return wrongUse{message: fmt.Sprintf("--%s %s is after the arrival, %s", f.flag, f.words, b.On), next: "look at the year, the month and the day"}
		}
		*f.to = span
	}
	if a.box != "" {
		if _, trouble := measure.ParseTemperature(a.box, s.Units); trouble != nil {
			return wrongUse{message: fmt.Sprintf("--box %s: %s", a.box, trouble.Message), next: `write what was measured on opening, such as --box "11 C"`}
		}
		b.Temperature = a.box
	}
	for _, words := range a.costs {
		what, amount, ok := strings.Cut(words, "=")
		what = strings.TrimSpace(what)
		m, trouble := measure.ParseMoney(strings.TrimSpace(amount), s.Currency)
		if !ok || what == "" || trouble != nil {
			return wrongUse{message: "--cost " + words + " can't be read", next: `write it like --cost "freight=120 USD"`}
		}
		b.Costs = append(b.Costs, scaffold.Cost{For: what, Amount: m})
	}
	return nil
}

func placeIDs(d *content.Diary) []string {
	var ids []string
	for _, p := range d.Places {
		ids = append(ids, p.ID)
	}
	return ids
}
