package cost

import (
	"math/big"
	"testing"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

func amount(text string) decimal.Decimal { return decimal.MustParse(text) }

func amounts(texts ...string) []decimal.Decimal {
	var all []decimal.Decimal
	for _, text := range texts {
		all = append(all, amount(text))
	}
	return all
}

func texts(all []decimal.Decimal) []string {
	var t []string
	for _, d := range all {
		t = append(t, d.String())
	}
	return t
}

// Products worked by hand. Half to even: 0.125 and 0.135 both lie half way
// between two cents and go to 0.12 and 0.14 (IEEE 754, roundTiesToEven).
func TestConvert(t *testing.T) {
	rates := Rates{"USD": amount("10.52"), "ISK": amount("0.0775"), "XXX": amount("0.5"), "KWD": amount("34.1"), "BAD": amount("0"), "BIG": amount("10000000")}
	for _, c := range []struct {
		amount, currency, want string
		problem                Problem
	}{
		{"120", "USD", "1262.40", Converted},
		{"-10.30", "USD", "-108.36", Converted}, // 108.356
		{"38", "NOK", "38.00", Converted},
		{"38", "", "38.00", Converted},
		{"0.25", "XXX", "0.12", Converted}, // 0.125
		{"0.27", "XXX", "0.14", Converted}, // 0.135
		{"-0.25", "XXX", "-0.12", Converted},
		{"-0.27", "XXX", "-0.14", Converted},
		{"4500", "ISK", "348.75", Converted},
		{"1.234", "KWD", "42.08", Converted}, // 42.0794
		{"0", "USD", "0.00", Converted},
		{"45", "EUR", "0", NoRate},
		{"45", "BAD", "0", NoRate},
		{"1000000000", "BIG", "0", TooLarge},
		{"-1000000000", "BIG", "0", TooLarge},
		{"1000", "BIG", "10000000000.00", Converted},
		{"10000000000.01", "NOK", "0", TooLarge},
		{"-10000000000.01", "NOK", "0", TooLarge},
	} {
		got, problem := Convert(measure.Money{Amount: amount(c.amount), Currency: c.currency}, "NOK", rates)
		assert.Equal(t, c.problem, problem, "%s %s", c.amount, c.currency)
		assert.Equal(t, c.want, got.Amount.String(), "%s %s", c.amount, c.currency)
		assert.Equal(t, "NOK", got.Currency)
	}
}

// The exact product is rounded once. 987654321.13 × 0.349089332177 is
// 344779587.38500000000001 (worked in whole numbers by another program): above
// the half, so up. Rounded to 19 digits first, as decimal arithmetic does, it
// would be the half itself and go down.
func TestConvertRoundsOnce(t *testing.T) {
	rate := amount("0.349089332177")
	got, problem := Convert(measure.Money{Amount: amount("987654321.13"), Currency: "USD"}, "NOK", Rates{"USD": rate})
	require.Equal(t, Converted, problem)
	assert.Equal(t, "344779587.39", got.Amount.String())
	twice, err := amount("987654321.13").Mul(rate)
	require.NoError(t, err)
	assert.Equal(t, "344779587.38", twice.Round(2).String(), "the case shows what it claims")
}

// Rounding is held against the library's own on amounts that it can hold in
// full.
func FuzzConvert(f *testing.F) {
	f.Add(int64(1030), int64(10520))
	f.Add(int64(-25), int64(500))
	f.Fuzz(func(t *testing.T, cents, rate int64) {
		cents %= 100_000_000
		if rate %= 10_000_000; rate <= 0 {
			t.Skip()
		}
		m := measure.Money{Amount: decimal.MustNew(cents, 2), Currency: "USD"}
		got, problem := Convert(m, "NOK", Rates{"USD": decimal.MustNew(rate, 3)})
		product, err := m.Amount.Mul(decimal.MustNew(rate, 3))
		require.NoError(t, err)
		require.Equal(t, Converted, problem)
		require.Zero(t, got.Amount.Cmp(product.Round(2)), "%v × %d/1000", m, rate)
		require.Equal(t, 2, got.Amount.Scale())
	})
}

func TestHalfEven(t *testing.T) {
	for _, c := range []struct{ v, by, want int64 }{
		{5, 2, 2}, {7, 2, 4}, {-5, 2, -2}, {-7, 2, -4}, {1, 3, 0}, {2, 3, 1}, {-1, 3, 0}, {-2, 3, -1}, {6, 3, 2}, {0, 7, 0}, {9, 1, 9},
	} {
		assert.Equal(t, c.want, halfEven(big.NewInt(c.v), big.NewInt(c.by)).Int64(), "%d/%d", c.v, c.by)
	}
}

func TestAmountsBeyondTheLargestPanic(t *testing.T) {
	assert.Panics(t, func() { Split(amount("10000000000.01"), []Plant{{ID: "a"}}, ByCount) })
	assert.NotPanics(t, func() {
		l := Land(Import{Plants: []Plant{{ID: "a"}}, Shared: amounts("10000000000", "10000000000")})
		assert.Equal(t, "20000000000.00", l.Landed.String(), "a sum may be larger than any amount")
	})
}
