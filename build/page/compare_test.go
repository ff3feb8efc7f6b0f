package page

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
	"wardian/content/measure"
)

// sizes is a diary of one import whose small and medium plants were seen on day 0;
// the first so many of each were lost on day 10, the others seen on day 60.
func sizes(t *testing.T, small, smallLost, medium, mediumLost int) view {
	t.Helper()
	files := fstest.MapFS{
		"diary.yaml":     {Data: []byte("name: A sill\ntime-zone: UTC\ncurrency: EUR\n")},
		"imports/box.md": {Data: []byte("---\nseason: 2026 spring\narrived: 2026-03-09\n---\n")},
	}
	var first, tenth, last strings.Builder
	plant := func(size string, n, lost int) {
		for i := range n {
			id := fmt.Sprintf("%s-%d", size[:1], i+1)
			files["specimens/"+id+".md"] = &fstest.MapFile{Data: []byte("---\nname: Hoya siariae\nimport: box\nsize: " + size + "\n---\n")}
			fmt.Fprintf(&first, "  %s: same\n", id)
			if i < lost {
				fmt.Fprintf(&tenth, "  %s: lost rot\n", id)
			} else {
				fmt.Fprintf(&last, "  %s: same\n", id)
			}
		}
	}
	plant("small", small, smallLost)
	plant("medium", medium, mediumLost)
	for date, lines := range map[string]string{"2026-03-09": first.String(), "2026-03-19": tenth.String(), "2026-05-08": last.String()} {
		if lines != "" {
			files["check-ins/"+date+".md"] = &fstest.MapFile{Data: []byte("---\ndate: " + date + "\nspecimens:\n" + lines + "---\n")}
		}
	}
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	d = d.Shown(content.ShowOptions{On: measure.NoDay})
	return view{s: &site{Inputs: Inputs{Diary: d, Cohort: cohort.At(d, measure.NoDay)}}, Path: "compare/size.html"}
}

func (v view) by(t *testing.T, word string, day int) cohort.Comparison {
	t.Helper()
	g, ok := v.s.Cohort.Grouping(word)
	require.True(t, ok, word)
	return v.s.Cohort.Compare(v.s.Cohort.All(), g, day, 3)
}

// Counts first, then the difference with its limits, then how often chance spreads
// losses so, or why that isn't told.
func TestWhatIsSaidOfAComparison(t *testing.T) {
	for name, c := range map[string]struct {
		v    view
		day  int
		says []string
	}{
		// All losses fall on one day, so the labels are dealt as in Fisher's exact
		// test: of C(16,8) = 12 870 ways, 2 x (C(9,7)C(7,1) + C(9,8)C(7,0)) = 522 put
		// seven or more of the nine losses on one side, 0.0406. Limits: Newcombe
		// 1998, Stat Med 17:873-890, method 10, from Wilson's limits of 6 of 8
		// (0.409, 0.929) and 1 of 8 (0.022, 0.471).
		"two groups": {sizes(t, 8, 7, 8, 2), 42, []string{
			"On day 42: small, 1 of 8 alive and seven lost; medium, 6 of 8 alive and two lost.",
			"Put as plants in a hundred, that is 63 more alive under “medium” than under “small”; the 95% limits run from 14 more to 83 more.",
			"Deal the groups’ labels out anew among the plants of each import: losses up to day 42 at least this unevenly spread turn up in about 1 of 25 reshuffles of the labels (p 0.041: permutation log-rank, every reshuffle counted).",
		}},
		"alike": {sizes(t, 6, 3, 6, 3), 42, []string{
			"On day 42: small, 3 of 6 alive and three lost; medium, 3 of 6 alive and three lost.",
			"Put as plants in a hundred, that is as many alive under “small” as under “medium”; the 95% limits run from 44 fewer to 44 more.",
			"Deal the groups’ labels out anew among the plants of each import: losses up to day 42 at least this unevenly spread turn up in all reshuffles of the labels (p 1.00: permutation log-rank, every reshuffle counted).",
		}},
		"too few losses": {sizes(t, 6, 1, 6, 0), 42, []string{
			"On day 42: small, 5 of 6 alive and one lost; medium, 6 of 6 alive and none lost.",
			"Put as plants in a hundred, that is 17 more alive under “medium” than under “small”; the 95% limits run from 25 fewer to 56 more.",
			"No p: too few losses to tell.",
		}},
		"nobody lost":     {sizes(t, 6, 0, 6, 0), 42, []string{"", "", "No p: nobody in these groups was lost by day 42."}},
		"a small group":   {sizes(t, 6, 3, 4, 0), 42, []string{"On day 42: small, 3 of 6 alive and three lost.", "No p: fewer than two groups of five lines or more."}},
		"two small":       {sizes(t, 2, 1, 1, 0), 42, []string{"No p: fewer than two groups of five lines or more."}},
		"not so far yet":  {sizes(t, 6, 3, 6, 2), 84, []string{"No p: not all groups have been followed to day 84 yet."}},
		"nothing arrived": {box(t, 0).v, 42, []string{"No p: fewer than two groups of five lines or more."}},
	} {
		t.Run(name, func(t *testing.T) {
			says := said.Comparison(c.v.by(t, "size", c.day))
			require.Len(t, says, len(c.says))
			for i, want := range c.says {
				if want != "" {
					assert.Equal(t, want, says[i])
				}
			}
		})
	}
}

