package outdir

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRefusedTargets(t *testing.T) {
	root := t.TempDir()
	diary := filepath.Join(root, "deep", "diary")
	for _, dir := range []string{"specimens", "empty"} {
		require.NoError(t, os.MkdirAll(filepath.Join(diary, dir), 0o755))
	}
	write := func(path, data string) {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(root, path)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(root, path), []byte(data), 0o644))
	}
	write("file", "words")
	write("full/letter.txt", "words")
	write("hidden/.keep", "")
	write("false/"+MarkerName, "something else\n\n\n")
	write("theirs/"+MarkerName, markerWords+"index.html\n")
	write("theirs/index.html", "ours")
	write("theirs/.git/HEAD", "theirs")
	write("theirs/CNAME", "theirs")
	write("taken/.shown.wardian-lock", "somebody's")
	write("stage/.shown.wardian-stage/letter.txt", "somebody's")
	write("stage2/.shown.wardian-stage/site/letter.txt", "no evidence with it")
	require.NoError(t, os.Symlink(filepath.Join(diary, "empty"), filepath.Join(root, "link")))
	require.NoError(t, os.Symlink(filepath.Join(root, "nowhere"), filepath.Join(root, "broken")))
	require.NoError(t, os.Symlink(filepath.Join(root, "deep"), filepath.Join(root, "way")))
	require.NoError(t, os.Symlink(filepath.Join(diary, "specimens"), filepath.Join(root, "into")))

	opts := Options{Keep: []string{diary}, Apart: []string{filepath.Join(diary, "specimens"), filepath.Join(diary, "imports")}}
	before := snapshot(t, root)
	cases := []struct{ name, target, why string }{
		{"nothing", "", "no folder is named"},
		{"the root", "/", "root of the disk"},
		{"a file", "file", "it is a file"},
		{"a link", "link", "symbolic link"},
		{"a link with a slash", "link/", "symbolic link"},
		{"a broken link", "broken", "symbolic link"},
		{"a folder with a file", "full", "was not made by Wardian"},
		{"a folder with a hidden file", "hidden", "was not made by Wardian"},
		{"a false marker", "false", "was not made by Wardian"},
		{"strange files in a site", "theirs", "did not write and a build would delete: .git/, CNAME"},
		{"the diary", "deep/diary", "stands there"},
		{"the diary by another way", "way/diary", "stands there"},
		{"a parent of the diary", "deep", "stands there"},
		{"a room of the diary", "deep/diary/specimens", "stands there"},
		{"a room of the diary that isn't there", "deep/diary/imports", "stands there"},
		{"in a room of the diary", "deep/diary/specimens/shown", "which is read as the diary"},
		{"in a room that isn't there", "deep/diary/imports/a/shown", "which is read as the diary"},
		{"in a room by a link", "into/shown", "which is read as the diary"},
		{"somebody's file of the lock's name", "taken/shown", "Wardian's lock"},
		{"somebody's folder of the stage's name", "stage/shown", "isn't a stage"},
		{"a folder like a stage", "stage2/shown", "isn't a stage"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			target := c.target
			if target != "" && target != "/" {
				target = root + "/" + target
			}
			_, err := Open(target, opts)
			var refused *Refused
			require.ErrorAs(t, err, &refused)
			assert.Contains(t, err.Error(), c.why)
			assert.NotEmpty(t, refused.Next)
			assert.Equal(t, before, snapshot(t, root), "something was changed")
		})
	}

	for _, fine := range []string{"deep/diary/shown", "deep/diary/empty", "way/diary/shown", "deep/other/shown"} {
		s, err := Open(filepath.Join(root, fine), opts)
		if assert.NoError(t, err, fine) {
			assert.NoError(t, s.Discard())
		}
	}
	assert.Equal(t, before, snapshot(t, root))
}

// What someone puts into the site while it is being built isn't deleted either.
func TestStrangeFileDuringABuild(t *testing.T) {
	target := filepath.Join(t.TempDir(), "shown")
	build(t, target, oldFiles)
	s, err := Open(target, Options{})
	require.NoError(t, err)
	require.NoError(t, s.WriteFile("index.html", []byte("x")))
	require.NoError(t, os.WriteFile(filepath.Join(target, "CNAME"), []byte("theirs"), 0o644))
	before := snapshot(t, target)
	_, err = s.Commit()
	var refused *Refused
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, before, snapshot(t, target))
}

// A target that appears while the first build runs isn't overwritten.
func TestTargetThatAppears(t *testing.T) {
	target := filepath.Join(t.TempDir(), "shown")
	s, err := Open(target, Options{})
	require.NoError(t, err)
	require.NoError(t, s.WriteFile("index.html", []byte("x")))
	require.NoError(t, os.Mkdir(target, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(target, "letter.txt"), []byte("theirs"), 0o644))
	_, err = s.Commit()
	require.Error(t, err)
	assert.Equal(t, []string{"letter.txt"}, names(t, target))
}

// Links inside a site are somebody else's, and where they lead is never touched.
func TestLinkInsideTheSite(t *testing.T) {
	parent := t.TempDir()
	target := filepath.Join(parent, "shown")
	build(t, target, oldFiles)
	require.NoError(t, os.RemoveAll(filepath.Join(target, "specimens")))
	precious := filepath.Join(parent, "precious")
	require.NoError(t, os.Mkdir(precious, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(precious, "b26-01.html"), []byte("theirs"), 0o644))
	require.NoError(t, os.Symlink(precious, filepath.Join(target, "specimens")))
	_, err := Open(target, Options{})
	var refused *Refused
	require.ErrorAs(t, err, &refused)
	assert.Contains(t, err.Error(), "specimens")
	assert.Equal(t, []string{"b26-01.html"}, names(t, precious))
}
