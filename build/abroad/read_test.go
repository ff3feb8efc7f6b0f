package abroad

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/build/opendata"
	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
	"wardian/content/source"
)

// published is what the example's grower publishes, and the cohort it was made of.
func published(t testing.TB) (fstest.MapFS, *cohort.Cohort) {
	t.Helper()
	d, report, err := content.Load(example.Files(), content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors())
	c := cohort.At(d.Shown(content.ShowOptions{On: measure.NoDay}), measure.NoDay)
	var compared []cohort.Comparison
	for _, word := range []string{"size", "season", "medium"} {
		by, ok := c.Grouping(word)
		require.True(t, ok)
		compared = append(compared, c.Compare(c.All(), by, 42, 3))
	}
	files, err := opendata.Files(c, compared)
	require.NoError(t, err)
	out := fstest.MapFS{}
	for _, f := range files {
		out[f.Name] = &fstest.MapFile{Data: f.Bytes}
	}
	return out, c
}

func read(t testing.TB, files fs.FS) (*Diary, []string) {
	t.Helper()
	var report source.Report
	d, err := Read(files, &report)
	require.NoError(t, err)
	var lines []string
	for _, f := range report.Findings() {
		assert.Equal(t, Code, f.Code)
		assert.NotEmpty(t, f.Expected, f.Message)
		assert.False(t, strings.HasSuffix(f.Message, "."), f.Message)
		assert.NotContains(t, strings.ToLower(f.Message+f.Expected+f.Hint), "invalid")
		lines = append(lines, f.Line())
	}
	assert.Equal(t, d == nil, len(lines) > 0, "a diary or what keeps it away")
	return d, lines
}

// What this program publishes it reads back: every line with the fate and the day
// that the cohort gave it, every place and every group.
func TestWhatIsPublishedIsReadBack(t *testing.T) {
	files, c := published(t)
	d, faults := read(t, files)
	require.Empty(t, faults)
	assert.Equal(t, c.Diary.Settings.Name, d.Title)
	assert.Equal(t, c.AsOf, d.AsOf)
	assert.Equal(t, &Terms{Horizon: c.Diary.Settings.Horizon, Landmark: c.Diary.Settings.Landmark, SeenWithin: c.Diary.Settings.SeenWithin}, d.Terms)
	assert.Equal(t, []string{c.Diary.Settings.Licence}, d.Licences)
	require.Len(t, d.Lines, len(c.Lines))
	dated := 0
	for n, l := range c.Lines {
		got := d.Lines[n]
		want := Line{ID: l.Specimen.ID, Import: l.Import().ID, Arrived: l.Import().Day0(), Pooled: cohort.Pooled(l.Import()), Fate: l.Fate.String(),
			Undated: l.Undated, AsOfDay: l.AsOfDay, Cause: cohort.CauseWords(l.Cause)}
		if !l.Undated {
			want.Day = max(l.Day, 0)
			dated++
		}
		assert.Equal(t, want, got)
	}
	assert.Greater(t, dated, 40)
	assert.Equal(t, []string{Alive, Lost, PassedOn, NotSeen}, []string{cohort.Open.String(), cohort.Lost.String(), cohort.PassedOn.String(), cohort.NotSeen.String()}, "both packages use the same words")
	require.Len(t, d.Places, len(c.Diary.Places))
	for n, p := range c.Diary.Places {
		got := d.Places[n]
		assert.Equal(t, []any{p.ID, p.Name, p.Stage.String(), p.BottomHeat, p.Quarantine, p.CheckEvery}, []any{got.ID, got.Name, got.Stage, got.BottomHeat, got.Quarantine, got.CheckEvery})
		if p.Humidity != nil {
			assert.Equal(t, float64(p.Humidity.Value), *got.Humidity)
		}
	}
	assert.Greater(t, len(d.Groups), 8)
	assert.Equal(t, "size", d.Groups[0].By)

	memory := map[string][]byte{}
	for name, f := range files {
		memory[name] = f.Data
	}
	var report source.Report
	assert.Equal(t, d, ReadFiles(memory, &report))
	delete(memory, "places.csv")
	assert.Nil(t, ReadFiles(memory, &report))
	assert.Equal(t, 1, report.Errors())
}

