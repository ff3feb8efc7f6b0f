package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Pieces are counted by where they were cut from: one lost, one alive, one passed
// on; a piece cut up again counts through its own pieces, and the plant as received
// is none.
func TestPiecesByPosition(t *testing.T) {
	c := kept(t, `import box 2026-03-09
		p-1: 0 firm; 10 {cut-into: {p-1: base, p-1a: top, p-1b: middle}}; 40 firm
		p-1a: 20 {cut-into: {p-1c: top, p-1d: base}}
		p-1b: 30 lost rot
		p-1c: 40 firm
		p-1d: 40 passed on
		p-2: 0 firm; 9 lost rot`)
	assert.Equal(t, []PieceCount{
		{Position: "top", Cut: 1, Saved: 1}, {Position: "middle", Cut: 1, Lost: 1}, {Position: "base", Cut: 1, Saved: 1},
	}, c.All().Pieces())
	assert.Empty(t, Scope{}.Pieces())
}

func TestCausesUpToADay(t *testing.T) {
	c := kept(t, `import box 2026-03-09
		p-1: 0 firm; 9 lost rot
		p-2: 0 firm; 42 lost cold
		p-3: 0 firm; 43 lost cold`)
	rows := c.All().CausesUpTo(42)
	assert.Len(t, rows, 2)
	for _, r := range rows {
		assert.Len(t, r.Lines, 1, r.Cause)
	}
	assert.Len(t, c.All().Causes()[0].Lines, 2)
}
