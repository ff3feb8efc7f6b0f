package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"
)

// everyKind is a small diary with a file of every kind, in a folder of its own.
func everyKind(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "sill")
	layOut(dir, everyKindFiles(t))
	return dir
}

// everyKindFiles are its files.
func everyKindFiles(t *testing.T) map[string][]byte {
	t.Helper()
	a, err := txtar.ParseFile(filepath.Join("..", "..", "testdata", "diaries", "every-kind.txtar"))
	require.NoError(t, err)
	files := map[string][]byte{}
	for _, f := range a.Files {
		files[f.Name] = f.Data
	}
	for n, name := range []string{"photos/2026-03-09/b26-01.jpg", "photos/2026-03-09/b26-02.jpg", "photos/2026-04-06/b26-01.jpg"} {
		files[name] = sketch(uint8(60 * n))
	}
	return files
}

func layOut(dir string, files map[string][]byte) {
	for name, data := range files {
		at := filepath.Join(dir, filepath.FromSlash(name))
		must(os.MkdirAll(filepath.Dir(at), 0o755))
		must(os.WriteFile(at, data, 0o644))
	}
}

// act is one random operation: numbers, which mean something in a folder as it
// stands, so that any of them may be left out of a row.
type act struct {
	kind, which, how uint64
	tell, compare    bool
}

// Two thousand random operations on a small diary, told one by one or up to five
// at once: after each comparison the preview's pages and findings are those of a
// site made from scratch. A failure names its seed, and the fewest operations
// found that lead to it.
func TestRandomOperationsEndInThePagesFromScratch(t *testing.T) {
	noGoroutineIsLeft(t)
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	// One preview lives through so many operations: enough to come to any state
	// of a diary of forty files, few enough to be shortened where it fails.
	const episode = 250
	operations, seed := 2_000, uint64(10)
	switch {
	case racing:
		operations = 100
	case testing.Short():
		operations = 100
	}
	files := everyKindFiles(t)
	total := &counts{did: map[string]int{}}
	for n := 0; n*episode < operations; n++ {
		r := rand.New(rand.NewPCG(seed, uint64(n)))
		acts := make([]act, min(episode, operations-n*episode))
		for i := range acts {
			acts[i] = act{r.Uint64(), r.Uint64(), r.Uint64(), r.IntN(10) < 7 || i%5 == 4, r.IntN(10) < 2 || i%5 == 4}
		}
		wrong, told := play(t, files, acts, total)
		if wrong == "" {
			continue
		}
		acts, told, wrong = shorten(t, files, acts[:len(told)], told, wrong)
		require.Fail(t, "the preview differs", "seed %d, episode %d, shortened to %d operations:\n%s\n%s", seed, n, len(acts), strings.Join(told, "\n"), wrong)
	}
	t.Logf("seed %d; %v; %d comparisons of all pages, %d of findings; %d answers", seed, total.did, total.good, total.broken, total.pages)
	require.Len(t, total.did, len(deeds)+1, "each kind of operation came")
	require.Greater(t, total.good, operations/10)
	require.Greater(t, total.broken, operations/20)
}

type counts struct {
	did                 map[string]int
	good, broken, pages int
}

// play carries operations out on a fresh copy of a diary, up to the first
// difference, and says what each was.
func play(t *testing.T, files map[string][]byte, acts []act, into *counts) (wrong string, told []string) {
	dir, err := os.MkdirTemp(t.TempDir(), "sill")
	must(err)
	defer os.RemoveAll(dir)
	layOut(dir, files)
	doing := "reading"
	defer func() {
		if p := recover(); p != nil {
			wrong = fmt.Sprintf("%s: panic: %v\n%s", doing, p, debug.Stack())
			told = append(told, doing)
		}
	}()
	p := &player{twins: newTwins(dir), files: files}
	for n, a := range acts {
		doing = "an operation"
		kind, what := p.do(a)
		into.did[kind]++
		doing = what
		if a.tell || n == len(acts)-1 {
			c := p.change(a.how%97 == 0)
			if a.how%11 == 0 {
				// The folder changes again before it is read; that is told next.
				_, more := p.do(act{kind: a.how, which: a.which / 3, how: a.how / 7})
				what += ", and before it was read: " + more
				p.read(c)
				c = p.change(false)
			}
			p.read(c)
			what += "; told"
			if a.compare || n == len(acts)-1 {
				what += "; compared"
				doing = what
				wrong = p.differ()
			}
		}
		told = append(told, what)
		if wrong != "" {
			break
		}
	}
	into.good, into.broken, into.pages = into.good+p.good, into.broken+p.broken, into.pages+p.twins.pages
	return wrong, told
}

// shorten leaves operations out for as long as the rest still fails.
func shorten(t *testing.T, files map[string][]byte, acts []act, told []string, wrong string) ([]act, []string, string) {
	end := time.Now().Add(40 * time.Second)
	for n := range acts {
		acts[n].compare = false // but the last
	}
	for part := len(acts) / 2; part > 0 && time.Now().Before(end); {
		shorter := false
		for from := 0; from+part <= len(acts) && time.Now().Before(end); {
			rest := slices.Concat(acts[:from], acts[from+part:])
			if w, did := play(t, files, rest, &counts{did: map[string]int{}}); w != "" {
				acts, told, wrong, shorter = rest[:len(did)], did, w, true
			} else {
				from += part
			}
		}
		if !shorter || part > len(acts)/2 {
			part /= 2
		}
	}
	return acts, told, wrong
}
