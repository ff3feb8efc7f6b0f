package content

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

func TestOnlyPlainFilesBeneathTheFolderAreReadTheShortWay(t *testing.T) {
	outside := t.TempDir()
	dir := filepath.Join(outside, "diary")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "a", "b"), 0o755))
	write := func(at, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(outside, at), []byte(text), 0o644))
	}
	write("secret", "secret")
	write("diary/a/b/c.md", "words")
	write("diary/empty.md", "")
	write("diary/long.md", "123456789")
	require.NoError(t, os.Symlink(filepath.Join("..", "a", "b", "c.md"), filepath.Join(dir, "a", "inside.md")))
	require.NoError(t, os.Symlink(filepath.Join(outside, "secret"), filepath.Join(dir, "absolute.md")))
	require.NoError(t, os.Symlink(filepath.Join("..", "..", "secret"), filepath.Join(dir, "a", "up.md")))
	require.NoError(t, os.Symlink("..", filepath.Join(dir, "parent")))
	require.NoError(t, unix.Mkfifo(filepath.Join(dir, "pipe.md"), 0o644))

	d := openDisk(os.DirFS(dir))
	require.NotNil(t, d)
	defer d.close()
	if _, ok := d.read("a/b/c.md", 8, nil); !ok {
		t.Skip("this kernel, or what the test runs in, doesn't know openat2")
	}
	for at, want := range map[string]string{"a/b/c.md": "words", "a/inside.md": "words", "empty.md": ""} {
		data, ok := d.read(at, 8, nil)
		assert.True(t, ok, at)
		assert.Equal(t, want, string(data), at)
	}
	for _, at := range []string{"absolute.md", "a/up.md", "parent/secret", "../secret", filepath.Join(outside, "secret"), "pipe.md", "a", "none.md", "long.md"} {
		_, ok := d.read(at, 8, nil)
		assert.False(t, ok, at)
	}
	for _, size := range []int{0, 4, 5, 6, 40} { // "words" has five bytes, and one is kept for what grows
		room := bytes.Repeat([]byte("x"), size)
		data, ok := d.read("a/b/c.md", 8, room)
		assert.True(t, ok)
		assert.Equal(t, "words", string(data))
		assert.Equal(t, size > 5, size > 0 && &data[0] == &room[0], "in a room of %d", size)
	}
	entries, ok := d.list("a")
	require.True(t, ok)
	types := map[string]fs.FileMode{}
	for _, e := range entries {
		types[e.Name()] = e.Type()
	}
	assert.Equal(t, map[string]fs.FileMode{"b": fs.ModeDir, "inside.md": fs.ModeSymlink, "up.md": fs.ModeSymlink}, types)
	for _, at := range []string{"parent", "parent/diary", "..", outside, "none", "empty.md", "pipe.md"} {
		_, ok := d.list(at)
		assert.False(t, ok, at)
	}
	var none *disk
	_, ok = none.read("a/b/c.md", 8, nil)
	assert.False(t, ok)
	_, ok = none.list("a")
	assert.False(t, ok)
}

func TestListedFilesTellOfThemselves(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "photos", "b"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "photos", "a.jpg"), []byte("four"), 0o644))
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	for _, files := range []fs.FS{os.DirFS(dir), root.FS()} {
		f := OpenFiles(files)
		defer f.Close()
		var seen []string
		require.NoError(t, fs.WalkDir(f, "photos", func(path string, e fs.DirEntry, err error) error {
			require.NoError(t, err)
			info, err := e.Info()
			require.NoError(t, err, path)
			require.Equal(t, e.Name(), info.Name())
			if !e.IsDir() {
				require.EqualValues(t, 4, info.Size())
			}
			seen = append(seen, path)
			return nil
		}))
		assert.Equal(t, []string{"photos", "photos/a.jpg", "photos/b"}, seen)
		_, err := f.ReadDir("none")
		assert.ErrorIs(t, err, fs.ErrNotExist)
	}
}
