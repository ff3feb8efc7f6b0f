package ledger

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
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

		// money
		"hoya callistophylla 45 usd x 2":      "2|Hoya callistophylla|hoya callistophylla|||45.00 USD|",
		"Begonia 'Fog Lamp', M/L, 2x, US$ 30": "2|Begonia 'Fog Lamp'|||M/L|30.00 USD|",
		"Begonia 'Fog Lamp',M/L,2x,30 USD":    "2|Begonia 'Fog Lamp'|||M/L|30.00 USD|",
		"Begonia amphioxus US$30 2pcs":        "2|Begonia amphioxus||||30.00 USD|",
		"Ludisia discolor kr 120":             "1|Ludisia discolor||||120.00 NOK|",
		"Ludisia discolor 120,-":              "1|Ludisia discolor||||120.00 NOK|",
		"Ludisia discolor 120 kr":             "1|Ludisia discolor||||120.00 NOK|",
		"Hoya bella 30eur":                    "1|Hoya bella||||30.00 EUR|",
		"Hoya bella 30 euros each":            "1|Hoya bella||||30.00 EUR|",
		"Hoya bella NT$300":                   "1|Hoya bella||||300.00 TWD|",
		"Hoya bella 1,250 TWD":                "1|Hoya bella||||1250.00 TWD|",
		"Hoya bella 1.250,50 €":               "1|Hoya bella||||1250.50 EUR|",
		"Goodyera hispida 1,250.00 NOK":       "1|Goodyera hispida||||1250.00 NOK|",
		"Hoya lacunosa 30 USD/ea":             "1|Hoya lacunosa||||30.00 USD|",
		"Hoya lacunosa 30/ea USD 2 pcs":       "2|Hoya lacunosa||||30.00 USD|",
		"2 $ 12.50 Hoya lacunosa":             "2|Hoya lacunosa||||12.50 USD|",
		"Hoya bella 2 x 15 USD":               "2|Hoya bella||||15.00 USD|",
		"Hoya bella 2x15 USD":                 "2|Hoya bella||||15.00 USD|",
		"Hoya bella x 15 USD":                 "1|Hoya bella||||15.00 USD|",
		"Goodyera hispida 1 250 NOK":          "1|Goodyera hispida|||||1 250: one number, or two? write 1250, or 1x",
		"2 Hoya lacunosa 30 USD for both":     "2|Hoya lacunosa||||30.00 USD|is the price that of one plant or of all? write that of one",
		"Hoya lacunosa 30 USD for 2":          "2|Hoya lacunosa||||30.00 USD|is the price that of one plant or of all? write that of one",
		"Hoya bella 30 XYZ":                   "1|Hoya bella XYZ|||||is 30 a count or a price? write 30x, or 30.00",
		"Hoya bella 30XYZ":                    "1|Hoya bella 30XYZ|||||what is 30XYZ?",

		// free plants
		"Macodes petola, free gift": "1|Macodes petola||||0.00 NOK|",
		"Macodes petola (free)":     "1|Macodes petola||||0.00 NOK|",
		"Macodes petola FREE 3x":    "3|Macodes petola||||0.00 NOK|",
		"Macodes petola 0":          "1|Macodes petola||||0.00 NOK|",
		"Macodes petola 0 USD":      "1|Macodes petola||||0.00 USD|",

		// sizes
		"Hoya lacunosa 4\" pot 15 USD":          "1|Hoya lacunosa|||4\" pot|15.00 USD|",
		"Hoya lacunosa 10 cm 15 USD":            "1|Hoya lacunosa|||10 cm|15.00 USD|",
		"Hoya lacunosa 2.5in 15 USD":            "1|Hoya lacunosa|||2.5in|15.00 USD|",
		"Hoya lacunosa 3 leaves 15 USD":         "1|Hoya lacunosa|||3 leaves|15.00 USD|",
		"Hoya lacunosa, rooted cutting, 30 USD": "1|Hoya lacunosa|||rooted cutting|30.00 USD|",
		"small Hoya bella 9.00":                 "1|Hoya bella||small||9.00 NOK|",
		"Hoya bella small leaf 9.00":            "1|Hoya bella small leaf||||9.00 NOK|",
		"Hoya bella size M 9.00":                "1|Hoya bella||medium|M|9.00 NOK|",
		"Hoya bella (M) 9.00":                   "1|Hoya bella||medium|M|9.00 NOK|",

		// counts
		"Hoya lacunosa qty 2 30 USD": "2|Hoya lacunosa||||30.00 USD|",
		"Hoya lacunosa - 2 - 30 USD": "2|Hoya lacunosa||||30.00 USD|",
		"two Hoya lacunosa 30 USD":   "2|Hoya lacunosa||||30.00 USD|",
		"2 Hoya lacunosa 30 USD":     "2|Hoya lacunosa||||30.00 USD|",
		"Hoya lacunosa (2x) 30 USD":  "2|Hoya lacunosa||||30.00 USD|",

		// names
		"Hoya \"Sunrise Lamp\" 20 USD":             "1|Hoya 'Sunrise Lamp'|Hoya \"Sunrise Lamp\"|||20.00 USD|",
		"Hoya ‘Fog's Lamp’ 20 USD":                 "1|Hoya 'Fog's Lamp'|Hoya ‘Fog's Lamp’|||20.00 USD|",
		"Hoya carnosa Snowdrift 20 USD":            "1|Hoya carnosa Snowdrift||||20.00 USD|",
		"HOYA BELLA 20 USD":                        "1|Hoya bella|HOYA BELLA|||20.00 USD|",
		"Hoya sp. aff. parviflora (Borneo) 20 USD": "1|Hoya sp. aff. parviflora (Borneo)||||20.00 USD|",
		"Hoya sp. BN-01 40 USD":                    "1|Hoya sp. BN-01||||40.00 USD|",
		"Hoya sp. IML 40 USD":                      "1|Hoya sp. IML||||40.00 USD|",
		"x Anoectomaria 'Ny' 30 USD":               "1|× Anoectomaria 'Ny'|x Anoectomaria 'Ny'|||30.00 USD|",
		"Begonia 'Fog Lamp 20 USD":                 "1|Begonia fog lamp|Begonia Fog Lamp|||20.00 USD|a quote that isn't closed: 'Fog Lamp 20 USD",
		"Hoya #3 20 USD":                           "1|Hoya #3||||20.00 USD|what is #3?",
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

