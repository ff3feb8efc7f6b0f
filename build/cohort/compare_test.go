package cohort

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/growth"
	"wardian/build/survival"
)

// Ten lines of one box: five small ones lost on day 5, five medium ones alive.
// By hand: pooled, d/n = 5/10, so that each lost one scores 1/2 and each other
// −1/2; U = 2.5, which of the 252 ways to deal five labels only two reach: p =
// 2/252. The log-rank variance is 5·(1/2)·(1/2)·5/9 = 25/36 and its statistic
// 6.25/(25/36) = 9, three standard errors: p = 0.0026998 (tables of the normal).
func TestTwoGroupsOfOneBox(t *testing.T) {
	c := kept(t, "import box 2026-03-09\n"+
		many("small", 5, "size: small", "0 firm; 5 lost rot")+
		many("medium", 5, "size: medium", "0 firm; 42 firm; 84 firm"))
	r := c.Compare(c.All(), c.by(t, "size"), 42, 3)
	require.Len(t, r.Groups, 2)
	small, medium := r.Groups[0], r.Groups[1]
	assert.Equal(t, []string{"small", "medium"}, []string{small.Name, medium.Name})
	assert.Equal(t, []int{5, 5, 0, 0, 0}, []int{small.N, small.Lost, small.Left, small.Alive, small.Unknown})
	assert.Equal(t, []int{5, 0, 0, 5, 0}, []int{medium.N, medium.Lost, medium.Left, medium.Alive, medium.Unknown})
	assert.Equal(t, survival.Wilson(5, 5, 0.95), survival.Interval{Lower: medium.Row.Lower, Upper: medium.Row.Upper}, "of nobody unknown, Wilson's")
	assert.Equal(t, 5.0, small.Median.Day)
	assert.False(t, medium.Median.Reached)
	assert.Equal(t, []float64{5, 42}, []float64{small.Mean.Days, medium.Mean.Days})
	assert.Equal(t, 42, r.Tau, "a group that reached 0 sets no bound")

	assert.Equal(t, Tested, r.Test.Reason)
	assert.False(t, r.Test.Ordered, "two groups are two groups")
	assert.InDelta(t, 2.5, r.Test.Permutation.Statistic, 1e-12)
	assert.InEpsilon(t, 2.0/252, r.Test.P, 1e-12)
	assert.Equal(t, []int{1, 1, 10}, []int{r.Test.DegreesOfFreedom, r.Test.Strata, r.Test.Contributing})
	assert.InEpsilon(t, 9, r.LogRank.Statistic, 1e-9)
	assert.InEpsilon(t, 0.0026997960632601866, r.LogRank.P, 1e-8)
	assert.Equal(t, "small", r.Hazards.Reference, "of two as large, the first")
	require.Len(t, r.Hazards.Terms, 1)
	assert.Less(t, r.Hazards.Terms[0].Ratio, 1.0, "finite though no medium one was lost")

	value, lower, upper, ok := r.Difference(1, 0)
	n, _ := survival.Newcombe(5, 5, 0, 5, 0.95)
	assert.True(t, ok)
	assert.Equal(t, []float64{1, n.Lower, n.Upper}, []float64{value, lower, upper})
}

// Lines are dealt within their import. By hand, box a: 3 lost of 5 on day 5, scores
// 0.4 and −0.6; box b: 2 lost of 5, scores 0.6 and −0.4. The small ones lost all:
// U = 3·0.4 + 2·0.6 = 2.4, reached by one of C(5,3)·C(5,2) = 100 deals; the other
// end is −0.8 − 0.8 = −1.6. A third box of medium ones alone tells nothing.
func TestLinesAreDealtWithinTheirImport(t *testing.T) {
	c := kept(t, "import a 2026-03-09\n"+
		many("a", 3, "size: small", "0 firm; 5 lost rot")+many("am", 2, "size: medium", "0 firm; 84 firm")+
		"import b 2026-03-09\n"+
		many("b", 2, "size: small", "0 firm; 5 lost rot")+many("bm", 3, "size: medium", "0 firm; 84 firm")+
		"import c 2026-03-09\n"+
		many("cm", 4, "size: medium", "0 firm; 9 lost cold"))
	r := c.Compare(c.All(), c.by(t, "size"), 42, 3)
	assert.InDelta(t, 2.4, r.Test.Permutation.Statistic, 1e-12)
	assert.InEpsilon(t, 0.01, r.Test.P, 1e-12)
	assert.Equal(t, []int{3, 10}, []int{r.Test.Strata, r.Test.Contributing})
	assert.Equal(t, 3, len(r.Groups[1].Imports))
	// Unstratified by hand is another test: day 5, 5 of 14 lost, all small.
	assert.True(t, r.LogRank.Exists)
	day5, day9 := 5.0*5/14*9/14*9/13, 0.0 // on day 9 no small one is left
	assert.InEpsilon(t, math.Pow(5-5*5.0/14, 2)/(day5+day9), r.LogRank.Statistic, 1e-9)
}

