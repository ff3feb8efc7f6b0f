package themes

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bare is what is left of a sheet when every blank and remark is gone: two sheets
// that agree in it say the same, but for blanks that part words.
func bare(s string) string {
	s = regexp.MustCompile(`(?s)/\*.*?\*/|\s`).ReplaceAllString(s, "")
	return strings.ReplaceAll(s, ";}", "}")
}

func TestTheStyleIsTheSheetsWithoutTheirBlanks(t *testing.T) {
	made := string(Style())
	assert.Equal(t, bare(source(sheets...)), bare(made))
	assert.NotContains(t, made, "/*")
	assert.Less(t, len(made), len(source(sheets...)))
	// what blanks mean must have stayed: descendants, calc, media queries
	for _, keep := range []string{".mast .home{", "calc(96px + var(--s3))", "@media (max-width:40rem){", "a:hover{", "1px solid var(--"} {
		assert.Contains(t, made, keep)
	}
}

// What Style takes away may not stand inside a string of the sheets.
func TestNoStringOfTheSheetsHoldsWhatIsTakenAway(t *testing.T) {
	all := append([]string(nil), sheets...)
	for _, names := range beside {
		all = append(all, names...)
	}
	sheets := regexp.MustCompile(`(?s)/\*.*?\*/`).ReplaceAllString(source(all...), "")
	found := regexp.MustCompile(`"[^"]*"`).FindAllString(sheets, -1)
	require.NotEmpty(t, found)
	for _, s := range found {
		assert.NotRegexp(t, `[{};,]|/\*|: |\s\s`, s)
	}
	assert.NotContains(t, sheets, "url(", "a page fetches nothing from its style")
}

func TestWhatSomePagesNeedStandsInThemAlone(t *testing.T) {
	assert.Empty(t, Beside("specimen"))
	for name, names := range beside {
		assert.Equal(t, bare(source(names...)), bare(string(Beside(name))), name)
		for _, sheet := range names {
			assert.NotContains(t, sheets, sheet)
		}
	}
}

func TestTheIconBearsTheRolesOfDaylight(t *testing.T) {
	light := roles(t, source(sheets...), "")
	found := regexp.MustCompile(`#[0-9a-f]{6}`).FindAllString(string(Icon()), -1)
	require.NotEmpty(t, found)
	for _, colour := range found {
		assert.Contains(t, slices.Collect(maps.Values(light)), colour)
	}
}
