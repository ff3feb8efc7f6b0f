package build_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
)

// tree reads a built site: every file's bytes and mode.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := entry.Info()
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		if entry.IsDir() {
			out[rel+"/"] = info.Mode().String()
			return nil
		}
		data, err := os.ReadFile(path)
		out[rel] = info.Mode().String() + "\x00" + string(data)
		return err
	}))
	return out
}

// buildTo builds a diary's site into a folder.
func buildTo(t *testing.T, files fs.FS, to string) {
	t.Helper()
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	_, ok, err := build.Run(context.Background(), d, files, report, build.Options{To: to, On: measure.NoDay})
	require.NoError(t, err)
	require.True(t, ok, "%v", report.Findings())
}

// The same diary gives the same bytes in another folder, on one processor or
// several, in another time zone, language and umask, and whether it is read from
// the program or from the disk.
func TestTheSameDiaryGivesTheSameBytes(t *testing.T) {
	files := small(t)
	here := filepath.Join(t.TempDir(), "one")
	buildTo(t, files, here)
	want := tree(t, here)
	require.Greater(t, len(want), 10)

	onDisk := filepath.Join(t.TempDir(), "a folder with spaces")
	require.NoError(t, os.CopyFS(onDisk, files))
	t.Setenv("TZ", "Pacific/Kiritimati")
	t.Setenv("LANG", "tr_TR.UTF-8")
	t.Setenv("HOME", t.TempDir())
	t.Setenv("USER", "somebody-else")
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	there := filepath.Join(t.TempDir(), "deep", "er", "two")
	buildTo(t, os.DirFS(onDisk), there)
	got := tree(t, there)
	assert.Len(t, got, len(want))
	for path := range want {
		assert.True(t, want[path] == got[path], "%s differs", path)
	}
	for path, data := range got {
		assert.NotContains(t, data, onDisk, "%s tells a path of this machine", path)
		assert.NotContains(t, data, "somebody-else", path)
	}
}

// small is the example with a few of its pictures and without the entries that
// would miss the others: what matters here is the way, not the number.
func small(t *testing.T) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	pictures, most := 0, 6
	if racing {
		most = 2
	}
	require.NoError(t, fs.WalkDir(example.Files(), ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := fs.ReadFile(example.Files(), path)
		out[path] = &fstest.MapFile{Data: data}
		if filepath.Ext(path) == ".jpg" {
			pictures++
			if pictures > most {
				out[path].Data = tinyPicture
			}
		}
		return err
	}))
	return out
}

// Plates are drawn as of their update's date: taking away everything that was
// written of later days changes nothing in a letter but the way to a later one.
func TestNothingLaterLeaksIntoALetter(t *testing.T) {
	full := exampleDiary(t)
	whole := exampleSite(t)
	tested := 0
	for _, u := range full.Updates {
		then := full.Shown(content.ShowOptions{On: u.Date})
		require.Less(t, len(then.Entries), len(full.Entries)+1)
		path := "updates/" + u.Slug + ".html"
		cut := made(t, then, path)
		require.Contains(t, cut, path)
		want, got := letterOf(t, cut[path]), letterOf(t, whole[path])
		at := 0
		for at < min(len(want), len(got)) && want[at] == got[at] {
			at++
		}
		assert.True(t, want == got, "%s tells of later days: …%.200s", path, got[max(0, min(at, len(got))-80):])
		tested++
	}
	assert.Greater(t, tested, 3)
}
