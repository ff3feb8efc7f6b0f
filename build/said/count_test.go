package said

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestCountsInWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{InWords(0), "none"}, {InWords(20), "twenty"}, {InWords(21), "21"}, {InWords(-1), "-1"},
		{Noun(1, "line", "lines"), "1 line"}, {Noun(0, "line", "lines"), "0 lines"},
		{NounInWords(1, "line", "lines"), "one line"}, {NounInWords(2, "line", "lines"), "two lines"}, {NounInWords(0, "line", "lines"), "no lines"},
		{Of(9, 14), "9 of 14"}, {Percent(2.0 / 3), "67%"}, {Limits(0.344, 0.826), "34 to 83%"},
		{Upper("élan"), "Élan"}, {Lower("Ørret"), "ørret"}, {Upper(""), ""},
		{List(nil), ""}, {List([]string{"a"}), "a"}, {List([]string{"a", "b", "c"}), "a, b and c"},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

func TestImportsAgainstOneAnother(t *testing.T) {
	assert.Equal(t, "3 imports against 1", against([]int{3, 1}))
	assert.Equal(t, "1 import against 2 against 2", against([]int{1, 2, 2}))
	assert.Empty(t, against(nil))
}

func TestDifferencesAreOfAHundredPlants(t *testing.T) {
	assert.Equal(t, []string{"3 more", "3 fewer", "no more"}, []string{moreFewer(0.03), moreFewer(-0.03), moreFewer(0.001)})
}
