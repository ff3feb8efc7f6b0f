package build

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAProgramIsNamedByWhatItIs(t *testing.T) {
	name := func(path string) string {
		name, err := programName(path)
		require.NoError(t, err)
		return name
	}
	dir := t.TempDir()
	write := func(at, text string) string {
		require.NoError(t, os.WriteFile(filepath.Join(dir, at), []byte(text), 0o644))
		return filepath.Join(dir, at)
	}
	one, same, other := write("one", "a program"), write("same", "a program"), write("other", "another program")
	assert.Equal(t, name(one), name(same))
	assert.NotEqual(t, name(one), name(other))
	cut := write("cut", "\x7fELF\x02\x01\x01")
	assert.NotEqual(t, name(cut), name(one), "one that only looks like Linux's")
	_, err := programName(filepath.Join(dir, "none"))
	assert.Error(t, err)

	// As go run, go build -ldflags=-buildid=mine and no ID write the note.
	for note, linked := range map[string]bool{"\x04\x00\x00\x00S\x00\x00\x00\x04\x00\x00\x00Go\x00\x00fOhWvIFnOdkTQ_3Jpc3p/Cli9zXyo6K6y8lemru5C/nuNe5VYY-3s3Zy6bx8z1/Zo_db3VTEja-RD8tYGWR\x00": true,
		"\x04\x00\x00\x00\x04\x00\x00\x00\x04\x00\x00\x00Go\x00\x00mine\x00": false, "": false} {
		assert.Equal(t, linked, linkedID.MatchString(note), "%q", note)
	}

	this, err := os.Executable()
	require.NoError(t, err)
	data, err := os.ReadFile(this)
	require.NoError(t, err)
	assert.Equal(t, name(this), name(write("copy", string(data))), "wherever it lies")
	again, err := thisProgram()
	require.NoError(t, err)
	assert.Equal(t, name(this), again)
}
