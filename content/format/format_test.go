package format

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var codeName = regexp.MustCompile(`^[a-z]+(-[a-z0-9]+)*$`)

// Each key explains itself: what it is, with an example and what holds without
// it; each list of words explains its words.
func TestKeysExplainThemselves(t *testing.T) {
	seen := 0
	var check func(t *testing.T, keys []Key)
	check = func(t *testing.T, keys []Key) {
		names := map[string]bool{}
		for _, k := range keys {
			seen++
			assert.Regexp(t, codeName, k.Name)
			assert.False(t, names[k.Name], "%s stands twice", k.Name)
			names[k.Name] = true
			assert.NotEmpty(t, k.Example, k.Name)
			assert.True(t, strings.HasSuffix(k.About, "."), "%s: %q is no sentence", k.Name, k.About)
			assert.False(t, k.Required && k.Default != "", "%s is required and has a default", k.Name)
			v := &k.Value
			for ; v != nil; v = v.Item {
				assert.NotEmpty(t, v.Kind.Expected(), k.Name)
				for _, w := range v.Words {
					assert.NotEmpty(t, w.About, "%s: %s", k.Name, w.Word)
				}
				assert.False(t, v.Kind == Choice && len(v.Words) < 2, "%s has no choice", k.Name)
				assert.False(t, v.Kind == ID && v.Of == "", "%s is the ID of what?", k.Name)
				assert.False(t, (v.Kind == List || v.Kind == Table) && v.Item == nil, "%s is a list of what?", k.Name)
				assert.False(t, v.Kind == Table && v.Naming == "", "%s names what?", k.Name)
				assert.False(t, k.Past && k.Value.Kind != Day && k.Value.Kind != Moment && k.Value.Kind != HalfDay, "%s is no day", k.Name)
				if k.Name != "specimens" {
					check(t, v.Keys)
				}
			}
		}
	}
	require.NotEmpty(t, Files())
	for _, f := range Files() {
		t.Run(f.Name, func(t *testing.T) {
			assert.NotEmpty(t, f.Path)
			assert.NotEmpty(t, f.About)
			require.NotEmpty(t, f.Keys)
			check(t, f.Keys)
			if f.Name == "plate" || f.Name == "order" {
				return // a block in a file, and no file of the diary's
			}
			for _, name := range []string{"unfinished", "private", "amended"} {
				assert.NotNil(t, Find(f.Keys, name), name)
			}
		})
	}
	require.Greater(t, seen, 150)
}

func TestCodesExplainThemselves(t *testing.T) {
	require.GreaterOrEqual(t, len(Codes()), 60)
	for _, c := range Codes() {
		assert.Regexp(t, codeName, c.Name)
		assert.False(t, strings.HasSuffix(c.Title, "."), c.Name)
		assert.True(t, strings.HasSuffix(c.About, ".") || strings.HasSuffix(c.About, ")"), "%s: %q", c.Name, c.About)
		assert.NotContains(t, strings.ToLower(c.Title+c.About), "illegal")
		assert.Same(t, CodeOf(c.Name), CodeOf(c.Name))
		assert.True(t, Explained(c.Name))
	}
	assert.False(t, Explained("no-such-code"))
	assert.Panics(t, func() { CodeOf("no-such-code") })
}

// The words that plain words take are those that maps take.
func TestWordsAreTheSameInBothForms(t *testing.T) {
	var listed []string
	for _, w := range causes {
		listed = append(listed, w.Word)
	}
	assert.Equal(t, Causes, listed)
	assert.Equal(t, RotWhere, Find(Seen, "rot").Value.WordList()[1:])
	for _, p := range Phrases {
		keys := Seen
		for name := range strings.SplitSeq(p.Key, ".") {
			if p.Key == "same" {
				break // a phrase without a key: a map of nothing says the same
			}
			k := Find(keys, name)
			require.NotNil(t, k, p.Key)
			keys = k.Value.Keys
		}
	}
}

// What a check-in, a round and a place note may hold, the reader of entries
// knows.
func TestEntryJoinsTheThreeKinds(t *testing.T) {
	for _, f := range []*File{&CheckIn, &Round, &PlaceNote} {
		for _, k := range f.Keys {
			e := Find(Entry, k.Name)
			require.NotNil(t, e, k.Name)
			assert.Equal(t, k.Value.Kind, e.Value.Kind, k.Name)
		}
	}
	assert.True(t, Find(CheckIn.Keys, "specimen").Required)
	assert.False(t, Find(Entry, "specimen").Required, "joining changed the table of check-ins")
	assert.Nil(t, Find(Round.Keys, "cut-into"))
}
