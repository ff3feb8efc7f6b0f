package ledger

import (
	"regexp"
	"slices"
	"strings"
)

// Money as sellers write it: 45 USD, $45, US$ 45, 45€, kr 45, 45,-, 1,250 TWD. A
// currency is known by its code (ISO 4217), by its sign, or by a country's letters
// before the dollar's.

var (
	knownCodes = strings.Fields("AUD BRL CAD CHF CNY COP CZK DKK EUR GBP HKD IDR INR ISK JPY KRW MXN MYR NOK NZD PEN PHP PLN SEK SGD THB TWD USD VND ZAR")
	signs      = map[string]string{"$": "USD", "us$": "USD", "a$": "AUD", "au$": "AUD", "c$": "CAD", "ca$": "CAD", "nt$": "TWD", "s$": "SGD", "hk$": "HKD", "nz$": "NZD", "r$": "BRL",
		"€": "EUR", "euro": "EUR", "euros": "EUR", "£": "GBP", "¥": "JPY", "฿": "THB", "₫": "VND", "₩": "KRW", "₹": "INR", "₱": "PHP", "rm": "MYR", "rp": "IDR"}
	crownCodes = []string{"NOK", "SEK", "DKK", "ISK"} // each is a krone: kr
	crownWords = []string{"kr", "kr.", ",-"}
)

// unknownCrowns stands for kr in a diary whose own money isn't crowns.
const unknownCrowns = "kr"

// currencyOf is the currency that a word in small letters names; "" where none.
func currencyOf(w, home string) string {
	w = perPlant.ReplaceAllString(w, "")
	switch code := strings.ToUpper(w); {
	case signs[w] != "":
		return signs[w]
	case slices.Contains(knownCodes, code):
		return code
	case slices.Contains(crownWords, w) && slices.Contains(crownCodes, home):
		return home
	case slices.Contains(crownWords, w):
		return unknownCrowns
	}
	return ""
}

// currency is currencyOf, which tells where kr could be several countries'.
func (t *taker) currency(w string) string {
	code := currencyOf(w, t.home)
	if code == unknownCrowns {
		t.told("kr of which country? write NOK, SEK or DKK")
	}
	return code
}

var (
	perPlant  = regexp.MustCompile(`/(?:ea|each|pc|pcs|plant|stk)\.?$`)
	amount    = regexp.MustCompile(`^-?\d{1,7}(?:[.,]\d{1,2})?$`)
	groups    = regexp.MustCompile(`^(\d{1,3}(?:,\d{3})+)(\.\d{1,2})?$|^(\d{1,3}(?:\.\d{3})+)(?:,(\d{1,2}))?$`)
	moneyWord = regexp.MustCompile(`^(-?\d[\d.,]*?)([^\d.,]+|,-|\.-|,–)$|^([^\d.,-]+\.?)(\d[\d.,]*)$`)
	three     = regexp.MustCompile(`^\d{3}(?:[.,]\d{1,2})?$`)
)

// amountOf reads an amount with a decimal comma or point, in thousands or not.
func amountOf(w string) (string, bool) {
	if m := groups.FindStringSubmatch(w); m != nil {
		whole := strings.NewReplacer(",", "", ".", "").Replace(m[1] + m[3])
		switch {
		case m[2] != "":
			whole += m[2]
		case m[4] != "":
			whole += "." + m[4]
		}
		return whole, true
	}
	return strings.ReplaceAll(w, ",", "."), amount.MatchString(w)
}

// priceAt tells how many words a price at the opening of words takes; 0 where
// there is none.
func (t *taker) priceAt(words []word) int {
	return (&taker{home: t.home}).takePrice(words)
}

// takePrice takes a price.
func (t *taker) takePrice(words []word) int {
	w, next := perPlant.ReplaceAllString(at(words, 0), ""), at(words, 1)
	if w == "" {
		return 0
	}
	if nobody.MatchString(w) {
		t.price("0", t.home)
		return 1
	}
	if m := moneyWord.FindStringSubmatch(w); m != nil { // glued
		sign := m[2] + m[3]
		if sign == ".-" || sign == ",–" {
			sign = ",-"
		}
		if currencyOf(sign, t.home) != "" {
			if a, ok := amountOf(m[1] + m[4]); ok {
				t.price(a, t.currency(sign))
				return 1
			}
		}
	}
	if currencyOf(w, t.home) != "" {
		if a, ok := amountOf(perPlant.ReplaceAllString(next, "")); ok {
			t.price(a, t.currency(w))
			return 2
		}
		return 0
	}
	a, ok := amountOf(w)
	if !ok {
		return 0
	}
	if wholeWord.MatchString(w) && three.MatchString(next) {
		t.told(w + " " + next + ": one number, or two? write " + w + next + ", or " + w + "x")
		if currencyOf(at(words, 2), t.home) != "" {
			return 3
		}
		return 2
	}
	switch {
	case currencyOf(next, t.home) != "":
		// In "2 € 12.50" the sign goes with the amount that has cents.
		if behind, ok := amountOf(at(words, 2)); ok && wholeWord.MatchString(w) && t.Count == 0 && len(t.bare) == 0 && !wholeWord.MatchString(at(words, 2)) {
			t.bare = append(t.bare, w)
			t.price(behind, t.currency(next))
			return 3
		}
		t.price(a, t.currency(next))
		return 2
	case wholeWord.MatchString(w):
		t.bare = append(t.bare, w)
		return 1
	}
	t.price(a, t.home)
	return 1
}
