package content

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
	"wardian/content/measure"
	"wardian/content/patience"
	"wardian/content/source"
)

var inKroner = Settings{Currency: "NOK"}

func readOrder(text string, s Settings) (*Order, []source.Finding) {
	report := &source.Report{}
	o := ReadOrder(source.New("order.yaml", []byte(text)), &s, report)
	return o, report.Findings()
}

func TestAnOrderIsRead(t *testing.T) {
	o, found := readOrder("\ufeffexporter:  exporter  B\r\nlines:\r\n"+
		"  - {name: Hoya   callistophylla, size: small, count: 2, price: 45 USD}\r\n"+
		"  - name: Begonia 'Fog Lamp'\r\n    price: 0\r\n"+
		"  - {name: Macodes petola, count: 3}\r\n"+
		"costs: {freight: 120 USD, discount: -10.30, shared-by: count}\r\nrates: {USD: 10.52}\r\nprivate: {whom: me}\r\n", inKroner)
	require.Empty(t, found)
	assert.Equal(t, "exporter B", o.Exporter)
	assert.Equal(t, 6, o.Plants())
	require.Len(t, o.Lines, 3)
	assert.Equal(t, []any{"Hoya callistophylla", "small", 2, "45.00 USD"}, []any{o.Lines[0].Name, o.Lines[0].Size, o.Lines[0].Count, o.Lines[0].Price.String()})
	assert.Equal(t, []any{"Begonia 'Fog Lamp'", "", 1, "0.00 NOK"}, []any{o.Lines[1].Name, o.Lines[1].Size, o.Lines[1].Count, o.Lines[1].Price.String()})
	assert.Nil(t, o.Lines[2].Price, "a price that nobody wrote isn't 0")
	require.Len(t, o.Costs, 2, "how costs are shared is no cost")
	assert.Equal(t, "-10.30 NOK", o.Costs[1].Amount.String())
	require.Len(t, o.Rates, 1)
	assert.Equal(t, "10.52", o.Rates[0].PerOne.String())
}

// What is wrong is told with its place and the mend, all of it at once.
func TestABrokenOrderIsTold(t *testing.T) {
	for name, c := range map[string]struct {
		text     string
		currency string
		want     []string
	}{
		"empty":      {"", "NOK", []string{`1:1 missing-key the key "lines" is missing; write lines: [{name: Hoya callistophylla, size: small, count: 2, price: 45 USD}]`}},
		"no lines":   {"lines: []\n", "NOK", []string{"1:8 missing-key an order of nothing; write lines: [{name: Hoya callistophylla, size: small, count: 2, price: 45 USD}]"}},
		"a map":      {"lines: {name: Hoya obovata}\n", "NOK", []string{"1:8 wrong-kind a map stands where a list should; write it like [{name: Hoya callistophylla, size: small, count: 2, price: 45 USD}]"}},
		"empty line": {"lines:\n  - {name: Hoya obovata}\n  -\n", "NOK", []string{"1:1 missing-key line 2 of the order is empty; write it, or leave it out"}},
		"plain words": {"lines:\n  - 2x Hoya callistophylla M 45 USD\n", "NOK", []string{
			"2:5 wrong-kind words stand where a map should; write it like {name: Hoya callistophylla, size: medium, count: 2, price: 45.00 USD}"}},
		"words that aren't understood": {"lines:\n  - some hoyas\n  - [Hoya obovata]\n", "NOK", []string{
			"2:5 wrong-kind words stand where a map should; write it like {name: Some hoyas, count: 1}",
			"3:5 wrong-kind a list stands where a map should; write it like {name: Hoya callistophylla, size: small, count: 2, price: 45 USD}"}},
		"keys": {"lines:\n  - {name: Hoya obovata, cuont: 2, size: tiny, count: 0, price: -4}\n  - {count: 2}\nexportr: B\n", "NOK", []string{
			`2:26 unknown-key there is no key "cuont" in lines; nearest: count`,
			`2:42 unknown-word "tiny" isn't one of the words that can stand here; write seedling, small, medium or large`,
			"2:55 not-a-number a line of no plants; leave the line out",
			"2:65 not-an-amount a price below nought; write a discount under costs",
			`3:5 missing-key the key "lines.name" is missing; write name: Hoya callistophylla`,
			`4:1 unknown-key there is no key "exportr" in an order; nearest: exporter`}},
		"rates": {"lines:\n  - {name: Hoya obovata, price: 4 USD}\ncosts: {freight: 9 EUR}\nrates: {EUR: 11, USN: 10}\n", "NOK", []string{
			"2:33 no-rate the order has no rate for USD; nearest: USN"}},
		"another rate": {"lines: [{name: Hoya obovata}]\ncosts: {freight: 9 EUR}\n", "NOK", []string{"2:18 no-rate the order has no rate for EUR; write rates: {EUR: what one costs}"}},
		"no currency":  {"lines: [{name: Hoya obovata, price: 4}, {name: Hoya kerrii, price: 5}]\n", "", []string{"1:37 no-currency an amount without a currency, in a diary that names none; write currency: NOK in diary.yaml, or the three letters of another"}},
		"no home":      {"lines: [{name: Hoya obovata, price: 4 USD}]\ncosts: {freight: 9 USD}\n", "", []string{"2:18 no-currency an amount, and a diary that names no currency; write currency: USD in diary.yaml"}},
		"not YAML":     {"lines:\n  - {name: Hoya obovata, count 2}\n", "NOK", nil},
	} {
		_, found := readOrder(c.text, Settings{Currency: c.currency})
		var got []string
		for _, f := range found {
			assert.Equal(t, "order.yaml", f.File)
			assert.Equal(t, source.Error, f.Severity)
			got = append(got, fmt.Sprintf("%d:%d %s %s; %s", f.Span.Start.Line, f.Span.Start.Column, f.Code, f.Message, f.Hint))
		}
		if c.want == nil {
			assert.NotEmpty(t, got, name)
			continue
		}
		assert.Equal(t, c.want, got, name)
	}
}

func FuzzReadOrder(f *testing.F) {
	f.Add(format.Order.Example().Text)
	for _, seed := range []string{"", "lines: []", "lines: [x, {name: y, count: -1}, [z]]", "lines: &a [*a]", "lines:\n- 2x x M 45 USD", "---\nlines: [{name: x, price: 1e9}]\n---\n", "costs: {shared-by: {}}\nrates: [USD]\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 64<<10 {
			return
		}
		began := time.Now()
		o, found := readOrder(text, inKroner)
		if took := time.Since(began); took > patience.For(0) {
			t.Fatalf("%v for %d bytes", took, len(text))
		}
		for _, finding := range found {
			if !format.Explained(finding.Code) || finding.Message == "" || finding.Span.Start.Line < 1 {
				t.Fatalf("%+v", finding)
			}
		}
		if len(found) > 0 {
			return
		}
		if o.Plants() < 1 {
			t.Fatalf("an order of nothing, without a finding: %q", text)
		}
		for _, l := range o.Lines {
			if l.Name == "" || l.Count < 1 || l.Count > measure.MostCount || l.Price != nil && l.Price.Amount.IsNeg() {
				t.Fatalf("%+v", l)
			}
		}
	})
}
