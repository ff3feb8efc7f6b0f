package main

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// snap writes a picture that differs from every other, as of a time.
func snap(t *testing.T, path string, shade uint8, at time.Time) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, 8, 6))
	for i := range m.Pix {
		m.Pix[i] = color.Gray{Y: shade}.Y
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
	require.NoError(t, os.Chtimes(path, at, at))
	return b.Bytes()
}

// typed runs a command line and gives its code, data and talk.
func typed(args ...string) (code int, data, talk string) {
	var out, errs bytes.Buffer
	code = run(context.Background(), args, nil, &out, &errs)
	return code, out.String(), errs.String()
}

func TestPicturesAreTakenInUnderTheirPlants(t *testing.T) {
	dir, card := filepath.Join(t.TempDir(), "sill"), t.TempDir()
	code, _, talk := typed("start", dir, "--on", "2026-04-06")
	require.Zero(t, code, talk)
	noon := func(day int) time.Time { return time.Date(2026, 4, day, 12, 0, 0, 0, time.UTC) }
	one := snap(t, filepath.Join(card, "IMG_1.JPG"), 10, noon(6))
	snap(t, filepath.Join(card, "IMG_2.JPG"), 20, noon(7))
	snap(t, filepath.Join(card, "IMG_3.JPG"), 30, noon(25))
	require.NoError(t, os.WriteFile(filepath.Join(card, "notes.txt"), []byte("no picture"), 0o644))

	code, data, talk := typed("photos", card, "--diary", dir)
	require.Zero(t, code, talk)
	assert.Empty(t, data, "nothing is copied without a plant")
	assert.Contains(t, talk, "IMG_1.JPG  2026-04-06 12:00  nearest: 2026-04-06 at bin")
	assert.NotContains(t, talk, "notes.txt")
	assert.Contains(t, talk, "next: name the plants, such as: wardian photos "+card+" IMG_1.JPG=ID")

	code, _, talk = typed("photos", card, "IMG_1.JPG=a26-01", "--dry-run", "--diary", dir)
	require.Zero(t, code, talk)
	assert.NoDirExists(t, filepath.Join(dir, "photos"))

	code, data, talk = typed("photos", "--diary", dir, card, "IMG_1.JPG=a26-01", "IMG_2.JPG=a26-01")
	require.Zero(t, code, talk)
	first, second := filepath.Join(dir, "photos/2026-04-06/a26-01.jpg"), filepath.Join(dir, "photos/2026-04-06/a26-01-2.jpg")
	assert.Equal(t, first+"\n"+second+"\n", data)
	got, err := os.ReadFile(first)
	require.NoError(t, err)
	assert.Equal(t, one, got, "as the camera wrote it")

	code, _, talk = typed("photos", card, "--diary", dir)
	require.Zero(t, code, talk)
	assert.NotContains(t, talk, "IMG_1.JPG", "the diary holds it now")
	assert.Contains(t, talk, "IMG_3.JPG")

	code, _, talk = typed("photos", card, "IMG_3.JPG=a26-01", "--diary", dir)
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, talk, "nothing was written of a26-01 within 3 days of 2026-04-25")
	code, _, talk = typed("photos", card, "IMG_3.JPG=a26-03", "--diary", dir)
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, talk, "nearest: a26-0")
	code, _, talk = typed("photos", card, "IMG_3.JPG", "--diary", dir)
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, talk, "write it like IMG_0123.jpg=b26-03")

	// They show on the plant's page, unmentioned.
	code, _, talk = typed("build", dir, "--on", "2026-04-30")
	require.Zero(t, code, talk)
	page, err := os.ReadFile(filepath.Join(dir, "shown/specimens/a26-01.html"))
	require.NoError(t, err)
	assert.Equal(t, 3, bytes.Count(page, []byte("<img ")), "both in the day's entry, the last at the head")
}