// Three ordered groups of five in one box, the small ones lost on day 5. With k1
// and k2 lost labels in the second and third group, Σ w·U = k1 + 2·k2 − 5: seen −5,
// as far from 0 as all five lost in the third group would be. Each is C(10,5) = 252
// of the 15!/(5!)³ = 756 756 deals.
func TestOrderedGroupsAreATrend(t *testing.T) {
	text := "import box 2026-03-09\n" +
		many("s", 5, "size: small", "0 firm; 5 lost rot") +
		many("m", 5, "size: medium", "0 firm; 84 firm") +
		many("l", 5, "size: large", "0 firm; 84 firm")
	c := kept(t, text)
	r := c.Compare(c.All(), c.by(t, "size"), 42, 3)
	assert.True(t, r.Test.Ordered)
	assert.InDelta(t, -5, r.Test.Permutation.Statistic, 1e-9)
	assert.InEpsilon(t, 504.0/756756, r.Test.P, 1e-12)
	assert.Equal(t, 1, r.Test.DegreesOfFreedom)

	// The same three under a trait have no order: the quadratic form. C is
	// [Σa²/14]·5·[I − J/3], Σa² = 5·4/9 + 10/9 = 10/3; U = (10/3, −5/3, −5/3):
	// U′C⁻U = (100/9 + 25/9 + 25/9)·14·3/(10·5) = 14. Any one group losing all
	// gives as much: 3·252 deals.
	c = kept(t, strings.NewReplacer("size: small", "traits: {habit: a}", "size: medium", "traits: {habit: b}", "size: large", "traits: {habit: c}").Replace(text))
	r = c.Compare(c.All(), c.by(t, "habit"), 42, 3)
	assert.False(t, r.Test.Ordered)
	assert.Equal(t, 2, r.Test.DegreesOfFreedom)
	assert.InEpsilon(t, 14, r.Test.Permutation.Statistic, 1e-9)
	assert.InEpsilon(t, 756.0/756756, r.Test.P, 1e-12)
}

// parcels are imports of two lines each, the first lost of them losing all by
// day 5, under exporters A and B.
func parcels(a, b int) string {
	text := ""
	for n := range a + b {
		id := string(rune('a' + n))
		exporter, looks := "A", "0 firm; 5 lost cold"
		if n >= a {
			exporter, looks = "B", "0 firm; 84 firm"
		}
		text += "import " + id + " 2026-03-09 {season: 2026 spring|exporter: " + exporter + "}\n" + many(id, 2, "", looks)
	}
	return text + many("more", 1, "", "0 firm; 84 firm")
}

