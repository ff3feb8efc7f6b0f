package outdir

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Two sites that differ in every way two sites can: a file the same, one changed at the same length, one
// longer, one gone, one new, a folder gone, a folder new.
var (
	oldFiles = map[string]string{
		"index.html": "the old front", "style.css": "body{}", "specimens/b26-01.html": "firm",
		"specimens/b26-02.html": "limp", "updates/week-one.html": "one week on",
	}
	newFiles = map[string]string{
		"index.html": "the new front", "style.css": "body{}", "specimens/b26-01.html": "firm, a new root",
		"specimens/b26-03.html": "soft", "open-data/survival.csv": "day,at_risk\n0,14\n",
	}
)

// buildWith makes a whole site through one disk, its files in order of path.
func buildWith(d disk, target string, files map[string]string) (Result, error) {
	s, err := open(target, Options{}, d)
	if err != nil {
		return Result{}, err
	}
	defer s.Discard()
	for _, path := range slices.Sorted(maps.Keys(files)) {
		if err := s.WriteFile(path, []byte(files[path])); err != nil {
			return Result{}, err
		}
	}
	return s.Commit()
}

// calmDisk leaves out the one dear operation, for tests that build often and are about something else.
type calmDisk struct{ osDisk }

func (calmDisk) syncTree(string) error { return nil }
func (calmDisk) syncDir(string) error  { return nil }

func build(t *testing.T, target string, files map[string]string) Result {
	t.Helper()
	r, err := buildWith(calmDisk{}, target, files)
	require.NoError(t, err)
	require.NoError(t, r.Uncleared)
	return r
}

// snapshot reads everything at path: file → mode and bytes, folder → mode. It is nil if nothing is there.
func snapshot(t *testing.T, path string) map[string]string {
	t.Helper()
	var all map[string]string
	err := filepath.WalkDir(path, func(p string, e fs.DirEntry, err error) error {
		if p == path && os.IsNotExist(err) {
			return nil
		}
		if err != nil {
			return err
		}
		if all == nil {
			all = map[string]string{}
		}
		rel, _ := filepath.Rel(path, p)
		info, err := e.Info()
		if err != nil {
			return err
		}
		mode := info.Mode()
		if runtime.GOOS == "windows" {
			mode = mode.Type()
		}
		all[filepath.ToSlash(rel)] = mode.String()
		if mode.IsRegular() {
			data, err := os.ReadFile(p)
			if err != nil {
				return err
			}
			all[filepath.ToSlash(rel)] += "\n" + string(data)
		}
		return nil
	})
	require.NoError(t, err)
	return all
}

// wanted is the snapshot of a site built where nothing was. Each is built once.
func wanted(t *testing.T, files map[string]string) map[string]string {
	t.Helper()
	key := fmt.Sprint(files)
	if built[key] == nil {
		target := filepath.Join(t.TempDir(), "shown")
		build(t, target, files)
		built[key] = snapshot(t, target)
	}
	return built[key]
}

var built = map[string]map[string]string{}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

func TestBuildOverAnOldSite(t *testing.T) {
	parent := t.TempDir()
	target := filepath.Join(parent, "shown")
	r, err := buildWith(osDisk{}, target, oldFiles)
	require.NoError(t, err)
	assert.Equal(t, Result{Written: 5}, r)
	before := snapshot(t, target)
	assert.Equal(t, "the old front", strings.SplitN(before["index.html"], "\n", 2)[1])

	assert.Equal(t, Result{Written: 4, Same: 1, Removed: 2}, build(t, target, newFiles))
	after := snapshot(t, target)
	assert.Equal(t, wanted(t, newFiles), after)
	assert.NotContains(t, after, "updates")
	assert.Equal(t, []string{"shown"}, names(t, parent), "litter beside the site")
}

func TestUnchangedSiteIsLeftAlone(t *testing.T) {
	target := filepath.Join(t.TempDir(), "shown")
	build(t, target, oldFiles)
	before, err := os.Stat(filepath.Join(target, "index.html"))
	require.NoError(t, err)
	assert.Equal(t, Result{Same: 5}, build(t, target, oldFiles))
	after, err := os.Stat(filepath.Join(target, "index.html"))
	require.NoError(t, err)
	assert.True(t, os.SameFile(before, after), "the file was written anew")
	assert.Equal(t, Result{Same: 4, Removed: 1}, build(t, target, without(oldFiles, "style.css")))
	assert.NoFileExists(t, filepath.Join(target, "style.css"))
}

func without(files map[string]string, path string) map[string]string {
	rest := maps.Clone(files)
	delete(rest, path)
	return rest
}

func TestEmptyAndMissingTargets(t *testing.T) {
	for _, way := range []string{"missing", "empty", "parents missing", "only a desktop's file"} {
		t.Run(way, func(t *testing.T) {
			parent := t.TempDir()
			target := filepath.Join(parent, "shown")
			switch way {
			case "empty":
				require.NoError(t, os.Mkdir(target, 0o700))
			case "parents missing":
				target = filepath.Join(parent, "a", "b", "shown")
			case "only a desktop's file":
				require.NoError(t, os.Mkdir(target, 0o755))
				require.NoError(t, os.WriteFile(filepath.Join(target, ".DS_Store"), []byte("x"), 0o644))
			}
			build(t, target, newFiles)
			assert.Equal(t, wanted(t, newFiles), snapshot(t, target))
			assert.Equal(t, []string{"shown"}, names(t, filepath.Dir(target)))
		})
	}
}

