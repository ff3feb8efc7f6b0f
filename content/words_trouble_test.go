package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
	"wardian/content/measure"
)

// troubleCases tells for a line which characters are underlined, the code, and
// a part of the message and of the hint.
var troubleCases = []struct {
	text, under, code, message, hint string
}{
	{"roots 1 longest 1,5", "1,5", "comma-in-number", "a comma inside a number", "write 1.5"},
	{"leaves 1 12,5x8", "12,5", "comma-in-number", "a comma inside a number", "write 12.5"},
	{"leaves 1 12x8,5 cm, soft", "8,5", "comma-in-number", "a comma inside a number", "write 8.5"},
	{"roots 1 longest 1, 5", "5", "unknown-phrase", "a comma inside a phrase", "leave the comma out: roots 1 longest 1.5"},
	{"leaves 2 13x6,12x6", ",", "comma-in-number", "a comma between the measures of one phrase", "leave the comma out: 13x6 12x6"},
	{"leaves 2,13x6", ",", "comma-in-number", "a comma between the measures of one phrase", "leave the comma out: 2 13x6"},
	{"leaves 2 13x6, 12x6", "12x6", "unknown-phrase", "a comma inside a phrase", "leave the comma out: leaves 2 13x6 12x6"},
	{"leaves 2,5", "2,5", "comma-in-number", "a comma inside a number", ""},
	{"frim", "frim", "unknown-phrase", `"frim" isn't a phrase`, "nearest: firm"},
	{"Firm", "Firm", "unknown-phrase", `"Firm" isn't a phrase`, "nearest: firm"},
	{"firm, laeves 3", "laeves", "unknown-phrase", `"laeves 3" isn't a phrase`, "nearest: leaves"},
	{"new roots", "new roots", "unknown-phrase", `"new roots" isn't a phrase`, "nearest: new root"},
	{"root 2", "root", "unknown-phrase", `"root 2" isn't a phrase`, "nearest: roots"},
	{"alive aftr all", "alive aftr all", "unknown-phrase", "isn't a phrase", "nearest: alive after all"},
	{"no roots", "no roots", "unknown-phrase", "isn't a phrase", "write roots 0"},
	{"no leaves", "no leaves", "unknown-phrase", "isn't a phrase", "write leaves 0"},
	{"firm, smells sour", "smells sour", "unknown-phrase", `"smells sour" isn't a phrase`, "put it at the end as a remark: ; smells sour"},
	{"limp rot stem", "rot stem", "words-after-phrase", `words behind "limp"`, "put a comma between: limp, rot stem"},
	{"limp (a little)", "(a little)", "words-after-phrase", `words behind "limp"`, "put a remark at the end: limp; (a little)"},
	{"firm, firm", "firm", "phrase-twice", `"firm" is given twice`, "leave one of them out"},
	{"firm, soft", "soft", "phrase-twice", `"soft" beside "firm"`, "leave one of them out"},
	{"lost, alive after all", "alive after all", "phrase-twice", `"alive after all" beside "lost"`, "leave one of them out"},
	{"roots 2 longest 3 longest 4", "longest 4", "phrase-twice", "longest is given twice", "leave one of them out"},
	{"same, firm", "same", "same-beside-more", `same beside "firm"`, "leave out same"},
	{"firm,, resting", ",", "empty-phrase", "a comma with no phrase beside it", "leave the comma out"},
	{"firm,", ",", "empty-phrase", "a comma with no phrase beside it", "leave the comma out"},
	{", firm", ",", "empty-phrase", "a comma with no phrase beside it", "leave the comma out"},
	{"leaves", "leaves", "phrase-unfinished", "lacks the words that belong to it", ""},
	{"leaves 13x6", "13x6", "phrase-unfinished", "the number of leaves is missing", ""},
	{"leaves three", "three", "not-a-number", `"three" isn't a number`, ""},
	{"leaves 2.0", "2.0", "not-a-number", "a count is a whole number", "write 2"},
	{"leaves 2 13x6 cm 12x", "x", "not-a-size", "the width is missing", ""},
	{"dropped 1 leaf", "leaf", "words-after-phrase", "what dropped is leaves already", "leave it out: dropped 1"},
	{"dropped ~2", "~", "not-a-number", "takes no tilde", "write 2"},
	{"cut 3", "cut 3", "phrase-unfinished", "lacks the words", ""},
	{"cut leaves 3", "leaves 3", "unknown-word", "the figure stands before what was cut", "write 3 leaves"},
	{"cut 3 laeves", "laeves", "unknown-word", `"laeves" can't be cut`, "nearest: leaves"},
	{"cut 50 roots", "50", "not-a-share", "a share needs its %", "write 50%"},
	{"roots longest 4", "longest", "phrase-unfinished", "the grade is missing", ""},
	{"roots 7", "7", "not-a-grade", "a grade is between 0 and 5", ""},
	{"roots 2 longset 4", "longset", "unknown-word", "is no measure of roots", "nearest: longest"},
	{"roots 2 longest", "longest", "phrase-unfinished", "lacks the words", ""},
	{"roots 2 longest 4 kg", "kg", "not-a-length", "isn't a unit of length", ""},
	{"rot", "rot", "phrase-unfinished", "lacks the words", ""},
	{"rot stme", "stme", "unknown-word", `rot isn't told apart at "stme"`, "nearest: stem"},
	{"rot none", "rot none", "unknown-word", "written in maps only", "write no rot"},
	{"pests none", "pests none", "unknown-word", "written otherwise", "write no pests"},
	{"pests", "pests", "phrase-unfinished", "lacks the words", ""},
	{"medium", "medium", "phrase-unfinished", "lacks the words", ""},
	{"to", "to", "phrase-unfinished", "lacks the words", ""},
	{"to cabinte", "cabinte", "unknown-id", `there is no place "cabinte"`, "nearest: cabinet"},
	{"to the moon", "the moon", "unknown-id", `there is no place "the moon"`, ""},
	{"lost rott", "rott", "not-a-cause", `"rott" isn't a listed cause`, "nearest: rot"},
	{"lost eaten by a cat", "eaten by a cat", "not-a-cause", "isn't a listed cause", "write other eaten by a cat"},
	{"lost rot and eaten", "eaten", "not-a-cause", `"eaten" isn't a listed cause`, "write other eaten"},
	{"lost rot and rot?", "rot?", "not-a-cause", "the same cause twice", "leave one of them out"},
	{"lost ?", "?", "not-a-cause", "the cause isn't said", ""},
	{"lost other", "other", "not-a-cause", "the cause isn't said", ""},
}

