package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// groupOf is the group of the cohort's only plant.
func groupIn(t *testing.T, c *Cohort, word string) string {
	t.Helper()
	r := c.Compare(c.All(), c.by(t, word), 42, 3)
	require.Len(t, r.Groups, 1, word)
	return r.Groups[0].Name
}

// What was known on day 0, by the bands of measures.
func TestGroupsKnownOnDayNought(t *testing.T) {
	for _, test := range []struct{ by, box, plant, looks, want string }{
		{"season", "season: 2025 autumn", "", "0 firm", "2025 autumn"},
		{"exporter", "exporter: exporter B", "", "0 firm", "exporter B"},
		{"exporter", "", "", "0 firm", NotRecorded},
		{"origin", "origin: Taiwan", "", "0 firm", "Taiwan"},
		{"transit", "dispatched: 2026-03-05", "", "0 firm", "≤ 4"},
		{"transit", "dispatched: 2026-03-04", "", "0 firm", "5–7"},
		{"transit", "dispatched: 2026-03-02", "", "0 firm", "5–7"},
		{"days in transit", "dispatched: 2026-03-01", "", "0 firm", "8+"},
		{"transit", "dispatched: 2026-02", "", "0 firm", "8+"},                       // nine days at least
		{"transit", "dispatched: 2026-03-01..2026-03-05", "", "0 firm", NotRecorded}, // four to eight
		{"transit", "", "", "0 firm", NotRecorded},
		{"packing", "packing: [moss, heat pack]", "", "0 firm", "heat pack, moss"},
		{"genus", "", "name: Begonia 'So'", "0 firm", "Begonia"},
		{"genus", "", "name: Begonia × erythrophylla", "0 firm", "Begonia"},
		{"genus", "", "name: × Ludochilus sp.", "0 firm", "×Ludochilus"},
		{"genus", "", "name: ×Ludochilus sp.", "0 firm", "×Ludochilus"},
		{"genus", "", "name: unnamed jewel orchid", "0 firm", NotRecorded},
		{"climate", "", "climate: cool", "0 firm", "cool"},
		{"size", "", "size: seedling", "0 firm", "seedling"},
		{"size", "", "", "0 firm", NotRecorded},
		{"root-grade", "", "", "0 roots 0", "0"},
		{"roots", "", "", "0 roots 3; 1 roots 4", "3"},
		{"root-grade", "", "", "0 firm; 1 roots 4", NotRecorded},
		{"turgor", "", "", "0 limp; 1 firm", "limp"},
		{"leaves", "", "", "0 leaves 0", "0"},
		{"leaves", "", "", "0 leaves 1", "1–2"},
		{"leaves", "", "", "0 leaves 2", "1–2"},
		{"leaves", "", "", "0 leaves 3", "3–5"},
		{"leaves", "", "", "0 leaves 5", "3–5"},
		{"leaves", "", "", "0 leaves 6", "6+"},
		{"leaves", "", "", "0 {leaves: {sizes: [3x2 cm]}}", NotRecorded},
		// The record of arrival counts up to three days after unpacking.
		{"leaves", "unpacked: 2026-03-11", "", "5 {arrival: yes, leaves: {count: 4}}", "3–5"},
		{"leaves", "", "", "3 {arrival: yes, leaves: {count: 4}}", "3–5"},
		{"leaves", "", "", "4 {arrival: yes, leaves: {count: 4}}", NotRecorded},
		{"stem", "", "traits: {stem: long}", "0 firm", "long"},
		{"traits.stem", "", "traits: {stem: long}", "0 firm", "long"},
	} {
		c := kept(t, "import box 2026-03-09 {"+test.box+"}\np-1 {"+test.plant+"}: "+test.looks+"; 60 firm")
		assert.Equal(t, test.want, groupIn(t, c, test.by), "%s: %s %s %s", test.by, test.box, test.plant, test.looks)
	}
}

// A trait named like one of our words keeps its prefix, and ours stays ours.
func TestATraitNamedLikeAWord(t *testing.T) {
	c := kept(t, "import box 2026-03-09\np-1 {size: small|traits: {size: huge}}: 0 firm; 60 firm")
	assert.Equal(t, "small", groupIn(t, c, "size"))
	assert.Equal(t, "huge", groupIn(t, c, "traits.size"))
	words := map[string]bool{}
	for _, g := range c.Groupings() {
		assert.False(t, words[g.Word], g.Word)
		words[g.Word] = true
	}
	assert.True(t, words["traits.size"])
}

// Seasons stand by their first arrival, bands in their order, other words by their
// bytes, "not recorded" last.
func TestTheOrderOfGroups(t *testing.T) {
	c := kept(t, `import a 2025-09-01 {season: 2025 autumn|origin: Taiwan}
		a-1 {size: large}: 0 firm; 60 firm
		import b 2025-03-01 {season: 2025 spring|origin: Ecuador}
		b-1: 0 firm; 60 firm
		b-2 {size: seedling}: 0 firm; 60 firm
		import c 2026-03-01 {season: 2026 spring}
		c-1 {size: medium}: 0 firm; 60 firm`)
	names := func(word string) (out []string) {
		for _, g := range c.Compare(c.All(), c.by(t, word), 42, 3).Groups {
			out = append(out, g.Name)
		}
		return out
	}
	assert.Equal(t, []string{"2025 spring", "2025 autumn", "2026 spring"}, names("season"))
	assert.Equal(t, []string{"seedling", "medium", "large", NotRecorded}, names("size"))
	assert.Equal(t, []string{"Ecuador", "Taiwan", NotRecorded}, names("origin"))
}

func TestBandsOfSharesCut(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.001: "1–33 %", 1.0 / 3: "1–33 %", 0.334: "1–33 %", 0.335: "34–66 %", 0.34: "34–66 %",
		0.664: "34–66 %", 0.665: "67–100 %", 2.0 / 3: "67–100 %", 1: "67–100 %"} {
		assert.Equal(t, want, cutBand(share), "%g", share)
	}
}
