package ledger

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/patience"
)

// The lines are invented, in the ways in which people write such lists.
func TestOrderLines(t *testing.T) {
	for line, want := range map[string]string{
		"2x Hoya callistophylla M 45 USD":          "2|Hoya callistophylla||medium|M|45.00 USD|",
		"Hoya callistophylla, 45 USD, 2x, medium":  "2|Hoya callistophylla||medium||45.00 USD|",
		"- $45 hoya Callistophylla x2":             "2|Hoya callistophylla|hoya Callistophylla|||45.00 USD|",
		"3) Macodes petola seedling €12,50":        "1|Macodes petola||seedling||12.50 EUR|",
		"Begonia 'Fog Lamp' L free":                "1|Begonia 'Fog Lamp'||large|L|0.00 NOK|",
		"Begonia 'Size M' 30.00":                   "1|Begonia 'Size M'||||30.00 NOK|",
		"Hoya cf callistophylla M/L USD 60":        "1|Hoya cf. callistophylla|Hoya cf callistophylla||M/L|60.00 USD|",
		"Anoectochilus sp. 10-15cm 3 plants 18.00": "3|Anoectochilus sp.|||10-15cm|18.00 NOK|",
		"Begonia x tuberhybrida 4x 9 each":         "4|Begonia × tuberhybrida|Begonia x tuberhybrida|||9.00 NOK|",
		"2 x Davallia repens 140.00":               "2|Davallia repens||||140.00 NOK|",
		"Davallia repens 14":                       "1|Davallia repens|||||is 14 a count or a price? write 14x, or 14.00",
		"2x 3x Davallia repens 5.00":               "2|Davallia repens||||5.00 NOK|two counts",
		"45 USD":                                   "1|||||45.00 USD|no name",
		"Hoya 20.00":                               "1|Hoya||||20.00 NOK|a name of one word: which species, or sp.?",
		"Hoya obovata 10.00 12 USD":                "1|Hoya obovata||||10.00 NOK|two prices",
		"1;Ludisia discolor;large;free":            "1|Ludisia discolor||large||0.00 NOK|",
		"Hoya mini 12.00":                          "1|Hoya mini||||12.00 NOK|",
	} {
		lines := Order("# a comment\n\n"+line+"\n", "NOK")
		require.Len(t, lines, 1, line)
		o := lines[0]
		price := ""
		if o.Price != nil {
			price = o.Price.String()
		}
		got := strings.Join([]string{string(rune('0' + o.Count)), o.Name, o.Received, o.Size, o.SizeSold, price, o.Trouble}, "|")
		assert.Equal(t, want, got, line)
		assert.Equal(t, 3, o.Number)
	}
}

func FuzzOrder(f *testing.F) {
	for _, seed := range []string{"2x Hoya siariae M 45 USD", "- $45 x x2 'a", "\xff\xfe", "1) 2) 3)", strings.Repeat("x2 ", 1000)} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 64<<10 {
			return
		}
		began := time.Now()
		for _, o := range Order(text, "NOK") {
			if o.Count < 1 || o.Count > 999 {
				t.Fatalf("count %d", o.Count)
			}
			if o.Trouble == "" && o.Name == "" {
				t.Fatalf("understood without a name: %q", o.Written)
			}
		}
		if took := time.Since(began); took > patience.For(0) {
			t.Fatalf("%v for %d bytes", took, len(text))
		}
	})
}

func TestOrderTables(t *testing.T) {
	for name, table := range map[string]string{
		"semicolons": "Qty;Species;Size;Price;Currency\n2;Hoya callistophylla;M;45;USD\n;;;;\n1;Ludisia discolor;;free;\n",
		"commas":     "species,price,qty,size,currency\n\"Hoya callistophylla\",45.00,2,M,USD\nLudisia discolor,free,1,,\n",
		"tabs":       "name\tsize\tcount\tprice\tcurrency\r\nHoya callistophylla\tM\t2\t45\tUSD\r\nLudisia discolor\t\t1\tfree\t\r\n",
	} {
		lines := OrderTable("\ufeff"+table, "NOK")
		require.Len(t, lines, 2, name)
		assert.Equal(t, []any{2, "Hoya callistophylla", "medium", "45.00 USD", ""},
			[]any{lines[0].Count, lines[0].Name, lines[0].Size, lines[0].Price.String(), lines[0].Trouble}, name)
		assert.Equal(t, []any{1, "Ludisia discolor", "", "0.00 NOK", ""},
			[]any{lines[1].Count, lines[1].Name, lines[1].Size, lines[1].Price.String(), lines[1].Trouble}, name)
	}
	assert.Len(t, OrderTable("2x Hoya siariae 10 USD\nMacodes petola, free\n", "NOK"), 2, "plain lines")
}
