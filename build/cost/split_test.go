package cost

import (
	"math/big"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// priced makes plants a, b, c … of prices.
func priced(prices ...string) []Plant {
	var plants []Plant
	for i, p := range prices {
		plants = append(plants, Plant{ID: string(rune('a' + i)), Price: amount(p), Priced: true})
	}
	return plants
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		name     string
		amount   string
		plants   []Plant
		by       Key
		want     []string
		fellBack bool
	}{
		// 62.50 over prices 30, 45, 25: 18.75, 28.125 and 15.625; the two half-cents
		// tie, and the smaller ID has the cent. Computed by another program, as is the
		// same by count and over weights 120, 200, 80.
		{"by price, two half-cents", "62.50", priced("30", "45", "25"), ByPrice, []string{"18.75", "28.13", "15.62"}, false},
		{"by count", "62.50", priced("30", "45", "25"), ByCount, []string{"20.84", "20.83", "20.83"}, false},
		{"over weights", "62.50", priced("120", "200", "80"), ByPrice, []string{"18.75", "31.25", "12.50"}, false},
		// The textbook case of the largest remainder (Hare quotas, ten seats over
		// 100 000 votes; from memory, remainders checked by hand): cents for seats.
		{"Hare", "0.10", priced("47000", "16000", "15900", "12000", "6000", "3100"), ByPrice, []string{"0.05", "0.02", "0.01", "0.01", "0.01", "0.00"}, false},
		{"a discount", "-10.00", priced("1", "1", "1"), ByCount, []string{"-3.34", "-3.33", "-3.33"}, false},
		{"a gift carries by count", "10.00", priced("0", "20"), ByCount, []string{"5.00", "5.00"}, false},
		{"a gift carries nothing by price", "10.00", priced("0", "20"), ByPrice, []string{"0.00", "10.00"}, false},
		{"only gifts", "10.00", priced("0", "0"), ByPrice, []string{"5.00", "5.00"}, true},
		{"all but one cent are gifts", "10.00", priced("0.01", "0"), ByPrice, []string{"10.00", "0.00"}, false},
		{"only unpriced", "10.00", []Plant{{ID: "a"}, {ID: "b"}}, ByPrice, []string{"5.00", "5.00"}, true},
		{"an unpriced one weighs nothing", "10.00", []Plant{{ID: "a", Price: amount("5")}, {ID: "b", Price: amount("5"), Priced: true}}, ByPrice, []string{"0.00", "10.00"}, false},
		{"one plant", "0.01", priced("3"), ByPrice, []string{"0.01"}, false},
		{"fewer cents than plants", "0.02", priced("1", "1", "1"), ByCount, []string{"0.01", "0.01", "0.00"}, false},
		{"nothing to share", "0", priced("1", "2"), ByPrice, []string{"0.00", "0.00"}, false},
		{"nobody to share", "5", nil, ByPrice, nil, false},
	} {
		parts, fellBack := Split(amount(c.amount), c.plants, c.by)
		assert.Equal(t, c.want, texts(parts), c.name)
		assert.Equal(t, c.fellBack, fellBack, c.name)
	}
}

// 100 units at 10 and 50 at 20, 1000 to share: per unit 6.67 each, by value 5
// and 10 (computed by another program; landed 16.67 and 26.67, or 15 and 30).
func TestSplitOverManyUnits(t *testing.T) {
	var plants []Plant
	for i := range 150 {
		price := "10"
		if i >= 100 {
			price = "20"
		}
		plants = append(plants, Plant{ID: strconv.Itoa(1000 + i), Price: amount(price), Priced: true})
	}
	parts, _ := Split(amount("1000"), plants, ByPrice)
	for i, p := range parts {
		want := "5.00"
		if i >= 100 {
			want = "10.00"
		}
		require.Equal(t, want, p.String())
	}
	parts, _ = Split(amount("1000"), plants, ByCount)
	many := 0
	for _, p := range parts {
		if p.String() == "6.67" {
			many++
		} else {
			require.Equal(t, "6.66", p.String())
		}
	}
	assert.Equal(t, 100, many, "150 × 6.66 leaves a hundred cents")
}

// Whatever is split: the parts add up to the whole, none is a cent or more from
// its exact share, and the order in which plants come changes nothing.
func FuzzSplit(f *testing.F) {
	f.Add(int64(6250), uint64(1), 3, true)
	f.Add(int64(-1000), uint64(2), 7, false)
	f.Fuzz(func(t *testing.T, cents int64, seed uint64, n int, byPrice bool) {
		cents %= Largest * 100
		if n < 1 || n > 60 {
			t.Skip()
		}
		rng := rand.New(rand.NewPCG(seed, 1))
		plants := make([]Plant, n)
		total := int64(0)
		for i := range plants {
			price := rng.Int64N(1 << rng.IntN(40)) // small and large ones together
			plants[i] = Plant{ID: "p" + strconv.Itoa(i), Price: decimal.MustNew(price, 2), Priced: true}
			total += price
		}
		by := ByCount
		if byPrice {
			by = ByPrice
		}
		parts, fellBack := Split(decimal.MustNew(cents, 2), plants, by)
		require.Equal(t, byPrice && total == 0, fellBack)
		sum := int64(0)
		ofID := map[string]string{}
		for i, p := range parts {
			c := centsOf(p)
			sum += c
			ofID[plants[i].ID] = p.String()
			weight, whole := centsOf(plants[i].Price), total
			if by == ByCount || fellBack {
				weight, whole = 1, int64(n)
			}
			// |c·whole − cents·weight| < whole
			off := new(big.Int).Sub(
				new(big.Int).Mul(big.NewInt(c), big.NewInt(whole)),
				new(big.Int).Mul(big.NewInt(cents), big.NewInt(weight)))
			require.Negative(t, off.CmpAbs(big.NewInt(whole)), "%d of %d over %d/%d", c, cents, weight, whole)
		}
		require.Equal(t, cents, sum, "to the last cent")
		rng.Shuffle(n, func(i, j int) { plants[i], plants[j] = plants[j], plants[i] })
		again, _ := Split(decimal.MustNew(cents, 2), plants, by)
		for i, p := range again {
			require.Equal(t, ofID[plants[i].ID], p.String(), "another order")
		}
	})
}
