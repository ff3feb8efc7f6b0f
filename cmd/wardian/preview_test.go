package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/preview"
	"wardian/content/source"
)

// heard waits until the command has said something.
func (p *previewing) heard(words string) {
	p.t.Helper()
	require.Eventually(p.t, func() bool { return strings.Contains(p.talk.String(), words) }, 10*time.Second, 5*time.Millisecond, words)
}

// Each change is told in a line, new findings before it, and once.
func TestThePreviewTellsEachChange(t *testing.T) {
	p := startPreview(t, exampleCopy(t), 0)
	p.heard("the diary was read; 2 warnings; ")
	letter := filepath.Join(p.dir, "updates", "broken.md")
	require.NoError(t, os.WriteFile(letter, []byte("---\ntitel: Not a key\ndate: 2026-04-06\ntitle: A letter\n---\nWords.\n"), 0o644))
	p.heard("updates/broken.md new; 1 error; 2 warnings; the pages stay as they were; ")
	p.heard("updates/broken.md:2:1\n")
	require.NoError(t, os.Remove(letter))
	p.heard("updates/broken.md gone; 2 warnings; no page is open; ")
	assert.Regexp(t, `(?m)^updates/broken\.md gone; 2 warnings; no page is open; [\d.]+(µs|ms|s)$`, p.talk.String(), "what changed, and how long it took")
	assert.Equal(t, 1, strings.Count(p.talk.String(), "cabinet-2025-autumn.csv:611:18"), "what was told is not told again")

	// Where no open page shows it, the line says where it stands.
	p.edit(round, replacing(words, "First."))
	p.heard("; it stands at " + p.address + "places/sill.html#entry-2026.06-15-sill\n")

	// What isn't the diary's is passed over: the built site, its stage and lock,
	// what an editor writes for itself, and folders that are never read.
	for _, name := range []string{"shown/index.html", ".shown.wardian-lock", ".shown.wardian-stage/site/x", "check-ins/.x.swp", "elsewhere/x/y"} {
		at := filepath.Join(p.dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(at), 0o755))
		require.NoError(t, os.WriteFile(at, []byte("x"), 0o644))
	}
	p.heard("elsewhere new") // its name may be nearly one of a diary's folders
	p.edit(round, replacing("First.", "Last."))
	require.Eventually(t, func() bool { return strings.Count(p.talk.String(), round+" changed") == 2 }, 10*time.Second, 5*time.Millisecond)
	assert.NotContains(t, p.talk.String(), "shown")
	assert.NotContains(t, p.talk.String(), ".x.swp")
	assert.NotContains(t, p.talk.String(), "elsewhere/x")
	assert.Equal(t, exitStopped, p.stop())
}

// A picture is made when a page's reader asks for it; one that is broken is told.
func TestThePreviewServesPictures(t *testing.T) {
	p := startPreview(t, exampleCopy(t), 0)
	page := fetch(t, p.address+"specimens/v26-01.html")
	_, after, found := strings.Cut(page, `<img src="../`)
	require.True(t, found)
	path, _, _ := strings.Cut(after, `"`)
	assert.True(t, strings.HasPrefix(fetch(t, p.address+path), "\xff\xd8\xff"), "%s is a JPEG", path)
	assert.Contains(t, fetch(t, p.address+"diary.yaml"), "no such file")
	assert.Contains(t, fetch(t, p.address+"specimens/v26-01.md"), "no such file")
}

func TestTheUsualPortIsTheDiarysOwn(t *testing.T) {
	assert.Equal(t, usualPort("/a/sill"), usualPort("/a/sill"))
	assert.NotEqual(t, usualPort("/a/sill"), usualPort("/a/shelf"))
	for _, dir := range []string{"a", "b", "c", "", "."} {
		assert.GreaterOrEqual(t, usualPort(dir), 20000)
		assert.Less(t, usualPort(dir), 30000)
	}
}

func TestWhatThePreviewPassesOver(t *testing.T) {
	assert.True(t, unread("shown"))
	assert.True(t, unread("elsewhere/deep"))
	assert.False(t, unread("elsewhere"), "its name may be nearly one of a diary's folders")
	assert.False(t, unread("check-ins/2026/a.md"))
	assert.False(t, unread("diary.yaml"))
	assert.False(t, unread("style/base.css"))
}

// What is not ready and what is held back is shown, marked, and isn't in a build.
func TestThePreviewMarksWhatIsNotOut(t *testing.T) {
	dir := everyKind(t)
	young := filepath.Join(dir, "check-ins", "2026", "06-30-young.md")
	require.NoError(t, os.WriteFile(young, []byte("---\ndate: 2026-06-30\nspecimen: b26-05\nturgor: firm\n---\nToo young to go out.\n"), 0o644))
	p := startPreview(t, dir, 0)
	page := fetch(t, p.address+"specimens/b26-05.html")
	assert.Contains(t, page, `id="entry-2026.06-30-young" data-only-here="held back"`)
	assert.Contains(t, page, `id="entry-2026.04-06-cabinet" data-only-here="unfinished"`)
	assert.Contains(t, page, "Too young to go out.")
	assert.Contains(t, page, "Shown here only: 2 entries of this page, marked.")
	assert.Contains(t, fetch(t, p.address+"updates/third.html"), "Shown here only: this page is unfinished.")

	var out, talk lockedBuffer
	require.Equal(t, exitClean, run(t.Context(), []string{"build", dir, "--on", "2026-07-01"}, nil, &out, &talk), talk.String())
	built, err := os.ReadFile(filepath.Join(dir, "shown", "specimens", "b26-05.html"))
	require.NoError(t, err)
	assert.NotContains(t, string(built), "06-30-young")
	assert.NotContains(t, string(built), "04-06-cabinet")
	assert.NotContains(t, string(built), "only-here")
	assert.NoFileExists(t, filepath.Join(dir, "shown", "updates", "third.html"))
}

// What an editor writes for a moment while it saves is read about, and not told
// unless something comes of it.
func TestThePreviewKeepsSilentOfWhatPassed(t *testing.T) {
	var talk lockedBuffer
	teller := &teller{v: voice{out: io.Discard, talk: &talk}, began: true}
	passed := preview.Path{Name: "check-ins/2026/4913", Kind: preview.Passing}
	told := func(anew int, findings []source.Finding, paths ...preview.Path) string {
		before := len(talk.String())
		teller.told(preview.Told{Change: preview.Change{Paths: paths}, Reading: preview.Reading{Findings: findings}, Anew: anew})
		return talk.String()[before:]
	}
	assert.Contains(t, told(0, nil, passed, preview.Path{Name: "check-ins/2026/a.md", Kind: preview.Edited}), "check-ins/2026/a.md changed; ")
	assert.NotContains(t, talk.String(), "4913")
	assert.Empty(t, told(0, nil, passed))
	assert.Contains(t, told(1, nil, passed), "something came and went; ")
	assert.Contains(t, told(0, []source.Finding{{File: "check-ins/2026/a.md", Severity: source.Error, Message: "no"}}, passed), "something came and went; 1 error; ")
}
