package build

import (
	"bytes"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAPictureIsMadeOnceAndAgainWhereTheKeptOneIsDamaged(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "pictures")
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30)), nil))
	k := newKeep(dir)
	made, width, height, err := k.small(b.Bytes())
	require.NoError(t, err)
	assert.Equal(t, []int{40, 30}, []int{width, height})
	kept, err := filepath.Glob(filepath.Join(dir, "*.picture"))
	require.NoError(t, err)
	require.Len(t, kept, 1)

	// Another picture under the kept one's name and with its own true hash: if
	// that comes back, the camera's bytes weren't decoded again.
	require.NoError(t, os.WriteFile(kept[0], pack([]byte("kept"), 4, 3), 0o644))
	got, width, height, err := newKeep(dir).small(b.Bytes())
	require.NoError(t, err)
	assert.Equal(t, "kept", string(got))
	assert.Equal(t, []int{4, 3}, []int{width, height})

	for name, damaged := range map[string][]byte{"cut short": pack(made, 40, 30)[:50], "empty": nil, "one byte off": flipped(pack(made, 40, 30))} {
		require.NoError(t, os.WriteFile(kept[0], damaged, 0o644))
		got, _, _, err := newKeep(dir).small(b.Bytes())
		require.NoError(t, err, name)
		assert.Equal(t, made, got, name)
	}

	// What a build didn't use goes, and nothing else.
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.txt"), []byte("mine"), 0o644))
	newKeep(dir).forget()
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 1)
	assert.Equal(t, "mine.txt", left[0].Name())
}

func flipped(data []byte) []byte {
	data[len(data)-1] ^= 1
	return data
}
