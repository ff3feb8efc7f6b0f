package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

// Who stands in a comparison at landmark 3.
func TestWhoLivedToTheLandmark(t *testing.T) {
	c := kept(t, `import box 2026-03-09 {unpacked: 2026-03-13}
		in-seen: 0 firm; 3 firm; 60 firm
		in-lost-after: 0 firm; 3 firm; 20 lost rot
		in-between: 0 firm; 2 firm; 5 lost rot
		in-open: 2 firm
		lost-on: 0 firm; 3 lost rot
		on-arrival: 0 firm; 4 lost cold
		unseen: 0 firm; 2 firm
		passed: 0 firm; 2 passed on
		never:`)
	// in-open is open only if looked at lately; let the as-of day be day 8.
	c = At(c.Diary, c.Diary.Import("box").Day0()+8)
	_, m := landmark(c.All().Lines, 3)
	assert.Equal(t, Landmark{Day: 3, In: 5, Lost: 1, OnArrival: 1, Unseen: 2, Between: 1}, m, "by day 8 the unseen one counts as open still")

	c = At(c.Diary, c.Diary.Import("box").Day0()+60)
	in, m := landmark(c.All().Lines, 3)
	assert.Equal(t, Landmark{Day: 3, In: 3, Lost: 1, OnArrival: 1, Unseen: 4, Between: 1}, m)
	var ids []string
	for _, l := range in {
		ids = append(ids, l.Specimen.ID)
	}
	assert.Equal(t, []string{"in-between", "in-lost-after", "in-seen"}, ids, "a loss in (2, 5] is in")
	assert.Equal(t, len(c.All().Lines), m.In+m.Lost+m.OnArrival+m.Unseen)

	assert.Equal(t, []int{7, 14}, OtherLandmarks(3))
	assert.Equal(t, []int{3, 14}, OtherLandmarks(7))
	assert.Equal(t, []int{3, 7}, OtherLandmarks(14))
	assert.Equal(t, []int{3, 7}, OtherLandmarks(5))
}

// Groups by landmark are made of what was written by then.
func TestWhatWasDoneByTheLandmark(t *testing.T) {
	for _, test := range []struct{ by, looks, want string }{
		{"medium", "0 to tub; 1 to bin, medium sphagnum moss; 5 medium perlite", "sphagnum moss"},
		{"medium", "0 to tub; 5 to bin, medium perlite", NotRecorded},
		{"medium", "0 firm, medium perlite", "perlite"},
		{"medium", "0 firm, medium water", "water"}, // rooted in water, in no soak
		{"medium", "0 firm; 4 medium perlite", NotRecorded},

		{"leaves-cut", "0 leaves 4; 1 cut 1 leaf, leaves 3", "1–33 %"},
		{"leaves-cut", "0 leaves 4; 1 cut 2 leaves", "34–66 %"},
		{"leaves-cut", "0 leaves 6; 1 cut 4 leaves, leaves 2", "67–100 %"},
		{"leaves-cut", "0 leaves 3; 2 cut 1 leaf", "1–33 %"}, // a third is 33 %
		{"leaves-cut", "0 leaves 4; 1 cut 1 leaf; 3 cut 1 leaf, leaves 2", "34–66 %"},
		{"leaves-cut", "0 leaves 4; 1 cut 4 leaves", "67–100 %"},
		{"leaves-cut", "0 leaves 4; 4 cut 2 leaves", "0 %"}, // after the landmark
		{"leaves-cut", "0 firm; 1 cut 2 leaves", NotRecorded},
		{"leaves-cut", "5 firm", NotRecorded}, // nobody looked by then

		{"roots-cut", "0 firm", "0 %"},
		{"roots-cut", "0 cut 33% roots", "1–33 %"},
		{"roots-cut", "0 cut 50% roots", "34–66 %"},
		{"roots-cut", "0 cut 50% roots; 1 cut 50% roots", "67–100 %"}, // three quarters

		{"soak", "0 firm", "none"},
		{"soak", "0@10:00 to tub; 0@16:00 to bin", "up to 6 h"},
		{"soak", "0@10:00 to tub; 1@10:00 to bin", "over 6 to 24 h"},
		{"soak", "0@10:00 to tub; 1@10:01 to bin", "over 24 h"},
		{"soak", "0 {soak: 13 h}", "over 6 to 24 h"},
		{"soak", "0 {did: [soaked]}", NotRecorded},
		{"soak", "0 to tub; 1 to bin", NotRecorded},
		{"soak", "0 {to: tub, soak: 5 h}; 1 to bin", "up to 6 h"},
		{"soak", "0 to tub; 20 to bin", "over 24 h"}, // three days at least
		{"soak", "0 firm; 4 to tub", "none"},

		{"bottom-heat", "0 to mat", "yes"},
		{"bottom-heat", "0 to mat; 2 to bin", "no"},
		{"bottom-heat", "0 to bin; 4 to mat", "no"},
		{"bottom-heat", "0 firm", NotRecorded},

		{"turgor-at-landmark", "0 limp; 2 soft; 5 firm", "soft"},
		{"turgor-at-landmark", "0 limp; 2 same", "limp"},
		{"rot", "0 rot stem; 2 same", "stem"},
		{"rot", "0 rot stem; 3 no rot", "none"},
		{"rot", "0 firm; 4 rot stem", NotRecorded},
	} {
		c := kept(t, "import box 2026-03-09\np-1: "+test.looks+"; 60 firm")
		by := c.by(t, test.by)
		assert.True(t, by.Landmark)
		r := c.Compare(c.All(), by, 42, 3)
		require.Len(t, r.Groups, 1, "%s: %s", test.by, test.looks)
		assert.Equal(t, test.want, r.Groups[0].Name, "%s: %s", test.by, test.looks)
		assert.Equal(t, 3, r.Landmark.Day)
	}
}

