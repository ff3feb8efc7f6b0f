package content

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
	"wardian/content/source"
)

// slips are all single slips of the finger: a letter left out, doubled, swapped
// with the next, or hit beside its key.
func slips(word string) []string {
	var out []string
	for i := range len(word) {
		out = append(out, word[:i]+word[i+1:], word[:i+1]+word[i:], word[:i]+"j"+word[i+1:], word[:i]+"w"+word[i:])
		if i+1 < len(word) && word[i] != word[i+1] {
			out = append(out, word[:i]+word[i+1:i+2]+word[i:i+1]+word[i+2:])
		}
	}
	return out
}

// A single slip in a key, a word or an ID of four letters or more gets the right
// one offered first, in 97 of 100 cases at least; a slip that makes another of
// the words is no slip. Shorter ones can't: one letter is too large a part of
// them (source.Nearest).
func TestSlipsGetTheRightWord(t *testing.T) {
	tried, right := 0, 0
	try := func(words []string) {
		for _, w := range words {
			if len(w) < 4 {
				continue
			}
			for _, slip := range slips(w) {
				if slices.Contains(words, slip) {
					continue
				}
				tried++
				if source.Nearest(slip, words) == w {
					right++
				}
			}
		}
	}
	var keys func(list []format.Key)
	keys = func(list []format.Key) {
		try(format.Names(list))
		for _, k := range list {
			try(k.Value.WordList())
			if k.Value.Item != nil {
				try(k.Value.Item.WordList())
			}
			keys(k.Value.Keys)
		}
	}
	for _, f := range format.Files() {
		keys(f.Keys)
	}
	require.Greater(t, tried, 4000)
	assert.GreaterOrEqual(t, float64(right), 0.97*float64(tried), "%d of %d", right, tried)
	t.Logf("keys and words: %d of %d", right, tried)

	// IDs of a diary are words with numbers; places are words.
	tried, right = 0, 0
	try([]string{"tote", "cabinet", "kitchen-sill", "living-room", "cool-tote", "soak-tub"})
	var imports []string
	for _, year := range []int{2024, 2025, 2026} {
		for i, season := range []string{"spring", "autumn"} {
			imports = append(imports, fmt.Sprintf("%d-%s-%c", year, season, 'a'+i))
		}
	}
	try(imports)
	assert.GreaterOrEqual(t, float64(right), 0.97*float64(tried), "%d of %d", right, tried)
}
