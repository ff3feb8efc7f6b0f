package build_test

import (
	"bytes"
	"compress/gzip"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// firstFlight is what a server sends before it waits for an answer: ten segments of
// 1,460 bytes (RFC 6928).
const firstFlight = 14_600

func compressed(t *testing.T, parts ...[]byte) int {
	t.Helper()
	size := 0
	for _, data := range parts {
		var b bytes.Buffer
		w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
		require.NoError(t, err)
		_, err = w.Write(data)
		require.NoError(t, err)
		require.NoError(t, w.Close())
		size += b.Len()
	}
	return size
}

// A plant's page and the style come in one flight, so that its first screen needs
// no second one. (Pages of imports and places are longer; what is above their first
// table comes in it.)
func TestAPlantsPageComesInOneFlight(t *testing.T) {
	if racing {
		t.Skip("one page after the other is compressed here: it is done without the race detector")
	}
	s := exampleSite(t)
	var style []byte
	for p, data := range s {
		if path.Ext(p) == ".css" {
			style = data
		}
	}
	require.NotEmpty(t, style)
	heaviest, pages := 0, 0
	for _, p := range s.pages() {
		if strings.HasPrefix(p, "specimens/") {
			pages++
			size := compressed(t, s[p], style)
			heaviest = max(heaviest, size)
			assert.LessOrEqual(t, size, firstFlight, p)
		}
	}
	assert.Greater(t, pages, 50)
	t.Logf("the heaviest of %d pages of plants: %d bytes, style and all", pages, heaviest)

	for _, p := range s.pages() {
		table := bytes.Index(s[p], []byte("<details"))
		if table < 0 {
			table = len(s[p])
		}
		assert.LessOrEqual(t, compressed(t, s[p][:table], style), firstFlight, "%s up to its first table", p)
		assert.NotContains(t, string(s[p]), "<script", "%s reads without a script", p)
	}
}