// The axis stays days since arrival, and the curve starts at 1 on the landmark:
// nobody in it was lost by then.
func TestTheCurveStartsAtTheLandmark(t *testing.T) {
	c := kept(t, "import box 2026-03-09\n"+
		many("dead", 3, "", "0 firm, medium perlite; 2 lost rot")+
		many("p", 4, "", "0 firm, medium perlite; 3 firm; 60 firm")+
		"p-5: 0 firm, medium perlite; 3 firm; 10 lost rot\n"+
		many("s", 5, "", "0 firm, medium sphagnum moss; 3 firm; 60 firm"))
	r := c.Compare(c.All(), c.by(t, "medium"), 42, 3)
	assert.Equal(t, 3, r.Landmark.Lost)
	require.Equal(t, []string{"perlite", "sphagnum moss"}, r.Test.Groups)
	perlite := r.Groups[0]
	assert.Equal(t, 5, perlite.N)
	assert.Equal(t, 1.0, perlite.Curve.At(3).Share)
	assert.InEpsilon(t, 0.8, perlite.Curve.At(10).Share, 1e-12)
	assert.InEpsilon(t, 10+0.8*32, perlite.Mean.Days, 1e-12, "counted from arrival")
}

// What comes to be known only while a plant lives is refused with its count.
func TestGuaranteeTimeIsRefused(t *testing.T) {
	c := kept(t, `import box 2026-03-09
		p-1: 0 firm; 10 new root; 60 firm
		p-2: 0 firm; 20 new root; 60 firm
		p-3: 0 firm; 30 new root; 40 lost rot
		p-4: 0 firm; 15 lost rot
		p-5: 0 firm; 25 lost rot
		p-6: 0 firm; 60 firm`)
	_, ok := c.Grouping("new-root")
	require.False(t, ok)
	r := c.Refuse(c.All(), "new root")
	assert.Equal(t, KnownLater, r.Why)
	assert.Equal(t, Guarantee{Of: 6, Had: 3, EarliestOn: 10, Half: 20, Lost: 2, Early: 1}, r.Example)

	for _, word := range []string{"established", "new-leaf", "left-bin", "pests", "place", "stage", "sections", "resting", "potted", "recovered"} {
		r := c.Refuse(c.All(), word)
		assert.Equal(t, KnownLater, r.Why, word)
		assert.Equal(t, 6, r.Example.Of, word)
	}
	assert.Zero(t, c.Refuse(c.All(), "pests").Example.Had)
	assert.Equal(t, IsTheOutcome, c.Refuse(c.All(), "cause").Why)
	typo := c.Refuse(c.All(), "exportr")
	assert.Equal(t, []any{NoSuchWord, "exporter"}, []any{typo.Why, typo.Nearest})
	assert.Empty(t, c.Refuse(c.All(), "weather").Nearest)
	assert.Equal(t, KnownLater, c.Refuse(Scope{}, "established").Why, "nobody to count")
}

// A row of a list tells of no treatment and of no milestone: it stands in neither,
// but in groups known on day 0. A row without a day stands in none.
func TestRowsOfAListInComparisons(t *testing.T) {
	c := At(readDiary(t, tabled("arrived: 2024-04-10", "old-1: 2024-05-01, 2024-05-31\nold-2: 2024-07-01\nold-3: , yes", "")), measure.NoDay)
	s := c.Import(c.Diary.Import("old"))
	_, m := landmark(s.Lines, 3)
	assert.Equal(t, Landmark{Day: 3, Listed: 2}, m)
	assert.Equal(t, 2, s.Milestone(FirstRoot).Out)
	r := c.Compare(s, c.by(t, "genus"), 42, 3)
	require.Len(t, r.Groups, 1)
	assert.Equal(t, []any{"Hoya", 2, 1}, []any{r.Groups[0].Name, r.Groups[0].N, r.Undated})
}
