package page

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// twoBoxes is a diary of an autumn and the spring after it, two hoyas and three:
// one of each is lost, in spring on day 20; the last look is on the spring's day 30.
func twoBoxes(t *testing.T) view {
	t.Helper()
	files := fstest.MapFS{
		"diary.yaml":        {Data: []byte("name: A sill\ntime-zone: UTC\ncurrency: EUR\npublish: {costs: yes}\n")},
		"imports/autumn.md": {Data: []byte("---\nseason: 2025 autumn\nexporter: exporter A\ndispatched: 2025-09-01\narrived: 2025-09-08\ncosts: {freight: 40 EUR}\n---\n")},
		"imports/spring.md": {Data: []byte("---\nseason: 2026 spring\nexporter: exporter B\ndispatched: 2026-03-05\narrived: 2026-03-09\n---\n")},
		"check-ins/a.md":    {Data: []byte("---\ndate: 2025-09-12\nspecimens:\n  a-1: lost rot\n  a-2: same\n---\n")},
		"check-ins/b.md":    {Data: []byte("---\ndate: 2025-12-01\nspecimens:\n  a-2: new root\n---\n")},
		"check-ins/c.md":    {Data: []byte("---\ndate: 2026-03-29\nspecimens:\n  b-1: lost cold\n  b-2: new root\n  b-3: same\n---\n")},
		"check-ins/d.md":    {Data: []byte("---\ndate: 2026-04-08\nspecimens:\n  b-2: same\n  b-3: same\n---\n")},
	}
	for id, im := range map[string]string{"a-1": "autumn", "a-2": "autumn", "b-1": "spring", "b-2": "spring", "b-3": "spring"} {
		files["specimens/"+id+".md"] = &fstest.MapFile{Data: []byte("---\nname: Hoya siariae\nimport: " + im + "\nprice: 10 EUR\n---\n")}
	}
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	d = d.Shown(content.ShowOptions{On: measure.NoDay})
	return view{s: &site{Inputs: Inputs{Diary: d, Cohort: cohort.At(d, measure.NoDay)}}, Path: "seasons/x.html"}
}

// A running season is set beside the one before it on the day that both have
// reached, as counts of all their lines.
func TestWhatChangedFromTheSeasonBefore(t *testing.T) {
	v := twoBoxes(t)
	d := v.season("2026 spring")
	require.NotNil(t, d.Changed)
	assert.Equal(t, "2025 autumn", d.Changed.Before)
	assert.Equal(t, []changedRow{
		{"came", "2 plants in 1 import", "3 plants in 1 import"},
		{"exporter", "exporter A", "exporter B"},
		{"days on the way", "7", "4"},
		{"known alive on day 30", "1 of 2", "2 of 3"},
		{"lost by day 30", "1 of 2", "1 of 3"},
		{"causes by day 30", "rot 1", "cold 1"},
		{"new root seen by day 30", "0 of 2", "1 of 3"},
	}, d.Changed.Rows)
	assert.Equal(t, "By day 30 (the day that both have reached), 2 of 3 were known alive and one lost, against one alive and one lost of two. Whatever else differed between the parcels is in this difference.", d.Changed.Says)
	assert.True(t, d.Costs)
	autumn := v.season("2025 autumn")
	assert.Nil(t, autumn.Changed)
	assert.Equal(t, costWords{Landed: "60.00 EUR", Each: "day 42: 60.00 EUR", Last: "day 84: 60.00 EUR"}, autumn.Came[0].costWords)
}

func TestASeasonAlone(t *testing.T) {
	s := box(t, 3, "0: all", "9: p-1: lost rot / others", "45: others")
	d := s.v.season("2026 spring")
	assert.Equal(t, "One of the three is lost. Two are alive on day 45.", d.Says)
	require.Len(t, d.Came, 1)
	assert.Equal(t, "3 plants", d.Came[0].Count)
	assert.Equal(t, "2 of 3", d.Came[0].Alive)
	assert.Equal(t, "exporter A & sons, Taiwan", d.Came[0].From)
	assert.False(t, d.Costs, "the diary publishes none")
	assert.Nil(t, d.Changed, "there was none before")
	assert.Equal(t, 1, d.Lost)
	none := s.v.season("2030 spring")
	assert.Empty(t, none.Came)
	assert.Empty(t, none.Says)
	assert.Equal(t, []string{"2026 spring"}, s.v.s.seasonLabels())
}

// An import bought nearby has a season's page, and stands in no figures there.
func TestASeasonOfOneImportApart(t *testing.T) {
	s := box(t, 2, "0: all")
	s.v.s.Diary.Imports[0].Local = true
	d := s.v.season("2026 spring")
	assert.Equal(t, "None of its imports stands in figures with others.", d.Says)
	assert.Equal(t, "2 plants, bought nearby, so apart", d.Came[0].Count)
	assert.Nil(t, d.Reached)
	assert.Equal(t, "followed from later than its arrival, so apart", apartWord(&content.Import{}))
}
