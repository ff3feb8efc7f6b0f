package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand. Five small ones all lost, five medium ones all alive: of the 252 tables
// with these margins only this and its mirror are so unlikely, 2/252. Clopper and
// Pearson's limits of 0 of 5: 0 to 1 − 0.025^(1/5) = 0.5218; of 5 of 5 the mirror.
func TestExactFigures(t *testing.T) {
	c := kept(t, "import a 2026-03-09\n"+
		many("s", 5, "size: small", "0 firm; 5 lost rot")+many("m", 5, "size: medium", "0 firm; 42 firm; 84 firm"))
	r := c.Compare(c.All(), c.by(t, "size"), 42, 3)
	p, reason := r.Fisher()
	assert.Empty(t, reason)
	assert.InEpsilon(t, 2.0/252, p, 1e-9)
	low, ok := r.Groups[0].Exact()
	require.True(t, ok)
	assert.Zero(t, low.Lower)
	assert.InEpsilon(t, 0.5218237501049, low.Upper, 1e-9)
	high, ok := r.Groups[1].Exact()
	require.True(t, ok)
	assert.InEpsilon(t, 1-0.5218237501049, high.Lower, 1e-9)
	assert.Equal(t, 1.0, high.Upper)
}

func TestExactFiguresThatAreNot(t *testing.T) {
	five := func(name, keys, looks string) string { return many(name, 5, keys, looks) }
	for want, text := range map[string]string{
		"nobody was lost":                           five("s", "size: small", "0 firm; 84 firm") + five("m", "size: medium", "0 firm; 84 firm"),
		"nobody was alive":                          five("s", "size: small", "0 firm; 5 lost rot") + five("m", "size: medium", "0 firm; 7 lost rot") + "x-1 {name: Davallia repens}: 0 firm; 84 firm\n",
		"fewer than two groups of 5 lines or more":  five("s", "size: small", "0 firm; 84 firm"),
		"of some lines nothing is known on the day": five("s", "size: small", "0 firm; 84 firm") + five("m", "size: medium", "0 firm; 20 passed on") + "n-1 {size: medium}: 0 firm; 84 firm\n",
	} {
		c := kept(t, "import a 2026-03-09\n"+text)
		_, reason := c.Compare(c.All(), c.by(t, "size"), 42, 3).Fisher()
		assert.Equal(t, want, reason)
		_, reason = c.Compare(c.All(), c.by(t, "season"), 42, 3).Fisher()
		assert.Equal(t, "the word is a fact of the parcel, not of the plant", reason)
		_, reason = c.Compare(c.All(), c.by(t, "size"), 400, 3).Fisher()
		assert.NotEmpty(t, reason)
	}
}
