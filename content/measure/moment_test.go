package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Only a whole time of day is told that its day is missing.
func TestATimeWithoutItsDay(t *testing.T) {
	for text, alone := range map[string]bool{"18:30": true, "6:05": true, "123:30": false, ":30": false, "18:3": false, "18:300": false, "18:30 pm": false} {
		_, trouble := ParseMoment(text)
		require.NotNil(t, trouble, text)
		says := assert.NotContains
		if alone {
			says = assert.Contains
		}
		says(t, trouble.Message, "without its day", text)
	}
}
