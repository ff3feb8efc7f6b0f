package main

import (
	"bytes"
	"image/jpeg"
	"io/fs"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/measure"
)

const diaryFolder = "../diary"

func load(t *testing.T) (*content.Diary, *content.Timelines) {
	t.Helper()
	d, report, err := content.Load(os.DirFS(diaryFolder), content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	for _, f := range report.Findings() {
		t.Logf("%v %s %s:%d:%d %s", f.Severity, f.Code, f.File, f.Span.Start.Line, f.Span.Start.Column, f.Message)
	}
	require.Zero(t, report.Errors(), "the example diary has findings of kind error")
	return d, d.Timelines(measure.NoDay)
}

// asked are the lines of pictures.txt.
func asked() (out [][]string) {
	for _, line := range strings.Split(pictures, "\n") {
		if line != "" && line[0] != '#' {
			out = append(out, strings.Fields(line))
		}
	}
	return out
}

// Every picture asked for stands in the diary, is a JPEG of modest size, and
// nothing else stands there.
func TestPicturesStandInTheDiary(t *testing.T) {
	want := map[string]bool{}
	for _, words := range asked() {
		path := "photos/" + words[0] + "/" + words[1] + ".jpg"
		want[path] = true
		b, err := os.ReadFile(diaryFolder + "/" + path)
		if !assert.NoError(t, err) {
			continue
		}
		c, err := jpeg.DecodeConfig(bytes.NewReader(b))
		require.NoError(t, err, path)
		assert.Equal(t, [2]int{width, height}, [2]int{c.Width, c.Height}, path)
		assert.Less(t, len(b), 90_000, path)
	}
	err := fs.WalkDir(os.DirFS(diaryFolder), "photos", func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			assert.True(t, want[path], "%s isn't in pictures.txt", path)
		}
		return err
	})
	require.NoError(t, err)
}

// What is committed is what the program draws from the diary as it stands, byte
// for byte: one picture on paper, one in a cup and one of several plants.
func TestPicturesAreDrawnFromTheDiary(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("elsewhere a compiler may fuse products and sums, and a byte may differ")
	}
	d, times := load(t)
	for _, words := range [][]string{
		{"2026-03-23", "v26-03"}, {"2026-06-15", "v26-02"}, {"2026-03-29", "knife", "v26-04a", "v26-04b", "v26-04c"},
	} {
		path, f, err := draw(d, times, words)
		require.NoError(t, err)
		var out bytes.Buffer
		require.NoError(t, jpeg.Encode(&out, f.picture(), &jpeg.Options{Quality: quality}))
		stands, err := os.ReadFile(diaryFolder + "/" + path)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(stands, out.Bytes()), "%s isn't what the diary's figures give: run go run ./content/example/drawing", path)
	}
}

// The figures come from the entries: as many leaves are laid out as were
// counted, the measured ones at their sizes, and limp plants hang.
func TestFiguresComeFromTheEntries(t *testing.T) {
	d, times := load(t)
	at := func(id, date string) seen {
		day, trouble := measure.ParseDay(date)
		require.Nil(t, trouble)
		s, ok := look(times.Of(d.Specimen(id)), day)
		require.True(t, ok, "%s %s", id, date)
		return s
	}
	s := at("v26-02", "2026-03-23")
	assert.Equal(t, 6, s.leaves)
	assert.Equal(t, [2]float64{10, 5}, s.sizes[0])
	assert.Equal(t, 3, s.grade)
	assert.Equal(t, paper, s.at)
	assert.Len(t, lay(s.plant, false).leaves, 6)
	assert.InDelta(t, 10, lay(s.plant, false).leaves[0].length, 1e-9)

	assert.Equal(t, 1.0, at("v26-07", "2026-03-26").droop)
	assert.Equal(t, 2, at("v26-07", "2026-03-26").leaves)
	assert.True(t, at("v26-15", "2026-04-04").rest)
	assert.True(t, at("v26-03", "2026-03-23").dead)
	assert.Equal(t, sill, at("v26-02", "2026-05-04").at)
	assert.Equal(t, "bark mix", at("v26-02", "2026-05-04").medium)
	assert.Equal(t, cool, at("v26-14", "2026-04-25").at)
	assert.Equal(t, cabinet, at("v26-16", "2026-05-14").at, "it is drawn where it was moved to")
}