// Any text ends in time; a line that is understood has a name, a count and, where
// it has a price, one that a diary reads.
func FuzzOrder(f *testing.F) {
	for _, seed := range []string{"2x Hoya siariae M 45 USD", "- $45 x x2 'a", "\xff\xfe", "1) 2) 3)", strings.Repeat("x2 ", 1000), "Hoya (2x (M) 1,250 TWD", "1 250 kr \"Fog 'Lamp\" 4\"",
		"Qty;Species;Price (USD)\n2;Hoya bella;1,250\n", strings.Repeat("('\"", 500), "0 0,- free x 3 leaves"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 64<<10 {
			return
		}
		began := time.Now()
		lines, _ := OrderTable(text, "NOK")
		took := time.Since(began)
		for _, o := range append(lines, Order(text, "NOK")...) {
			if o.Count < 1 || o.Count > 999 {
				t.Fatalf("count %d", o.Count)
			}
			if o.Trouble == "" && (o.Name == "" || o.Number < 1) {
				t.Fatalf("understood without a name: %q", o.Written)
			}
			if o.Trouble == "" && o.Price != nil {
				if again, trouble := measure.ParseMoney(o.Price.String(), "NOK"); trouble != nil || again.Amount.Cmp(o.Price.Amount) != 0 {
					t.Fatalf("%q costs %v", o.Written, o.Price)
				}
			}
		}
		if took > patience.For(len(text)) {
			t.Fatalf("%v for %d bytes", took, len(text))
		}
	})
}

// No line keeps its reader waiting, whatever stands in it.
func TestLongLinesAreTold(t *testing.T) {
	for _, s := range []string{"(", "'", "\"", "[(", "x ", "1 ", "(M) ", "a "} {
		text := strings.Repeat(s, 30000)
		began := time.Now()
		lines := Order(text, "NOK")
		require.Less(t, time.Since(began), patience.For(len(text)), s)
		require.Len(t, lines, 1)
		assert.Equal(t, "a line longer than a plant's can be", lines[0].Trouble)
		began = time.Now()
		Order(strings.Repeat(strings.Repeat(s, 500/len(s))+"\n", 60), "NOK")
		require.Less(t, time.Since(began), patience.For(30000), s)
	}
	lines, _ := OrderTable("name;price\n"+strings.Repeat("a ", 1000)+";5\nHoya bella;5\n", "NOK")
	require.Len(t, lines, 2)
	assert.NotEmpty(t, lines[0].Trouble)
	assert.Empty(t, lines[1].Trouble)
}

func TestOrderTables(t *testing.T) {
	for name, table := range map[string]string{
		"semicolons": "Qty;Species;Size;Price;Currency\n2;Hoya callistophylla;M;45;USD\n;;;;\n1;Ludisia discolor;;free;\n",
		"commas":     "species,price,qty,size,currency\n\"Hoya callistophylla\",45.00,2,M,USD\nLudisia discolor,free,1,,\n",
		"tabs":       "name\tsize\tcount\tprice\tcurrency\r\nHoya callistophylla\tM\t2\t45\tUSD\r\nLudisia discolor\t\t1\tfree\t\r\n",
	} {
		lines, passed := OrderTable("\ufeff"+table, "NOK")
		assert.Empty(t, passed)
		require.Len(t, lines, 2, name)
		assert.Equal(t, []any{2, "Hoya callistophylla", "medium", "45.00 USD", ""},
			[]any{lines[0].Count, lines[0].Name, lines[0].Size, lines[0].Price.String(), lines[0].Trouble}, name)
		assert.Equal(t, []any{1, "Ludisia discolor", "", "0.00 NOK", ""},
			[]any{lines[1].Count, lines[1].Name, lines[1].Size, lines[1].Price.String(), lines[1].Trouble}, name)
	}
	lines, _ := OrderTable("2x Hoya siariae 10 USD\nMacodes petola, free\n", "NOK")
	assert.Len(t, lines, 2, "plain lines")

	lines, passed := OrderTable("Plant,Shelf,Price (USD),Size\nHoya bella,north,\"1,250\",3 big leaves\nHoya siariae,,x,\n", "NOK")
	assert.Equal(t, []string{"Shelf"}, passed, "what nobody reads is told")
	assert.Equal(t, []any{"Hoya bella", "1250.00 USD", "large", "3 big leaves", ""}, []any{lines[0].Name, lines[0].Price.String(), lines[0].Size, lines[0].SizeSold, lines[0].Trouble})
	assert.Equal(t, "a price that can't be read: x", lines[1].Trouble)
}
