package preview

import (
	"context"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/fsnotify/fsnotify"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ear gathers what a watcher tells.
type ear struct {
	mu    sync.Mutex
	all   bool
	kinds map[string][]Kind
	bell  chan struct{}
}

func (e *ear) tell(c Change) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.all = e.all || c.All
	for _, p := range c.Paths {
		e.kinds[p.Name] = append(e.kinds[p.Name], p.Kind)
	}
	select {
	case e.bell <- struct{}{}:
	default:
	}
}

// heard waits until a path was told of, and forgets all.
func (e *ear) heard(t *testing.T, name string) map[string][]Kind {
	t.Helper()
	deadline := time.After(5 * time.Second)
	for {
		e.mu.Lock()
		if _, ok := e.kinds[name]; ok {
			out := e.kinds
			e.kinds = map[string][]Kind{}
			e.mu.Unlock()
			return out
		}
		e.mu.Unlock()
		select {
		case <-e.bell:
		case <-deadline:
			require.Fail(t, "never told", name)
		}
	}
}

// heardAll does something at every place and waits until all of it was told.
func (e *ear) heardAll(t *testing.T, places []string, do func(string) string) {
	t.Helper()
	var want []string
	for _, p := range places {
		want = append(want, do(p))
	}
	assert.Eventually(t, func() bool {
		e.mu.Lock()
		defer e.mu.Unlock()
		for _, p := range want {
			if _, ok := e.kinds[p]; !ok {
				return false
			}
		}
		return true
	}, 5*time.Second, 10*time.Millisecond, "%v", want)
}

// quiet waits until nothing was told for a while.
func (e *ear) quiet(d time.Duration) {
	for {
		select {
		case <-e.bell:
		case <-time.After(d):
			return
		}
	}
}

// watching watches a folder until the test ends.
func watching(t *testing.T, root string, pass func(string) bool) (*Watcher, *ear, func()) {
	t.Helper()
	e := &ear{kinds: map[string][]Kind{}, bell: make(chan struct{}, 1)}
	w, stop := run(t, root, pass, e.tell)
	return w, e, stop
}

func run(t *testing.T, root string, pass func(string) bool, tell func(Change)) (*Watcher, func()) {
	t.Helper()
	w, err := Watch(root, pass, tell)
	require.NoError(t, err)
	require.NoError(t, w.Blind())
	ctx, end := context.WithCancel(context.Background())
	ended := make(chan struct{})
	go func() { w.Run(ctx); close(ended) }()
	stop := sync.OnceFunc(func() { end(); <-ended })
	t.Cleanup(stop)
	return w, stop
}

// foldersTimeless leaves out the times of folders: that of one in which something
// was written since is as old as the listing of the one it stands in.
func foldersTimeless(all tree) tree {
	out := tree{}
	for folder, entries := range all {
		out[folder] = maps.Clone(entries)
		for name, k := range entries {
			if k.mode.IsDir() {
				k.time = time.Time{}
				out[folder][name] = k
			}
		}
	}
	return out
}

func put(t testing.TB, root, name, text string) {
	t.Helper()
	at := filepath.Join(root, filepath.FromSlash(name))
	require.NoError(t, os.MkdirAll(filepath.Dir(at), 0o755))
	require.NoError(t, os.WriteFile(at, []byte(text), 0o644))
}

