package survival

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestIntervalsReference(t *testing.T) {
	eachRecord(t, "binom_ci", 63, func(t *testing.T, r record) {
		p := decode[struct {
			X, N int
			Conf float64
		}](t, r.Params)
		want := decode[struct {
			Wilson, WilsonCC, ClopperPearson Interval
		}](t, renamed(r.Expected, "wilson_cc", "WilsonCC", "clopper_pearson", "ClopperPearson"))
		check := func(want, got Interval, relative float64, what string) {
			near(t, want.Lower, got.Lower, relative, "%s lower", what)
			near(t, want.Upper, got.Upper, relative, "%s upper", what)
		}
		check(want.Wilson, Wilson(p.X, p.N, p.Conf), 1e-9, "Wilson")
		check(want.WilsonCC, WilsonCorrected(p.X, p.N, p.Conf), 1e-9, "Wilson with correction")
		check(want.ClopperPearson, ClopperPearson(p.X, p.N, p.Conf), 1e-8, "Clopper-Pearson")
	})
}

// TestWilsonPublished checks against the cases of Newcombe 1998, Stat Med
// 17:857-872, Table I, method 3 (from memory), and two more that the usual
// calculators give, to the four digits printed.
func TestWilsonPublished(t *testing.T) {
	for _, c := range []struct {
		k, n         int
		lower, upper string
	}{
		{81, 263, "0.2553", "0.3662"},
		{15, 148, "0.0624", "0.1605"},
		{0, 20, "0.0000", "0.1611"},
		{1, 29, "0.0061", "0.1718"},
		{10, 14, "0.4535", "0.8828"},
		{430, 474, "0.8777", "0.9301"},
	} {
		i := Wilson(c.k, c.n, 0.95)
		assert.Equal(t, []string{c.lower, c.upper}, []string{fmt.Sprintf("%.4f", i.Lower), fmt.Sprintf("%.4f", i.Upper)}, "%d of %d", c.k, c.n)
	}
}

func TestIntervalsAtTheEnds(t *testing.T) {
	for name, f := range map[string]func(int, int, float64) Interval{"Wilson": Wilson, "corrected": WilsonCorrected, "exact": ClopperPearson} {
		assert.Equal(t, Interval{0, 1}, f(0, 0, 0.95), name)
		for n := 1; n < 200; n++ {
			for k := 0; k <= n; k++ {
				i := f(k, n, 0.95)
				p := float64(k) / float64(n)
				if !(0 <= i.Lower && i.Lower <= p && p <= i.Upper && i.Upper <= 1) {
					assert.Fail(t, name, "%d of %d: %v", k, n, i)
				}
			}
			assert.Equal(t, 0.0, f(0, n, 0.95).Lower)
			assert.Equal(t, 1.0, f(n, n, 0.95).Upper)
		}
		assert.Panics(t, func() { f(3, 2, 0.95) })
		assert.Panics(t, func() { f(-1, 2, 0.95) })
		assert.Panics(t, func() { f(1, 2, 1) })
	}
}
