package prose

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSentences(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", nil},
		{" \n ", nil},
		{"Firm.", []string{"Firm."}},
		{"Firm. Very.", []string{"Firm.", "Very."}},
		{"Two leaves of Hoya cf. lacunosa. One fell!\nCondensation on the lid", []string{"Two leaves of Hoya cf. lacunosa.", "One fell!", "Condensation on the lid"}},
		{"It stood at 24.5 degrees. “Too warm?” I opened the lid …", []string{"It stood at 24.5 degrees.", "“Too warm?”", "I opened the lid …"}},
	} {
		assert.Equal(t, c.want, Sentences(c.text), "%q", c.text)
	}
}

// No letter is lost, whatever the text.
func FuzzSentences(f *testing.F) {
	f.Add("Firm. Very.\nA b. C")
	f.Add("...\"... x")
	f.Fuzz(func(t *testing.T, text string) {
		got := strings.Join(strings.Fields(strings.Join(Sentences(text), " ")), " ")
		assert.Equal(t, strings.ReplaceAll(strings.Join(strings.Fields(text), " "), " ", ""), strings.ReplaceAll(got, " ", ""))
	})
}
