package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPInWords(t *testing.T) {
	for _, c := range []struct {
		p              float64
		words, figures string
	}{
		{1, "all", "1.00"},
		{0.97, "about 19 of 20", "0.97"},
		{0.51, "about 5 of 10", "0.51"},
		{0.2, "about 1 of 5", "0.20"},
		{0.05, "about 1 of 20", "0.050"},
		{0.0996, "about 1 of 10", "0.10"},
		{0.0994, "about 1 of 10", "0.099"},
		{0.00996, "about 1 of 100", "0.010"},
		{0.1, "about 1 of 10", "0.10"},
		{2.0 / 252, "about 1 of 130", "0.0079"},
		{1e-5, "about 1 of 100000", "0.000010"},
		{9.1e-5, "about 1 of 11000", "0.000091"},
	} {
		assert.Equal(t, c.words, OneOf(c.p), "%g", c.p)
		assert.Equal(t, c.figures, TwoFigures(c.p), "%g", c.p)
	}
}
