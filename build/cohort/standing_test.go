package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/measure"
)

func ids(parts []*Part) (out []string) {
	for _, p := range parts {
		out = append(out, p.Specimen.ID)
	}
	return out
}

func day(t *testing.T, text string) measure.Day {
	t.Helper()
	d, trouble := measure.ParseDay(text)
	require.Nil(t, trouble)
	return d
}

func TestStandingIsTheOrderOfTheLastRoundThere(t *testing.T) {
	arrival := checkIn("2026-03-09", "place: bin\nspecimens: {p-1: firm, p-2: firm, p-3: soft}")
	for _, c := range []struct {
		name, later string
		until       string
		bin, shelf  []string
	}{
		{"as unpacked", "", "2026-03-20", []string{"p-1", "p-2", "p-3"}, nil},
		{"the last round turned it", checkIn("2026-03-11", "place: bin\nspecimens: {p-3: same, p-1: same, p-2: same}"), "2026-03-20", []string{"p-3", "p-1", "p-2"}, nil},
		{"but not before that round", checkIn("2026-03-11", "place: bin\nspecimens: {p-3: same, p-1: same, p-2: same}"), "2026-03-10", []string{"p-1", "p-2", "p-3"}, nil},
		{"a round that names one in three says nothing of the order", checkIn("2026-03-11", "place: bin\nspecimens: {p-3: limp}\nothers: same"), "2026-03-20", []string{"p-1", "p-2", "p-3"}, nil},
		{"empty lines and not-seen name, too", checkIn("2026-03-11", "place: bin\nspecimens: {p-3: , p-2: firm}\nnot-seen: [p-1]"), "2026-03-20", []string{"p-3", "p-2", "p-1"}, nil},
		{"who is lost stands nowhere", checkIn("2026-03-11", "place: bin\nspecimens: {p-2: lost rot}\nothers: same"), "2026-03-20", []string{"p-1", "p-3"}, nil},
		{"who moved stands there, the first to come first", checkIn("2026-03-11", "place: bin\nspecimens: {p-2: to shelf}") +
			checkIn("2026-03-12", "place: bin\nspecimens: {p-1: to shelf}"), "2026-03-20", []string{"p-3"}, []string{"p-2", "p-1"}},
		{"a section comes behind", checkIn("2026-03-11", "specimen: p-1\ncut-into: {p-1: base, p-1a: top}"), "2026-03-20", []string{"p-1", "p-2", "p-3", "p-1a"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := readDiary(t, home+arrival+c.later)
			at := At(d, day(t, c.until))
			assert.Equal(t, c.bin, ids(at.Standing(d.Place("bin"))))
			assert.Equal(t, c.shelf, ids(at.Standing(d.Place("shelf"))))
			places, plants := at.Occupied()
			require.NotEmpty(t, places)
			assert.Equal(t, "bin", places[0].ID)
			assert.Equal(t, len(c.bin), plants[0])
			assert.Len(t, places, 1+min(len(c.shelf), 1))
		})
	}
}

func TestKnownWordsAreTheLastFigures(t *testing.T) {
	for _, c := range []struct {
		name    string
		entries []string
		want    string
	}{
		{"nothing", []string{"same"}, ""},
		{"the last of each", []string{"firm, leaves 4 13x6 12x6, roots 1 longest 2", "soft"}, "soft, leaves 4 13x6 12x6, roots 1 longest 2"},
		{"a leaf fell", []string{"leaves 4 13x6 12x6", "dropped 1"}, "leaves ~3"},
		{"a new leaf uncounted", []string{"leaves 4", "new leaf"}, ""},
		{"and counted again", []string{"leaves 4", "new leaf", "leaves 5"}, "leaves 5"},
		{"counted again, sizes as they were", []string{"leaves 2 13x6 12x6", "leaves 2"}, "leaves 2 13x6 12x6"},
		{"fewer leaves than sizes", []string{"leaves 2 13x6 12x6", "leaves 1"}, "leaves 1"},
		{"a grade is carried", []string{"roots 2 longest 3", "{roots: {longest: 5 cm}}"}, "roots 2 longest 5"},
		{"lengths of another day aren't", []string{"roots 2 longest 3", "roots 3 count 4"}, "roots 3 count 4"},
		{"never graded", []string{"{roots: {longest: 5 cm}}"}, "roots ? longest 5"},
		{"a first root", []string{"roots 0", "new root"}, ""},
		{"one root more", []string{"roots 2 longest 3", "new root"}, "roots 2 longest 3"},
		{"roots cut", []string{"roots 2 longest 3", "cut 50% roots"}, ""},
		{"rot stays", []string{"rot stem, limp", "same"}, "limp, rot stem"},
		{"rot is gone", []string{"rot stem, limp", "no rot"}, "limp"},
		{"at rest", []string{"resting, leaves 0", "same"}, "resting, leaves 0"},
		{"pests in words of one's own", []string{`{pests: "scale, few", turgor: firm}`}, "firm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := home
			for i, e := range c.entries {
				text += checkIn("2026-03-1"+string(rune('0'+i)), "place: bin\nspecimens:\n  p-1: "+e)
			}
			at := At(readDiary(t, text), measure.NoDay)
			assert.Equal(t, c.want, at.Part("p-1").KnownWords(measure.Units{}))
		})
	}
}

func TestLastReadingIsOfItsPlaceAndDay(t *testing.T) {
	d := readDiary(t, home+
		checkIn("2026-03-09", "place: bin\nreading: 24 C 98%\nspecimens: {p-1: firm}")+
		checkIn("2026-03-11", "place: bin\nreading: 25 C 97%\nspecimens: {p-1: firm}")+
		checkIn("2026-03-12", "place: bin\nspecimens: {p-1: firm}"))
	assert.Equal(t, &content.Climate{Temperature: 25, Humidity: 97}, At(d, measure.NoDay).LastReading(d.Place("bin")))
	assert.Equal(t, &content.Climate{Temperature: 24, Humidity: 98}, At(d, day(t, "2026-03-10")).LastReading(d.Place("bin")))
	assert.Nil(t, At(d, measure.NoDay).LastReading(d.Place("shelf")))
}