func TestAWatcherTellsWhatHappens(t *testing.T) {
	root := t.TempDir()
	at := func(name string) string { return filepath.Join(root, filepath.FromSlash(name)) }
	put(t, root, "check-ins/2026/a.md", "one")
	put(t, root, "specimens/p-1.md", "one")
	_, e, _ := watching(t, root, func(p string) bool { return p == "shown" })

	put(t, root, "check-ins/2026/a.md", "two")
	assert.Equal(t, map[string][]Kind{"check-ins/2026/a.md": {Edited}}, e.heard(t, "check-ins/2026/a.md"), "written in place")

	put(t, root, "check-ins/2026/.a.md.swp", "two and")
	require.NoError(t, os.Rename(at("check-ins/2026/.a.md.swp"), at("check-ins/2026/a.md")))
	assert.Equal(t, map[string][]Kind{"check-ins/2026/a.md": {Edited}}, e.heard(t, "check-ins/2026/a.md"), "saved by rename")

	info, err := os.Stat(at("check-ins/2026/a.md"))
	require.NoError(t, err)
	put(t, root, "check-ins/2026/.tmp", "two AND")
	require.NoError(t, os.Chtimes(at("check-ins/2026/.tmp"), info.ModTime(), info.ModTime()))
	require.NoError(t, os.Rename(at("check-ins/2026/.tmp"), at("check-ins/2026/a.md")))
	assert.Equal(t, map[string][]Kind{"check-ins/2026/a.md": {Edited}}, e.heard(t, "check-ins/2026/a.md"), "another file of the same size and time")

	require.NoError(t, os.Rename(at("specimens/p-1.md"), at("specimens/p-2.md")))
	assert.Equal(t, map[string][]Kind{"specimens/p-1.md": {Gone}, "specimens/p-2.md": {New}}, e.heard(t, "specimens/p-2.md"), "renamed")

	put(t, root, "check-ins/2027/01/b.md", "deep")
	assert.Equal(t, map[string][]Kind{"check-ins/2027": {New}, "check-ins/2027/01": {New}, "check-ins/2027/01/b.md": {New}}, e.heard(t, "check-ins/2027/01/b.md"), "in new folders")
	put(t, root, "check-ins/2027/01/b.md", "deeper")
	assert.Equal(t, map[string][]Kind{"check-ins/2027/01/b.md": {Edited}}, e.heard(t, "check-ins/2027/01/b.md"), "the new folders are watched")

	require.NoError(t, os.Rename(at("check-ins/2027"), at("specimens/2028")))
	assert.Equal(t, map[string][]Kind{"check-ins/2027": {Gone}, "check-ins/2027/01": {Gone}, "check-ins/2027/01/b.md": {Gone},
		"specimens/2028": {New}, "specimens/2028/01": {New}, "specimens/2028/01/b.md": {New}}, e.heard(t, "specimens/2028/01/b.md"), "a whole folder moved")
	put(t, root, "specimens/2028/01/b.md", "after the move")
	assert.Equal(t, map[string][]Kind{"specimens/2028/01/b.md": {Edited}}, e.heard(t, "specimens/2028/01/b.md"), "and is watched where it is")

	text, err := os.ReadFile(at("check-ins/2026/a.md"))
	require.NoError(t, err)
	require.NoError(t, os.Remove(at("check-ins/2026/a.md")))
	assert.Equal(t, []Kind{Gone}, e.heard(t, "check-ins/2026/a.md")["check-ins/2026/a.md"])
	put(t, root, "check-ins/2026/a.md", string(text))
	assert.Equal(t, []Kind{New}, e.heard(t, "check-ins/2026/a.md")["check-ins/2026/a.md"], "restored")

	// What is passed over stays unsaid, folders in it too.
	for _, name := range []string{"shown/index.html", ".wardian/x", ".shown.wardian-stage/site/a", ".shown.wardian-lock", "check-ins/.git/x"} {
		put(t, root, name, "x")
	}
	put(t, root, "places/tote.md", "last")
	for name := range e.heard(t, "places/tote.md") {
		assert.True(t, strings.HasPrefix(name, "places"), name)
	}
}

// The watched folder itself may go and come back.
func TestTheWatchedFolderMayGoAndComeBack(t *testing.T) {
	root := filepath.Join(t.TempDir(), "sill")
	put(t, root, "a/b.md", "one")
	_, e, _ := watching(t, root, nil)
	require.NoError(t, os.Rename(root, root+" away"))
	assert.Equal(t, []Kind{Gone}, e.heard(t, "a/b.md")["a/b.md"])
	require.NoError(t, os.Rename(root+" away", root))
	assert.Equal(t, []Kind{New}, e.heard(t, "a/b.md")["a/b.md"])
	put(t, root, "a/b.md", "two")
	assert.Equal(t, []Kind{Edited}, e.heard(t, "a/b.md")["a/b.md"], "it is watched again")
}

