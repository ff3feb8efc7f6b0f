package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content/measure"
)

func TestCountsAreSetAsProseDoes(t *testing.T) {
	for n, want := range map[int]string{0: "none", 1: "one", 12: "twelve", 20: "twenty", 21: "21", -1: "-1"} {
		assert.Equal(t, want, said.InWords(n))
	}
	assert.Equal(t, "1 line", said.Noun(1, "line", "lines"))
	assert.Equal(t, "0 lines", said.Noun(0, "line", "lines"))
	assert.Equal(t, "one plant", said.NounInWords(1, "plant", "plants"))
	assert.Equal(t, "once twice three times", times(1)+" "+times(2)+" "+times(3))
	assert.Equal(t, "is are are", isAre(1)+" "+isAre(0)+" "+isAre(2))
	assert.Equal(t, "was were were", wasWere(1)+" "+wasWere(0)+" "+wasWere(2))
	for want, words := range map[string][]string{"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}} {
		assert.Equal(t, want, said.List(words))
	}
}

func TestFirstLettersChangeWithoutHarm(t *testing.T) {
	assert.Equal(t, "Ærlig", said.Upper("ærlig"))
	assert.Equal(t, "", said.Upper(""))
	assert.Equal(t, "élan", said.Lower("Élan"))
	assert.Equal(t, "Firm", upperHTML("firm"))
	assert.Equal(t, "<a>x</a>", upperHTML("<a>x</a>"))
	assert.Equal(t, "&lt;", upperHTML("&lt;"))
	for before, after := range map[string]string{"soft": "soft.", "soft?": "soft?", "…": "…", "": ""} {
		assert.Equal(t, after, stop(before))
	}
}

// No share bears decimals, and none stands without its limits' unit.
func TestFiguresCarryTheirUnits(t *testing.T) {
	assert.Equal(t, "9 of 14", said.Of(9, 14))
	assert.Equal(t, "64%", said.Percent(9.0/14))
	assert.Equal(t, "39 to 84%", said.Limits(.3876, .8366))
	assert.Equal(t, "4.8 cm²", area(4.82))
	assert.Equal(t, "about 147 cm² of leaf", areaWords(146.8, true))
	assert.Equal(t, "147 cm² of leaf", areaWords(146.8, false))
	for p, want := range map[measure.Pressure][2]string{
		0: {"< 0.1 kPa", "less than 0.1 kPa"}, 0.0999: {"< 0.1 kPa", "less than 0.1 kPa"}, 0.1: {"0.10 kPa", "0.10 kPa"}, 1.189769: {"1.19 kPa", "1.19 kPa"},
	} {
		assert.Equal(t, want, [2]string{kpa(p), kpaWords(p)})
	}
	assert.Equal(t, "grade 1 (stubs)", gradeWord(1))
	assert.Equal(t, "", gradeWord(6), "there is no such grade")
}

// The air of a place: a day, days alike, days that differ, air too wet to tell.
func TestWhatIsSaidOfTheAir(t *testing.T) {
	first, _ := measure.Date(2026, 4, 2)
	last, _ := measure.Date(2026, 6, 1)
	for want, got := range map[string]string{
		"Measured on one day, 2 April 2026: a deficit of 0.47 kPa.":                                                                                                        airSays(1, first, first, .47, .47, .47),
		"Measured on 2 days between 2 April 2026 and 1 June 2026: a deficit of less than 0.1 kPa on each.":                                                                 airSays(2, first, last, .05, .02, .09),
		"Measured on 60 days between 2 April 2026 and 1 June 2026: a deficit of 0.12 kPa on average, from less than 0.1 kPa on the wettest day to 0.27 kPa on the driest.": airSays(60, first, last, .12, .04, .27),
	} {
		assert.Equal(t, want, got)
	}
	assert.Equal(t, "no plant stands there", standingWords(0))
	assert.Equal(t, "one plant stands there", standingWords(1))
	assert.Equal(t, "five plants stand there", standingWords(5))
}

// A row of the survival table in words: what is counted, what is estimated, what
// can't be said; a share never without its counts and limits.
func TestARowOfTheSurvivalTableInWords(t *testing.T) {
	for name, c := range map[string]struct {
		row         cohort.Row
		words, note string
		end         string
	}{
		"counted":   {cohort.Row{Kind: cohort.Counted, Day: 42, N: 14, Alive: 9, Share: 9.0 / 14, HasLimits: true, Lower: .388, Upper: .837}, "9 of 14", "64%, 95% limits 39 to 84%", "9 of 14 alive on day 42"},
		"estimated": {cohort.Row{Kind: cohort.Estimated, Day: 84, N: 17, Alive: 10, Least: 10, Most: 11, Share: .65, HasLimits: true, Lower: .38, Upper: .82}, "10 of 17", "between 10 and 11 of 17; 95% limits 38 to 82%", "10 of 17 known alive on day 84"},
		"not yet":   {cohort.Row{Kind: cohort.NotYet, Day: 84, N: 3}, "not yet", "", "0 of 3 known alive on day 84"},
		"over":      {cohort.Row{Kind: cohort.Over, Day: 84, N: 3}, "–", "nobody was under watch any more", "0 of 3 known alive on day 84"},
	} {
		words, note := rowWords(c.row)
		assert.Equal(t, c.words, words, name)
		assert.Equal(t, c.note, note, name)
		end, _ := endWords(c.row)
		assert.Equal(t, c.end, end, name)
	}
}
