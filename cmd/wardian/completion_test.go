package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// offered is what the tab key offers behind a command line.
func offered(t testing.TB, args ...string) []string {
	t.Helper()
	code, out, _ := said(t, append([]string{"__complete"}, args...)...)
	require.Equal(t, exitClean, code)
	var words []string
	for line := range strings.Lines(out) {
		if line = strings.TrimRight(line, "\n"); line != "" && !strings.HasPrefix(line, ":") {
			words = append(words, line)
		}
	}
	slices.Sort(words)
	return words
}

func TestTheTabKeyOffers(t *testing.T) {
	dir := exampleFolder(t)
	t.Chdir(dir)
	specimens, err := filepath.Glob(filepath.Join(dir, "specimens", "v26-*.md"))
	require.NoError(t, err)
	require.NotEmpty(t, specimens)
	var want []string
	for _, s := range specimens {
		want = append(want, strings.TrimSuffix(filepath.Base(s), ".md"))
	}
	assert.Equal(t, want, offered(t, "find", "root", "--specimen", "v26-"))
	assert.Equal(t, want, offered(t, "find", "root", "--diary", dir, "--specimen", "v26-"))
	assert.Contains(t, offered(t, "find", "root", "--place", ""), "tote")
	assert.Equal(t, schemaNames(), unsorted(offered(t, "schema", ""), schemaNames()))
	assert.Contains(t, offered(t, "help", "unknown-k"), "unknown-key")
	assert.Equal(t, []string{"place", "place-note", "place-for-to"}, unsorted(offered(t, "help", "place"), []string{"place", "place-note", "place-for-to"}))
	assert.Equal(t, []string{"bash", "fish", "zsh"}, offered(t, "complete", ""))
	assert.Empty(t, offered(t, "try", ""), "try takes nothing")
	// Commands and flags come with the words of their help texts.
	assert.Contains(t, offered(t, "fin"), "find\ttell when something was last seen")
	assert.Contains(t, offered(t, "find", "--specim"), "--specimen\tonly what is said of this one")
	// Where no diary stands, there is nothing to offer, and no fault.
	t.Chdir(t.TempDir())
	assert.Empty(t, offered(t, "find", "root", "--specimen", ""))
}

// unsorted puts words in the order of others; words that aren't among these come
// behind.
func unsorted(words, order []string) []string {
	slices.SortStableFunc(words, func(a, b string) int {
		at := func(w string) int {
			if i := slices.Index(order, w); i >= 0 {
				return i
			}
			return len(order)
		}
		return at(a) - at(b)
	})
	return words
}

// A shell takes the script that we print, and completes with it.
func TestShellsTakeTheScripts(t *testing.T) {
	for shell, check := range map[string][]string{"bash": {"-n"}, "zsh": {"-n"}, "fish": {"--no-execute"}} {
		t.Run(shell, func(t *testing.T) {
			code, script, talk := said(t, "complete", shell)
			require.Equal(t, exitClean, code)
			assert.Empty(t, talk)
			assert.Contains(t, script, "wardian")
			if _, err := exec.LookPath(shell); err != nil {
				t.Skipf("no %s here to hold the script to", shell)
			}
			file := filepath.Join(t.TempDir(), "script")
			require.NoError(t, os.WriteFile(file, []byte(script), 0o644))
			out, err := exec.Command(shell, append(check, file)...).CombinedOutput()
			assert.NoError(t, err, "%s", out)
		})
	}
}

// BenchmarkCompletion completes a specimen's ID in diaries of 500 and 5 000
// specimens. It may take 50 ms, the program's own start included; that start,
// some 10 ms, isn't measured here.
func BenchmarkCompletion(b *testing.B) {
	for _, n := range []int{500, 5000} {
		dir := b.TempDir()
		require.NoError(b, os.Mkdir(filepath.Join(dir, "specimens"), 0o755))
		for i := range n {
			require.NoError(b, os.WriteFile(filepath.Join(dir, "specimens", fmt.Sprintf("b26-%04d.md", i)), []byte("---\n---\n"), 0o644))
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if got := offered(b, "find", "root", "--diary", dir, "--specimen", "b26-"); len(got) != n {
					b.Fatalf("%d offered", len(got))
				}
			}
		})
	}
}
