package content

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	invented "wardian/content/example"
	"wardian/content/measure"
	"wardian/content/patience"
)

// written is a diary that somebody writes in: operations on its files, each of
// which tells the paths that it changed.
type written struct {
	r     *rand.Rand
	now   fstest.MapFS
	whole fstest.MapFS // as it was in the beginning
}

func newWritten(t testing.TB, seed uint64) *written {
	w := &written{r: rand.New(rand.NewPCG(seed, 1)), now: fstest.MapFS{}, whole: fstest.MapFS{}}
	require.NoError(t, fs.WalkDir(invented.Files(), ".", func(at string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(invented.Files(), at)
		w.whole[at] = &fstest.MapFile{Data: data}
		return err
	}))
	maps.Copy(w.now, w.whole)
	return w
}

// any picks a file, three times of four a check-in.
func (w *written) any() string {
	var entries, others []string
	for at := range w.now {
		switch {
		case strings.HasPrefix(at, "check-ins/"):
			entries = append(entries, at)
		case !strings.HasPrefix(at, "photos/") || w.r.IntN(20) == 0:
			others = append(others, at)
		}
	}
	slices.Sort(entries)
	slices.Sort(others)
	if len(entries) == 0 || len(others) > 0 && w.r.IntN(4) == 0 {
		entries = others
	}
	return entries[w.r.IntN(len(entries))]
}

var digits = regexp.MustCompile(`\d+`)

// swaps are words that stand in a diary, and others that may.
var swaps = [][2]string{
	{"others: same", "others: not seen"}, {"others: not seen", "others: same"}, {"place: ", "to: "}, {"to: ", "place: "}, {"outcome: lost", "outcome: alive after all"},
	{"outcome: passed on", "outcome: lost"}, {"cut-into", "private"}, {"firm", "limp"}, {"new root", "resting"}, {"photos:", "private:"}, {"specimen: ", "specimens: "},
	{"not-seen", "private"}, {"date: ", "dat: "}, {"---\n", "--\n"}, {"unfinished: yes", "unfinished: no"}, {"season: ", "season: another "}, {"import: ", "import: x"},
}

// do changes the diary in one way.
func (w *written) do() (what string, changed []string) {
	at := w.any()
	text := w.now[at].Data
	switch n := w.r.IntN(12); {
	case n == 0:
		delete(w.now, at)
		return "delete " + at, []string{at}
	case n == 1:
		to := strings.TrimSuffix(at, ".md") + "-b.md"
		w.now[to] = w.now[at]
		delete(w.now, at)
		return "rename " + at, []string{at, to}
	case n <= 4: // mend what was broken
		for _, at := range slices.Sorted(maps.Keys(w.whole)) {
			if w.now[at] == nil || !bytes.Equal(w.now[at].Data, w.whole[at].Data) {
				w.now[at] = w.whole[at]
				changed = append(changed, at)
				if len(changed) == 3 {
					break
				}
			}
		}
		for at := range w.now {
			if w.whole[at] == nil {
				delete(w.now, at)
				changed = append(changed, at)
				break
			}
		}
		return "mend " + strings.Join(changed, " "), changed
	case n <= 7 && digits.Match(text):
		all := digits.FindAllIndex(text, -1)
		i := all[w.r.IntN(len(all))]
		w.now[at] = &fstest.MapFile{Data: fmt.Appendf(nil, "%s%d%s", text[:i[0]], w.r.IntN(30), text[i[1]:])}
		return "another figure in " + at, []string{at}
	case n <= 9:
		s := swaps[w.r.IntN(len(swaps))]
		w.now[at] = &fstest.MapFile{Data: bytes.Replace(text, []byte(s[0]), []byte(s[1]), 1)}
		return s[1] + " in " + at, []string{at}
	case n == 10:
		w.now[at] = &fstest.MapFile{Data: append(bytes.Clone(text), "\nOne more line, [with a link](check-ins/"+fmt.Sprint(w.r.IntN(3))+").\n"...)}
		return "words in " + at, []string{at}
	}
	w.now[at] = &fstest.MapFile{Data: bytes.Clone(text)}
	return "touch " + at, []string{at}
}

// What a Keeper gives after any change is what reading everything anew gives: the
// diary, what is told of it and what is wrong with it, to the last pointer's end.
func TestAKeptDiaryIsTheDiaryReadAnew(t *testing.T) {
	n := patience.Times(300)
	w := newWritten(t, 11)
	k := NewKeeper()
	o := Options{Today: mustDay(t, "2026-08-01")}
	var told []string
	var short int
	for i := range n {
		what, changed := w.do()
		told = append(told, what)
		if i == 0 || i%97 == 0 {
			changed = nil // events were lost
		}
		was := k.reading
		d, report, err := k.Load(w.now, o, changed)
		require.NoError(t, err)
		if k.reading == was {
			short++
		}
		fresh, wrong, err := Load(w.now, o)
		require.NoError(t, err)
		last := told[max(0, len(told)-6):]
		require.Equal(t, wrong.Findings(), report.Findings(), "after %d: %q", i, last)
		if !reflect.DeepEqual(fresh, d) { // whole, they are too large to print
			var differ []string
			for n, tl := range fresh.Timelines(measure.NoDay).List {
				if !reflect.DeepEqual(tl, d.Timelines(measure.NoDay).List[n]) {
					differ = append(differ, tl.Specimen.ID)
				}
			}
			require.Fail(t, "another diary", "after %d: %q; told otherwise: %v", i, last, differ)
		}
	}
	require.GreaterOrEqual(t, short, n/8, "changes that asked for entries alone")
}

// A reading may meet a file of which nobody told yet, and that goes before anybody
// does: then it, or the folder that it came in, is told of.
func TestWhatCameAndWentIsLetGo(t *testing.T) {
	const entry = "---\ndate: 2026-04-20\nspecimen: v26-10\nturgor: limp\n---\n"
	for _, way := range []struct{ name, met, told, text string }{
		{"a check-in", "check-ins/2026/met.md", "check-ins/2026/met.md", entry},
		{"a check-in of a new folder", "check-ins/2027/met.md", "check-ins/2027", entry},
		{"what an editor writes", "check-ins/2026/met.md~", "check-ins/2026/met.md~", entry},
		{"one that can't be read", "check-ins/2026/met.md", "check-ins/2026/met.md", "---\ndate: [\n"},
	} {
		for _, meet := range []bool{true, false} {
			w := newWritten(t, 1)
			k := NewKeeper()
			o := Options{Today: mustDay(t, "2026-08-01")}
			_, _, err := k.Load(w.now, o, nil)
			require.NoError(t, err)
			if meet {
				w.now[way.met] = &fstest.MapFile{Data: []byte(way.text)}
				before, _, err := k.Load(w.now, o, []string{"diary.yaml"})
				require.NoError(t, err)
				if way.text == entry && strings.HasSuffix(way.met, ".md") {
					require.True(t, slices.ContainsFunc(before.Entries, func(e *Entry) bool { return e.File.Path == way.met }), "%s: it was met", way.name)
				}
				delete(w.now, way.met)
			}
			read := k.reading
			d, report, err := k.Load(w.now, o, []string{way.told})
			require.NoError(t, err)
			fresh, wrong, err := Load(w.now, o)
			require.NoError(t, err)
			require.Equal(t, wrong.Findings(), report.Findings(), way.name)
			require.True(t, reflect.DeepEqual(fresh, d), way.name)
			if !meet {
				require.Equal(t, read, k.reading, "%s: nothing was read for what was never met", way.name)
			}
		}
	}
}