// Events that were lost are made good by looking at everything.
func TestLostEventsAreMadeGood(t *testing.T) {
	root := t.TempDir()
	put(t, root, "a/one.md", "one")
	put(t, root, "a/two.md", "two")
	w, e, stop := watching(t, root, nil)
	stop()
	put(t, root, "a/one.md", "other")
	require.NoError(t, os.Remove(filepath.Join(root, "a/two.md")))
	put(t, root, "b/c/three.md", "three")
	w.fault(fsnotify.ErrEventOverflow)
	w.settle(w.all)
	assert.True(t, e.all)
	assert.Equal(t, map[string][]Kind{"a": {Passing}, "a/one.md": {Edited}, "a/two.md": {Gone}, "b": {New}, "b/c": {New}, "b/c/three.md": {New}}, e.kinds)
	assert.Equal(t, scan(root, nil), w.tree)
	w.events.Close()
}

// What comes after a listing and goes before the next stands in neither; whoever
// read the folder meanwhile has met it, and is told that it went.
func TestWhatCameAndWentIsTold(t *testing.T) {
	for _, what := range []string{"b.md", "c/d.md"} {
		root := t.TempDir()
		put(t, root, "a.md", "one")
		e := &ear{kinds: map[string][]Kind{}, bell: make(chan struct{}, 1)}
		first := true
		top, _, _ := strings.Cut(what, "/")
		run(t, root, nil, func(c Change) {
			if first {
				put(t, root, what, "met by a reading")
				require.NoError(t, os.RemoveAll(filepath.Join(root, top)))
			}
			first = false
			e.tell(c)
		})
		put(t, root, "a.md", "two")
		assert.Equal(t, []Kind{Passing}, e.heard(t, top)[top], what)
	}
}

// Where no events come, a folder's own time tells of it.
func TestWhatCameAndWentShowsInItsFolder(t *testing.T) {
	root := t.TempDir()
	put(t, root, "a/one.md", "one")
	w, e, stop := watching(t, root, nil)
	stop()
	time.Sleep(20 * time.Millisecond) // a folder's time is no finer than a tick of the system's clock
	put(t, root, "a/two.md", "met by a reading")
	require.NoError(t, os.Remove(filepath.Join(root, "a/two.md")))
	w.settle(true)
	assert.Equal(t, map[string][]Kind{"a": {Passing}}, e.kinds)
	w.events.Close()
}

// A burst is one change, and a file that is empty for a moment isn't told of
// while it is.
func TestABurstIsOneChange(t *testing.T) {
	root := t.TempDir()
	put(t, root, "a.md", "one")
	var mu sync.Mutex
	var texts []string
	done := make(chan struct{}, 100)
	w, err := Watch(root, nil, func(c Change) {
		data, err := os.ReadFile(filepath.Join(root, "a.md"))
		mu.Lock()
		texts = append(texts, string(data))
		mu.Unlock()
		assert.NoError(t, err)
		assert.False(t, c.Began.IsZero())
		done <- struct{}{}
	})
	require.NoError(t, err)
	ctx, end := context.WithCancel(context.Background())
	defer end()
	go w.Run(ctx)

	for i := range 20 { // nothing between them but the writing itself
		require.NoError(t, os.WriteFile(filepath.Join(root, "a.md"), []byte(fmt.Sprint("write ", i)), 0o644))
	}
	<-done
	mu.Lock()
	assert.Less(t, len(texts), 20)
	texts = nil
	mu.Unlock()
	for len(done) > 0 {
		<-done
	}
	time.Sleep(50 * time.Millisecond)

	f, err := os.OpenFile(filepath.Join(root, "a.md"), os.O_WRONLY|os.O_TRUNC, 0)
	require.NoError(t, err)
	time.Sleep(4 * Quiet)
	_, err = f.WriteString("whole")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	assert.Eventually(t, func() bool {
		mu.Lock()
		defer mu.Unlock()
		return slices.Contains(texts, "whole")
	}, 5*time.Second, 5*time.Millisecond)
	mu.Lock()
	assert.NotContains(t, texts, "", "the empty moment was waited out")
	mu.Unlock()
}

