package paper

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

const address26 = "address: https://example.org/sill/\n"

// at reads an invented diary of so many plants that came on 9 March 2026 and
// tells it up to 14 March. p-01 was lost, p-02 cut into two, p-03 moved.
func at(t *testing.T, plants int, settings string) (*cohort.Cohort, measure.Day) {
	t.Helper()
	disk := fstest.MapFS{}
	put := func(path, text string) { disk[path] = &fstest.MapFile{Data: []byte(text)} }
	put("diary.yaml", "name: A test\ntime-zone: UTC\ncurrency: NOK\n"+settings)
	put("places/tote.md", "---\nname: Tote <1> & its lid, the one that has to be persuaded on all four sides every evening\nstage: bin\n---\n")
	put("places/shelf.md", "---\nname: Shelf\nstage: room\n---\n")
	put("imports/26-a.md", "---\nseason: 2026 spring\narrived: 2026-03-09\n---\n")
	put("imports/24-b.md", "---\nseason: 2024 spring\narrived: 2024-03..2024-04\n---\n")
	put("specimens/q-01.md", "---\nname: Begonia amphioxus\nimport: 24-b\n---\n")
	var rows strings.Builder
	for n := 1; n <= plants; n++ {
		id := fmt.Sprintf("p-%02d", n)
		put("specimens/"+id+".md", "---\nname: Hoya callistophylla 'A Name as Long as the Longest on any Label' <b>\nimport: 26-a\n---\n")
		fmt.Fprintf(&rows, "  %s: soft, rot growing point, pests scale on the undersides of the oldest leaves, leaves ~24 12.5x8.5 12x8 11.5x7.5 11x7 10.5x6.5 10x6 9.5x5.5, roots 2 longest 14.5 mean 3.5 count 12 length 42.5\n", id)
	}
	put("check-ins/2026-03-09.md", "---\ndate: 2026-03-09\nplace: tote\nspecimens:\n"+rows.String()+"---\n")
	put("check-ins/2026-03-10.md", "---\ndate: 2026-03-10\nplace: tote\nspecimens:\n  p-01: lost rot\n  p-02: {cut-into: {p-02: base, p-02a: top}}\n  p-03: to shelf\nothers: same\n---\n")
	d, report, err := content.Load(disk, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	on, ok := measure.Date(2026, 3, 14)
	require.True(t, ok)
	return cohort.At(d, on), on
}

func found(page []byte, pattern string) []string {
	var out []string
	for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(string(page), -1) {
		out = append(out, m[1])
	}
	return out
}

func TestSheetsHaveARowAPlantInStandingOrder(t *testing.T) {
	c, on := at(t, 9, "")
	page, err := Sheets(c, []*content.Place{c.Diary.Place("tote")}, on, A4)
	require.NoError(t, err)
	assert.Equal(t, []string{"p-02", "p-04", "p-05", "p-06", "p-07", "p-08", "p-09", "p-02a"}, found(page, `<b class="id">([^<]*)</b>`))
	assert.Equal(t, []string{"tote, sheet 1 of 2", "tote, sheet 2 of 2"}, found(page, `<span>(tote[^<]*)</span>`))
	assert.Len(t, found(page, `(day 5 on 14 Mar)`), 8)
	assert.Contains(t, string(page), "Tote &lt;1&gt; &amp; its lid")
	assert.NotContains(t, string(page), "<b>\n")
	assert.Contains(t, string(page), "soft, leaves ~24 12.5x8.5 12x8 11.5x7.5 11x7 10.5x6.5 10x6 9.5x5.5, roots 2 longest 14.5 mean 3.5 count 12 length 42.5, rot growing point, pests scale on the undersides of the oldest leaves</div>")
	assert.Contains(t, string(page), "no figures yet", "of the section nothing was told")
	assert.NotContains(t, string(page), "Notes", "two sheets fill a page")
	assert.Contains(t, string(page), "size: A4 landscape")

	page, err = Sheets(c, []*content.Place{c.Diary.Place("tote"), c.Diary.Place("shelf")}, on, Letter)
	require.NoError(t, err)
	assert.Len(t, found(page, `(class="half")`), 4)
	assert.Len(t, found(page, `(>Notes<)`), 1)
	assert.Contains(t, string(page), "size: letter landscape")
}

// A round sheet has room for each of the closed phrases of a plant's line, as help
// lists them (what opens it, and what stands behind its gap).
func TestSheetsHaveThePhrases(t *testing.T) {
	c, on := at(t, 4, "")
	page, err := Sheets(c, []*content.Place{c.Diary.Place("tote")}, on, A4)
	require.NoError(t, err)
	_, row, _ := strings.Cut(string(page), `<li class="row">`)
	row, _, _ = strings.Cut(row, "</li>")
	words := strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(row[strings.Index(row, `<div class="boxes">`):], " ")), " ")
	assert.Equal(t, "same firm soft limp resting new root new leaf"+
		" leaves dropped cut leaves roots longest cut % roots"+
		" rot pests to medium outcome", words)
	assert.Contains(t, row, `<div class="remark">`)
}