// One parcel against another says so in words, and never with a p.
func TestOneParcelAgainstAnotherHasNoP(t *testing.T) {
	v := twoBoxes(t)
	r := v.by(t, "season", 20)
	assert.Equal(t, "No p: fewer than two groups of five lines or more.", said.NoP(r), "two and three lines")
	r.Test.Reason, r.Test.Imports = cohort.FewImports, []int{1, 2}
	assert.Equal(t, "No p: 1 import against 2: whatever else differed between the parcels is in this difference.", said.NoP(r))
}

// Whatever the grower did to some plants stands under the fixed sentence, with the
// same comparison at the two other landmarks.
func TestAComparisonByLandmark(t *testing.T) {
	v := sizes(t, 8, 7, 8, 2)
	d := v.comparison(v.by(t, "leaves-cut", 42))
	require.GreaterOrEqual(t, len(d.Aside), 3)
	assert.Equal(t, "The grower chose which plants got this; the choice may have followed how they looked.", d.Aside[0])
	assert.True(t, strings.HasPrefix(d.Aside[len(d.Aside)-2], "With groups as of day 7 instead: "), d.Aside)
	assert.True(t, strings.HasPrefix(d.Aside[len(d.Aside)-1], "With groups as of day 14 instead: "), d.Aside)
	assert.Contains(t, d.How, "Groups as of day 3")
	for _, curve := range groupCurves(v.by(t, "leaves-cut", 42), "x").Groups {
		assert.Equal(t, 3, curve.Steps[0].Day, "it starts on the landmark")
	}
	assert.Contains(t, v.comparison(v.by(t, "size", 84)).SameSays[0], "On day 60:", "at the age of the youngest import")
}

func TestAWordIsRefusedWithACountedExample(t *testing.T) {
	v := twoBoxes(t)
	all := v.s.Cohort.All()
	assert.Equal(t, "It is what is compared.", said.Refusal(v.s.Cohort.Refuse(all, "outcome")))
	assert.Contains(t, said.Refusal(v.s.Cohort.Refuse(all, "new-root")),
		"Two of the 5 lines came to have it, half of these by day 20; two were lost up to that day without it, and could only ever stand in the other group.")
	assert.Contains(t, said.Refusal(v.s.Cohort.Refuse(all, "established")), "None of the 5 lines has it yet.")
	for _, w := range laterKnown {
		r := v.s.Cohort.Refuse(all, w.word)
		assert.Equal(t, cohort.KnownLater, r.Why, w.word)
	}
}