// A camera keeps its pictures in folders of its own, a call is carried out whole
// or not at all, and a picture that lies in the diary's photos with no entry to
// belong to is as strange as one on the card.
func TestPicturesOfACardAndOfTheDiary(t *testing.T) {
	dir, card := filepath.Join(t.TempDir(), "sill"), t.TempDir()
	code, _, talk := typed("start", dir, "--on", "2026-04-06")
	require.Zero(t, code, talk)
	noon := time.Date(2026, 4, 6, 12, 0, 0, 0, time.UTC)
	require.NoError(t, os.MkdirAll(filepath.Join(card, "DCIM", "100"), 0o755))
	require.NoError(t, os.MkdirAll(filepath.Join(card, ".trash"), 0o755))
	snap(t, filepath.Join(card, "DCIM", "100", "IMG_1.JPG"), 10, noon)
	two := snap(t, filepath.Join(card, "IMG_2.JPG"), 20, noon.Add(time.Hour))
	snap(t, filepath.Join(card, ".trash", "IMG_0.JPG"), 30, noon)

	code, _, talk = typed("photos", card, "--diary", dir)
	require.Zero(t, code, talk)
	assert.Contains(t, talk, "DCIM/100/IMG_1.JPG  2026-04-06 12:00  nearest: 2026-04-06 at bin  (the file's time: the camera wrote none)")
	assert.NotContains(t, talk, "IMG_0")

	for _, c := range [][]string{{"DCIM/100/IMG_1.JPG=a26-01", "IMG_3.JPG=a26-01"}, {"DCIM/100/IMG_1.JPG=a26-01", "IMG_2.JPG=a26-09"}, {"IMG_2.JPG=a26-01", "IMG_2.JPG=a26-02"}} {
		code, data, talk := typed(append([]string{"photos", card, "--diary", dir}, c...)...)
		assert.Equal(t, exitUsage, code)
		assert.Empty(t, data)
		assert.NoDirExists(t, filepath.Join(dir, "photos"), "one can't be, so none is: %s", talk)
	}
	_, _, talk = typed("photos", card, "IMG_3.JPG=a26-01", "--diary", dir)
	assert.Contains(t, talk, "no picture IMG_3.JPG in "+card)
	assert.Contains(t, talk, "nearest: IMG_2.JPG")

	// In the diary's own folder, under the camera's name.
	code, _, talk = typed("photos", "--diary", dir)
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, talk, "the diary has no folder photos yet")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "photos", "raw"), 0o755))
	own := filepath.Join(dir, "photos", "raw", "IMG_2.JPG")
	require.NoError(t, os.WriteFile(own, two, 0o644))
	require.NoError(t, os.Chtimes(own, noon, noon))
	code, _, talk = typed("photos", "--diary", dir)
	require.Zero(t, code, talk)
	assert.Contains(t, talk, "raw/IMG_2.JPG")
	_, _, talk = typed("photos", card, "--diary", dir)
	assert.Contains(t, talk, "IMG_2.JPG  ", "no entry has it")
	code, _, talk = typed("photos", "raw/IMG_2.JPG=a26-02", "--diary", dir)
	require.Zero(t, code, talk)
	assert.FileExists(t, filepath.Join(dir, "photos/2026-04-06/a26-02.jpg"))
	for _, args := range [][]string{{"photos", "--diary", dir}, {"photos", card, "--diary", dir}} {
		_, _, talk = typed(args...)
		assert.NotContains(t, talk, "IMG_2.JPG", "one of its bytes belongs now")
	}
	code, _, talk = typed("photos", card, "IMG_2.JPG=a26-02", "--diary", dir)
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, talk, "an entry has IMG_2.JPG already")

	code, _, talk = typed("photos", card, "--diary", t.TempDir())
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, talk, "is no diary")
	code, _, talk = typed("photos", filepath.Join(card, "nowhere"), "--diary", dir)
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, talk, "nowhere is not there")
}
