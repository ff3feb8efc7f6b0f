package opendata

import (
	"bytes"
	"encoding/json"

	"wardian/build/cohort"
)

// The record of each exporter is the grower's own: it is written for a terminal and
// never by Files.

type (
	exportersJSON struct {
		Currency  string         `json:"currency"`
		Exporters []exporterJSON `json:"exporters"`
		Nearby    int            `json:"nearby"`
	}
	exporterJSON struct {
		Exporter string       `json:"exporter"`
		Parcels  []parcelJSON `json:"parcels"`
	}
	parcelJSON struct {
		Import        string       `json:"import"`
		Arrived       string       `json:"arrived"`
		Sent          *int         `json:"sent"`
		Short         int          `json:"short"`
		DeadOnArrival *int         `json:"dead_on_arrival"`
		DaysLeast     *int         `json:"days_least"`
		DaysMost      *int         `json:"days_most"`
		Box           *float64     `json:"box"`
		Parcel        *string      `json:"parcel"`
		ClaimUntil    *string      `json:"claim_until"`
		Claimable     int          `json:"claimable"`
		Refunded      int          `json:"refunded"`
		Refunds       *json.Number `json:"refunds"`
	}
)

func parcelOf(p cohort.Parcel) parcelJSON {
	i := p.Import
	out := parcelJSON{
		Import: i.ID, Arrived: i.Arrived.Written, Sent: given(p.Sent, p.SentKnown), Short: p.Short, DeadOnArrival: given(p.OnArrival, p.OnArrivalKnown),
		DaysLeast: given(p.DaysLeast, p.DaysKnown), DaysMost: given(p.DaysMost, p.DaysKnown), Parcel: given(i.Parcel, i.Parcel != ""),
		ClaimUntil: given(i.ClaimUntil.String(), i.ClaimUntil.Known()), Claimable: p.Claimable, Refunded: p.Refunded,
	}
	if i.Box != nil {
		out.Box = given(float64(i.Box.Value), true)
	}
	if p.RefundsKnown {
		out.Refunds = amount(p.Refunds)
	}
	return out
}

// ExportersJSON writes the records as one object.
func ExportersJSON(records []cohort.Record, nearby int, currency string) ([]byte, error) {
	out := exportersJSON{Currency: currency, Exporters: []exporterJSON{}, Nearby: nearby}
	for _, r := range records {
		e := exporterJSON{Exporter: r.Exporter}
		for _, p := range r.Parcels {
			e.Parcels = append(e.Parcels, parcelOf(p))
		}
		out.Exporters = append(out.Exporters, e)
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(out)
	return b.Bytes(), err
}

type parcelRow struct {
	exporter, currency string
	p                  parcelJSON
}

var parcelColumns = []column[parcelRow]{
	{field{name: "exporter", kind: "string", says: "the exporter's alias; empty where none is named"}, func(r parcelRow) cell { return text(r.exporter) }},
	{field{name: "import", kind: "string", required: true, says: "the parcel's ID"}, func(r parcelRow) cell { return text(r.p.Import) }},
	{field{name: "arrived", kind: "string", required: true, says: "the day of arrival, as written"}, func(r parcelRow) cell { return text(r.p.Arrived) }},
	{field{name: "sent", kind: "integer", unit: "plants", says: "plants in the box; empty where a diary that began late doesn't say"}, func(r parcelRow) cell { return optionalWhole(r.p.Sent) }},
	{field{name: "short", kind: "integer", unit: "plants", required: true, says: "ordered, and not in the box"}, func(r parcelRow) cell { return whole(r.p.Short) }},
	{field{name: "dead_on_arrival", kind: "integer", unit: "lines", says: "found lost on or before unpacking; empty where the diary began late"}, func(r parcelRow) cell { return optionalWhole(r.p.DeadOnArrival) }},
	{field{name: "days_least", kind: "integer", unit: "days", says: "the fewest days on the way that the dates allow"}, func(r parcelRow) cell { return optionalWhole(r.p.DaysLeast) }},
	{field{name: "days_most", kind: "integer", unit: "days", says: "the most days"}, func(r parcelRow) cell { return optionalWhole(r.p.DaysMost) }},
	{field{name: "box", kind: "number", unit: "°C", says: "measured on opening"}, func(r parcelRow) cell { return optional(r.p.Box) }},
	{field{name: "parcel", kind: "string", says: "where nobody measured: cold, warm or late", words: []string{"cold", "warm", "late"}}, func(r parcelRow) cell { return optionalText(r.p.Parcel) }},
	{field{name: "claim_until", kind: "string", says: "the end of the exporter's window for claims"}, func(r parcelRow) cell { return optionalText(r.p.ClaimUntil) }},
	{field{name: "claimable", kind: "integer", unit: "plants", required: true, says: "short, dead on arrival, found lost while claims were open, or refunded"}, func(r parcelRow) cell { return whole(r.p.Claimable) }},
	{field{name: "refunded", kind: "integer", unit: "plants", required: true, says: "those of them that money came back for"}, func(r parcelRow) cell { return whole(r.p.Refunded) }},
	{field{name: "refunds", kind: "number", says: "all money that came back"}, func(r parcelRow) cell { return amountCell(r.p.Refunds) }},
	{field{name: "currency", kind: "string", says: "its currency"}, func(r parcelRow) cell { return text(r.currency) }},
}

func optionalText(s *string) cell {
	if s == nil {
		return missing
	}
	return text(*s)
}

// ExportersCSV writes a row a parcel.
func ExportersCSV(records []cohort.Record, currency string) []byte {
	var rows []parcelRow
	for _, r := range records {
		for _, p := range r.Parcels {
			rows = append(rows, parcelRow{r.Exporter, currency, parcelOf(p)})
		}
	}
	return fillTable("exporters", "A row is a parcel.", parcelColumns, rows).data
}
