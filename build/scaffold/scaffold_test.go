package scaffold

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

// files are a diary's, by path.
type files map[string]string

func (f files) with(path, text string) files {
	out := maps.Clone(f)
	out[path] = text
	return out
}

func load(t *testing.T, f files) (*content.Diary, *source.Report) {
	t.Helper()
	disk := fstest.MapFS{}
	for path, text := range f {
		disk[path] = &fstest.MapFile{Data: []byte(text)}
	}
	d, report, err := content.Load(disk, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	return d, report
}

func sound(t *testing.T, f files) *content.Diary {
	t.Helper()
	d, report := load(t, f)
	require.Empty(t, report.Findings())
	return d
}

func day(t *testing.T, text string) measure.Day {
	t.Helper()
	d, trouble := measure.ParseDay(text)
	require.Nil(t, trouble)
	return d
}

// box is an invented import of so many plants that came on 9 March 2026 and
// stand in a bin.
func box(plants int, units string) files {
	f := files{
		"diary.yaml":       "name: A test\ntime-zone: UTC\ncurrency: NOK\nunits: " + units + "\n",
		"places/tote.md":   "---\nname: The big *tote*\nstage: bin\n---\n",
		"places/shelf.md":  "---\nname: The shelf\nstage: room\n---\n",
		"imports/26-a.md":  "---\nseason: 2026 spring\narrived: 2026-03-09\n---\n",
		"check-ins/one.md": "",
	}
	var arrival strings.Builder
	arrival.WriteString("---\ndate: 2026-03-09\nplace: tote\narrival: yes\nreading: 24 C 98%\nspecimens:\n")
	for n := plants; n > 0; n-- { // unpacked last first
		id := fmt.Sprintf("a26-%02d", n)
		f["specimens/"+id+".md"] = "---\nname: \"Hoya callistophylla 'No #" + fmt.Sprint(n) + "'\"\nimport: 26-a\n---\n"
		fmt.Fprintf(&arrival, "  %s: soft, leaves %d 7x3, roots 1 longest 2\n", id, n+1)
	}
	f["check-ins/one.md"] = arrival.String() + "---\n"
	return f
}

func TestRoundIsWritten(t *testing.T) {
	f := box(3, "{length: cm, temperature: C}").
		with("check-ins/two.md", "---\ndate: 2026-03-11\nspecimen: a26-02\nrot: stem\nturgor: limp\n---\n").
		with("specimens/a26-04.md", "---\nname: Begonia amphioxus\nimport: 26-a\n---\n").
		with("check-ins/three.md", "---\ndate: 2026-03-12\nplace: tote\nspecimens: {a26-04: same}\n---\n")
	d := sound(t, f)
	on := day(t, "2026-03-14")
	want := `---
date: 2026-03-14
place: tote
reading:  # last 24 C 98%
specimens:
  a26-03:  # soft, leaves 4 7x3, roots 1 longest 2 | Hoya callistophylla 'No #3', day 5
  a26-02:  # limp, leaves 3 7x3, roots 1 longest 2, rot stem | Hoya callistophylla 'No #2', day 5
  a26-01:  # soft, leaves 2 7x3, roots 1 longest 2 | Hoya callistophylla 'No #1', day 5
  a26-04:  # no figures yet | Begonia amphioxus, day 5
others:  # same, or not seen
---
`
	assert.Equal(t, want, Round(cohort.At(d, on), d.Place("tote"), on))

	same := day(t, "2026-03-12")
	assert.Contains(t, Round(cohort.At(d, same), d.Place("tote"), same), "date: 2026-03-12  # some were looked at on this day already")
}

func TestRoundSpeaksTheDiarysUnits(t *testing.T) {
	f := box(1, "{length: in, temperature: F}")
	d := sound(t, f)
	on := day(t, "2026-03-14")
	text := Round(cohort.At(d, on), d.Place("tote"), on)
	assert.Contains(t, text, "# last 75.2 F 98%\n")
	assert.Contains(t, text, "# soft, leaves 2 7x3, roots 1 longest 2 |")
	f["check-ins/one.md"] = strings.Replace(f["check-ins/one.md"], "reading: 24 C 98%\n", "", 1)
	d = sound(t, f)
	assert.Contains(t, Round(cohort.At(d, on), d.Place("tote"), on), "# such as 75 F 98%\n")
}

// A scaffold claims no look: as written it is told of once, and the diary's
// looks are what they were.
func TestRoundAsWrittenHasOneOpenQuestion(t *testing.T) {
	f := box(12, "{length: cm, temperature: C}")
	d := sound(t, f)
	on := day(t, "2026-03-14")
	text := Round(cohort.At(d, on), d.Place("tote"), on)
	after, report := load(t, f.with("check-ins/2026-03-14.md", text))
	require.Len(t, report.Findings(), 1)
	assert.Equal(t, "empty-others", report.Findings()[0].Code)
	for _, tl := range after.Timelines(measure.NoDay).List {
		assert.Len(t, tl.Looks, 1, tl.Specimen.ID)
	}
	// and the next round is in the same order
	assert.Equal(t, text, Round(cohort.At(after, on), after.Place("tote"), on))
}

// keystrokes counts the changes to a text, each a character put in, taken out or exchanged
// (Levenshtein 1966): the fewest keystrokes that make one of the other, an
// editor's own shortcuts and the ways between apart.
func keystrokes(from, to string) int {
	a, b := []rune(from), []rune(to)
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i, r := range a {
		corner := row[0]
		row[0] = i + 1
		for j, s := range b {
			least := min(row[j], row[j+1]) + 1
			if r == s {
				least = min(least, corner)
			} else {
				least = min(least, corner+1)
			}
			corner, row[j+1] = row[j+1], least
		}
	}
	return row[len(b)]
}

func TestKeystrokes(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     int
	}{ // the first two are the textbook's: Gusfield 1997 and Wagner & Fischer's kitten, from memory
		{"vintner", "writers", 5}, {"kitten", "sitting", 3}, {"", "abc", 3}, {"abc", "", 3}, {"same", "same", 0},
	} {
		assert.Equal(t, c.want, keystrokes(c.from, c.to), "%s, %s", c.from, c.to)
	}
}

