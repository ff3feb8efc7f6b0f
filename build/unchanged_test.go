package build_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/content"
	"wardian/content/measure"
)

func TestNothingChangedOnlyWhereWhatWasReadStillStands(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, written(expectedDiary+ownLook)))
	today, _ := measure.Date(2026, 5, 1)
	o := build.Options{To: filepath.Join(t.TempDir(), "site"), Folder: dir, On: today}
	unchanged := func() bool {
		_, ok := build.Unchanged(os.DirFS(dir), o, time.Time{})
		return ok
	}
	run := func(meanwhile func()) {
		d, report, err := content.LoadFolder(dir, content.Options{Today: today})
		require.NoError(t, err)
		meanwhile()
		_, ok, err := build.Run(context.Background(), d, os.DirFS(dir), report, o)
		require.NoError(t, err)
		require.True(t, ok)
	}
	save := func(path, with string) {
		at := filepath.Join(dir, path)
		text, err := os.ReadFile(at)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(at, append(text, with...), 0o644))
	}

	assert.False(t, unchanged(), "nothing was built yet")
	run(func() {})
	assert.True(t, unchanged())
	for _, path := range []string{"diary.yaml", "places/tub.md", "imports/box.md", "specimens/p-1.md", "check-ins/2026-03-10.md", "style/2-masthead.css", "style/parts.html"} {
		save(path, "\n")
		assert.False(t, unchanged(), path)
		run(func() {})
		assert.True(t, unchanged(), path)
	}
	for _, path := range []string{"places/tub.md", "imports/box.md", "specimens/p-1.md", "check-ins/2026-03-10.md", "style/2-masthead.css", "style/parts.html"} {
		run(func() { save(path, "\nSaved while the site was being made.\n") })
		assert.False(t, unchanged(), "%s was saved after it was read", path)
	}
	run(func() {})
	require.NoError(t, os.Remove(filepath.Join(o.To, "index.html")))
	assert.False(t, unchanged(), "a file of the site is gone")
}
