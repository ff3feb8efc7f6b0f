package build_test

import (
	"bufio"
	"fmt"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// top is the repository's top, seen from here.
const top = ".."

// doors reads the table of who may import whom from DEVELOPERS.md.
func doors(t *testing.T) (rows []string, may map[string][]string) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(top, "DEVELOPERS.md"))
	require.NoError(t, err)
	row := regexp.MustCompile(`^((?:cmd|content|build|themes)[a-z/]*):((?: [a-z/]+)*)$`)
	may = map[string][]string{}
	scan := bufio.NewScanner(strings.NewReader(string(data)))
	for scan.Scan() {
		if m := row.FindStringSubmatch(scan.Text()); m != nil {
			rows = append(rows, m[1])
			may[m[1]] = strings.Fields(m[2])
		}
	}
	require.NotEmpty(t, rows, "DEVELOPERS.md has the table of doors")
	return rows, may
}

// goFiles gives all Go files below the repository's rooms, by room.
func goFiles(t *testing.T) map[string][]string {
	t.Helper()
	files := map[string][]string{}
	for _, room := range []string{"cmd", "content", "build", "themes"} {
		err := filepath.WalkDir(filepath.Join(top, room), func(file string, entry fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if entry.IsDir() && entry.Name() == "testdata" {
				return filepath.SkipDir
			}
			if strings.HasSuffix(file, ".go") {
				rel, err := filepath.Rel(top, filepath.Dir(file))
				if err != nil {
					return err
				}
				rel = filepath.ToSlash(rel)
				files[rel] = append(files[rel], file)
			}
			return nil
		})
		require.NoError(t, err)
	}
	return files
}

func TestEveryRowOfTheTableNamesOnlyRowsAboveIt(t *testing.T) {
	rows, may := doors(t)
	seen := map[string]bool{}
	for _, row := range rows {
		assert.False(t, seen[row], "%s stands twice", row)
		for _, named := range may[row] {
			assert.True(t, seen[named], "%s names %s, which doesn't stand above it", row, named)
		}
		seen[row] = true
	}
}

func TestTheCodeKeepsToTheDoors(t *testing.T) {
	rows, may := doors(t)
	files := goFiles(t)
	require.NotEmpty(t, files)
	inTable := map[string]bool{}
	for _, row := range rows {
		inTable[row] = true
		assert.Contains(t, files, row, "%s stands in the table and not in the house", row)
	}
	for room, list := range files {
		if !assert.True(t, inTable[room], "%s has no row in DEVELOPERS.md", room) {
			continue
		}
		allowed := map[string]bool{"wardian/" + room: true}
		for _, named := range may[room] {
			allowed["wardian/"+named] = true
		}
		for _, file := range list {
			f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
			require.NoError(t, err)
			for _, i := range f.Imports {
				name := strings.Trim(i.Path.Value, `"`)
				if strings.HasPrefix(name, "wardian/") && !strings.HasSuffix(file, "_test.go") {
					assert.True(t, allowed[name], "%s imports %s", file, name)
				}
			}
		}
	}
}

// Some libraries have one door, and nobody else calls them.
func TestLibrariesHaveOneDoor(t *testing.T) {
	door := map[string]string{
		"github.com/adrg/frontmatter":      "content/header",
		"go.yaml.in/yaml/v4":               "content/header",
		"github.com/yuin/goldmark":         "content/prose",
		"github.com/wcharczuk/go-chart/v2": "build/chart",
		"github.com/spf13/cobra":           "cmd/wardian",
		"rsc.io/qr":                        "build/paper",
		"gonum.org/v1/gonum":               "build/survival",
	}
	used := map[string]bool{}
	for room, list := range goFiles(t) {
		for _, file := range list {
			if filepath.Base(file) == "floor_test.go" {
				continue // what the libraries take alone, to measure a build against
			}
			f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
			require.NoError(t, err)
			for _, i := range f.Imports {
				name := strings.Trim(i.Path.Value, `"`)
				for library, home := range door {
					if name == library || strings.HasPrefix(name, library+"/") {
						used[library] = true
						assert.Equal(t, home, room, "%s imports %s", file, name)
					}
				}
			}
		}
	}
	assert.Len(t, used, len(door), "every library of the list is used")
}

func TestFilesAreSmallAndNamedForASubject(t *testing.T) {
	for room, list := range goFiles(t) {
		assert.NotContains(t, []string{"util", "utils", "helpers", "common", "misc"}, path.Base(room))
		for _, file := range list {
			name := strings.TrimSuffix(filepath.Base(file), ".go")
			assert.NotRegexp(t, `^(util|utils|helper|helpers|common|misc)(_test)?$`, name, file)
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.LessOrEqual(t, strings.Count(string(data), "\n"), 500, "%s is long; is there a seam?", file)
		}
	}
}

func TestTheTopHoldsWhatTheDesignAllows(t *testing.T) {
	entries, err := os.ReadDir(top)
	require.NoError(t, err)
	allowed := map[string]bool{}
	for _, name := range []string{"cmd", "content", "themes", "build", "testdata", "README.md", "DEVELOPERS.md", "go.mod", "go.sum", "LICENSE"} {
		allowed[name] = true
	}
	var extra []string
	for _, e := range entries {
		if !allowed[e.Name()] && !strings.HasPrefix(e.Name(), ".") {
			extra = append(extra, e.Name())
		}
		delete(allowed, e.Name())
	}
	sort.Strings(extra)
	assert.Empty(t, extra, "stands at the top and shouldn't")
	assert.Empty(t, fmt.Sprint(missing(allowed)), "isn't at the top and should be")
}

func missing(names map[string]bool) string {
	var out []string
	for n := range names {
		out = append(out, n)
	}
	sort.Strings(out)
	return strings.Join(out, " ")
}
