package opendata

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content/example"
)

// The six lines of survival.csv, one of which (passed on on day 9) had shown a new
// root on day 5. Worked by hand: at risk 6, 4, 2, 1; S is 5/6 after day 0, 5/12
// after day 5, 5/24 after day 9; the share that rooted is 5/6 · 1/4 = 5/24, the
// share lost 1/6, then 1/6 + 5/24, then 1/6 + 5/24 + 5/24.
//
// The variance on day 5 is (5/24)²·1/(6·5) + (5/6)²·1·3/4³ = 0.0339988, its error
// 0.184388; later losses take nothing from it but add (F − F_j)² terms of 0.
func TestSixLinesOfWhichOneRooted(t *testing.T) {
	c := diary(t, strings.Replace(sixLines, "  p-3: lost rot", "  p-3: lost rot\n  p-5: new root", 1))
	rows := readBack(t, milestoneCurves(c).data)
	var got []map[string]string
	for _, r := range rows {
		if r["scope"] == "all" && r["group_by"] == "" && r["milestone"] == "first new root" {
			got = append(got, r)
		}
	}
	require.Len(t, got, 4)
	se := math.Sqrt(25.0/576/30 + 25.0/36*3/64)
	for i, want := range []struct {
		day, atRisk, reached, lost, left string
		share, lostShare                 float64
	}{
		{"0", "6", "0", "1", "1", 0, 1.0 / 6},
		{"5", "4", "1", "1", "0", 5.0 / 24, 9.0 / 24},
		{"9", "2", "0", "1", "0", 5.0 / 24, 14.0 / 24},
		{"30", "1", "0", "0", "1", 5.0 / 24, 14.0 / 24},
	} {
		r := got[i]
		assert.Equal(t, []string{want.day, want.atRisk, want.reached, want.lost, want.left}, []string{r["day"], r["at_risk"], r["reached"], r["lost"], r["left"]})
		share, lost := decimal(t, r["share"]), decimal(t, r["lost_share"])
		assert.InDelta(t, want.share, share, 1e-12)
		assert.InDelta(t, want.lostShare, lost, 1e-12)
		if i == 0 {
			assert.Equal(t, []string{"0", "", ""}, []string{r["std_error"], r["lower"], r["upper"]}, "no limits while nobody has rooted")
			continue
		}
		assert.InDelta(t, se, decimal(t, r["std_error"]), 1e-9)
		assert.Less(t, decimal(t, r["lower"]), share)
		assert.Greater(t, decimal(t, r["upper"]), share)
	}
	// By ln(−ln(1 − F)): 1 − (19/24)^exp(∓1.959964·se/((19/24)·ln(19/24))).
	w := math.Exp(1.959963984540054 * se / (19.0 / 24 * math.Log(19.0/24)))
	assert.InDelta(t, 1-math.Pow(19.0/24, w), decimal(t, got[1]["lower"]), 1e-9)
	assert.InDelta(t, 1-math.Pow(19.0/24, 1/w), decimal(t, got[1]["upper"]), 1e-9)
}

