package scaffold

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content/measure"
)

// typist types into a text as in any plain editor, and counts every key: letters,
// and the keys that move between them. The keys are Down, Home (to the line's first
// letter), Right, and Ctrl-Right (to the end of a word), as most editors have them
// (common practice, no source). There is no search, no copying and no completion.
type typist struct {
	lines    [][]rune
	row, col int
	keys     int
}

func newTypist(text string) *typist {
	p := &typist{}
	for line := range strings.SplitSeq(text, "\n") {
		p.lines = append(p.lines, []rune(line))
	}
	return p
}

func (p *typist) line() []rune { return p.lines[p.row] }

func (p *typist) down() {
	p.keys++
	p.row++
	p.col = min(p.col, len(p.line()))
}

func (p *typist) home() {
	p.keys++
	p.col = 0
	for p.col < len(p.line()) && p.line()[p.col] == ' ' {
		p.col++
	}
}

func (p *typist) right() { p.keys++; p.col++ }

func (p *typist) word() {
	p.keys++
	in := func() bool {
		return p.col < len(p.line()) && (unicode.IsLetter(p.line()[p.col]) || unicode.IsDigit(p.line()[p.col]))
	}
	for p.col < len(p.line()) && !in() {
		p.col++
	}
	for in() {
		p.col++
	}
}

func (p *typist) types(words string) {
	for _, r := range words {
		p.keys++
		line := p.line()
		p.lines[p.row] = append(append(append([]rune{}, line[:p.col]...), r), line[p.col:]...)
		p.col++
	}
}

// behind goes to the end of a key's colon, further down.
func (p *typist) behind(key string) {
	if strings.HasPrefix(strings.TrimSpace(string(p.line())), key) {
		panic("the key must stand further down")
	}
	for !strings.HasPrefix(strings.TrimSpace(string(p.line())), key+":") {
		p.down()
	}
	if p.col > 0 {
		p.home()
	}
	for end := strings.Index(string(p.line()), key+":") + len(key); p.col < end; {
		p.word()
	}
	p.right()
}

func (p *typist) text() string {
	var lines []string
	for _, l := range p.lines {
		lines = append(lines, string(l))
	}
	return strings.Join(lines, "\n")
}

// A round of twelve in which three changed, every key counted that is pressed from
// the opened file on, those that only move included: at most 90.
func TestATwelvePlantRoundKeyByKey(t *testing.T) {
	f := box(12, "{length: cm, temperature: C}")
	d := sound(t, f)
	on := day(t, "2026-03-14")
	p := newTypist(Round(cohort.At(d, on), d.Place("tote"), on))
	letters := 0
	for _, said := range [][2]string{
		{"a26-11", " firm, new root"},
		{"a26-07", " leaves 7, dropped 1"},
		{"a26-02", " lost rot?"},
		{"others", " same"},
	} {
		p.behind(said[0])
		p.types(said[1])
		letters += len(said[1])
	}
	after := sound(t, f.with("check-ins/2026-03-14.md", p.text()))
	times := after.Timelines(measure.NoDay)
	for _, tl := range times.List {
		require.Len(t, tl.Looks, 2, "%s was looked at again", tl.Specimen.ID)
	}
	require.NotNil(t, times.Of(after.Specimen("a26-02")).Loss)
	seven := times.Of(after.Specimen("a26-07")).Looks[1]
	require.Equal(t, 1, seven.Leaves.Dropped)
	require.Equal(t, 7, seven.Leaves.Count.Value)
	t.Logf("%d keys: %d letters and %d to move", p.keys, letters, p.keys-letters)
	assert.LessOrEqual(t, p.keys, 90)
	assert.Greater(t, p.keys-letters, 20, "moving was counted")
}
