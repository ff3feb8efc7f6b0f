package survival

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// renamed gives keys with underscores the names of Go fields.
func renamed(from json.RawMessage, pairs ...string) json.RawMessage {
	for i := range pairs {
		pairs[i] = `"` + pairs[i] + `"`
	}
	return json.RawMessage(strings.NewReplacer(pairs...).Replace(string(from)))
}

func TestNewcombeReference(t *testing.T) {
	eachRecord(t, "newcombe", 11, func(t *testing.T, r record) {
		p := decode[struct {
			X1, N1, X2, N2 int
			Conf           float64
		}](t, r.Params)
		want := decode[struct {
			Diff               float64
			Method10, Method11 Interval
		}](t, renamed(r.Expected, "method11_cc", "Method11"))
		near(t, want.Diff, float64(p.X1)/float64(p.N1)-float64(p.X2)/float64(p.N2), 1e-9, "difference")
		got, ok := Newcombe(p.X1, p.N1, p.X2, p.N2, p.Conf)
		assert.True(t, ok)
		near(t, want.Method10.Lower, got.Lower, 1e-9, "method 10 lower")
		near(t, want.Method10.Upper, got.Upper, 1e-9, "method 10 upper")
		got, ok = NewcombeCorrected(p.X1, p.N1, p.X2, p.N2, p.Conf)
		assert.True(t, ok)
		near(t, want.Method11.Lower, got.Lower, 1e-9, "method 11 lower")
		near(t, want.Method11.Upper, got.Upper, 1e-9, "method 11 upper")
	})
}

// TestNewcombePublished: 56/70 against 48/80 is the first worked example of
// Newcombe 1998, Stat Med 17:873-890, Table II (from memory): 0.0524 to 0.3339
// by method 10, 0.0428 to 0.3422 by method 11.
func TestNewcombePublished(t *testing.T) {
	i, _ := Newcombe(56, 70, 48, 80, 0.95)
	assert.InDelta(t, 0.0524, i.Lower, 0.00005)
	assert.InDelta(t, 0.3339, i.Upper, 0.00005)
	i, _ = NewcombeCorrected(56, 70, 48, 80, 0.95)
	assert.InDelta(t, 0.0428, i.Lower, 0.00005)
	assert.InDelta(t, 0.3422, i.Upper, 0.00005)
	_, ok := Newcombe(0, 0, 3, 10, 0.95)
	assert.False(t, ok, "of nobody nothing is known")
	assert.Panics(t, func() { Newcombe(5, 4, 1, 2, 0.95) })
}
