//go:build unix

package outdir

import (
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const scaffold = "---\nname: Hoya callistophylla\n---\nAn invented plant.\n"

func TestWriteNew(t *testing.T) {
	root := t.TempDir()
	path := filepath.Join(root, "specimens", "b26-01.md")
	require.NoError(t, WriteNew(path, []byte(scaffold)))
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, scaffold, string(data))
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o644), info.Mode())

	err = WriteNew(path, []byte("other"))
	require.ErrorIs(t, err, fs.ErrExist)
	assert.Contains(t, err.Error(), "b26-01.md")
	data, _ = os.ReadFile(path)
	assert.Equal(t, scaffold, string(data), "it was written over")

	broken := filepath.Join(root, "specimens", "link.md")
	require.NoError(t, os.Symlink(filepath.Join(root, "outside.md"), broken))
	require.ErrorIs(t, WriteNew(broken, []byte("x")), fs.ErrExist)
	assert.NoFileExists(t, filepath.Join(root, "outside.md"))
	assert.ElementsMatch(t, []string{"b26-01.md", "link.md"}, names(t, filepath.Dir(path)))
}

// The name is taken after the look and before the rename: the rename itself must refuse.
func TestRenameNewNeverReplaces(t *testing.T) {
	for name, rename := range map[string]func(from, to string) error{"rename": renameNew, "link": linkNew} {
		dir := t.TempDir()
		from, to := filepath.Join(dir, "from"), filepath.Join(dir, "to")
		require.NoError(t, os.WriteFile(from, []byte("new"), 0o644))
		require.NoError(t, os.WriteFile(to, []byte("theirs"), 0o644))
		require.ErrorIs(t, rename(from, to), fs.ErrExist, name)
		data, err := os.ReadFile(to)
		require.NoError(t, err)
		assert.Equal(t, "theirs", string(data), name)
		require.NoError(t, os.Remove(to))
		require.NoError(t, rename(from, to), name)
		assert.Equal(t, []string{"to"}, names(t, dir), name)
	}
}

func TestWriteNewSideBySide(t *testing.T) {
	dir := t.TempDir()
	var won atomic.Int32
	var wait sync.WaitGroup
	for i := range 20 {
		wait.Go(func() {
			err := WriteNew(filepath.Join(dir, "round.md"), []byte(strconv.Itoa(i)))
			if err == nil {
				won.Add(1)
			}
		})
	}
	wait.Wait()
	assert.EqualValues(t, 1, won.Load())
	assert.Equal(t, []string{"round.md"}, names(t, dir))
}

// TestWriteNewFaults fails and kills at each operation: the file is whole or not there, and writing again works
// and leaves nothing else.
func TestWriteNewFaults(t *testing.T) {
	count := &faultDisk{}
	require.NoError(t, writeNew(count, filepath.Join(t.TempDir(), "new", "a.md"), []byte(scaffold)))
	require.Greater(t, len(count.seen), 8)
	check := func(t *testing.T, path string) {
		data, err := os.ReadFile(path)
		if err == nil {
			assert.Equal(t, scaffold, string(data))
			require.ErrorIs(t, WriteNew(path, []byte("other")), fs.ErrExist)
			return
		}
		require.ErrorIs(t, err, fs.ErrNotExist)
		require.NoError(t, WriteNew(path, []byte(scaffold)))
		assert.Equal(t, []string{"a.md"}, names(t, filepath.Dir(path)), "litter")
	}
	for at := 1; at <= len(count.seen); at++ {
		for _, half := range []bool{false, true} {
			what := count.seen[at-1]
			if half && what != "write" {
				continue
			}
			for _, fail := range []error{syscall.EIO, syscall.ENOSPC, syscall.EACCES} {
				t.Run(strconv.Itoa(at)+" "+what+" "+fail.Error(), func(t *testing.T) {
					path := filepath.Join(t.TempDir(), "new", "a.md")
					require.ErrorIs(t, writeNew(&faultDisk{at: at, fail: fail, half: half}, path, []byte(scaffold)), fail)
					check(t, path)
				})
			}
			t.Run(strconv.Itoa(at)+" "+what+" killed", func(t *testing.T) {
				path := filepath.Join(t.TempDir(), "new", "a.md")
				env := []string{"OUTDIR_KILL_AT=" + strconv.Itoa(at), "OUTDIR_NEW_FILE=" + path}
				if half {
					env = append(env, "OUTDIR_HALF=yes")
				}
				killed(t, env...)
				check(t, path)
			})
		}
	}
}
