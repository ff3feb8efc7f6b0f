package main

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wardian/content/example"
)

// together is how many files of a kind are operated on, one change after the
// other, between two comparisons of all pages: there are many check-ins and
// pictures, and a comparison makes the whole site twice.
var together = map[string]int{"check-ins": 12, "photos": 55, "specimens": 10, "updates": 5, "readings": 4}

// Every file of the example in turn is edited, renamed, deleted and put back; the
// pages of the preview that was told of each are then those of a site made from
// scratch, or its findings and the last good pages.
//
// Comparing groups of plants takes seconds, for some hundred comparisons of all
// pages; so the horizon lies at the landmark, where there is nothing to compare,
// until the end. And making a picture small takes half a second: in the place of
// each stands a sketch.
func TestEveryFileOfTheExampleInTurn(t *testing.T) {
	noGoroutineIsLeft(t)
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	dir := exampleCopy(t)
	settings, err := fs.ReadFile(example.Files(), "diary.yaml")
	require.NoError(t, err)
	settings = []byte(strings.Replace(string(settings), "horizon: 42 days", "horizon: 3 days", 1))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "diary.yaml"), settings, 0o644))
	sketchPictures(t, dir)
	w := newTwins(dir)
	same := func(what string, args ...any) {
		t.Helper()
		if wrong := w.differ(); wrong != "" {
			require.Fail(t, "the preview differs", "%s\n%s", fmt.Sprintf(what, args...), wrong)
		}
	}
	same("at first")

	kinds := map[string][]string{}
	for name, item := range w.tree {
		if item.mode.IsRegular() {
			kind, _, _ := strings.Cut(name, "/")
			kinds[kind] = append(kinds[kind], name)
		}
	}
	require.Len(t, kinds, 9)
	files, operations, faults := 0, 0, 0
	groups := 0
	for _, kind := range slices.Sorted(maps.Keys(kinds)) {
		names := slices.Sorted(slices.Values(kinds[kind]))
		n := max(together[kind], 1)
		for i, group := range slices.Collect(slices.Chunk(names, n)) {
			if i%everyNthGroup() != 0 {
				continue
			}
			if racing {
				group = everyThirtieth(group)
			}
			groups++
			files += len(group)
			originals, now := map[string][]byte{}, map[string]string{}
			for _, name := range group {
				originals[name], err = os.ReadFile(w.at(name))
				require.NoError(t, err)
				now[name] = name
			}
			restore := func(name string) {
				if now[name] != name && now[name] != "" {
					w.drop(now[name])
				}
				w.put(name, originals[name], false)
				now[name] = name
				w.tell()
				operations++
			}
			for _, operation := range []string{"edit", "rename", "delete"} {
				for _, name := range group {
					switch operation {
					case "edit":
						text := sensible(name, originals[name])
						require.NotEqual(t, string(originals[name]), string(text), name)
						w.put(name, text, true)
					case "rename":
						other := strings.TrimSuffix(now[name], path.Ext(name)) + "-b" + path.Ext(name)
						w.move(now[name], other)
						now[name] = other
					case "delete":
						w.drop(now[name])
						now[name] = ""
					}
					w.tell()
					operations++
					if w.reading.Site == nil {
						same("%s %s, which breaks the diary", operation, name)
						faults++
						restore(name)
					}
				}
				if !racing || operation == "edit" {
					same("%s %v", operation, group)
				}
			}
			for _, name := range group {
				restore(name)
			}
		}
	}
	same("all put back")

	if racing {
		return // comparing by every word shares nothing, and takes minutes there
	}

	// The comparisons, too: a loss that is told of and one that isn't any more.
	w.put("diary.yaml", []byte(strings.Replace(string(settings), "horizon: 3 days", "horizon: 42 days", 1)), true)
	w.tell()
	same("another horizon")
	const loss = "  v26-11: {outcome: lost, cause: [rot, cold]}\n"
	for name := range w.tree {
		if text, err := os.ReadFile(w.at(name)); err == nil && strings.Contains(string(text), loss) {
			w.put(name, []byte(strings.Replace(string(text), loss, "  v26-11: soft\n", 1)), true)
			w.tell()
			require.NotNil(t, w.reading.Site)
			same("a loss less, in %s", name)
		}
	}
	t.Logf("%d files, %d operations, %d of which broke the diary; %d comparisons of all pages, %d of findings; %d answers", files, operations, faults, w.good, w.broken, w.pages)
	require.Greater(t, w.good, groups, "most operations end in a site")
	require.Greater(t, w.broken, len(kinds)/2)
}

// sketchPictures puts a sketch in the place of each picture of a diary.
func sketchPictures(t *testing.T, dir string) {
	t.Helper()
	photos := 0
	require.NoError(t, filepath.WalkDir(filepath.Join(dir, "photos"), func(at string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		photos++
		return os.WriteFile(at, sketch(uint8(photos)), 0o644)
	}))
}

// everyThirtieth is each thirtieth file of a group, the first at least.
func everyThirtieth(group []string) []string {
	var out []string
	for i := 0; i < len(group); i += 30 {
		out = append(out, group[i])
	}
	return out
}

// everyNthGroup says which share of the groups is taken: all, but under the race
// detector, which makes pages ten times as dear, and where a short run is wanted.
func everyNthGroup() int {
	switch {
	case testing.Short():
		return 12
	case racing:
		return 25
	}
	return 1
}

var (
	figure = regexp.MustCompile(`\d+`)
	// edits are tried one after another: what to look for, and what to write.
	edits = []struct {
		in       string // of the paths that open so
		old, new string
	}{
		{"check-ins/", "turgor: firm", "turgor: soft"},
		{"check-ins/", ", firm", ", soft"},
		{"check-ins/", ": firm", ": soft"},
		{"check-ins/", "date: ", "by: A.\ndate: "},
		{"specimens/", "price: ", "price: 1"},
		{"specimens/", "name: ", "local-price: 210\nname: "},
		{"imports/", "freight: ", "freight: 1"},
		{"places/", "name: The ", "name: That "},
		{"places/", "name: ", "name: My "},
		{"updates/", "title: ", "title: Once more, "},
		{"seasons/", "\n\n", "\n\nOnce more. "},
		{"diary.yaml", "grower: T.", "grower: U."},
		{"style/", "font-style: ", "padding: 1px; font-style: "},
		{"style/", "<dt>", "<dt>+ "},
	}
)

// sensible edits a file as its grower might.
func sensible(name string, data []byte) []byte {
	text := string(data)
	switch {
	case strings.HasPrefix(name, "photos/"):
		return sketch(data[len(data)-1] + 128) // the same picture in another shade
	case strings.HasPrefix(name, "readings/"):
		// A warmer hour.
		rows := strings.SplitAfter(text, "\n")
		n := len(rows) / 2
		at := strings.IndexByte(rows[n], ',') + 1
		rows[n] = rows[n][:at] + figure.ReplaceAllString(rows[n][at:at+2], "29") + rows[n][at+2:]
		return []byte(strings.Join(rows, ""))
	}
	for _, e := range edits {
		if strings.HasPrefix(name, e.in) && strings.Contains(text, e.old) {
			text = strings.Replace(text, e.old, e.new, 1)
			break
		}
	}
	if strings.HasSuffix(name, ".md") {
		text += "\nAnd one more word.\n"
	}
	return []byte(text)
}
