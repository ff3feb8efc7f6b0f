package cost

import (
	"testing"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Prices 30, 45 and 25 with 62.50 to share are 162.50 landed; two of three alive
// make 81.25 each (computed by another program).
func TestLand(t *testing.T) {
	l := Land(Import{Plants: priced("30", "45", "25"), Shared: amounts("70", "3.50", "-11.00"), By: ByPrice})
	require.Len(t, l.Plants, 3)
	assert.Equal(t, []string{"48.75", "73.13", "40.62"}, []string{l.Plants[0].Landed.String(), l.Plants[1].Landed.String(), l.Plants[2].Landed.String()})
	assert.Equal(t, "100.00", l.Prices.String())
	assert.Equal(t, "62.50", l.Shared.String())
	assert.Equal(t, "162.50", l.Landed.String())
	assert.Equal(t, "162.50", l.Net.String())
	each := Each(l.Net, 2, 0, false)
	assert.Equal(t, Exactly, each.Answer)
	assert.Equal(t, "81.25", each.Low.String())
}

func TestLandWithRefundsAndGifts(t *testing.T) {
	plants := append(priced("20", "0"), Plant{ID: "c"})
	l := Land(Import{
		Plants: plants, Shared: amounts("12", "18"), By: ByCount, // 12 for a plant that never came
		Refunds: []Refund{{Amount: amount("12")}, {ID: "a", Amount: amount("5")}, {ID: "a", Amount: amount("2.50")}},
	})
	assert.Equal(t, "50.00", l.Landed.String())
	assert.Equal(t, "19.50", l.Refunds.String())
	assert.Equal(t, "30.50", l.Net.String())
	assert.Equal(t, 1, l.Unpriced)
	assert.False(t, l.FellBack)
	assert.Equal(t, "30.00", l.Plants[0].Landed.String())
	assert.Equal(t, "7.50", l.Plants[0].Refunded.String())
	assert.Equal(t, "10.00", l.Plants[1].Landed.String(), "a gift carries freight")
	assert.False(t, l.Plants[2].Priced)
}

func TestLandWithoutPlants(t *testing.T) {
	l := Land(Import{Shared: amounts("12"), By: ByPrice})
	assert.Empty(t, l.Plants)
	assert.Equal(t, "12.00", l.Net.String(), "the totals stand")
	assert.False(t, l.FellBack)
	assert.Equal(t, "0.00", Land(Import{}).Net.String())
}

func TestLandWarnsWhereAllAreGifts(t *testing.T) {
	l := Land(Import{Plants: priced("0", "0"), Shared: amounts("10"), By: ByPrice})
	assert.True(t, l.FellBack)
	assert.Equal(t, "5.00", l.Plants[0].Share.String())
}

// The plants' landed costs add up to the import's, whatever it holds.
func TestLandedAddsUp(t *testing.T) {
	for _, by := range []Key{ByCount, ByPrice} {
		l := Land(Import{Plants: priced("19.99", "0", "7.01", "133.33", "0.01"), Shared: amounts("120.07", "-3.33", "0.01"), By: by})
		sum := decimal.MustNew(0, 2)
		for _, p := range l.Plants {
			sum, _ = sum.Add(p.Landed)
		}
		assert.Equal(t, l.Landed.String(), sum.String())
	}
}

// 487.50 over 5 alive and one unknown: 81.25 if it lives, 97.50 if not, worked by
// hand.
func TestEach(t *testing.T) {
	for _, c := range []struct {
		name           string
		net            string
		alive, unknown int
		notYet         bool
		want           Answer
		low, high      string
	}{
		{"a range", "487.50", 5, 1, false, Between, "81.25", "97.50"},
		{"all known", "162.50", 2, 0, false, Exactly, "81.25", "81.25"},
		{"one alive", "162.50", 1, 0, false, Exactly, "162.50", "162.50"},
		{"one unknown", "162.50", 0, 1, false, FromOn, "162.50", "0"},
		{"none survived", "162.50", 0, 0, false, NoneSurvived, "0", "0"},
		{"none known alive", "162.50", 0, 2, false, FromOn, "81.25", "0"},
		{"not yet", "162.50", 2, 0, true, NotYet, "0", "0"},
		{"half a cent, to the even one below", "0.05", 2, 0, false, Exactly, "0.02", "0.02"},
		{"half a cent, to the even one above", "0.07", 2, 0, false, Exactly, "0.04", "0.04"},
		{"thirds", "100", 3, 0, false, Exactly, "33.33", "33.33"},
		{"more came back than was paid", "-10", 1, 1, false, Between, "-10.00", "-5.00"},
		{"all came back", "0", 3, 0, false, Exactly, "0.00", "0.00"},
	} {
		got := Each(amount(c.net), c.alive, c.unknown, c.notYet)
		assert.Equal(t, c.want, got.Answer, c.name)
		assert.Equal(t, c.low, got.Low.String(), c.name)
		assert.Equal(t, c.high, got.High.String(), c.name)
	}
}
