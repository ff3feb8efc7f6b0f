package source

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNearest(t *testing.T) {
	keys := []string{"specimen", "specimens", "place", "turgor", "roots", "leaves", "rot", "to", "b26-01", "b26-02", "b26-12"}
	for _, c := range []struct{ word, want string }{
		{"turgr", "turgor"}, {"trugor", "turgor"}, {"Turgor", "turgor"}, {"specimin", "specimen"}, {"leafs", "leaves"},
		{"temperature", ""}, {"x", ""}, {"", ""}, {"place", ""}, {"plaice", "place"}, {"b26-1", "b26-01"},
		{"roost", "roots"},
	} {
		assert.Equal(t, c.want, Nearest(c.word, keys), c.word)
	}
}

// slow is the restricted Damerau–Levenshtein distance by its definition, as a
// recursion (Boytsov 2011, "Indexing methods for approximate dictionary
// searching", eq. 2.2, from memory).
func slow(a, b []rune) int {
	switch {
	case len(a) == 0:
		return len(b)
	case len(b) == 0:
		return len(a)
	}
	cost := 1
	if a[len(a)-1] == b[len(b)-1] {
		cost = 0
	}
	d := min(slow(a[:len(a)-1], b)+1, slow(a, b[:len(b)-1])+1, slow(a[:len(a)-1], b[:len(b)-1])+cost)
	if n, m := len(a), len(b); n > 1 && m > 1 && a[n-1] == b[m-2] && a[n-2] == b[m-1] {
		d = min(d, slow(a[:n-2], b[:m-2])+1)
	}
	return d
}

func TestDistanceAgreesWithItsDefinition(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	word := func() []rune {
		w := make([]rune, r.IntN(7))
		for i := range w {
			w[i] = rune('a' + r.IntN(3))
		}
		return w
	}
	var buffer []int
	for range 3000 {
		a, b := word(), word()
		want := slow(a, b)
		assert.Equal(t, want, distance(a, b, 99, &buffer), "%s %s", string(a), string(b))
		for limit := range 4 {
			assert.Equal(t, min(want, limit+1), distance(a, b, limit, &buffer), "%s %s limit %d", string(a), string(b), limit)
		}
	}
	// Published pairs: Levenshtein's own is from memory of every textbook.
	assert.Equal(t, 3, distance([]rune("kitten"), []rune("sitting"), 9, &buffer))
	assert.Equal(t, 3, distance([]rune("ca"), []rune("abc"), 9, &buffer)) // 2 without the restriction
}

// Words that have nothing to do with a diary's get no offer.
func TestUnrelatedWordsGetNoOffer(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	keys := strings.Fields("date specimen place to medium roots leaves turgor resting rot pests soak did reading note photos outcome cause cut-into arrival quarantine-until last-good by specimens others not-seen event since unfinished private amended")
	offered := 0
	for range 500 {
		var b strings.Builder
		for range 5 + r.IntN(6) {
			b.WriteByte("jkqvwxyzghfu"[r.IntN(12)])
		}
		if Nearest(b.String(), keys) != "" {
			offered++
		}
	}
	assert.Zero(t, offered)
}

func BenchmarkNearest(b *testing.B) {
	var names []string
	for i := range 500 {
		names = append(names, fmt.Sprintf("b%02d-%02d", i%30, i))
	}
	for b.Loop() {
		Nearest("b29-3", names)
	}
}
