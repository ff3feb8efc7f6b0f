package build_test

import (
	"io/fs"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/build/page"
	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
)

// site is a planned site with every file made.
type site map[string][]byte

// written makes a diary's files of a text: "== path" opens a file.
func written(text string) fstest.MapFS {
	files := fstest.MapFS{}
	for _, part := range strings.Split("\n"+text, "\n== ")[1:] {
		path, body, _ := strings.Cut(part, "\n")
		files[strings.TrimSpace(path)] = &fstest.MapFile{Data: []byte(body)}
	}
	return files
}

// settings opens most diaries of these tests.
const settings = `
== diary.yaml
name: A test
time-zone: UTC
currency: EUR
address: https://example.org/test/
publish: {costs: yes}
`

// load reads a diary that must have no errors.
func load(t *testing.T, files fs.FS) *content.Diary {
	t.Helper()
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	for _, f := range report.Findings() {
		if report.Errors() > 0 {
			t.Log(f.Long())
		}
	}
	require.Zero(t, report.Errors())
	return d.Shown(content.ShowOptions{On: measure.NoDay})
}

// made makes every file of a diary's site but its pictures, which are taken to
// stand there; or, where paths are given, those files alone.
func made(t *testing.T, d *content.Diary, only ...string) site {
	t.Helper()
	pictures := map[string]page.Picture{}
	for _, path := range d.Photos {
		pictures[path] = page.Picture{Path: "pictures/" + strings.ReplaceAll(path, "/", "-"), Width: 800, Height: 600}
	}
	pieces, err := build.Plan(d, pictures)
	require.NoError(t, err)
	out := site{}
	for _, p := range pieces {
		if len(only) > 0 && !slices.Contains(only, p.Path) {
			continue
		}
		data, err := p.Make()
		require.NoError(t, err, p.Path)
		out[p.Path] = data
	}
	for _, p := range pictures {
		out[p.Path] = nil
	}
	return out
}

// pages are the paths of a site's HTML.
func (s site) pages() []string {
	var out []string
	for path := range s {
		if strings.HasSuffix(path, ".html") {
			out = append(out, path)
		}
	}
	return out
}

// exampleSite is the embedded example's site, made once for all tests that only
// look at it.
func exampleSite(t *testing.T) site {
	t.Helper()
	exampleOnce.Do(func() { exampleMade = made(t, exampleDiary(t)) })
	require.NotNil(t, exampleMade, "an earlier test could not make it")
	return exampleMade
}

var (
	exampleOnce sync.Once
	exampleMade site
)

// exampleDiary is the embedded example.
func exampleDiary(t *testing.T) *content.Diary { return load(t, example.Files()) }

// unraced skips, under the race detector, a test in which another program looks at
// pages that were made: of them the detector learns nothing.
func unraced(t *testing.T) {
	t.Helper()
	if racing {
		t.Skip("another program does the work here: it is done without the race detector")
	}
}

// required tells whether a missing tool fails a test: it does where everything
// is to be checked, and else skips it with a word.
func required() bool { return os.Getenv("WARDIAN_CI") != "" }
