package main

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"text/tabwriter"

	"wardian/build/cohort"
	"wardian/build/opendata"
	"wardian/content"
	"wardian/content/measure"
)

// The record of each exporter is for the grower alone: a name that a public page
// sets beside dead plants is an accusation, and three parcels are no ground for
// one. So it is told in a terminal and on no page, and no file of it is written.

// exporters answers compare --exporters.
func exporters(v voice, q comparing, d *content.Diary) error {
	records, nearby := cohort.At(d, measure.NoDay).Exporters()
	v.say("for your own eyes: no page and no published file holds this")
	var err error
	switch text := []byte(nil); {
	case q.asJSON:
		if text, err = opendata.ExportersJSON(records, nearby, d.Settings.Currency); err == nil {
			_, err = v.out.Write(text)
		}
	case q.csv:
		_, err = v.out.Write(opendata.ExportersCSV(records, d.Settings.Currency))
	default:
		_, err = fmt.Fprint(v.out, unsteered(recordWords(records, nearby)))
	}
	return err
}

// recordWords sets out a block an exporter: its parcels, and their sum.
func recordWords(records []cohort.Record, nearby int) string {
	var b strings.Builder
	for n, r := range records {
		if n > 0 {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "%s, %s\n", cmp.Or(r.Exporter, "no exporter named"), counted(len(r.Parcels), "parcel", "parcels"))
		t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
		fmt.Fprint(t, "  import\tsent\tshort\tdead on arrival\tdays on the way\tbox\tclaims refunded\trefunds\n")
		for _, p := range r.Parcels {
			sent, dead := "not known", "not known"
			if p.SentKnown {
				sent = strconv.Itoa(p.Sent)
			}
			if p.OnArrivalKnown {
				dead = strconv.Itoa(p.OnArrival)
			}
			fmt.Fprintf(t, "  %s\t%s\t%d\t%s\t%s\t%s\t%s\t%s\n", p.Import.ID, sent, p.Short, dead, wayWords(p), boxWords(p.Import), claimWords(p), refundWords(p))
		}
		if len(r.Parcels) > 1 {
			fmt.Fprintf(t, "  together\t%s\n", togetherWords(r))
		}
		t.Flush()
	}
	if len(records) == 0 {
		b.WriteString("no parcels yet\n")
	}
	if nearby > 0 {
		fmt.Fprintf(&b, "%s bought nearby, without a parcel, left out\n", counted(nearby, "import", "imports"))
	}
	if len(records) > 0 {
		b.WriteString("\nclaims: plants short, dead on arrival, found lost while claims were open, or refunded\n")
	}
	return b.String()
}

// togetherWords sums up an exporter's parcels, column by column.
func togetherWords(r cohort.Record) string {
	sent, short, dead, claimable, refunded := 0, 0, 0, 0, 0
	least, most, days := 0, 0, 0
	sentKnown, deadKnown := true, true
	for _, p := range r.Parcels {
		sent, short, dead = sent+p.Sent, short+p.Short, dead+p.OnArrival
		claimable, refunded = claimable+p.Claimable, refunded+p.Refunded
		sentKnown, deadKnown = sentKnown && p.SentKnown, deadKnown && p.OnArrivalKnown
		if p.DaysKnown {
			if days == 0 || p.DaysLeast < least {
				least = p.DaysLeast
			}
			most = max(most, p.DaysMost)
			days++
		}
	}
	way := ""
	if days > 0 {
		way = span(least, most)
	}
	return fmt.Sprintf("%s\t%d\t%s\t%s\t\t%d of %d\t", known(sent, sentKnown), short, known(dead, deadKnown), way, refunded, claimable)
}

// known is a sum, or the least that it can be where some parts aren't known.
func known(n int, all bool) string {
	if all {
		return strconv.Itoa(n)
	}
	return "at least " + strconv.Itoa(n)
}

func span(least, most int) string {
	if least == most {
		return strconv.Itoa(least)
	}
	return fmt.Sprintf("%d to %d", least, most)
}

func wayWords(p cohort.Parcel) string {
	if !p.DaysKnown {
		return "not written down"
	}
	return span(p.DaysLeast, p.DaysMost)
}

// boxWords is the temperature on opening, or what the parcel was where nobody
// measured.
func boxWords(i *content.Import) string {
	switch {
	case i.Box != nil && i.Box.Estimate:
		return fmt.Sprintf("about %.0f °C", float64(i.Box.Value))
	case i.Box != nil:
		return strconv.FormatFloat(float64(i.Box.Value), 'f', -1, 64) + " °C"
	}
	return i.Parcel
}

func claimWords(p cohort.Parcel) string {
	if p.Claimable == 0 {
		return "nothing to claim"
	}
	return fmt.Sprintf("%d of %d", p.Refunded, p.Claimable)
}

func refundWords(p cohort.Parcel) string {
	switch {
	case !p.RefundsKnown:
		return "not known"
	case p.Refunds.Amount.IsZero():
		return ""
	}
	return p.Refunds.String()
}