// Words of the parcel deal whole imports: 4 against 4 give 2/70, 3 against 3 at
// best 2/20, 3 against 5 at best 1/56.
func TestWordsOfTheParcelDealWholeImports(t *testing.T) {
	c := kept(t, parcels(4, 4))
	r := c.Compare(c.All(), c.by(t, "exporter"), 42, 3)
	assert.Equal(t, Tested, r.Test.Reason)
	assert.True(t, r.Test.Parcels)
	assert.InEpsilon(t, 2.0/70, r.Test.P, 1e-12)
	assert.Equal(t, 8, r.Test.Contributing)
	assert.True(t, r.LogRank.Exists)
	assert.NotEmpty(t, r.Hazards.Reason, "no ratio for a fact of the parcel")

	c = kept(t, parcels(3, 3))
	r = c.Compare(c.All(), c.by(t, "exporter"), 42, 3)
	assert.Equal(t, FewImports, r.Test.Reason)
	assert.Equal(t, []int{3, 3}, r.Test.Imports)
	assert.Equal(t, LogRank{}, r.LogRank, "no p by another door")
	assert.Zero(t, r.Test.P)

	c = kept(t, parcels(3, 5))
	r = c.Compare(c.All(), c.by(t, "exporter"), 42, 3)
	assert.Equal(t, Tested, r.Test.Reason)
	assert.InEpsilon(t, 1.0/56, r.Test.P, 1e-12)

	for imports, want := range map[[3]int]float64{{4, 4, 0}: 2.0 / 70, {3, 3, 0}: 0.1, {3, 5, 0}: 1.0 / 56, {2, 2, 2}: 6.0 / 90} {
		sizes, ways := imports[:], 1.0
		if imports[2] == 0 {
			sizes = imports[:2]
		}
		n := 0
		for _, k := range sizes {
			for i := 1; i <= k; i++ {
				n++
				ways = ways * float64(n) / float64(i)
			}
		}
		assert.InEpsilon(t, want, fewestParcels(sizes, ways), 1e-12, "%v", imports)
	}
}

// Everything ends at the horizon: a later loss isn't counted, a group with a
// younger line isn't compared.
func TestEverythingEndsAtTheHorizon(t *testing.T) {
	c := kept(t, "import box 2026-03-09\n"+
		many("s", 5, "size: small", "0 firm; 5 lost rot")+
		many("m", 4, "size: medium", "0 firm; 30 firm; 42 firm; 43 lost rot")+
		"m-5 {size: medium}: 0 firm; 42 lost rot\n"+
		"import late 2026-04-09\n"+ // 31 days younger
		many("l", 5, "size: large", "0 firm; 12 firm")+
		many("x", 2, "", "0 firm; 12 firm"))
	require.Equal(t, 43, c.Line("s-1").AsOfDay)
	r := c.Compare(c.All(), c.by(t, "size"), 42, 3)
	require.Len(t, r.Groups, 4)
	medium, large, unsaid := r.Groups[1], r.Groups[2], r.Groups[3]
	assert.Equal(t, []int{1, 4}, []int{medium.Lost, medium.Alive}, "day 42 counts, day 43 doesn't")
	assert.Equal(t, Unripe, large.State)
	assert.False(t, large.Ripe)
	assert.Equal(t, []int{5, 0, 0, 0, 0}, []int{large.N, large.Lost, large.Left, large.Alive, large.Unknown})
	assert.Equal(t, NotRecorded, unsaid.Name)
	assert.Equal(t, NotRecordedThere, unsaid.State)
	assert.Equal(t, []string{"small", "medium"}, r.Test.Groups)

	age, ok := c.All().SameAge()
	assert.True(t, ok)
	assert.Equal(t, 12, age)
	r = c.Compare(c.All(), c.by(t, "size"), age, 3)
	assert.Equal(t, Told, r.Groups[2].State)
	assert.Equal(t, []string{"small", "medium", "large"}, r.Test.Groups)

	r = c.Compare(c.All(), c.by(t, "size"), 44, 3)
	assert.Equal(t, HorizonAhead, r.Test.Reason)
	_, _, _, ok = r.Difference(0, 1)
	assert.False(t, ok)
}

// The six lines beside the definition of survival.csv, whose share on day 30 and
// limits R 4.2.2 with survival 3.5-3 computed: (0,1)(0,0)(5,1)(9,1)(9,0)(30,0).
func TestUnknownLinesGiveTheProductLimit(t *testing.T) {
	c := kept(t, `import box 2026-03-09
		p-1 {climate: cool}: 0 lost cold
		p-2 {climate: cool}:
		p-3 {climate: cool}: 0 firm; 5 lost rot
		p-4 {climate: cool}: 0 firm; 9 lost rot
		p-5 {climate: cool}: 0 firm; 9 passed on
		p-6 {climate: cool}: 0 firm; 30 firm`)
	r := c.Compare(c.All(), c.by(t, "climate"), 30, 3)
	require.Len(t, r.Groups, 1)
	g := r.Groups[0]
	assert.Equal(t, []int{6, 3, 2, 1, 2}, []int{g.N, g.Lost, g.Left, g.Alive, g.Unknown})
	assert.Equal(t, Estimated, g.Row.Kind)
	assert.InEpsilon(t, 5.0/12, g.Row.Share, 1e-12)
	assert.InEpsilon(t, 0.05599186485205291, g.Row.Lower, 1e-9)
	assert.InEpsilon(t, 0.76652221955058, g.Row.Upper, 1e-9)
	assert.Equal(t, 9.0, g.Median.Day, "5/12 on day 9 is the first below a half")
	// 5/6 of five days, 5/8 of four, 5/12 of the 21 to day 30.
	assert.InEpsilon(t, 5*5.0/6+4*5.0/8+21*5.0/12, g.Mean.Days, 1e-12)
	assert.Equal(t, OneGroup, r.Test.Reason)
}