func TestDiscardLeavesNothing(t *testing.T) {
	parent := t.TempDir()
	target := filepath.Join(parent, "out", "shown")
	s, err := Open(target, Options{})
	require.NoError(t, err)
	require.NoError(t, s.WriteFile("index.html", []byte("x")))
	require.NoError(t, s.Discard())
	require.NoError(t, s.Discard())
	assert.Empty(t, names(t, parent), "the parent that was made is still there")
	assert.Error(t, s.WriteFile("late.html", nil))
	_, err = s.Commit()
	assert.Error(t, err)

	target = filepath.Join(parent, "shown")
	build(t, target, oldFiles)
	s, err = Open(target, Options{})
	require.NoError(t, err)
	require.NoError(t, s.WriteFile("index.html", []byte("x")))
	require.NoError(t, s.Discard())
	assert.Equal(t, wanted(t, oldFiles), snapshot(t, target))
	assert.Equal(t, []string{"shown"}, names(t, parent))
}

func TestSecondBuildIsToldAtOnce(t *testing.T) {
	target := filepath.Join(t.TempDir(), "shown")
	first, err := Open(target, Options{})
	require.NoError(t, err)
	_, err = Open(target, Options{})
	require.ErrorIs(t, err, ErrBusy)
	assert.Contains(t, err.Error(), "another build is writing there")
	require.NoError(t, first.WriteFile("index.html", []byte("x")), "the second took something from the first")
	_, err = first.Commit()
	require.NoError(t, err)
	build(t, target, newFiles)
}

func TestAFailedWriteIsNeverCommitted(t *testing.T) {
	target := filepath.Join(t.TempDir(), "shown")
	build(t, target, oldFiles)
	s, err := Open(target, Options{})
	require.NoError(t, err)
	require.NoError(t, s.WriteFile("index.html", []byte("x")))
	require.Error(t, s.WriteFile("../up.html", []byte("x")))
	_, err = s.Commit()
	require.Error(t, err)
	assert.Equal(t, wanted(t, oldFiles), snapshot(t, target))
}

func TestSameBytesWhateverTheOrder(t *testing.T) {
	want := wanted(t, newFiles)
	for _, procs := range []int{1, 8} {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(procs))
		target := filepath.Join(t.TempDir(), "elsewhere")
		s, err := Open(target, Options{})
		require.NoError(t, err)
		var wait sync.WaitGroup
		for path, data := range newFiles {
			wait.Go(func() { assert.NoError(t, s.WriteFile(path, []byte(data))) })
		}
		wait.Wait()
		_, err = s.Commit()
		require.NoError(t, err)
		assert.Equal(t, want, snapshot(t, target))
	}
}

// TestBuildersAndReader has two builders take turns at one target as fast as they can while a reader looks:
// the folder is always there, and a file read is one builder's or the other's, whole.
func TestBuildersAndReader(t *testing.T) {
	parent := t.TempDir()
	target := filepath.Join(parent, "shown")
	pages := []string{strings.Repeat("a", 9000), strings.Repeat("b", 8000)}
	sites := make([]map[string]string, 2)
	for i, page := range pages {
		sites[i] = map[string]string{"index.html": page, "a/b.html": page}
	}
	build(t, target, sites[0])

	stop := make(chan struct{})
	var builders, reader sync.WaitGroup
	done := make([]int, 2)
	for i := range sites {
		builders.Go(func() {
			for done[i] < 40 {
				_, err := buildWith(osDisk{}, target, sites[i])
				if err == nil {
					done[i]++
				} else if !assert.ErrorIs(t, err, ErrBusy) {
					return
				}
			}
		})
	}
	reads := 0
	reader.Go(func() {
		for {
			select {
			case <-stop:
				return
			default:
			}
			if swapsInOneStep {
				if _, err := os.Stat(target); !assert.NoError(t, err, "the site's path was missing") {
					return
				}
			}
			data, err := os.ReadFile(filepath.Join(target, "index.html"))
			if os.IsNotExist(err) {
				continue // the path was being walked while that site was taken away
			}
			reads++
			if !assert.NoError(t, err) || !assert.True(t, slices.Contains(pages, string(data)), "half a page was read") {
				return
			}
		}
	})
	builders.Wait()
	close(stop)
	reader.Wait()
	assert.Equal(t, []int{40, 40}, done)
	assert.Greater(t, reads, 50)
	assert.Equal(t, []string{"shown"}, names(t, parent))
}

// swapsInOneStep is true on the systems whose temporary folders are expected to know the exchange.
var swapsInOneStep = runtime.GOOS == "linux" || runtime.GOOS == "darwin"

func BenchmarkRebuild1000Files(b *testing.B) {
	target := filepath.Join(b.TempDir(), "shown")
	page := strings.Repeat("x", 20_000)
	for i := range b.N {
		files := map[string]string{}
		for n := range 1000 {
			files[fmt.Sprintf("specimens/b%04d.html", n)] = fmt.Sprint(i, page)
		}
		_, err := buildWith(osDisk{}, target, files)
		require.NoError(b, err)
	}
}
