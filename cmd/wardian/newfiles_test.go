package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/scaffold"
)

// Where one of several files can't be written, none stays; what stood there does.
func TestNewFilesAreAllWrittenOrNone(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), filepath.Join(dir, "check-ins")))
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "specimens"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "specimens", "mine.md"), []byte("mine"), 0o644))
	var out, talk bytes.Buffer
	files := []scaffold.File{{Path: "imports/26-b.md", Text: "a"}, {Path: "specimens/b26-01.md", Text: "b"}, {Path: "check-ins/2026-04-06.md", Text: "c"}}
	done, err := newFiles{dir: dir, files: files, yes: true}.write(voice{out: &out, talk: &talk}, nil)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "write ")
	assert.Contains(t, err.Error(), "check-ins")
	assert.False(t, done)
	assert.Empty(t, out.String(), "nothing is said to be written")
	for _, f := range files {
		assert.NoFileExists(t, filepath.Join(dir, f.Path))
	}
	assert.FileExists(t, filepath.Join(dir, "specimens", "mine.md"))

	require.NoError(t, os.Remove(filepath.Join(dir, "check-ins")))
	done, err = newFiles{dir: dir, files: files, yes: true}.write(voice{out: &out, talk: &talk}, nil)
	require.NoError(t, err)
	assert.True(t, done)
	for _, f := range files {
		got, err := os.ReadFile(filepath.Join(dir, f.Path))
		require.NoError(t, err)
		assert.Equal(t, f.Text, string(got))
	}
	done, err = newFiles{dir: dir, files: append(files, scaffold.File{Path: "specimens/b26-02.md"}), yes: true, refused: "x"}.write(voice{out: &out, talk: &talk}, nil)
	require.ErrorAs(t, err, &wrongUse{})
	assert.False(t, done)
	assert.NoFileExists(t, filepath.Join(dir, "specimens/b26-02.md"))
}
