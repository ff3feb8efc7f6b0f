package build_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

// twoParcels is a diary of two imports of fourteen plants from two exporters. The
// plants of one box share its luck: each box draws its chance to live past day 42 from
// a beta distribution with mean 0.6 and correlation 0.2 (as the mean of a uniform
// draw with weight 4, by an urn), and is looked at every 6 days.
func twoParcels(seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 3))
	var b strings.Builder
	b.WriteString(settings + binPlace)
	for box, month := range []string{"2026-03-01", "2026-03-02"} {
		arrived, _ := measure.ParseDay(month)
		fmt.Fprintf(&b, "\n== imports/box-%d.md\n---\nseason: 2026 spring\nexporter: exporter %c\norigin: Taiwan\narrived: %s\n---\n", box, 'A'+box, month)
		lost := map[int][]string{}
		var alive []string
		survivors := 0
		for n := range 14 {
			id := fmt.Sprintf("%c-%02d", 'a'+box, n+1)
			fmt.Fprintf(&b, "\n== specimens/%s.md\n---\nname: Hoya siariae\nimport: box-%d\n---\n", id, box)
			// Pólya's urn with 2.4 balls for living and 1.6 for not.
			if r.Float64()*(4+float64(n)) < 2.4+float64(survivors) {
				survivors++
				alive = append(alive, id)
				continue
			}
			day := 6 * (1 + r.IntN(7))
			lost[day] = append(lost[day], id)
			alive = append(alive, id)
		}
		for day := 0; day <= 84; day += 6 {
			gone := map[string]bool{}
			fmt.Fprintf(&b, "\n== check-ins/%d-%d.md\n---\ndate: %s\nplace: bin\nspecimens:\n", box, day, arrived+measure.Day(day))
			for _, id := range lost[day] {
				gone[id] = true
				fmt.Fprintf(&b, "  %s: lost rot\n", id)
			}
			var still []string
			for _, id := range alive {
				if !gone[id] {
					still = append(still, id)
					fmt.Fprintf(&b, "  %s: firm\n", id)
				}
			}
			alive = still
			b.WriteString("---\n")
		}
	}
	return b.String()
}

// A simulation: two imports whose plants are correlated by 0.2, compared by a word
// that is one fact a parcel. Taking box-mates for independent would give false alarms
// a third of the time; here no p may stand on a page or in a table.
func TestTwoParcelsGiveNoP(t *testing.T) {
	uneven := 0
	for seed := range uint64(6) {
		pages := []string{"compare/exporter.html", "compare/index.html", "seasons/index.html", "open-data/comparisons.csv", "open-data/groups.csv"}
		s := made(t, load(t, written(twoParcels(seed))), pages...)
		assert.Contains(t, s.words("compare/exporter.html"), "No p: ", "seed %d", seed)
		assert.NotRegexp(t, regexp.MustCompile(`(?:\(p|; p|\bp is) \d`), s.words("compare/exporter.html"), "seed %d", seed)
		parcels := 0
		for _, row := range readTable(t, s["open-data/comparisons.csv"]).rows {
			if !strings.Contains(row["level"], "import") && !strings.Contains(row["level"], "parcel") {
				continue
			}
			parcels++
			assert.Empty(t, row["p"]+row["p_adjusted"], "seed %d: %v", seed, row)
			assert.NotEmpty(t, row["reason"], "seed %d: %v", seed, row)
		}
		assert.Greater(t, parcels, 2, "seed %d", seed)
		var alive []int
		for _, row := range readTable(t, s["open-data/groups.csv"]).rows {
			if row["by"] == "exporter" {
				n, err := strconv.Atoi(row["alive_at"])
				require.NoError(t, err)
				alive = append(alive, n)
			}
		}
		require.Len(t, alive, 2)
		if alive[0]-alive[1] > 4 || alive[1]-alive[0] > 4 {
			uneven++
		}
	}
	assert.Positive(t, uneven, "some pairs of boxes differ by five plants and more")
}
