package build_test

import (
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
)

// Whatever reads without an error makes every page: small diaries with
// deliberate faults that are only warnings, and the example with lines and files
// taken out at random.
func TestWhateverReadsWithoutAnErrorMakesEveryPage(t *testing.T) {
	faults, err := filepath.Glob(filepath.Join(top, "testdata", "diaries", "faults", "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, faults)
	madeOf := 0
	for _, path := range faults {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		files := fstest.MapFS{}
		for _, f := range txtar.Parse(data).Files {
			if fs.ValidPath(f.Name) {
				files[f.Name] = &fstest.MapFile{Data: f.Data}
			}
		}
		if makeAll(t, filepath.Base(path), files) {
			madeOf++
		}
	}
	assert.NotZero(t, madeOf, "some fault diaries have warnings alone")
}

func TestMangledExamplesMakeEveryPage(t *testing.T) {
	runs := 6
	if racing {
		runs = 2
	}
	if n, err := strconv.Atoi(os.Getenv("WARDIAN_MANGLED")); err == nil {
		runs = n
	}
	madeOf := 0
	for seed := range runs {
		if makeAll(t, "seed "+strconv.Itoa(seed), mangled(t, uint64(seed))) {
			madeOf++
		}
	}
	assert.NotZero(t, madeOf, "some mangled examples read without an error")
}

// makeAll makes every file of a diary's site if it reads without an error.
func makeAll(t *testing.T, name string, files fs.FS) bool {
	t.Helper()
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err, name)
	if report.Errors() > 0 {
		return false
	}
	for path, data := range made(t, d.Shown(content.ShowOptions{On: measure.NoDay})) {
		assert.Empty(t, notNumbers.FindString(textOf(path, data)), "%s: %s", name, path)
	}
	return true
}

// ties are the words that later entries rest on: moves, cuts, and losses taken
// back.
var ties = regexp.MustCompile(`\bto\b|cut-into|lost|alive after all|place: tub`)

// mangled is the newest season of the example with some check-ins gone and lines
// of others taken out.
func mangled(t *testing.T, seed uint64) fs.FS {
	t.Helper()
	draw := rand.New(rand.NewPCG(seed, 9))
	out := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(example.Files(), ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || strings.Contains(path, "2025") || strings.HasPrefix(path, "updates/") || strings.HasPrefix(path, "seasons/") {
			return err
		}
		if name := filepath.Base(path); strings.HasPrefix(name, "v25") || strings.HasPrefix(name, "h25") {
			return nil
		}
		if strings.HasPrefix(path, "photos/") {
			out[path] = &fstest.MapFile{Data: tinyPicture}
			return nil
		}
		data, err := fs.ReadFile(example.Files(), path)
		if strings.HasPrefix(path, "check-ins/") {
			switch draw.IntN(5) {
			case 0:
				if !ties.Match(data) {
					return nil
				}
			case 1:
				lines := strings.SplitAfter(string(data), "\n")
				for range 1 + draw.IntN(2) {
					if at := draw.IntN(len(lines)); strings.HasPrefix(lines[at], "  ") && !ties.MatchString(lines[at]) {
						lines = append(lines[:at:at], lines[at+1:]...)
					}
				}
				data = []byte(strings.Join(lines, ""))
			}
		}
		out[path] = &fstest.MapFile{Data: data}
		return err
	}))
	return out
}
