package measure

import (
	"strings"

	"github.com/govalues/decimal"
)

// LargestAmount is the largest amount of money, included, whatever the currency
// and the sign.
const LargestAmount = 1_000_000_000

// LargestRate is the largest rate, included.
const LargestRate = 10_000_000

// thousandths are the currencies that are counted in thousandths (ISO 4217,
// minor unit 3; from memory). All others take two decimals at most.
const thousandths = " BHD IQD JOD KWD LYD OMR TND "

// ParseMoney reads an amount of money: "45.00", "45.00 EUR", "-10.30 USD". A
// bare amount is in the currency given, which may be empty where the diary names
// none; then the money is in no currency, and it is for the caller to say so. The
// amount is exact, has two decimals at most (three in currencies counted in
// thousandths) and lies within a thousand million of nought.
func ParseMoney(text, currency string) (Money, *Trouble) {
	return mended(text, func(text string) (Money, *Trouble) {
		s := scan(text, "an amount such as 45.00 or 45.00 EUR")
		if trouble := s.noTilde("an amount of money"); trouble != nil {
			return Money{}, trouble
		}
		if trouble := s.currencyFirst(); trouble != nil {
			return Money{}, trouble
		}
		n, trouble := s.number()
		if trouble != nil {
			return Money{}, trouble
		}
		written, trouble := s.currency()
		if trouble == nil {
			trouble = s.rest()
		}
		if trouble != nil {
			return Money{}, trouble
		}
		if written != "" {
			currency = written
		}
		most := 2
		if strings.Contains(thousandths, " "+currency+" ") {
			most = 3
		}
		if n.decimals() > most {
			return Money{}, s.trouble(n.to-(n.decimals()-most), n.to, "more decimals than the currency has")
		}
		amount, err := decimal.Parse(n.text)
		if err != nil || amount.CmpAbs(decimal.MustNew(LargestAmount, 0)) > 0 {
			return Money{}, s.trouble(n.from, n.to, "an amount is within 1000000000 of nought")
		}
		return Money{Amount: amount, Currency: currency}, nil
	})
}

// signs are the signs of money that mean one currency only.
var signs = map[string]string{"€": "EUR", "£": "GBP", "₹": "INR", "฿": "THB", "₫": "VND", "₱": "PHP"}

// currency reads the three letters behind an amount, if there are any.
func (s *scanner) currency() (string, *Trouble) {
	behind := s.at
	word, from, to := s.word()
	if word == "" {
		s.at = behind
		return "", nil
	}
	if isCurrency(word) {
		return word, nil
	}
	t := s.trouble(from, to, s.quote(from, to)+" isn't a currency of three capital letters")
	if upper := strings.ToUpper(word); isCurrency(upper) {
		t.Hint = s.mend(from, to, upper)
	} else if code := signs[word]; code != "" {
		t.Hint = s.mend(behind, to, " "+code)
	}
	return "", t
}

// currencyFirst reports a currency in front of its amount.
func (s *scanner) currencyFirst() *Trouble {
	from := s.at
	for s.at < s.end && !strings.ContainsRune("0123456789-+.,− \t", s.chars[s.at]) {
		s.at++
	}
	word := string(s.chars[from:s.at])
	to := s.at
	s.space()
	number := s.at
	s.at = from
	code := signs[word]
	if upper := strings.ToUpper(word); isCurrency(upper) {
		code = upper
	}
	if code == "" && word != "$" && word != "¥" && word != "kr" || number == s.end {
		return nil
	}
	t := s.trouble(from, to, "the currency follows the amount")
	if code != "" {
		t.Hint = string(s.chars[number:s.end]) + " " + code
	}
	return t
}

// isCurrency says whether a word has the form of an ISO 4217 code.
func isCurrency(word string) bool {
	if len(word) != 3 {
		return false
	}
	for _, c := range word {
		if c < 'A' || c > 'Z' {
			return false
		}
	}
	return true
}

// ParseDecimal reads an exact decimal above 0, such as the rate at which money
// was changed: "10.52", "0.00066". It is at most 10000000 and has at most 12
// decimals.
func ParseDecimal(text string) (decimal.Decimal, *Trouble) {
	return mended(text, func(text string) (decimal.Decimal, *Trouble) {
		s := scan(text, "a number such as 10.52")
		if trouble := s.noTilde("a rate"); trouble != nil {
			return decimal.Decimal{}, trouble
		}
		n, trouble := s.number()
		if trouble == nil {
			trouble = s.rest()
		}
		if trouble != nil {
			return decimal.Decimal{}, trouble
		}
		if n.decimals() > 12 {
			return decimal.Decimal{}, s.trouble(n.from, n.to, "a number with more than 12 decimals")
		}
		d, err := decimal.Parse(n.text)
		if err != nil || !d.IsPos() || d.Cmp(decimal.MustNew(LargestRate, 0)) > 0 {
			return decimal.Decimal{}, s.trouble(n.from, n.to, "the number is above 0 and at most 10000000")
		}
		return d, nil
	})
}

// ParseFactor reads a leaf's shape factor, the area of the blade divided by
// length times width: 0.1 to 1.5. Published factors lie between 0.298 and 1.035
// for compound and between 0.39 and 0.79 for simple leaves (Koyama; Schrader et
// al. 2021, Annals of Botany 128:395-406; abstracts read).
func ParseFactor(text string) (float64, *Trouble) {
	f, trouble := figure[Share](text, factors)
	return float64(f.Value), trouble
}

var factors = quantity{
	name: "shape factor", want: "a shape factor such as 0.69",
	units: []unit{{nil, same}},
	least: 0.1, most: 1.5, bounds: "a shape factor is between 0.1 and 1.5",
}
