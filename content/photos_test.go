package content

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wardian/content/measure"
)

func TestDayInAPath(t *testing.T) {
	for path, want := range map[string]string{
		"photos/2026-04-06/b26-03-2.jpg":            "2026-04-06",
		"photos/b26-03/2026-04-06.jpg":              "2026-04-06",
		"photos/2026-04-06_b26-03.jpg":              "2026-04-06",
		"photos/2026-04-06/2026-04-05-b26-03.jpg":   "2026-04-05", // the name knows better than the folder
		"photos/2026-02-30/b26-03.jpg":              "",           // no such day
		"photos/2026-02-30/2026-04-06.jpg":          "2026-04-06",
		"photos/12026-04-06/b26-03.jpg":             "", // part of something longer
		"photos/2026-04-067/b26-03.jpg":             "",
		"photos/x2026-04-06.jpg":                    "",
		"photos/2026/04/b26-03.jpg":                 "",
		"photos/tote.jpg":                           "",
		"":                                          "",
		"photos/2026-04-06-2026-04-07-2026-04.jpeg": "2026-04-07",
	} {
		d, ok := dayInPath(path)
		assert.Equal(t, want, d.String(), path)
		assert.Equal(t, want != "", ok, path)
	}
}

func TestIDInAPath(t *testing.T) {
	known := map[string]bool{"b26-03": true, "b26-03-2": true, "b26-0": true, "b26": true, "a": true, "2026": true, "04": true, "photos": true, "c26-03": true}
	for path, want := range map[string]string{
		"photos/2026-04-06/b26-03.jpg":            "b26-03",
		"photos/2026-04-06/b26-03-1.jpg":          "b26-03",
		"photos/2026-04-06/b26-03-2.jpg":          "b26-03-2", // the longest first
		"photos/2026-04-06/b26-03-22.jpg":         "b26-03",
		"photos/2026-04-06/b26-031.jpg":           "b26", // whole: not b26-03, and not b26-0
		"photos/2026-04-06/xb26-03.jpg":           "",
		"photos/2026-04-06/B26-03.JPG":            "b26-03",
		"photos/c26-03/2026-04-06/b26-03.jpg":     "b26-03", // equally long: the last
		"photos/c26-03/2026-04-06.jpg":            "c26-03",
		"photos/2026-04-06-b26-03_top_view.jpeg":  "b26-03",
		"photos/2026-04-06/table.jpg":             "", // 2026 and 04 aren't searched for in the day
		"photos/2026-04-06/a photo of nobody.jpg": "a",
		"photos/2026-04-06/b26-03-2026-04-06.jpg": "b26-03",
	} {
		assert.Equal(t, want, idInPath(path, 8, func(id string) bool { return known[id] }), path)
	}
}

// Photos that nobody names join that day's last look of that plant.
func TestPhotosBelongByTheirPath(t *testing.T) {
	photo := func(path string) string { return "-- photos/" + path + " --\nno picture, but a file\n" }
	d := sound(t,
		photo("2026-03-09/b26-01.jpg"), photo("2026-03-09/b26-01-2.jpg"), photo("2026-03-10/b26-01.jpg"),
		photo("2026-03-12/b26-02a.jpg"), photo("2026-03-12/b26-02.jpg"), photo("2026-03-12/b26-03.jpg"), photo("2026-03-14/b26-02.jpg"),
		photo("named/2026-03-09-b26-01.jpg"), photo("2026-03-09/round.jpg"),
		entries(
			"date: 2026-03-09\nplace: tote\nphotos: [2026-03-09/round.jpg]\nspecimens: {b26-01: firm, b26-02: soft, b26-03: limp}",
			"date: 2026-03-09 18:00\nspecimen: b26-01\nturgor: soft",
			"date: 2026-03-12\nspecimen: b26-02\ncut-into: {b26-02: base, b26-02a: top}",
			"date: 2026-03-12 20:00\nplace: tote\nothers: same\nnot-seen: [b26-01]",
			"date: 2026-03-15\nspecimen: b26-02\nphotos: [named/2026-03-09-b26-01.jpg]",
		))
	got := map[string][]string{}
	for _, l := range d.Timelines(measure.NoDay).List {
		for _, look := range l.Looks {
			for _, p := range look.Photos {
				key := l.Specimen.ID + " " + look.When.String()
				got[key] = append(got[key], p.Path)
			}
		}
	}
	assert.Equal(t, map[string][]string{
		"b26-01 2026-03-09 18:00":  {"photos/2026-03-09/b26-01-2.jpg", "photos/2026-03-09/b26-01.jpg"},
		"b26-02 2026-03-12 20:00":  {"photos/2026-03-12/b26-02.jpg"},
		"b26-02a 2026-03-12 20:00": {"photos/2026-03-12/b26-02a.jpg"},
		"b26-03 2026-03-12 20:00":  {"photos/2026-03-12/b26-03.jpg"},
		"b26-02 2026-03-15":        {"photos/named/2026-03-09-b26-01.jpg"}, // named is named, whatever its path
	}, got, "none on 10 and 14 March, when nobody looked; the round's own stays the round's")
	assert.Empty(t, d.Entries[1].Named[0].Photos, "what was read isn't changed")
}