// edited is a sound package with one file edited and described as it is now.
func edited(t testing.TB, files fstest.MapFS, name, from, to string) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	for n, f := range files {
		out[n] = f
	}
	before := string(files[name].Data)
	require.Equal(t, 1, min(strings.Count(before, from), 1), "%s holds %q", name, from)
	data := []byte(strings.Replace(before, from, to, 1))
	out[name] = &fstest.MapFile{Data: data}
	if name != Descriptor {
		d := string(files[Descriptor].Data)
		old := sha256.Sum256(files[name].Data)
		sum := sha256.Sum256(data)
		d = strings.Replace(d, hex.EncodeToString(old[:]), hex.EncodeToString(sum[:]), 1)
		d = strings.Replace(d, fmt.Sprintf(`"bytes": %d,`, len(files[name].Data)), fmt.Sprintf(`"bytes": %d,`, len(data)), 1)
		out[Descriptor] = &fstest.MapFile{Data: []byte(d)}
	}
	return out
}

// Each fault is told once, with its place and a way out.
func TestWhatIsBrokenIsToldWithItsPlace(t *testing.T) {
	files, cohort := published(t)
	day := cohort.Lines[0].Import().Day0().String()
	_, body, _ := strings.Cut(string(files["specimens.csv"].Data), "\n")
	first, _, _ := strings.Cut(body, ",")
	for name, c := range map[string]struct{ file, from, to, want string }{
		"not JSON":             {Descriptor, `"resources": [`, `"resources": [[,`, `^datapackage.json:\d+:\d+: error: the descriptor stops being JSON here`},
		"nothing":              {Descriptor, string(files[Descriptor].Data), ``, `^datapackage.json:1:1: error: the descriptor stops being JSON here`},
		"a list":               {Descriptor, string(files[Descriptor].Data), `[]`, `^datapackage.json:1:1: error: an object should stand at the top`},
		"no resources":         {Descriptor, `"resources"`, `"resource"`, `: error: there is no "resources" at the top`},
		"resources a word":     {Descriptor, string(files[Descriptor].Data), `{"$schema": "https://datapackage.org/profiles/2.0/datapackage.json", "name": "x", "resources": "all"}`, `^datapackage.json:1:\d+: error: a list should stand at /resources`},
		"another standard":     {Descriptor, `profiles/2.0/datapackage`, `profiles/1.0/datapackage`, `^datapackage.json:2:\d+: error: the package isn't said to be a Data Package 2.0 at /\$schema`},
		"a key twice":          {Descriptor, `"version":`, `"title": "x", "version":`, `: error: the key stands twice at /title`},
		"no specimens":         {Descriptor, `"name": "specimens",`, `"name": "specimen-list",`, `there is no table "specimens" at /resources|a key leads to a column that isn't there at /resources/\d/foreignKeys`},
		"out of the folder":    {Descriptor, `"path": "specimens.csv"`, `"path": "../specimens.csv"`, `: error: the path leads out of the folder at /resources/0/path \(put the file beside datapackage.json and write its name\)`},
		"deep out":             {Descriptor, `"path": "specimens.csv"`, `"path": "a/../../specimens.csv"`, `the path leads out of the folder at /resources/0/path`},
		"absolute":             {Descriptor, `"path": "specimens.csv"`, `"path": "/etc/passwd"`, `the path isn't one in this folder at /resources/0/path`},
		"a drive":              {Descriptor, `"path": "specimens.csv"`, `"path": "C:specimens.csv"`, `the path isn't one in this folder at /resources/0/path`},
		"backslashes":          {Descriptor, `"path": "specimens.csv"`, `"path": "..\\specimens.csv"`, `the path isn't one in this folder at /resources/0/path`},
		"on the net":           {Descriptor, `"path": "specimens.csv"`, `"path": "https://example.org/s.csv"`, `an address on the net isn't fetched at /resources/0/path`},
		"hidden":               {Descriptor, `"path": "specimens.csv"`, `"path": ".git/config"`, `the path leads to a hidden file at /resources/0/path`},
		"itself":               {Descriptor, `"path": "specimens.csv"`, `"path": "."`, `the path leads to a hidden file at /resources/0/path`},
		"two paths":            {Descriptor, `"path": "specimens.csv"`, `"path": ["a.csv", "b.csv"]`, `one path should stand at /resources/0/path`},
		"not there":            {Descriptor, `"path": "specimens.csv"`, `"path": "plants.csv"`, `^plants.csv:1:1: error: this file isn't there \(fetch the whole folder again\)`},
		"another encoding":     {Descriptor, `"encoding": "utf-8"`, `"encoding": "latin-1"`, `the file is said to be in another encoding at /resources/0/encoding`},
		"semicolons":           {Descriptor, `"encoding": "utf-8"`, `"dialect": {"delimiter": ";"}, "encoding": "utf-8"`, `the cells are said to be parted by something else at /resources/0/dialect/delimiter`},
		"bytes a word":         {Descriptor, `"bytes": `, `"bytes": "x", "count": `, `a whole number should stand at /resources/0/bytes`},
		"a wrong type":         {Descriptor, `"name": "line_day",` + "\n" + `            "type": "integer"`, `"name": "line_day", "type": "string"`, `the column "line_day" is of type "string" at /resources/0/schema/fields/\d+`},
		"a key to nowhere":     {Descriptor, `"fields": [` + "\n" + `                "specimen"`, `"fields": [` + "\n" + `                "specimens"`, `a key leads to a column that isn't there at /resources/0/schema/foreignKeys/0`},
		"a column that's gone": {"specimens.csv", ",line_day,", ",", `^specimens.csv:1:\d+: error: column \d+ is headed "line_lost" where the descriptor has "line_day"`},
		"a column more":        {"places.csv", "check_every\n", "check_every,more\n", `^places.csv:1:\d+: error: the column "more" isn't described`},
		"no columns":           {"places.csv", string(files["places.csv"].Data), "", `^places.csv:1:1: error: this file is empty`},
		"a short row":          {"specimens.csv", "\n" + first + ",", "\n", `^specimens.csv:2:1: error: row 1 has \d+ cells under \d+ headings`},
		"not a whole number":   {"survival.csv", "all,,,0,", "all,,,nought,", `^survival.csv:2:\d+: error: row 1, column day: "nought" isn't a whole number`},
		"infinite":             {"survival.csv", "all,,,0,", "all,,,Inf,", `^survival.csv:2:\d+: error: row 1, column day: "Inf" isn't a whole number`},
		"not a day":            {"specimens.csv", "," + day + ",", ",2026/3/9,", `^specimens.csv:\d+:\d+: error: row \d+, column arrived: "2026/3/9" isn't a day`},
		"an unknown fate":      {"specimens.csv", ",alive,", ",thriving,", `^specimens.csv:\d+:\d+: error: row \d+, column fate: "thriving" is none of the words that can stand here`},
		"a missing key":        {"specimens.csv", "\n" + first + ",", "\n,", `^specimens.csv:2:\d+: error: row 1, column specimen: "" may not be missing`},
		"a key of nobody":      {"check-ins.csv", "\n" + first + ",1,", "\nnobody,1,", `^check-ins.csv:2:1: error: column specimen: "nobody" is nowhere in specimen of specimens`},
		"not UTF-8":            {"places.csv", "place,", "\xff,", `^places.csv:1:1: error: this file isn't UTF-8 from here on`},
		"an open quote":        {"places.csv", "\n", "\n\"", `^places.csv:2:1: error: row 1 has \d+ cells? under 8 headings`},
		"counts that don't go": {"groups.csv", "size,specimen,42,,", "size,specimen,0,,", `^groups.csv:2:1: error: row 1: its counts don't go together`},
	} {
		t.Run(name, func(t *testing.T) {
			_, faults := read(t, edited(t, files, c.file, c.from, c.to))
			require.NotEmpty(t, faults)
			assert.Regexp(t, c.want, faults[0])
		})
	}
	// The file isn't the one that was described.
	out := edited(t, files, "places.csv", "place,", "plaza,")
	out[Descriptor] = files[Descriptor]
	_, faults := read(t, out)
	assert.Equal(t, []string{"places.csv:1:1: error: this file has another hash than was described: it isn't the one that was published (fetch the whole folder again)"}, faults)
	delete(out, Descriptor)
	_, faults = read(t, out)
	assert.Equal(t, []string{"datapackage.json:1:1: error: this file isn't there (fetch the whole folder again)"}, faults)
}

