package ledger

import (
	"encoding/csv"
	"strings"
)

// orderColumns are the heads under which people keep what they ordered.
var orderColumns = map[string]string{
	"name": "name", "plant": "name", "species": "name", "taxon": "name",
	"count": "count", "qty": "count", "quantity": "count", "number": "count", "pcs": "count",
	"price": "price", "unit price": "price", "each": "price", "cost": "price",
	"size": "size", "currency": "currency",
}

// OrderTable reads an order kept as a table, by the heads of its columns, or, where
// its first line has no head for the name, as plain lines (see Order).
func OrderTable(text, home string) []OrderLine {
	text = strings.TrimPrefix(text, "\ufeff")
	first, _, _ := strings.Cut(strings.TrimLeft(text, "\r\n"), "\n")
	for _, comma := range []rune{';', '\t', ','} {
		if lines, ok := orderTable(text, first, home, comma); ok {
			return lines
		}
	}
	return Order(text, home)
}

func orderTable(text, first, home string, comma rune) ([]OrderLine, bool) {
	heads := strings.Split(first, string(comma))
	at := map[string]int{}
	for i, h := range heads {
		if what := orderColumns[strings.ToLower(strings.Trim(h, " \"\r"))]; what != "" {
			if _, twice := at[what]; !twice {
				at[what] = i
			}
		}
	}
	if _, ok := at["name"]; !ok || len(heads) < 2 {
		return nil, false
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = comma, -1, true
	var lines []OrderLine
	for head := true; ; head = false {
		record, err := r.Read()
		if record == nil && err != nil {
			break // the end; with lazy quotes and any number of fields nothing else stops it
		}
		if head || strings.TrimSpace(strings.Join(record, "")) == "" {
			continue
		}
		of := func(what string) string {
			if i, ok := at[what]; ok && i < len(record) {
				return strings.TrimSpace(record[i])
			}
			return ""
		}
		number, _ := r.FieldPos(0)
		parts := []string{of("name"), of("size")}
		if n := of("count"); n != "" {
			parts = append([]string{n + "x"}, parts...)
		}
		if p := of("price"); p != "" {
			if wholeWord.MatchString(p) {
				p += ".00"
			}
			parts = append(parts, p+" "+of("currency"))
		}
		o := orderLine(number, strings.Join(parts, " "), home)
		o.Written = strings.Join(record, string(comma))
		lines = append(lines, o)
	}
	return lines, true
}
