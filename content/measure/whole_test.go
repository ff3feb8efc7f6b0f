package measure

import (
	"testing"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseWhole(t *testing.T) {
	for text, want := range map[string]Figure[int]{"3": {3, false}, "0": {0, false}, "~40": {40, true}, "100000": {100000, false}} {
		got, trouble := ParseCount(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, want, got, text)
	}
	for text, want := range map[string]int{"0": 0, " 5 ": 5} {
		got, trouble := ParseGrade(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, want, got, text)
	}
	for text, want := range map[string]int{"3 days": 3, "1 day": 1, "3": 3, "3days": 3, "2 weeks": 14, "0 days": 0, "36500": 36500} {
		got, trouble := ParseDays(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, want, got, text)
	}
	for text, want := range map[string]bool{"yes": true, "no": false, "true": true, "False": false, " YES ": true} {
		got, trouble := ParseYesNo(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, want, got, text)
	}
}

func TestParseMoney(t *testing.T) {
	for text, want := range map[string]string{
		"45": "45.00 NOK", "45.00": "45.00 NOK", "45.00 EUR": "45.00 EUR", "45.00EUR": "45.00 EUR",
		"-10.30 USD": "-10.30 USD", "0": "0.00 NOK", "1000000000": "1000000000.00 NOK", "1.234 KWD": "1.234 KWD",
		"7 ZAR": "7.00 ZAR", "7 AZN": "7.00 AZN",
	} {
		got, trouble := ParseMoney(text, "NOK")
		require.Nil(t, trouble, text)
		assert.Equal(t, want, got.String(), text)
	}
	got, trouble := ParseMoney("45", "")
	require.Nil(t, trouble)
	assert.Equal(t, "45.00", got.String(), "no currency is told by the caller")
}

func TestParseDecimal(t *testing.T) {
	for _, text := range []string{"10.52", "0.00066", "10000000", "0.000000000001"} {
		got, trouble := ParseDecimal(text)
		require.Nil(t, trouble, text)
		assert.True(t, got.Equal(decimal.MustParse(text)), text)
	}
	factor, trouble := ParseFactor("0.69")
	require.Nil(t, trouble)
	assert.Equal(t, 0.69, factor)
}
