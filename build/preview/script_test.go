package preview

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The script that is put on a page stays small, and the style names roles only:
// colours have one place, and it isn't here.
func TestWhatIsPutOnAPageIsSmallAndHasNoColours(t *testing.T) {
	assert.LessOrEqual(t, len(script), 4096)
	assert.NotRegexp(t, `#[0-9a-fA-F]{3,8}\b|rgb|hsl|gradient|border-radius|box-shadow`, strings.ReplaceAll(string(style), "#preview-slip", ""))
	assert.NotContains(t, string(style), "//")
}
