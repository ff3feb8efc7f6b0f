package cohort

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Worked by hand. Box a: prices 30, 30, 60, 60 and freight 40, 10 a plant: landed
// 40, 40, 70, 70. Back came 40 for a-1 and 10 for a plant that never came, which
// is parted by count: 2.50 each. Small: 80 less 45 is 35, one of two alive. Medium:
// 140 less 5 is 135, both alive: 67.50. Together 170, as the import: 220 less 50.
func TestWhatAGroupsSurvivorsCost(t *testing.T) {
	c := kept(t, "import a 2026-03-09 {costs: {freight: 40} | refunds: [{date: 2026-03-20, amount: 40, for: a-1}, {date: 2026-03-20, amount: 10, for: short}]}\n"+
		"a-1 {size: small | price: 30}: 0 firm; 5 lost rot\n"+
		"a-2 {size: small | price: 30}: 0 firm; 42 firm; 84 firm\n"+
		"a-3 {size: medium | price: 60}: 0 firm; 42 firm; 84 firm\n"+
		"a-4 {size: medium | price: 60}: 0 firm; 42 firm; 84 firm\n")
	costs := c.GroupCosts(c.Compare(c.All(), c.by(t, "size"), 42, 3))
	require.Len(t, costs, 2)
	small, medium := costs[0], costs[1]
	assert.Equal(t, []string{"80.00 NOK", "45.00 NOK", "35.00 NOK", "35.00 NOK"}, []string{small.Landed.String(), small.Refunds.String(), small.PerSurvivor.Low.String(), small.PerSurvivor.High.String()})
	assert.Equal(t, []string{"140.00 NOK", "5.00 NOK", "67.50 NOK", "67.50 NOK"}, []string{medium.Landed.String(), medium.Refunds.String(), medium.PerSurvivor.Low.String(), medium.PerSurvivor.High.String()})

	// By a word of the parcel the group is the import, and both definitions give
	// one figure: 170 over three alive, 56.67.
	whole := c.GroupCosts(c.Compare(c.All(), c.by(t, "season"), 42, 3))
	each, ok := c.EachSurvivor(c.Diary.Import("a"), 42)
	require.True(t, ok)
	assert.Equal(t, each, whole[0].PerSurvivor)
	assert.Equal(t, "56.67 NOK", each.Low.String())

	later := c.GroupCosts(c.Compare(c.All(), c.by(t, "size"), 100, 3))
	assert.True(t, later[0].PerSurvivor.NotYet)
}

func TestWhatAGroupsSurvivorsCostIsntAlwaysKnown(t *testing.T) {
	c := kept(t, "import a 2026-03-09 {costs: {freight: 40, shared-by: price}}\n"+
		"a-1 {size: small | price: 30}: 0 firm; 5 lost rot\n"+
		"a-2 {size: medium}: 0 firm; 42 firm; 84 firm\n"+
		"import b 2026-03-09 {costs: {freight: 40}}\n"+
		"b-1 {size: large | price: 20}: 0 firm; 5 lost rot\n"+
		"b-2 {size: seedling | price: 20}: 0 firm; 84 passed on\n"+
		"b-3 {size: seedling | price: 20}: 0 firm; 20 passed on\n")
	for _, g := range []struct {
		by, name, want string
	}{
		{"size", "small", ""}, {"size", "medium", ""}, {"size", "large", "none survived"}, {"size", "seedling", "33.33 to 66.66"},
	} {
		r := c.Compare(c.All(), c.by(t, g.by), 42, 3)
		for n, cost := range c.GroupCosts(r) {
			if r.Groups[n].Name != g.name {
				continue
			}
			got := cost.PerSurvivor.Low.Amount.String() + " to " + cost.PerSurvivor.High.Amount.String()
			switch {
			case cost.Unpriced > 0:
				got = ""
			case cost.PerSurvivor.None:
				got = "none survived"
			}
			assert.Equal(t, g.want, got, g.name)
		}
	}
	// Refunds whose sum is beyond what one amount may be.
	c = kept(t, "import a 2026-03-09 {refunds: ["+strings.Repeat("{date: 2026-03-20, amount: 1000000000, for: short}, ", 11)+"]}\n"+
		"a-1 {price: 30}: 0 firm; 42 firm; 84 firm\n")
	costs := c.GroupCosts(c.Compare(c.All(), c.by(t, "genus"), 42, 3))
	require.Len(t, costs, 1)
	assert.Equal(t, "11000000000.00 NOK", costs[0].Refunds.String())
}