// A file with a million faults is told with the first fifty, and a row on.
func TestEndlessFaultsAreCut(t *testing.T) {
	files, _ := published(t)
	rows := strings.Repeat("x\n", 5000)
	_, faults := read(t, edited(t, files, "places.csv", "check_every\n", "check_every\n"+rows))
	require.Len(t, faults, mostTold+1)
	assert.Contains(t, strings.Join(faults, "\n"), "more is wrong from here on")
}

// Nesting without end, half a million values under long keys and a forest of keys
// are told or read in no time; a folder that leads out by a link isn't read.
func TestHostileFolders(t *testing.T) {
	files, _ := published(t)
	for name, text := range map[string]string{
		"nested lists":   strings.Repeat("[", 1<<19) + strings.Repeat("]", 1<<19),
		"nested objects": strings.Repeat(`{"a":`, 1<<17) + "0" + strings.Repeat("}", 1<<17),
		"many values":    `{"` + strings.Repeat("k", 500) + `":{"` + strings.Repeat("k", 500) + `":[` + strings.Repeat("0,", 1<<18) + `0]}}`,
		"one key often":  `{` + strings.Repeat(`"a":0,`, 1<<17) + `"a":0}`,
	} {
		t.Run(name, func(t *testing.T) {
			_, faults := read(t, fstest.MapFS{Descriptor: {Data: []byte(text)}})
			assert.NotEmpty(t, faults)
		})
	}
	_, faults := read(t, fstest.MapFS{Descriptor: {Data: make([]byte, mostDescriptor+1)}})
	assert.Equal(t, []string{"datapackage.json:1:1: error: this file is too large to be read"}, faults)

	dir, secret := t.TempDir(), filepath.Join(t.TempDir(), "secret.csv")
	require.NoError(t, os.CopyFS(dir, files))
	require.NoError(t, os.WriteFile(secret, []byte("secret\n"), 0o644))
	require.NoError(t, os.Remove(filepath.Join(dir, "specimens.csv")))
	if err := os.Symlink(secret, filepath.Join(dir, "specimens.csv")); err != nil {
		t.Skip("no symbolic links here: " + err.Error())
	}
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	_, faults = read(t, root.FS())
	assert.Equal(t, []string{"specimens.csv:1:1: error: a link isn't followed (put the file in its place)"}, faults)
	require.NoError(t, os.Remove(filepath.Join(dir, "specimens.csv")))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "specimens.csv"), 0o755))
	_, faults = read(t, root.FS())
	assert.Equal(t, []string{"specimens.csv:1:1: error: this isn't a file (fetch the whole folder again)"}, faults)
}

// A pointer reads as RFC 6901 writes it (its section 5: "/a~1b", "/m~0n", from
// memory).
func TestPointers(t *testing.T) {
	v, faults := parse([]byte(`{"a/b": [1, {"m~n": true}]}`))
	require.Empty(t, faults)
	item := v.of.(object).get("a/b").of.([]*value)[1]
	assert.Equal(t, "/a~1b/1", item.pointer())
	assert.Equal(t, "/a~1b/1/m~0n", item.of.(object).get("m~n").pointer())
	assert.Equal(t, json.Number("1"), v.of.(object).get("a/b").of.([]*value)[0].of)
}
