package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
	"wardian/content/source"
)

// The whole example of each kind of file, which help prints, has no fault in it
// and is a file of that kind.
func TestWholeExamplesAreSound(t *testing.T) {
	require.NotEmpty(t, format.Files())
	for _, f := range format.Files() {
		t.Run(strings.ReplaceAll(f.Name, " ", "-"), func(t *testing.T) {
			w := f.Example()
			diary, report, err := Load(inMemory(t, map[string]string{
				w.Path: w.Text, "readings/shelf-1.csv": "Time,Temp (C),RH %\n2026-04-06 12:00,25,98\n",
				"readings/tote-1.csv": "Time,Temp (C),RH %\n2026-04-06 12:00,25,98\n",
			}), Options{Today: faultsToday})
			require.NoError(t, err)
			for _, finding := range report.Findings() {
				if finding.Code != "log-unnamed" { // the other logs are here for the example of a place
					assert.Fail(t, "an example has a fault", "%s\n%s", finding.Long(), w.Text)
				}
			}
			switch f.Name {
			case "order":
				order := ReadOrder(source.New(w.Path, []byte(w.Text)), &diary.Settings, report)
				assert.Empty(t, report.Findings())
				assert.Equal(t, 6, order.Plants())
			case "check-in":
				require.Len(t, diary.Entries, 1)
				assert.False(t, diary.Entries[0].Round || diary.Entries[0].PlaceNote())
			case "round":
				require.Len(t, diary.Entries, 1)
				assert.True(t, diary.Entries[0].Round)
			case "place note":
				require.Len(t, diary.Entries, 1)
				assert.True(t, diary.Entries[0].PlaceNote())
			case "plate":
				require.Len(t, diary.Updates, 1)
				assert.Len(t, diary.Updates[0].Plates, 2)
			}
		})
	}
}
