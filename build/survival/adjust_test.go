package survival

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAdjustReference(t *testing.T) {
	eachRecord(t, "adjust", 5, func(t *testing.T, r record) {
		p := decode[struct{ P []float64 }](t, r.Params).P
		want := decode[struct{ Holm, BH, Hochberg, Bonferroni, BY []float64 }](t, r.Expected)
		nearAll(t, want.Holm, Holm(p), 1e-9, "Holm")
		nearAll(t, want.BH, BenjaminiHochberg(p), 1e-9, "Benjamini and Hochberg")
		nearAll(t, want.Hochberg, Hochberg(p), 1e-9, "Hochberg")
		nearAll(t, want.Bonferroni, Bonferroni(p), 1e-9, "Bonferroni")
		nearAll(t, want.BY, BenjaminiYekutieli(p), 1e-9, "Benjamini and Yekutieli")
	})
}

func TestAdjustByHand(t *testing.T) {
	// 0.01·3, then 0.03·2, then 0.04·1 which may not fall below 0.06.
	got := Holm([]float64{0.04, 0.01, 0.03})
	assert.InDeltaSlice(t, []float64{0.06, 0.03, 0.06}, got, 1e-15)
	assert.Empty(t, Holm(nil))
	assert.Panics(t, func() { Holm([]float64{1.5}) })
	assert.Panics(t, func() { Bonferroni([]float64{-0.1}) })
}
