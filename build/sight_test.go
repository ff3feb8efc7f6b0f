package build_test

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

// see plans a diary's sight; the diary must have no errors.
func see(t *testing.T, files fs.FS, today measure.Day, prints *build.Prints) (*build.Sight, *source.Report) {
	t.Helper()
	d, report, err := content.Load(files, content.Options{Today: today})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	s, err := build.See(d, files, report, prints)
	require.NoError(t, err)
	return s, report
}

// pictureName is the part of a picture's place that is made of its bytes.
var pictureName = regexp.MustCompile(`(pictures/[a-z0-9-]*?)-[0-9a-f]{10}\.jpg`)

// The sight of the example holds file for file what a build of it makes, with
// what is unfinished; and once every picture was asked for, to the byte, the
// pictures' names too.
func TestASightIsWhatABuildMakes(t *testing.T) {
	files := small(t)
	to := filepath.Join(t.TempDir(), "site")
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	_, ok, err := build.Run(context.Background(), d, files, report, build.Options{To: to, Unfinished: true, On: measure.NoDay})
	require.NoError(t, err)
	require.True(t, ok)
	built := map[string][]byte{}
	require.NoError(t, filepath.WalkDir(to, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || strings.HasPrefix(e.Name(), ".") {
			return err
		}
		rel, err := filepath.Rel(to, path)
		require.NoError(t, err)
		built[filepath.ToSlash(rel)], err = os.ReadFile(path)
		return err
	}))
	require.Greater(t, len(built), 50)

	prints := build.NewPrints()
	early, _ := see(t, files, measure.NoDay, prints)
	asked := map[string]bool{}
	for path, want := range built {
		if strings.HasPrefix(path, "pictures/") {
			continue
		}
		got, ok, err := early.File(path)
		require.NoError(t, err)
		require.True(t, ok, path)
		for _, name := range pictureName.FindAll(got, -1) {
			asked[string(name)] = true
		}
		assert.Equal(t, string(pictureName.ReplaceAll(want, []byte("$1.jpg"))), string(pictureName.ReplaceAll(got, []byte("$1.jpg"))), path)
	}
	require.NotEmpty(t, asked)
	for _, p := range slices.Sorted(maps.Keys(asked)) {
		data, ok, err := early.File(p)
		require.NoError(t, err)
		require.True(t, ok, p)
		assert.True(t, bytes.HasPrefix(data, []byte("\xff\xd8\xff")), p)
	}

	late, _ := see(t, files, measure.NoDay, prints)
	for path, want := range built {
		got, ok, err := late.File(path)
		require.NoError(t, err)
		if !strings.HasPrefix(path, "pictures/") || ok { // a picture that no page shows was never asked for
			require.True(t, ok, path)
			assert.True(t, bytes.Equal(want, got), path)
		}
	}
	for name := range asked {
		_, ok, err := late.File(name)
		assert.True(t, ok && err == nil, "%s is still there for a page that was open", name)
	}
	_, ok, err = late.File("diary.yaml")
	assert.False(t, ok || err != nil)
}

func TestWhatASightMarks(t *testing.T) {
	files := written(settings + boxImport + binPlace + plantOne + plantTwo + `
== check-ins/old.md
---
date: 2026-03-10
place: bin
specimens: {p-1: firm, p-2: firm}
---
== check-ins/not-ready.md
---
date: 2026-03-11
place: bin
specimens: {p-1: soft}
unfinished: yes
---
== check-ins/young.md
---
date: 2026-04-01
place: bin
specimens: {p-1: firm}
---
== updates/ready.md
---
title: Ready
date: 2026-03-12
---
== updates/young.md
---
title: Young
date: 2026-04-02
---
== places/shelf.md
---
name: A shelf
stage: room
unfinished: yes
---
`)
	files["diary.yaml"] = &fstest.MapFile{Data: []byte("name: A test\ntime-zone: UTC\npublish: {hold-back: 7 days}\n")}
	today, trouble := measure.ParseDay("2026-04-05")
	require.Nil(t, trouble)
	s, _ := see(t, files, today, build.NewPrints())
	pages, parts := s.Marks()
	assert.Equal(t, map[string]string{"updates/young.html": "held back", "places/shelf.html": "unfinished"}, pages)
	assert.Equal(t, map[string]string{"entry-not-ready": "unfinished", "entry-young": "held back"}, parts)
	page, ok, err := s.File("specimens/p-1.html")
	require.NoError(t, err)
	require.True(t, ok)
	for id := range parts {
		assert.Contains(t, string(page), ` id="`+id+`"`, "what is marked is shown, under that id")
	}
	assert.Equal(t, "places/bin.html#entry-young", s.Where("check-ins/young.md"))
	assert.Equal(t, "", s.Where("diary.yaml"))
}

func TestPicturesOfASight(t *testing.T) {
	photo := "photos/2026-03-10/p-1.jpg"
	files := written(settings + boxImport + binPlace + plantOne + `
== check-ins/a.md
---
date: 2026-03-10
place: bin
specimens: {p-1: firm}
---
`)
	noon := time.Date(2026, 3, 10, 12, 0, 0, 0, time.UTC)
	files[photo] = &fstest.MapFile{Data: tinyPicture, ModTime: noon}
	prints := build.NewPrints()
	picture := func(s *build.Sight) string {
		page, ok, err := s.File("specimens/p-1.html")
		require.NoError(t, err)
		require.True(t, ok)
		return string(regexp.MustCompile(`pictures/[^"]+`).Find(page))
	}
	s, _ := see(t, files, measure.NoDay, prints)
	name := picture(s)
	require.NotEmpty(t, name)

	// Cut short, the picture has a size and turns out to be broken when it is
	// asked for; from then on it is known to be.
	files[photo] = &fstest.MapFile{Data: tinyPicture[:len(tinyPicture)-4], ModTime: noon.Add(time.Second)}
	prints.Forget(photo)
	s, report := see(t, files, measure.NoDay, prints)
	require.Empty(t, report.Findings())
	_, ok, err := s.File(picture(s))
	assert.False(t, ok)
	var unfit *build.Unfit
	require.True(t, errors.As(err, &unfit))
	assert.Equal(t, photo, unfit.Finding().File)
	assert.Equal(t, "broken-picture", unfit.Finding().Code)
	s, report = see(t, files, measure.NoDay, prints)
	require.Len(t, report.Findings(), 1)
	assert.Equal(t, "broken-picture", report.Findings()[0].Code)
	assert.Empty(t, picture(s), "it is left out of the pages")

	// Another picture is seen once it is told of.
	files[photo] = &fstest.MapFile{Data: []byte("no picture at all"), ModTime: noon}
	files[photo].Data = append(files[photo].Data, make([]byte, len(tinyPicture)-len(files[photo].Data))...)
	prints = build.NewPrints()
	_, report = see(t, files, measure.NoDay, prints)
	require.Len(t, report.Findings(), 1)
	assert.Equal(t, "not-a-picture", report.Findings()[0].Code)
	files[photo] = &fstest.MapFile{Data: tinyPicture, ModTime: noon}
	prints.Forget(photo)
	s, report = see(t, files, measure.NoDay, prints)
	assert.Empty(t, report.Findings())
	assert.Equal(t, name, picture(s))
}
