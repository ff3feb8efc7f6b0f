package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
)

// asMap gives for a plant's line in plain words the same as a map.
var asMap = []struct{ words, keys string }{
	{"firm", "turgor: firm"},
	{"soft", "turgor: soft"},
	{"limp", "turgor: limp"},
	{"resting", "resting: yes"},
	{"new root", "roots: {new: yes}"},
	{"new leaf", "leaves: {new: yes}"},
	{"new leaves", "leaves: {new: true}"},
	{"leaves 3", "leaves: {count: 3}"},
	{"leaf 1", "leaves: {count: 1}"},
	{"leaves 0", "leaves: {count: 0}"},
	{"leaves ~40", "leaves: {count: ~40}"},
	{"leaves 3 13x6 12x6", "leaves: {count: 3, sizes: [13x6, 12x6]}"},
	{"leaves 3 13x6cm ~12 x 6 cm 5x2 in", "leaves: {count: 3, sizes: [13x6 cm, ~12x6, 5x2 in]}"},
	{"dropped 1", "leaves: {dropped: 1}"},
	{"dropped 0", "leaves: {dropped: 0}"},
	{"cut 3 leaves", "leaves: {cut: 3}"},
	{"cut 1 leaf", "leaves: {cut: 1}"},
	{"cut 50% roots", "roots: {cut: 50%}"},
	{"cut ~7% roots", "roots: {cut: ~7%}"},
	{"roots 2", "roots: {grade: 2}"},
	{"roots 2 longest 4 cm", "roots: {grade: 2, longest: 4 cm}"},
	{"roots 3 longest 4cm mean ~2 count 5 length 14", "roots: {grade: 3, longest: 4 cm, mean: ~2 cm, count: 5, length: 14}"},
	{"rot roots", "rot: roots"},
	{"rot stem", "rot: stem"},
	{"rot growing point", "rot: growing point"},
	{"no rot", "rot: none"},
	{"pests thrips on two leaves", "pests: thrips on two leaves"},
	{"no pests", "pests: none"},
	{"to cabinet", "to: cabinet"},
	{"medium sphagnum moss", "medium: sphagnum moss"},
	{"lost", "outcome: lost"},
	{"lost rot", "outcome: lost, cause: rot"},
	{"lost dried out?", "outcome: lost, cause: dried out?"},
	{"lost pests", "outcome: lost, cause: pests"},
	{"lost rot and cold", "outcome: lost, cause: [rot, cold]"},
	{"lost rot and cold?", "outcome: lost, cause: [rot, cold?]"},
	{"lost rot? and heat", "outcome: lost, cause: [rot?, heat]"},
	{"lost unknown", "outcome: lost, cause: unknown"},
	{"lost other the cat", "outcome: lost, cause: other the cat"},
	{"lost other the cat?", "outcome: lost, cause: other the cat?"},
	{"established", "outcome: established"},
	{"passed on", "outcome: passed on"},
	{"; smells sour; still", "note: smells sour; still"},
	{"limp, rot stem; smells sour", "turgor: limp, rot: stem, note: smells sour"},
	{"leaves 3 13x6 12x6, roots 1 longest 2, soft", "leaves: {count: 3, sizes: [13x6, 12x6]}, roots: {grade: 1, longest: 2}, turgor: soft"},
	{"new leaf, leaves 2, cut 1 leaf, dropped 2, new root, roots 3, cut 20% roots",
		"leaves: {new: yes, count: 2, cut: 1, dropped: 2}, roots: {new: yes, grade: 3, cut: 20%}"},
	{"to cabinet, medium perlite, firm, no pests, no rot", "to: cabinet, medium: perlite, turgor: firm, pests: none, rot: none"},
}

// Plain words and the same as a map read to the same record, through the whole
// reading of a diary, and a record from either is written as words that read
// back to it.
func TestWordsAndMapReadToTheSame(t *testing.T) {
	said := map[string]bool{"same": true, "alive after all": true} // below: neither stands in this table
	for _, c := range asMap {
		d, findings := tell(t, entries("date: 2026-04-06\nplace: tote\nspecimens:\n  b26-01: \""+c.words+"\"\n  b26-02: {"+c.keys+"}"))
		require.Empty(t, errorsOf(findings), c.words)
		round := d.Entries[0]
		require.Len(t, round.Named, 2)
		words, asMap := round.Named[0], round.Named[1]
		assert.Equal(t, asMap.Facts, words.Facts, "%s\n%s", c.words, c.keys)
		for _, s := range words.Spans {
			assert.NotEqual(t, s.Span.Start, s.Span.End, "%s marks nothing in %q", s.Key, c.words)
			if s.Key != "outcome" || words.Outcome != Lost {
				assert.NotEqual(t, words.Span, asMap.Spans.Of(s.Key, words.Span), "the map has no %s", s.Key)
			}
		}
		line, err := asMap.Facts.Words(d.Settings.Units)
		require.NoError(t, err, c.keys)
		again, _, troubles := ParseWords(line, WordsEnv{Place: func(id string) (*Place, string) { return d.Place(id), "" }})
		require.Empty(t, troubles, line)
		assert.Equal(t, asMap.Facts, again, line)
		for _, phrase := range strings.Split(strings.Split(c.words, ";")[0], ",") {
			for _, p := range format.Phrases {
				for _, lead := range p.Leads {
					if strings.HasPrefix(strings.TrimSpace(phrase)+" ", lead+" ") {
						said[lead] = true
					}
				}
			}
		}
	}
	for _, p := range format.Phrases {
		for _, lead := range p.Leads {
			assert.True(t, said[lead], "%s stands in no row of this table", lead)
		}
	}
}

// alive after all needs a loss before it; same has no key: a map that says the
// same in other words is an empty look by others.
func TestAliveAfterAllInWordsAndMap(t *testing.T) {
	d := sound(t, entries("date: 2026-04-01\nspecimens: {b26-01: lost, b26-02: lost}",
		"date: 2026-04-06\nspecimens:\n  b26-01: alive after all\n  b26-02: {outcome: alive after all}"))
	assert.Equal(t, d.Entries[1].Named[1].Facts, d.Entries[1].Named[0].Facts)
	assert.Nil(t, format.Find(format.Seen, "same"))
}

// What a round says of all joins either form alike.
func TestWordsAndMapTakeWhatARoundSaysOfAll(t *testing.T) {
	d := sound(t, entries("date: 2026-04-06\nplace: tote\ndid: [aired]\nroots: {grade: 1, new: yes}\nturgor: soft\nspecimens:\n  b26-01: firm, roots 2 longest 3\n  b26-02: {turgor: firm, roots: {grade: 2, longest: 3 cm}}"))
	round := d.Entries[0]
	assert.Equal(t, round.Named[1].Facts, round.Named[0].Facts)
	assert.Equal(t, Firm, round.Named[0].Turgor)
	assert.Equal(t, []string{"aired"}, round.Named[0].Did)
}
