package themes

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pairs are the roles that stand on one another and the contrast each needs:
// 4.5 for text and 3 for what carries meaning otherwise (WCAG 2.2, success
// criteria 1.4.3 and 1.4.11). 0 is for what only decorates.
var pairs = []struct {
	role, on string
	least    float64
}{
	{"ink", "ground", 4.5}, {"ink", "sheet", 4.5}, {"ink-quiet", "ground", 4.5}, {"ink-quiet", "sheet", 4.5},
	{"leaf", "ground", 4.5}, {"root", "ground", 4.5}, {"loss", "ground", 4.5}, {"loss", "sheet", 4.5},
	{"ink", "leaf-fill", 4.5}, {"ink", "band", 4.5}, {"ink-quiet", "band", 4.5},
	{"soil", "ground", 3}, {"leaf", "leaf-fill", 3}, {"line-strong", "ground", 3},
	{"stage-soak", "ground", 3}, {"stage-bin", "ground", 3}, {"stage-step", "ground", 3}, {"stage-room", "ground", 3},
	{"focus", "ground", 3}, {"focus", "sheet", 3},
	{"line", "ground", 0}, {"leaf-fill", "ground", 0}, {"band", "ground", 0},
}

var roleLine = regexp.MustCompile(`--([a-z-]+):\s*(#[0-9a-fA-F]{3,6});`)

// roles reads the roles of one block of the style: the first ":root" after the
// words given.
func roles(t *testing.T, css, after string) map[string]string {
	t.Helper()
	from := strings.Index(css, after)
	require.GreaterOrEqual(t, from, 0, "no block %q", after)
	block := css[from:]
	block = block[strings.Index(block, ":root {"):]
	block = block[:strings.Index(block, "}")]
	out := map[string]string{}
	for _, m := range roleLine.FindAllStringSubmatch(block, -1) {
		out[m[1]] = m[2]
	}
	return out
}

// luminance is WCAG 2's relative luminance of an sRGB colour.
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	hex := strings.TrimPrefix(colour, "#")
	if len(hex) == 3 {
		hex = fmt.Sprintf("%c%c%c%c%c%c", hex[0], hex[0], hex[1], hex[1], hex[2], hex[2])
	}
	var sum float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		require.NoError(t, err, colour)
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

func contrast(a, b float64) float64 {
	return (math.Max(a, b) + 0.05) / (math.Min(a, b) + 0.05)
}

func TestContrastOfBlackOnWhite(t *testing.T) {
	assert.InDelta(t, 21, contrast(luminance(t, "#000"), luminance(t, "#ffffff")), 1e-9)   // WCAG 2.2: 21 is the greatest
	assert.InDelta(t, 4.54, contrast(luminance(t, "#767676"), luminance(t, "#fff")), 0.01) // the least grey that passes on white
}

func TestEveryPairOfRolesHasItsContrast(t *testing.T) {
	css := source(sheets...)
	light := roles(t, css, ":root {")
	for look, set := range map[string]map[string]string{
		"light": light,
		"dark":  roles(t, css, "@media (prefers-color-scheme: dark)"),
		"print": roles(t, css, "@media print"),
	} {
		require.Len(t, set, len(light), "%s has as many roles as light", look)
		for _, p := range pairs {
			require.Contains(t, set, p.role, look)
			require.Contains(t, set, p.on, look)
			got := contrast(luminance(t, set[p.role]), luminance(t, set[p.on]))
			assert.GreaterOrEqual(t, got, p.least, "%s: %s on %s", look, p.role, p.on)
		}
	}
}

// Colours are roles: outside the roles' own blocks no rule names one.
func TestNoRuleNamesAColour(t *testing.T) {
	named := regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|\b(?:rgb|rgba|hsl|hsla|oklch|oklab|lab|lch|color-mix)\(|[:\s,](?:red|green|blue|black|white|gray|grey|orange|yellow|purple|brown|pink)\s*[;,)]`)
	inRoles := false
	for n, line := range strings.Split(source(sheets...), "\n") {
		if strings.Contains(line, ":root {") {
			inRoles = true
		}
		if !inRoles && !strings.HasPrefix(strings.TrimSpace(line), "/*") {
			assert.NotRegexp(t, named, line, "line %d", n+1)
		}
		if strings.Contains(line, "}") {
			inRoles = false
		}
	}
}
