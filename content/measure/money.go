package measure

import "github.com/govalues/decimal"

// Money is an exact decimal amount in one currency (ISO 4217, three capital
// letters). The zero value is no money in no currency.
type Money struct {
	Amount   decimal.Decimal
	Currency string
}

// Zero says whether the amount is nought, whatever the currency.
func (m Money) Zero() bool { return m.Amount.IsZero() }

// String writes the amount with two decimals at least and the currency:
// "45.00 NOK".
func (m Money) String() string {
	a := m.Amount
	if a.Scale() < 2 {
		a = a.Pad(2)
	}
	if m.Currency == "" {
		return a.String()
	}
	return a.String() + " " + m.Currency
}