func TestTroubleInWords(t *testing.T) {
	for _, c := range troubleCases {
		_, _, troubles := ParseWords(c.text, env(metric))
		if assert.Len(t, troubles, 1, "%q: one cause, one finding", c.text) {
			got := troubles[0]
			assert.Equal(t, c.under, string([]rune(c.text)[got.Start:got.End]), c.text)
			assert.Equal(t, c.code, got.Code, c.text)
			assert.Contains(t, got.Message, c.message, c.text)
			assert.Contains(t, got.Hint, c.hint, c.text)
			assert.NotEmpty(t, got.Hint, "%q: every refusal offers a next step", c.text)
			assert.NotEmpty(t, got.Expected, c.text)
		}
	}
}

// A hint that says what to write is followed: what comes out is read.
func TestHintsInWordsMendTheLine(t *testing.T) {
	followed := 0
	for _, c := range troubleCases {
		_, _, troubles := ParseWords(c.text, env(metric))
		chars := []rune(c.text)
		for _, by := range []string{"write ", "nearest: "} {
			mend, ok := strings.CutPrefix(troubles[0].Hint, by)
			if !ok {
				continue
			}
			mended := string(chars[:troubles[0].Start]) + mend + string(chars[troubles[0].End:])
			_, _, left := ParseWords(mended, env(metric))
			assert.Empty(t, left, "%q, mended as told: %q", c.text, mended)
			followed++
		}
	}
	assert.Greater(t, followed, 20)
}

func TestAllTroublesOfALineAreTold(t *testing.T) {
	text := "frim, roots 9, to tpte, leaves 1 2,5x2; a remark, with a comma"
	got, _, troubles := ParseWords(text, env(metric))
	require.Len(t, troubles, 4)
	assert.Equal(t, "a remark, with a comma", got.Note)
	assert.Equal(t, []measure.Figure[measure.Size]{leafSize(2.5, 2)}, got.Leaves.Sizes, "read as it was meant")
}

// At least 97 in 100 misspellings by one edit of the words that phrases open
// with are offered those words (standards B14). Words of two or three letters
// are left out: the rule of nearness offers nothing at so short a distance.
func TestMisspeltPhrasesFindTheirWord(t *testing.T) {
	tried, found := 0, 0
	var missed []string
	for _, p := range format.Phrases {
		lead := p.Leads[0]
		if len(lead) < 4 {
			continue
		}
		for _, wrong := range singleEdits(lead) {
			_, _, troubles := ParseWords(wrong+strings.TrimPrefix(p.Example, lead), env(metric))
			if strings.TrimSpace(wrong) != wrong || len(troubles) == 0 { // another word than this one
				continue
			}
			tried++
			if troubles[0].Hint == "nearest: "+lead || strings.Contains(troubles[0].Hint, ", "+lead) {
				found++
			} else {
				missed = append(missed, wrong+" ("+troubles[0].Hint+")")
			}
		}
	}
	require.Greater(t, tried, 3000)
	assert.GreaterOrEqual(t, float64(found)/float64(tried), 0.97, "%v", missed)
}

func singleEdits(word string) (out []string) {
	for i := range len(word) {
		out = append(out, word[:i]+word[i+1:])
		if i+1 < len(word) && word[i] != word[i+1] {
			out = append(out, word[:i]+string(word[i+1])+string(word[i])+word[i+2:])
		}
		for c := 'a'; c <= 'z'; c++ {
			out = append(out, word[:i]+string(c)+word[i:])
			if byte(c) != word[i] {
				out = append(out, word[:i]+string(c)+word[i+1:])
			}
		}
	}
	return out
}
