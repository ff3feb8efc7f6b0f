package ledger

import (
	"encoding/csv"
	"strings"

	"wardian/content/source"
)

// orderColumns are the heads under which people keep what they ordered, English
// and Norwegian (common practice, no source).
var orderColumns = map[string]string{
	"name": "name", "plant": "name", "species": "name", "taxon": "name", "navn": "name", "plante": "name", "art": "name",
	"count": "count", "qty": "count", "quantity": "count", "number": "count", "pcs": "count", "antall": "count",
	"price": "price", "unit price": "price", "price each": "price", "each": "price", "cost": "price", "pris": "price",
	"size": "size", "størrelse": "size", "currency": "currency", "valuta": "currency",
}

// OrderTable reads an order kept as a table, by the heads of its columns, or, where
// its first line has no head for the name, as plain lines (see Order). passed are
// the heads of columns of which nothing is read.
func OrderTable(text, home string) (lines []OrderLine, passed []string) {
	text = strings.TrimPrefix(text, "\ufeff")
	first, _, _ := strings.Cut(strings.TrimLeft(text, "\r\n"), "\n")
	for _, comma := range []rune{';', '\t', ','} {
		if t, ok := headsOf(first, comma); ok {
			return t.read(text, home), t.passed
		}
	}
	return Order(text, home), nil
}

// orderTable is where the columns of a table stand.
type orderTable struct {
	comma    rune
	at       map[string]int
	currency string // that the price's head names, such as in "price (USD)"
	passed   []string
}

func headsOf(first string, comma rune) (t orderTable, ok bool) {
	heads := source.Headings([]byte(strings.TrimRight(first, "\r")), comma)
	t = orderTable{comma: comma, at: map[string]int{}}
	for i, h := range heads {
		head := strings.Join(strings.Fields(strings.ToLower(strings.Trim(h, " :?"))), " ")
		what := orderColumns[head]
		if what == "" {
			words := strings.FieldsFunc(head, func(r rune) bool { return strings.ContainsRune(" ()[]/,", r) })
			if len(words) == 2 && orderColumns[words[0]] == "price" && currencyOf(words[1], "") != "" {
				what, t.currency = "price", words[1]
			}
		}
		if _, twice := t.at[what]; what != "" && !twice {
			t.at[what] = i
		} else if head != "" {
			t.passed = append(t.passed, strings.TrimSpace(h))
		}
	}
	_, ok = t.at["name"]
	return t, ok && len(heads) > 1
}

// read reads the rows below the heads.
func (t orderTable) read(text, home string) []OrderLine {
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = t.comma, -1, true
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
			if i, ok := t.at[what]; ok && i < len(record) {
				return strings.Join(strings.Fields(record[i]), " ")
			}
			return ""
		}
		// Each cell has its own meaning: a size's words are no part of a name.
		k := &taker{home: home}
		k.Number, _ = r.FieldPos(0)
		k.Written = strings.Join(record, string(t.comma))
		if k.tooLong(k.Written) {
			lines = append(lines, k.OrderLine)
			continue
		}
		k.cells(of("count"), of("price"), or(of("currency"), t.currency))
		name, open := wordsOf(of("name"))
		if open != "" {
			k.told("a quote that isn't closed: " + open)
		}
		k.words(name)
		if size := of("size"); size != "" {
			k.sizes = append(k.sizes, size)
		}
		k.finish()
		lines = append(lines, k.OrderLine)
	}
	return lines
}

// cells reads the cells of count, price and currency; an empty one says nothing.
func (t *taker) cells(count, price, currency string) {
	if count != "" {
		if digits := strings.Trim(strings.ToLower(count), "x× "); wholeWord.MatchString(digits) {
			t.count(number(digits))
		} else {
			t.told("a count that can't be read: " + count)
		}
	}
	if price == "" {
		return
	}
	words, _ := wordsOf(price)
	if a, ok := amountOf(strings.ReplaceAll(price, " ", "")); ok && currency != "" {
		if code := t.currency(strings.ToLower(currency)); code != "" {
			t.price(a, code)
		} else {
			t.told("a currency that isn't known: " + currency)
		}
	} else if ok {
		t.price(a, t.home)
	} else if n := t.takePrice(words); n == 0 || n < len(words) {
		t.told("a price that can't be read: " + price)
	}
}

func or(words, otherwise string) string {
	if words == "" {
		return otherwise
	}
	return words
}
