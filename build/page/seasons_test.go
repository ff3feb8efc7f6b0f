package page

import (
	"fmt"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// running is a diary of an autumn of six plants, two lost on day 10 and one on day
// 50, and of a spring of five that is on day 20, one lost on day 5. What it cost is
// public.
func running(t *testing.T) view {
	t.Helper()
	files := fstest.MapFS{
		"diary.yaml":           {Data: []byte("name: A sill\ntime-zone: UTC\ncurrency: EUR\npublish: {costs: yes}\n")},
		"imports/autumn.md":    {Data: []byte("---\nseason: 2025 autumn\narrived: 2025-09-08\ncosts: {freight: 30 EUR}\n---\n")},
		"imports/spring.md":    {Data: []byte("---\nseason: 2026 spring\narrived: 2026-03-09\n---\n")},
		"check-ins/a-09-18.md": {Data: []byte("---\ndate: 2025-09-18\nspecimens:\n  a-1: lost rot\n  a-2: lost cold\n  a-3: {cut-into: {a-3: base, a-3t: top}}\n---\n")},
		"check-ins/a-10-01.md": {Data: []byte("---\ndate: 2025-10-01\nspecimens:\n  a-3: same\n  a-3t: lost rot\n  a-4: new root\n---\n")},
		"check-ins/a-10-28.md": {Data: []byte("---\ndate: 2025-10-28\nspecimens:\n  a-6: lost rot\n---\n")},
		"check-ins/a-12-10.md": {Data: []byte("---\ndate: 2025-12-10\nspecimens:\n  a-3: same\n  a-4: same\n  a-5: same\n---\n")},
		"check-ins/s-03-14.md": {Data: []byte("---\ndate: 2026-03-14\nspecimens:\n  s-1: lost cold\n---\n")},
		"check-ins/s-03-29.md": {Data: []byte("---\ndate: 2026-03-29\nspecimens:\n  s-2: same\n  s-3: same\n  s-4: same\n  s-5: same\n---\n")},
	}
	for im, n := range map[string]int{"autumn": 6, "spring": 5} {
		for i := range n {
			files[fmt.Sprintf("specimens/%s-%d.md", im[:1], i+1)] = &fstest.MapFile{Data: []byte("---\nname: Hoya siariae\nimport: " + im + "\nprice: 10 EUR\n---\n")}
		}
	}
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	d = d.Shown(content.ShowOptions{On: measure.NoDay})
	return view{s: &site{Inputs: Inputs{Diary: d, Cohort: cohort.At(d, measure.NoDay)}}, Path: "seasons/index.html"}
}

// Each view ends on its day: the horizon, day 84, and the running season's age.
func TestSeasonsOnOneDayEach(t *testing.T) {
	d := running(t).seasons()
	assert.Equal(t, "On day 42: 2025 autumn, 4 of 6 alive and two lost.", d.Says)
	require.Len(t, d.Views, 3)
	for n, want := range []struct {
		id             string
		day            int
		spring, autumn seasonLine
	}{
		{"by-season", 42, seasonLine{Alive: "not yet"}, seasonLine{Alive: "4 of 6", Lost: "2 of 6", Causes: "cold 1, rot 1"}},
		{"later", 84, seasonLine{Alive: "not yet"}, seasonLine{Alive: "3 of 6", Lost: "3 of 6", Causes: "rot 2, cold 1"}},
		{"same-age", 20, seasonLine{Alive: "4 of 5", Lost: "1 of 5", Causes: "cold 1"}, seasonLine{Alive: "4 of 6", Lost: "2 of 6", Causes: "cold 1, rot 1"}},
	} {
		v := d.Views[n]
		assert.Equal(t, want.id, v.ID)
		assert.Equal(t, want.day, v.Day)
		require.Len(t, v.Rows, 2)
		spring, autumn := v.Rows[0], v.Rows[1]
		assert.Equal(t, []string{want.spring.Alive, want.spring.Lost, want.spring.Causes}, []string{spring.Alive, spring.Lost, spring.Causes}, want.id)
		assert.Equal(t, []string{want.autumn.Alive, want.autumn.Lost, want.autumn.Causes}, []string{autumn.Alive, autumn.Lost, autumn.Causes}, want.id)
		require.Len(t, v.Curves.Tables, 1)
		for _, row := range v.Curves.Tables[0].Rows {
			assert.LessOrEqual(t, len(row[1]), len(fmt.Sprint(want.day)), "nothing later is drawn: %v", row)
		}
	}
	assert.NotEmpty(t, d.Views[0].Rows[0].Anchor)
	assert.Empty(t, d.Views[1].Rows[0].Anchor, "an address stands once")
}

// 90 EUR over the four alive on day 42; the spring has no such day yet.
func TestBesideTheSeasonsCounts(t *testing.T) {
	d := running(t).seasons()
	require.Len(t, d.Beside, 2)
	spring, autumn := d.Beside[0], d.Beside[1]
	assert.Equal(t, []string{"90.00 EUR", "22.50 EUR"}, []string{autumn.Landed, autumn.Each})
	assert.Equal(t, []string{"50.00 EUR", "not yet"}, []string{spring.Landed, spring.Each})
	assert.Equal(t, "top 0 of 1", autumn.Pieces)
	assert.Equal(t, []string{"1 of 6", "the latest of these by day 23"}, []string{autumn.FirstRoot, autumn.Latest})
	assert.Equal(t, []string{"0 of 5", ""}, []string{spring.FirstRoot, spring.Latest})
}

func TestSeasonsThatCantBeCompared(t *testing.T) {
	d := twoBoxes(t).seasons()
	assert.Equal(t, "No season of five plants or more has reached day 42 yet.", d.Says)
	assert.Equal(t, "under five lines: counts only", d.Views[0].Rows[1].Note)
	assert.False(t, d.Views[0].Told)
	assert.Contains(t, d.Bears[0], "Not a share yet")
	none := box(t, 0).v.seasons()
	assert.Equal(t, "No season has reached day 42 yet.", none.Says)
	bears := seasonsBear(running(t).s.seasonsAt(20))
	assert.Contains(t, bears[0], "Eleven plants in two seasons")
	assert.Contains(t, bears, "No p: 1 import against 1: whatever else differed between the parcels is in this difference.")
}