// Blocks come scope by scope, group by group, milestone by milestone, days
// ascending from 0; what can't be asked has no block.
func TestTheOrderOfMilestones(t *testing.T) {
	for name, c := range map[string]*cohort.Cohort{"six lines": diary(t, sixLines), "the example": read(t, example.Files())} {
		t.Run(name, func(t *testing.T) {
			rank := map[string]int{"first new root": 0, "first new leaf": 1, "left the bin": 2, "recovered": 3, "established": 4}
			var scopes []string
			for _, r := range readBack(t, survivalCurves(c).data) {
				if s := r["scope"] + "|" + r["group_by"] + "|" + r["group"]; len(scopes) == 0 || scopes[len(scopes)-1] != s {
					scopes = append(scopes, s)
				}
			}
			at := 0
			milestone, day, left, seen := "", -1, 0, 0
			for _, r := range readBack(t, milestoneCurves(c).data) {
				scope := r["scope"] + "|" + r["group_by"] + "|" + r["group"]
				if scope != scopes[at] {
					at++
					milestone = ""
					require.Equal(t, scopes[at], scope)
				}
				if r["milestone"] != milestone {
					assert.Zero(t, left, "reached, lost and left add up to those at risk on day 0")
					if milestone != "" {
						assert.Greater(t, rank[r["milestone"]], rank[milestone])
					}
					require.Equal(t, "0", r["day"], "a block begins on day 0")
					milestone, day = r["milestone"], -1
					left, _ = strconv.Atoi(r["at_risk"])
					seen++
				}
				now, err := strconv.Atoi(r["day"])
				require.NoError(t, err)
				assert.Greater(t, now, day)
				day = now
				for _, k := range []string{"reached", "lost", "left"} {
					n, err := strconv.Atoi(r[k])
					require.NoError(t, err)
					left -= n
				}
				assert.LessOrEqual(t, decimal(t, r["share"])+decimal(t, r["lost_share"]), 1+1e-12)
			}
			assert.Zero(t, left)
			assert.Equal(t, len(scopes)-1, at, "every scope with a line has milestones")
			assert.NotZero(t, seen)
		})
	}
	six := string(milestoneCurves(diary(t, sixLines)).data)
	assert.NotContains(t, six, ",recovered,", "nobody's leaves were counted on arrival")
	empty := diary(t, "\n== diary.yaml\nname: Empty\ntime-zone: UTC\n")
	assert.Equal(t, "scope,group_by,group,milestone,day,at_risk,reached,lost,left,share,std_error,lower,upper,lost_share\n", string(milestoneCurves(empty).data))
}

func decimal(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err, text)
	return x
}

// The published specimens.csv alone gives milestones.csv again, by the definition
// of Aalen and Johansen and nothing of ours: on each day the share under watch just
// before, times those who went that way ÷ those at risk, counted row by row.
func TestSpecimensGiveTheMilestonesAgain(t *testing.T) {
	for name, c := range map[string]*cohort.Cohort{"six lines": diary(t, strings.Replace(sixLines, "  p-3: lost rot", "  p-3: lost rot\n  p-5: new root", 1)), "the example": read(t, example.Files())} {
		t.Run(name, func(t *testing.T) {
			plants, seen := readBack(t, specimens(c).data), 0
			for _, row := range readBack(t, milestoneCurves(c).data) {
				column, all := map[string]string{"first new root": "first_new_root_day", "first new leaf": "first_new_leaf_day", "established": "established_day"}[row["milestone"]]
				if !all {
					continue // not every line can be asked, and specimens.csv doesn't say which
				}
				seen++
				var days []float64
				var ways []int // 0 left, 1 reached, 2 lost
				for _, s := range plants {
					in := s["import"] == row["scope"]
					if row["scope"] == "all" {
						in = s["pooled"] == "true" && (row["group_by"] == "" || s["season"] == row["group"])
					}
					if !in || s["parent"] != "" {
						continue
					}
					day, way := decimal(t, s["line_day"]), 0
					if s["line_lost"] == "1" {
						way = 2
					}
					if on := s[column]; on != "" && decimal(t, on) <= day {
						day, way = decimal(t, on), 1
					}
					days, ways = append(days, day), append(ways, way)
				}
				reached, lost := slowIncidence(days, ways, decimal(t, row["day"]))
				assert.InDelta(t, reached, decimal(t, row["share"]), 1e-9, "%v", row)
				assert.InDelta(t, lost, decimal(t, row["lost_share"]), 1e-9, "%v", row)
			}
			assert.NotZero(t, seen)
		})
	}
}

func slowIncidence(days []float64, ways []int, on float64) (reached, lost float64) {
	watched, last := 1.0, math.Inf(-1)
	for {
		day := math.Inf(1)
		for _, d := range days {
			if d > last && d < day {
				day = d
			}
		}
		if day > on {
			return reached, lost
		}
		last = day
		var n, r, l float64
		for i, d := range days {
			if d >= day {
				n++
			}
			if d == day && ways[i] == 1 {
				r++
			}
			if d == day && ways[i] == 2 {
				l++
			}
		}
		reached += watched * r / n
		lost += watched * l / n
		watched *= (n - r - l) / n
	}
}