// What stands apart: an import whose diary began late is compared with nothing, a
// half-known arrival stays out of the test, one bought nearby is a group of its own.
func TestWhatStandsApartInComparisons(t *testing.T) {
	c := kept(t, "import late 2026-03-09 {followed-from: 2026-03-20}\n"+
		many("f", 6, "size: small", "12 firm; 84 firm")+
		"import half 2026-03-09..2026-03-12\n"+
		many("hs", 5, "size: small", "5 lost rot")+many("hm", 5, "size: medium", "5 firm; 84 firm")+
		"import box 2026-03-09\n"+
		many("s", 5, "size: small", "0 firm; 5 lost rot")+many("m", 5, "size: medium", "0 firm; 84 firm"))
	r := c.Compare(c.All(), c.by(t, "size"), 42, 3)
	assert.Zero(t, r.FollowedLate, "it isn't in all")
	assert.Equal(t, []int{10, 10}, []int{r.Groups[0].N, r.Groups[1].N}, "in the counts")
	assert.Equal(t, 10, r.Test.HalfKnown)
	assert.InEpsilon(t, 2.0/252, r.Test.P, 1e-12, "not in the test")

	late := c.Compare(c.Import(c.Diary.Import("late")), c.by(t, "size"), 42, 3)
	assert.Equal(t, 6, late.FollowedLate)
	assert.Empty(t, late.Groups)
	assert.Equal(t, OneGroup, late.Test.Reason)

	c = kept(t, "import near 2026-03-09 {local: yes|season: 2026 spring}\n"+many("n", 5, "", "0 firm; 84 firm")+
		"import box 2026-03-09 {season: 2026 spring}\n"+many("b", 5, "", "0 firm; 84 firm"))
	both := Scope{Name: "both"}
	for _, i := range c.Diary.Imports {
		both.Imports, both.Lines = append(both.Imports, i), append(both.Lines, c.Import(i).Lines...)
	}
	r = c.Compare(both, c.by(t, "season"), 42, 3)
	assert.Equal(t, []string{"2026 spring", "local"}, []string{r.Groups[0].Name, r.Groups[1].Name})
	assert.Equal(t, NoLosses, r.Test.Reason)
}

// Every reason for no p.
func TestWhyThereIsNoP(t *testing.T) {
	for name, test := range map[string]struct {
		text, by string
		at       int
		want     Reason
	}{
		"nobody at all":    {"import box 2026-03-09\n", "size", 42, OneGroup},
		"one specimen":     {"import box 2026-03-09\np-1 {size: small}: 0 firm; 84 firm", "size", 42, OneGroup},
		"one group of two": {"import box 2026-03-09\n" + many("s", 5, "size: small", "0 firm; 84 firm") + many("m", 4, "size: medium", "0 lost cold"), "size", 42, OneGroup},
		"no losses":        {"import box 2026-03-09\n" + many("s", 5, "size: small", "0 firm; 84 firm") + many("m", 5, "size: medium", "0 firm; 84 firm"), "size", 42, NoLosses},
		"one loss of ten":  {"import box 2026-03-09\n" + many("s", 4, "size: small", "0 firm; 84 firm") + "s-5 {size: small}: 0 firm; 9 lost rot\n" + many("m", 5, "size: medium", "0 firm; 84 firm"), "size", 42, FewLosses},
		"all lost at once": {"import box 2026-03-09\n" + many("s", 5, "size: small", "0 lost cold") + many("m", 5, "size: medium", "0 lost cold") + "z-1: 0 firm; 84 firm", "size", 42, FewLosses},
		"no import shared": {"import a 2026-03-09\n" + many("s", 5, "size: small", "0 firm; 9 lost rot") + "import b 2026-03-09\n" + many("m", 5, "size: medium", "0 firm; 84 firm"), "size", 42, NoSharedImport},
		"not yet":          {"import a 2026-03-09\n" + many("s", 5, "size: small", "0 firm; 9 lost rot") + many("m", 5, "size: medium", "0 firm; 20 firm"), "size", 42, HorizonAhead},
		"at the landmark":  {"import a 2026-03-09\n" + many("s", 5, "", "0 firm; 9 lost rot"), "medium", 3, LandmarkAtHorizon},
	} {
		c := kept(t, test.text)
		r := c.Compare(c.All(), c.by(t, test.by), test.at, 3)
		assert.Equal(t, test.want, r.Test.Reason, name)
		assert.NotEmpty(t, r.Test.Reason.String(), name)
		assert.Zero(t, r.Test.P, name)
		if test.want == NoSharedImport || !r.Test.Ran {
			assert.False(t, r.LogRank.Exists, name)
			assert.NotEmpty(t, r.Hazards.Reason, name)
		}
	}
}

