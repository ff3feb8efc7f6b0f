package search

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
)

var today, _ = measure.Date(2026, 12, 31)

// diary is the small sound diary with these files laid over it.
func diary(t testing.TB, more string) (*content.Diary, fstest.MapFS) {
	t.Helper()
	base, err := txtar.ParseFile("../../testdata/diaries/sound.txtar")
	require.NoError(t, err)
	files := fstest.MapFS{}
	for _, f := range append(base.Files, txtar.Parse([]byte(more)).Files...) {
		files[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	d, report, err := content.Load(files, content.Options{Today: today})
	require.NoError(t, err)
	for _, f := range report.Findings() {
		require.Fail(t, f.Long())
	}
	return d, files
}

const written = `
-- check-ins/2026-04-06.md --
---
date: 2026-04-06
place: tote
did: [aired, dusted with cinnamon]
note: springtails in all of them
specimens:
  b26-01: firm; springtails on the moss, harmless
  b26-02: {pests: Springtails, note: "says, sour"}
  b26-03: lost other dried by the heater
private: {note: springtails that nobody may know of}
---
Condensation on the lid. See [springtails](specimens/b26-01) below. One more
line about *springtails*? Springtails again[^1].

[^1]: Springtails eat mould.

## b26-02
Ingen **spretthaler** på bøttå. Crème brûlée is no plant.
-- check-ins/2026-03-29.md --
---
date: 2026-03-29 18:30
place: tote
event: springtails everywhere
---
-- updates/one.md --
---
title: Springtails and I
date: 2026-04-20
amended: {2026-04-22: "the springtails were mites"}
---
First words.

## Springtails, a love story
More words.
-- specimens/b26-03.md --
---
name: Macodes petola
import: 2026-spring-b
---
Springtails were in its pot.
`

func told(found []Found) string {
	var b strings.Builder
	for _, f := range found {
		fmt.Fprintf(&b, "%s %s:%d:%d %s %s %v %s: %s\n", f.When, f.File, f.Line, f.Column, f.Kind, f.In, f.Specimens, f.Place, f.Sentence)
	}
	return b.String()
}

func TestFindNamesFileDayAndSpecimen(t *testing.T) {
	d, _ := diary(t, written)
	q, ok := Look([]string{"springtails"})
	require.True(t, ok)
	assert.Equal(t, strings.TrimLeft(`
2026-04-22 updates/one.md:4:28 update amended [] : the springtails were mites
2026-04-20 updates/one.md:2:8 update title [] : Springtails and I
2026-04-20 updates/one.md:8:4 update words [] : Springtails, a love story
2026-04-06 check-ins/2026-04-06.md:5:7 round remark [] tote: springtails in all of them
2026-04-06 check-ins/2026-04-06.md:7:17 round remark [b26-01] tote: springtails on the moss, harmless
2026-04-06 check-ins/2026-04-06.md:8:19 round pests [b26-02] tote: Springtails
2026-04-06 check-ins/2026-04-06.md:12:31 round words [] tote: See springtails below.
2026-04-06 check-ins/2026-04-06.md:13:13 round words [] tote: One more line about springtails?
2026-04-06 check-ins/2026-04-06.md:13:27 round words [] tote: Springtails again.
2026-04-06 check-ins/2026-04-06.md:15:7 round words [] tote: Springtails eat mould.
2026-03-29 18:30 check-ins/2026-03-29.md:4:8 place note event [] tote: springtails everywhere
 specimens/b26-03.md:5:1 specimen words [b26-03] : Springtails were in its pot.
`, "\n"), told(Find(d, q, Only{})))
	assert.Equal(t, 2, len(Find(d, q, Only{Specimen: "b26-01"}))+len(Find(d, q, Only{Specimen: "b26-02"})))
	for _, f := range Find(d, q, Only{Place: "tote"}) {
		assert.Equal(t, "tote", f.Place)
	}
}

func TestWhatIsAWord(t *testing.T) {
	d, _ := diary(t, written)
	for _, c := range []struct {
		look []string
		want int
	}{
		{[]string{"SPRETTHALER"}, 1},
		{[]string{"botta"}, 1}, {[]string{"BØTTÅ"}, 1}, {[]string{"creme", "brulee"}, 1},
		{[]string{"creme brulee"}, 1}, {[]string{"brulee creme"}, 0}, {[]string{"brulee", "creme"}, 1},
		{[]string{"tails"}, 0}, // only at a word's beginning
		{[]string{"cinnamon"}, 1}, {[]string{"dried by"}, 1}, {[]string{"on the lid"}, 1},
		{[]string{"condensation", "springtails"}, 0}, // of two sentences
		{[]string{"nobody may"}, 0},                  // private
		{[]string{"b26"}, 0},                         // where a link leads is no word
	} {
		q, ok := Look(c.look)
		require.True(t, ok)
		assert.Len(t, Find(d, q, Only{}), c.want, "%q:\n%s", c.look, told(Find(d, q, Only{})))
	}
	for _, nothing := range [][]string{nil, {""}, {" - "}, {"?", "!"}} {
		_, ok := Look(nothing)
		assert.False(t, ok, "%q", nothing)
	}
}

// In the example, every word of every find's sentence leads back to its own
// line: the line named holds what was looked for.
func TestFindsStandWhereTheySay(t *testing.T) {
	d, _, err := content.Load(example.Files(), content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	tried := 0
	for _, look := range []string{"root", "moss", "leaf", "the", "rot", "lid", "soaked", "firm"} {
		q, _ := Look([]string{look})
		for _, f := range Find(d, q, Only{}) {
			data, err := example.Files().Open(f.File)
			require.NoError(t, err)
			info, _ := data.Stat()
			text := make([]byte, info.Size())
			_, err = data.Read(text)
			require.NoError(t, err)
			data.Close()
			line := []rune(strings.Split(string(text), "\n")[f.Line-1])
			require.LessOrEqual(t, f.Column, len(line))
			tried++
			assert.True(t, strings.HasPrefix(strings.ToLower(string(line[f.Column-1:])), look), "%s:%d:%d %q: %s", f.File, f.Line, f.Column, look, f.Sentence)
		}
	}
	require.Greater(t, tried, 100)
}

// Whatever the texts are, folding ends and words lie in the text.
func FuzzSplit(f *testing.F) {
	f.Add("Bøttå × 3, crème")
	f.Add("e\u0301 ß Ǆ İ")
	f.Fuzz(func(t *testing.T, text string) {
		for _, w := range split(text) {
			if w.at < 0 || w.at >= len(text) || w.text == "" {
				t.Fatalf("%q: %+v", text, w)
			}
		}
	})
}
