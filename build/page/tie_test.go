package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestCountsAndRangesDoNotPart(t *testing.T) {
	for from, want := range map[string]string{
		"": "", " of ": " of ", "9 of ": "9 of ", " of 9": " of 9", "13 of 23": "13~of~23", "of 13 of 23 of them": "of 13~of~23 of them",
		"46%, 20 to 68%": "46%, 20~to~68%", "between 5 and 7 of 15": "between 5 and 7~of~15", "1 of 2 of 3": "1~of~2~of~3", "day 0 to 7, 3 of 9": "day 0~to~7, 3~of~9",
		"<td>9 of 14</td><td>none of 4 to go</td>": "<td>9~of~14</td><td>none of 4 to go</td>",
	} {
		assert.Equal(t, strings.ReplaceAll(want, "~", "\u00a0"), tie(from), from)
	}
}