// Holm by hand: of two p values 2/252 and 0.01 the smaller is doubled, the other at
// least as large: 4/252 both, since 0.01 < 4/252.
func TestAllWordsTogether(t *testing.T) {
	c := kept(t, "import box 2026-03-09\n"+
		many("s", 5, "size: small|climate: cool", "0 firm; 5 lost rot")+
		many("m", 5, "size: medium|climate: warm", "0 firm; 84 firm"))
	tested := 0
	for _, r := range c.Comparisons(c.All(), 42, 3) {
		if r.Test.Reason != Tested {
			assert.False(t, r.Test.HasAdjusted)
			continue
		}
		tested++
		assert.InEpsilon(t, 2.0/252, r.Test.P, 1e-12, r.By.Word)
		assert.InEpsilon(t, 4.0/252, r.Test.Adjusted, 1e-12, r.By.Word)
	}
	assert.Equal(t, 2, tested, "size and climate")
}

// A group that shares no import with another adds no degree of freedom.
func TestDegreesOfFreedom(t *testing.T) {
	u := func(stratum int, groups ...int) (units []survival.Unit) {
		for _, g := range groups {
			units = append(units, survival.Unit{Group: g, Stratum: stratum})
		}
		return units
	}
	assert.Equal(t, 2, tied(u(0, 0, 1, 2), 3))
	assert.Equal(t, 1, tied(append(u(0, 0, 1), u(1, 2, 2)...), 3))
	assert.Equal(t, 2, tied(append(u(0, 0, 1), u(1, 1, 2)...), 3))
	assert.Equal(t, 0, tied(append(u(0, 0), u(1, 1)...), 2))
}

func TestTheMedianOfRootToLeafPartsTheLines(t *testing.T) {
	// 2 leaves of 10 × 10 cm at the general factor 0.69 are 138 cm².
	c := kept(t, `import box 2026-03-09
		p-1: 0 leaves 2 10x10 10x10, roots 2 longest 2; 84 firm
		p-2: 0 leaves 2 10x10 10x10, roots 2 longest 4; 84 firm
		p-3: 0 leaves 2 10x10 10x10, roots 2 longest 6; 84 firm
		p-4: 0 leaves 2 10x10 10x10, roots 2 length 60; 84 firm
		p-5: 0 leaves 2 10x10 10x10; 84 firm
		p-6: 0 leaves 0, roots 2 longest 6; 84 firm`)
	r := c.Compare(c.All(), c.by(t, "root-to-leaf"), 42, 3)
	require.NotNil(t, r.Split)
	assert.Equal(t, Split{Median: r.Split.Median, Kind: growth.LongestAlone, Of: 3, Others: 1}, *r.Split)
	assert.InEpsilon(t, 4.0/138, r.Split.Median, 1e-9)
	var names []string
	for _, g := range r.Groups {
		for _, l := range g.Lines {
			names = append(names, g.Name+" "+l.Specimen.ID)
		}
	}
	assert.Equal(t, []string{"below the median p-1", "from the median p-2", "from the median p-3",
		"not recorded p-4", "not recorded p-5", "not recorded p-6"}, names)
}