// Random operations on files and folders, with and without pauses (ten thousand
// where everything is checked, a fifth of that else):
// what the watcher knows at the end is what is there, and what it told adds up
// to the same.
func TestRandomOperationsEndInWhatIsThere(t *testing.T) {
	operations := 2_000
	if os.Getenv("WARDIAN_CI") != "" {
		operations = 10_000
	}
	root := t.TempDir()
	// What was told, added up: whether a path is there.
	told := map[string]bool{}
	count := 0
	e := &ear{kinds: map[string][]Kind{}, bell: make(chan struct{}, 1)}
	w, stop := run(t, root, nil, func(c Change) {
		count++
		for _, p := range c.Paths {
			if p.Kind != Passing { // which leaves all as it was
				told[p.Name] = p.Kind != Gone
			}
		}
		e.tell(c)
	})
	r := rand.New(rand.NewPCG(9, 26))
	folders := []string{"."}
	var files []string
	any := func(list []string) string { return list[r.IntN(len(list))] }
	remap := func(list []string, from, to string) []string {
		out := list[:0]
		for _, p := range list {
			switch {
			case p == from || strings.HasPrefix(p, from+"/"):
				if to != "" {
					out = append(out, to+strings.TrimPrefix(p, from))
				}
			default:
				out = append(out, p)
			}
		}
		return out
	}
	abs := func(p string) string { return filepath.Join(root, filepath.FromSlash(p)) }
	for n := range operations {
		switch k := r.IntN(20); {
		case k < 2 && len(folders) < 60: // a new folder, or two in one another
			p := path.Join(any(folders), fmt.Sprint("f", n))
			require.NoError(t, os.Mkdir(abs(p), 0o755))
			folders = append(folders, p)
			if r.IntN(2) == 0 {
				p = path.Join(p, "in")
				require.NoError(t, os.Mkdir(abs(p), 0o755))
				folders = append(folders, p)
			}
		case k < 8 || len(files) == 0: // a new file
			p := path.Join(any(folders), fmt.Sprint(n, ".md"))
			require.NoError(t, os.WriteFile(abs(p), []byte("x"), 0o644))
			files = append(files, p)
		case k < 12: // an edit
			require.NoError(t, os.WriteFile(abs(any(files)), []byte(fmt.Sprint(n)), 0o644))
		case k < 15: // a file moved, perhaps over another
			from, to := any(files), path.Join(any(folders), fmt.Sprint("m", r.IntN(200), ".md"))
			require.NoError(t, os.Rename(abs(from), abs(to)))
			files = append(remap(remap(files, to, ""), from, ""), to)
		case k < 17: // a file gone
			p := any(files)
			require.NoError(t, os.Remove(abs(p)))
			files = remap(files, p, "")
		case k < 19 && len(folders) > 1: // a whole folder moved
			from, into := any(folders[1:]), any(folders)
			if into == from || strings.HasPrefix(into, from+"/") {
				continue
			}
			to := path.Join(into, fmt.Sprint("g", n))
			require.NoError(t, os.Rename(abs(from), abs(to)))
			folders, files = remap(folders, from, to), remap(files, from, to)
			if r.IntN(3) == 0 { // and another put in its place
				require.NoError(t, os.Mkdir(abs(from), 0o755))
				folders = append(folders, from)
			}
		case len(folders) > 1: // a whole folder gone
			p := any(folders[1:])
			require.NoError(t, os.RemoveAll(abs(p)))
			folders, files = remap(folders, p, ""), remap(files, p, "")
		}
		if r.IntN(60) == 0 {
			time.Sleep(time.Duration(r.IntN(9)) * time.Millisecond)
		}
	}
	e.quiet(4 * atOnce)

	// Every folder that is left is still watched: what is written there is told.
	e.heardAll(t, folders, func(folder string) string {
		p := path.Join(folder, "last.md")
		require.NoError(t, os.WriteFile(abs(p), []byte("last"), 0o644))
		return p
	})
	e.quiet(4 * atOnce)
	stop()
	want := scan(root, nil)
	assert.True(t, reflect.DeepEqual(foldersTimeless(want), foldersTimeless(w.tree)), "the watcher knows another tree than there is")
	there := map[string]bool{}
	for _, p := range want.paths(".") {
		there[p] = true
		assert.True(t, told[p], "%s is there and the last word of it was that it is gone, or none", p)
	}
	for p, is := range told {
		assert.Equal(t, there[p], is, "%s", p)
	}
	assert.NotEmpty(t, there)
	assert.Greater(t, count, operations/200, "the operations were told in parts")
	assert.Len(t, w.watched, len(want))
	for folder := range want {
		assert.True(t, w.watched[folder], folder)
	}
}