// A round of twelve in which three changed is typed with at most 90 keystrokes.
func TestATwelvePlantRoundIsShortToType(t *testing.T) {
	f := box(12, "{length: cm, temperature: C}")
	d := sound(t, f)
	on := day(t, "2026-03-14")
	text := Round(cohort.At(d, on), d.Place("tote"), on)
	done := text
	for _, edit := range [][2]string{
		{"reading: ", "reading: 25.5 C 97%"},
		{"a26-11: ", "a26-11: firm, new root"},
		{"a26-07: ", "a26-07: leaves 7, dropped 1, soft"},
		{"a26-02: ", "a26-02: lost rot?; smelled"},
		{"others: ", "others: same"},
	} {
		require.Equal(t, 1, strings.Count(done, edit[0]))
		done = strings.Replace(done, edit[0], edit[1], 1)
	}
	after := sound(t, f.with("check-ins/2026-03-14.md", done))
	looks := 0
	for _, tl := range after.Timelines(measure.NoDay).List {
		looks += len(tl.Looks)
	}
	require.Equal(t, 24, looks, "all twelve were looked at again")
	require.NotNil(t, after.Timelines(measure.NoDay).Of(after.Specimen("a26-02")).Loss)
	n := keystrokes(text, done)
	t.Logf("%d keystrokes", n)
	assert.LessOrEqual(t, n, 90)
	assert.Greater(t, n, 40, "the test has counted the edits")
}

func TestRoundPathIsFreeAndSortsBehind(t *testing.T) {
	for _, c := range []struct {
		last  string // path of the diary's last check-in, of 11 March 2026
		taken []string
		want  string
	}{
		{"", nil, "check-ins/2026-03-14.md"},
		{"check-ins/2026-03-11", nil, "check-ins/2026-03-14.md"},
		{"check-ins/2026/03-11-cabinet", nil, "check-ins/2026/03-14.md"},
		{"check-ins/2026/03/11", nil, "check-ins/2026/03/14.md"},
		{"check-ins/2026/2026-03-11", nil, "check-ins/2026/2026-03-14.md"},
		{"check-ins/2026/spring/03-11", nil, "check-ins/2026-03-14.md"},
		{"check-ins/rounds", nil, "check-ins/2026-03-14.md"},
		{"", []string{"check-ins/2026-03-14.md"}, "check-ins/2026-03-14b.md"},
		{"", []string{"check-ins/2026-03-14.md", "check-ins/2026-03-14b.md"}, "check-ins/2026-03-14c.md"},
		{"", []string{"check-ins/2026-03-14B.md"}, "check-ins/2026-03-14c.md"},
		{"", []string{"check-ins/2026-03-14-cabinet.md"}, "check-ins/2026-03-14.md"},
	} {
		d := &content.Diary{}
		if c.last != "" {
			d.Entries = []*content.Entry{{Path: c.last, When: measure.At(day(t, "2026-03-11"))}}
		}
		got, ok := RoundPath(d, day(t, "2026-03-14"), c.taken)
		assert.True(t, ok)
		assert.Equal(t, c.want, got, "%s %v", c.last, c.taken)
	}
	var taken []string
	for n := range 26 {
		path, ok := FreePath("x", taken)
		require.True(t, ok, n)
		if n > 0 {
			assert.Greater(t, path, taken[n-1], "files are read in the order of their names")
		}
		taken = append(taken, path)
	}
	_, ok := FreePath("x", taken)
	assert.False(t, ok)
	assert.True(t, slices.IsSorted(taken))
}
