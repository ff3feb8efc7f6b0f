package cost

import (
	"fmt"
	"math/big"

	"github.com/govalues/decimal"

	"wardian/content/measure"
)

// Largest is the largest amount, included, whatever its sign, in the diary's
// currency. What Convert gives keeps to it; sums of a million such amounts do
// not overflow.
const Largest = 10_000_000_000

// Rates say what one unit of another currency cost in the diary's.
type Rates map[string]decimal.Decimal

// Problem says why an amount could not be converted.
type Problem int

// Why an amount could not be converted.
const (
	Converted Problem = iota
	NoRate            // the import states no rate for the currency, or none above 0
	TooLarge          // more than Largest in the diary's currency
)

// Convert gives money in the diary's currency, rounded half to even to the cent,
// once. Money in no currency is taken to be in the diary's. The product is exact
// before it is rounded.
func Convert(m measure.Money, home string, rates Rates) (measure.Money, Problem) {
	rate := decimal.One
	if m.Currency != "" && m.Currency != home {
		var ok bool
		if rate, ok = rates[m.Currency]; !ok || !rate.IsPos() {
			return measure.Money{Currency: home}, NoRate
		}
	}
	product := new(big.Int).Mul(coefficient(m.Amount), coefficient(rate))
	cents := scaled(product, m.Amount.Scale()+rate.Scale())
	if cents.CmpAbs(big.NewInt(Largest*100)) > 0 {
		return measure.Money{Currency: home}, TooLarge
	}
	return measure.Money{Amount: inCents(cents.Int64()), Currency: home}, Converted
}

// coefficient is a decimal times ten to its scale, with its sign.
func coefficient(d decimal.Decimal) *big.Int {
	c := new(big.Int).SetUint64(d.Coef())
	if d.IsNeg() {
		c.Neg(c)
	}
	return c
}

// scaled turns a whole number of 10^−scale into hundredths, rounded half to even.
func scaled(v *big.Int, scale int) *big.Int {
	if scale <= 2 {
		return new(big.Int).Mul(v, power(2-scale))
	}
	return halfEven(v, power(scale-2))
}

func power(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }

// halfEven is v/by for by above 0, rounded to the nearest whole number, and to
// the even one where two are as near.
func halfEven(v, by *big.Int) *big.Int {
	q, r := new(big.Int).DivMod(v, by, new(big.Int)) // r is 0 or above
	switch twice := r.Lsh(r, 1); twice.Cmp(by) {
	case 1:
		q.Add(q, big.NewInt(1))
	case 0:
		if q.Bit(0) == 1 {
			q.Add(q, big.NewInt(1))
		}
	}
	return q
}

// centsOf takes an amount as cents, rounded half to even where a caller's amount
// is finer. It panics on an amount beyond Largest: amounts reach this package
// through Convert, which lets none through.
func centsOf(d decimal.Decimal) int64 {
	c := scaled(coefficient(d), d.Scale())
	if c.CmpAbs(big.NewInt(Largest*100)) > 0 {
		panic(fmt.Sprintf("cost: the amount %v is beyond the largest", d))
	}
	return c.Int64()
}

// inCents makes a decimal with two places of a number of cents.
func inCents(c int64) decimal.Decimal { return decimal.MustNew(c, 2) }