func TestSheetsSpeakTheDiarysUnits(t *testing.T) {
	c, on := at(t, 4, "units: {length: in, temperature: F}\n")
	page, err := Sheets(c, []*content.Place{c.Diary.Place("tote")}, on, Letter)
	require.NoError(t, err)
	assert.Contains(t, string(page), "°F")
	assert.NotContains(t, string(page), "°C")
}

func TestLabelsAreOfTheLiving(t *testing.T) {
	c, on := at(t, 3, address26)
	page, plants, err := Labels(c, nil, on, A4)
	require.NoError(t, err)
	assert.Equal(t, 4, plants)
	assert.Equal(t, []string{"p-02", "p-02a", "p-03", "q-01"}, found(page, `<b class="id">([^<]*)</b>`))
	assert.Equal(t, []string{"arrived 9 Mar 2026", "arrived 9 Mar 2026; cut from p-02 10 Mar 2026", "arrived 9 Mar 2026", "arrived 2024-03..2024-04"}, found(page, `<p class="came">([^<]*)</p>`))
	assert.Equal(t, []string{"https://example.org/sill/specimens/p-02.html", "https://example.org/sill/specimens/p-02a.html",
		"https://example.org/sill/specimens/p-03.html", "https://example.org/sill/specimens/q-01.html"}, found(page, `aria-label="QR code of ([^"]*)"`))
	page, plants, err = Labels(c, c.Diary.Import("24-b"), on, Letter)
	require.NoError(t, err)
	assert.Equal(t, 1, plants)
	assert.Equal(t, []string{"q-01"}, found(page, `<b class="id">([^<]*)</b>`))
}

func TestLabelsWithoutAnAddressHaveNoCode(t *testing.T) {
	c, on := at(t, 3, "")
	page, plants, err := Labels(c, nil, on, A4)
	require.NoError(t, err)
	assert.Equal(t, 4, plants)
	assert.NotContains(t, string(page), "<svg")
	assert.Len(t, found(page, `(class="tag plain)`), 4)
}

func TestLabelsOnSeveralPages(t *testing.T) {
	c, on := at(t, 30, address26)
	for size, want := range map[Size][]int{A4: {24, 7}, Letter: {21, 10}} {
		page, plants, err := Labels(c, nil, on, size)
		require.NoError(t, err)
		require.Equal(t, 31, plants)
		var got []int
		for _, p := range strings.Split(string(page), `<div class="page labels">`)[1:] {
			got = append(got, strings.Count(p, `class="tag`))
		}
		assert.Equal(t, want, got)
	}
}

// What is printed loads nothing and runs nothing.
func TestPagesAreSelfContained(t *testing.T) {
	c, on := at(t, 3, address26)
	sheets, err := Sheets(c, []*content.Place{c.Diary.Place("tote")}, on, A4)
	require.NoError(t, err)
	labels, _, err := Labels(c, nil, on, A4)
	require.NoError(t, err)
	for _, page := range [][]byte{sheets, labels} {
		assert.NotRegexp(t, `<(script|link|img|iframe)\b|url\(|@import|\b(src|href)=`, string(page))
		assert.Contains(t, string(page), `<meta name="generator" content="wardian paper">`)
		assert.NotContains(t, string(page), "ZgotmplZ")
	}
}
