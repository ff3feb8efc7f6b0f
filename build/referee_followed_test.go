package build_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"wardian/build/said"
)

var (
	fateOf        = regexp.MustCompile(`(\w+) (lost|passed on|not seen since|under watch|known alive|alive)\b`)
	establishedOf = regexp.MustCompile(`Established, among these, (\w+): ([^.]+)\.`)
	medianOf      = regexp.MustCompile(`[Ww]atched for a median of (\d+) days?`)
	groupSays     = regexp.MustCompile(`^(.+): (\d+) lines?, (\d+) looked at(?:; by day (\d+) (.+?))?(?:, (\w+) of them established)?; watched for a median of (\d+) days?(?:; at its end one more loss would lower the curve by (\d+|less than one) in a hundred)?\.$`)
)

// fatesIn adds up the fates that a sentence tells.
func fatesIn(t *testing.T, words string) int {
	t.Helper()
	sum := 0
	for _, part := range fateOf.FindAllStringSubmatch(words, -1) {
		sum += numberOf(t, part[1])
	}
	return sum
}

// medianDays is how long half of the lines of a curve's table or more were watched:
// each leaves it, lost or alive, on its last day.
func medianDays(rows []curveRow) int {
	var days []int
	for _, r := range rows {
		for range r.lost + r.left {
			days = append(days, r.day)
		}
	}
	slices.Sort(days)
	return days[len(days)/2]
}

// oneMore is what one more loss takes off the end of a curve, in hundredths; 0 where
// nobody is left to be lost.
func oneMore(rows []curveRow) float64 {
	last := rows[len(rows)-1]
	before := 1.0
	if len(rows) > 1 {
		before = rows[len(rows)-2].share
	}
	if last.share == 0 {
		return 0
	}
	return 100 * before / float64(last.atRisk)
}

// C3 and C4 under curves of groups: of each that is drawn it is said how many lines
// it has, how many were looked at, what became of these, how long half of them were
// watched, and what one more loss would do. All of it agrees with the table beneath
// (STROBE 13 and 14: von Elm et al. 2007, PLoS Med 4:e296; Gebski et al. 2018, Int J
// Epidemiol 47:850-859).
func TestC4EveryGroupIsFollowedInWords(t *testing.T) {
	told, falls, established := 0, 0, 0
	eachCurve(t, func(name string, _ *html.Node, f figure) {
		names, rows := f.groups(t)
		if names[0] == "" || strings.Contains(name, "updates/") {
			return
		}
		says := map[string][]string{}
		for _, p := range find(f.around, named("p")) {
			if m := groupSays.FindStringSubmatch(textIn(p)); m != nil {
				says[m[1]] = m
			}
		}
		for _, group := range names {
			of, m := rows[group], says[said.Upper(group)]
			require.NotNil(t, m, "%s: nothing is said of %s", name, group)
			assert.Equal(t, of[0].atRisk, numberOf(t, m[2]), "%s: %s", name, m[0])
			assert.LessOrEqual(t, numberOf(t, m[3]), numberOf(t, m[2]), "%s: %s", name, m[0])
			assert.Equal(t, numberOf(t, m[3]), fatesIn(t, m[5]), "%s: %s", name, m[0])
			if m[6] != "" {
				assert.LessOrEqual(t, numberOf(t, m[6]), numberOf(t, m[3]), "%s: %s", name, m[0])
				established++
			}
			assert.Equal(t, medianDays(of), numberOf(t, m[7]), "%s: %s", name, m[0])
			switch fall := oneMore(of); {
			case fall == 0:
				assert.Empty(t, m[8], "%s: %s: no other can come", name, m[0])
			case fall >= 1.6: // the table's shares are rounded
				said, err := strconv.ParseFloat(m[8], 64)
				require.NoError(t, err, "%s: %s", name, m[0])
				assert.InDelta(t, fall, said, 1.01, "%s: %s", name, m[0])
				falls++
			default:
				assert.NotEmpty(t, m[8], "%s: %s", name, m[0])
			}
			told++
		}
	})
	assert.Greater(t, told, 40)
	assert.Greater(t, falls, 30)
	assert.Greater(t, established, 5)
}

// C4 under a curve of its own: the established are told with what became of them
// since, and the median agrees with the table.
func TestC4HowLongTheyWereWatched(t *testing.T) {
	told, established := 0, 0
	eachCurve(t, func(name string, _ *html.Node, f figure) {
		_, rows := f.groups(t)
		of, ok := rows[""]
		if !ok {
			return
		}
		text := textIn(f.around)
		m := medianOf.FindStringSubmatch(text)
		require.NotNil(t, m, "%s: for how long is not told", name)
		assert.Equal(t, medianDays(of), numberOf(t, m[1]), name)
		told++
		if e := establishedOf.FindStringSubmatch(text); e != nil {
			assert.Equal(t, numberOf(t, e[1]), fatesIn(t, e[2]), "%s: %s", name, e[0])
			established++
		}
	})
	assert.Greater(t, told, 5)
	assert.Positive(t, established)
}

// C2, where limits stand in a table: their method is named. Counts of which every
// state is known have Wilson's, others the curve's log-log ones (KMunicate: Morris et
// al. 2019, BMJ Open 9:e030215).
func TestC2LimitsInTablesNameTheirMethod(t *testing.T) {
	limits := regexp.MustCompile(`^\d+ to \d+%$`)
	ofCurve := regexp.MustCompile(`^about \d+%, \d+ to \d+%$`)
	wilson, loglog := 0, 0
	eachPage(t, func(name string, root *html.Node) {
		for _, section := range find(root, named("section")) {
			says := ""
			for _, p := range find(section, named("p")) {
				if strings.HasPrefix(textIn(p), "Lines, on day ") {
					says = textIn(p)
				}
			}
			for _, table := range find(section, named("table")) {
				d := tableIn(table)
				if !d.has("lines", "95% limits") {
					continue
				}
				for i := range d.rows {
					switch cell := d.get(i, "95% limits"); {
					case limits.MatchString(cell):
						assert.Contains(t, says, "95% limits (Wilson", "%s: %v", name, d.rows[i])
						wilson++
					case ofCurve.MatchString(cell):
						assert.Regexp(t, `95% limits \(.*(log-log|Wilson)`, says, "%s: %v", name, d.rows[i])
						loglog++
					}
				}
			}
		}
		if strings.HasSuffix(name, "seasons/index.html") {
			for _, p := range find(root, named("p")) {
				if text := textIn(p); strings.Contains(text, "drawn from 0 to 100%") {
					assert.Regexp(t, `95% limits \((Wilson|log-log)`, text, name)
				}
			}
		}
	})
	assert.Greater(t, wilson, 20)
	assert.Positive(t, loglog)
}
