package photo

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Size foretells what Render makes, for every file here and several widths.
func TestSizeIsWhatRenderMakes(t *testing.T) {
	files, err := filepath.Glob("testdata/*.*p*g")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, width := range []int{1, 7, 64, 149, 150, 1200} {
			_, w, h, err := Render(data, width)
			require.NoError(t, err, file)
			gotW, gotH, err := Size(data, width)
			require.NoError(t, err, file)
			assert.Equal(t, [2]int{w, h}, [2]int{gotW, gotH}, "%s at %d", file, width)
		}
	}
	_, _, err = Size([]byte("words"), 10)
	var no *NotAPicture
	assert.True(t, errors.As(err, &no))
	assert.Panics(t, func() { _, _, _ = Size(nil, 0) })
}
