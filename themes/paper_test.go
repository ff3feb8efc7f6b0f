package themes

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Paper is black on white: its style names no colour but the two that a page has
// of itself, and none of the site's roles.
func TestPaperNamesNoColour(t *testing.T) {
	css, err := fs.ReadFile(Paper(), "paper.css")
	require.NoError(t, err)
	assert.NotRegexp(t, regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|\b(?:rgb|hsl|oklch|oklab|lab|lch|color-mix)a?\(|gradient|opacity`), string(css))
	assert.Contains(t, string(css), "color-scheme: light only")
	assert.Contains(t, string(css), "background: Canvas; color: CanvasText")
	for _, v := range regexp.MustCompile(`var\(--([a-z-]+)\)`).FindAllStringSubmatch(string(css), -1) {
		assert.Contains(t, []string{"voice", "measure", "paper-wide", "paper-high", "rows"}, v[1])
	}
	assert.True(t, strings.HasSuffix(string(PaperStyle()), string(css)), "it comes last")
}
