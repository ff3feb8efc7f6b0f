package chart

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func someBoxes() Boxes {
	return Boxes{Head: Head{ID: "bx", Title: "When losses may have come", Days: 28}, N: 15, Until: 20, Boxes: []Box{{-1, 2, 1. / 15}, {4, 13, 2.4 / 15}, {13, 16, 3. / 15}}}
}

// 100 % is drawn at 14 px, 0 % at 184: after 14 of 15 lines, 93 %, at 25.9.
func TestBoxesStandAtTheirShares(t *testing.T) {
	d := someBoxes().Draw()
	assert.Contains(t, string(d.HTML), `<path class="band" d="M0 25.9V14H2V25.9ZM4 53.1V25.9H13V53.1ZM13 87.1V53.1H16V87.1Z"/>`)
	assert.Contains(t, string(d.HTML), `M2 25.9H4M16 87.1H20"`, "level between them and after the last")
	assert.Equal(t, []string{"5", "13", "2.4 of 15", "77%"}, d.Tables[0].Rows[1])
}

// C10: drawn again from the table alone, it is the same.
func TestBoxesFromTheirTable(t *testing.T) {
	in := someBoxes()
	d := in.Draw()
	again := Boxes{Head: in.Head, N: in.N, Until: in.Until}
	k, level := cells{t, d.Tables[0]}, 1.0
	for i := range k.tab.Rows {
		after, err := strconv.ParseFloat(strings.TrimSuffix(k.get(i, "share alive after"), "%"), 64)
		require.NoError(t, err)
		again.Boxes = append(again.Boxes, Box{k.day(i, "first day") - 1, k.day(i, "last day"), level - after/100})
		level = after / 100
	}
	same(t, d.HTML, again.Draw().HTML, "boxes")
}

func TestOddBoxes(t *testing.T) {
	nan := math.NaN()
	for name, in := range map[string]Boxes{
		"none": {N: 3}, "nobody": {Boxes: []Box{{0, 9, .5}}}, "no number": {N: 3, Boxes: []Box{{0, 9, nan}}}, "more than all": {N: 3, Boxes: []Box{{0, 9, 1.5}}},
		"upside down": {N: 3, Boxes: []Box{{9, 0, .5}}}, "next to nothing": {N: 3, Boxes: []Box{{0, 9, 1e-9}}}, "before arrival": {N: 3, Boxes: []Box{{-9, -3, .5}}},
	} {
		assert.Contains(t, string(in.Draw().HTML), "Nothing measured yet.", name)
	}
	d := Boxes{N: 3, Boxes: []Box{{0, 9, 1. / 3}, {5, 12, 1. / 3}}}.Draw()
	assert.Equal(t, []string{"1 box left out: they can't be"}, d.Notes, "boxes never overlap")
	assert.Len(t, d.Tables[0].Rows, 1)
}
