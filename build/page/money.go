package page

import (
	"fmt"

	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
	"wardian/content/measure"
)

// moneyData is what an import cost, where the diary publishes costs.
type moneyData struct {
	Rows     []moneyRow
	Currency string
	Each     []string // per survivor, by day
	Shared   string
	Notes    []string
}

type moneyRow struct {
	What, Amount string
	Sum          bool
}

// money tells what an import cost; nil where the diary says nothing of it.
func (v view) money(im *content.Import) *moneyData {
	b := v.s.Cohort.Bill(im)
	if b == nil {
		return nil
	}
	d := &moneyData{Currency: b.Currency, Shared: "in equal parts"}
	if im.SharedBy == "price" {
		d.Shared = "by price"
	}
	add := func(what string, m measure.Money, sum bool) {
		d.Rows = append(d.Rows, moneyRow{What: what, Amount: m.Amount.String(), Sum: sum})
	}
	add("plants", measure.Money{Amount: b.Landed.Prices}, false)
	for _, c := range b.Shared {
		words := c.Words
		if c.Written.Currency != "" && c.Written.Currency != b.Currency {
			words += " (" + c.Written.String() + ")"
		}
		add(words, c.Amount, false)
	}
	add("shared costs together", measure.Money{Amount: b.Landed.Shared}, false)
	add("landed", measure.Money{Amount: b.Landed.Landed}, true)
	if !b.Landed.Refunds.IsZero() {
		add("refunds", measure.Money{Amount: b.Landed.Refunds}, false)
		add("landed less refunds", measure.Money{Amount: b.Landed.Net}, true)
	}
	for _, r := range im.Rates {
		d.Notes = append(d.Notes, fmt.Sprintf("1 %s was %s %s.", r.Currency, r.PerOne.String(), b.Currency))
	}
	if n := b.Landed.Unpriced; n > 0 {
		d.Notes = append(d.Notes, fmt.Sprintf("%s no price written down, so the sums are too low.", said.Upper(said.NounInWords(n, "plant has", "plants have"))))
	}
	if b.Landed.FellBack {
		d.Notes = append(d.Notes, "All prices are 0, so the shared costs are shared in equal parts.")
	}
	for _, day := range cohort.StatedDays {
		if day < 42 {
			continue
		}
		if words := v.survivorWords(im, day); words != "" {
			d.Each = append(d.Each, words)
		}
	}
	return d
}

// survivorWords is the landed cost per survivor on a day.
func (v view) survivorWords(im *content.Import, day int) string {
	each, ok := v.s.Cohort.EachSurvivor(im, day)
	if !ok {
		return ""
	}
	return fmt.Sprintf("day %d: %s", day, eachWords(each))
}

// eachWords is a landed cost per survivor.
func eachWords(each cohort.Each) string {
	switch {
	case each.NotYet:
		return "not yet"
	case each.None:
		return "none survived"
	case each.OpenEnd:
		return "from " + each.Low.String() + " on"
	case each.Low == each.High:
		return each.Low.String()
	}
	return each.Low.Amount.String() + " to " + each.High.String()
}
