package main

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
)

// There is a page for each command, kind of file and code; flags are told, and a
// formatter, where there is one, has nothing to say against any of them.
func TestManualPages(t *testing.T) {
	root := newRoot()
	pages := map[string]string{}
	for _, p := range manualPages(root) {
		assert.Empty(t, pages[p.path], "%s twice", p.path)
		pages[p.path] = p.text
		assert.True(t, strings.HasPrefix(p.text, written), p.path)
	}
	require.NotEmpty(t, pages["man1/wardian.1"])
	for _, c := range commands(t) {
		text := pages["man1/wardian-"+c.Name()+".1"]
		require.NotEmpty(t, text, c.Name())
		c.LocalFlags().VisitAll(func(f *pflag.Flag) {
			if f.Name != "help" {
				assert.Contains(t, text, "\\fB"+escaped("--"+f.Name), c.Name())
			}
		})
	}
	for _, f := range format.Files() {
		text := pages["man5/wardian-"+fileWord(f)+".5"]
		for _, k := range f.Keys {
			assert.Contains(t, strings.Join(strings.Fields(text), " "), strings.Join(strings.Fields(escaped(k.Name+": "+k.Example)), " "), f.Name)
		}
	}
	for _, c := range format.Codes() {
		assert.Contains(t, pages["man7/wardian-codes.7"], escaped(c.Name+": "), c.Name)
	}
	if _, err := exec.LookPath("groff"); err != nil {
		t.Skip("no groff here to hold the pages to")
	}
	for path, text := range pages {
		cmd := exec.Command("groff", "-Kutf8", "-man", "-Tutf8", "-ww")
		cmd.Stdin = strings.NewReader(text)
		var talk strings.Builder
		cmd.Stderr = &talk
		out, err := cmd.Output()
		assert.NoError(t, err, path)
		assert.Empty(t, talk.String(), path)
		assert.NotContains(t, string(out), `\e`, path)
	}
}

func TestEscaping(t *testing.T) {
	for text, want := range map[string]string{
		".nf": `\&.nf`, "'x": `\&'x`, `a\b`: `a\eb`, "--to": `\-\-to`, "  .x": "  .x", "~4 ^ `": `\(ti4 \(ha \(ga`,
	} {
		assert.Equal(t, want, escaped(text), text)
	}
}
