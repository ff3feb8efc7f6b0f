package opendata

import (
	"bytes"
	"encoding/csv"
	"io/fs"
	"math"
	"sort"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/example"
	"wardian/content/measure"
)

// sixLines is a diary whose six lines end as (day, lost) = (0,1) (0,0) (5,1) (9,1)
// (9,0) (30,0): dead on arrival, never looked at, lost, lost, passed on, and open
// on the as-of day.
const sixLines = `
== diary.yaml
name: Six lines
time-zone: UTC
== places/bin.md
---
name: The bin
stage: bin
---
== imports/box.md
---
season: 2026 spring
arrived: 2026-03-01
---
== check-ins/0.md
---
date: 2026-03-01
place: bin
specimens:
  p-1: lost cold
  p-3: firm
  p-4: firm
  p-5: firm
  p-6: firm
---
== check-ins/5.md
---
date: 2026-03-06
place: bin
specimens:
  p-3: lost rot
---
== check-ins/9.md
---
date: 2026-03-10
place: bin
specimens:
  p-4: lost rot
  p-5: passed on
---
== check-ins/30.md
---
date: 2026-03-31
place: bin
specimens:
  p-6: firm
---
`

func diary(t *testing.T, text string) *cohort.Cohort {
	t.Helper()
	files := fstest.MapFS{}
	for _, part := range strings.Split(text, "\n== ")[1:] {
		path, body, _ := strings.Cut(part, "\n")
		files[path] = &fstest.MapFile{Data: []byte(body)}
	}
	if strings.Contains(text, "p-6") {
		for n := 1; n <= 6; n++ {
			files["specimens/p-"+strconv.Itoa(n)+".md"] = &fstest.MapFile{Data: []byte("---\nname: Hoya siariae\nimport: box\n---\n")}
		}
	}
	return read(t, files)
}

func read(t *testing.T, files fs.FS) *cohort.Cohort {
	t.Helper()
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	return cohort.At(d.Shown(content.ShowOptions{On: measure.NoDay}), measure.NoDay)
}

// The shares are 5/6, 5/8 and 5/12, each written as the shortest decimal of the
// double nearest to it. Standard errors and limits are those of R 4.2.2 with
// survival 3.5-3, survfit(Surv(day, lost) ~ 1, conf.type = "log-log"); they pass
// through sqrt, exp and log, whose last bit every library and processor rounds in
// its own way, so a few units of it are let pass.
func TestSixLines(t *testing.T) {
	want := [][]string{
		{"0", "6", "1", "1", "0.8333333333333334", "0.15214515486254615", "0.273122849928356", "0.9747124266908935"},
		{"5", "4", "1", "0", "0.625", "0.21347814095749162", "0.14185338993165508", "0.8930506044985778"},
		{"9", "3", "1", "1", "0.4166666666666667", "0.22178776975932377", "0.05599186485205291", "0.76652221955058"},
		{"30", "1", "0", "1", "0.4166666666666667", "0.22178776975932377", "0.05599186485205291", "0.76652221955058"},
	}
	got, err := csv.NewReader(bytes.NewReader(survivalCurves(diary(t, sixLines)).data)).ReadAll()
	require.NoError(t, err)
	require.Equal(t, "scope,group_by,group,day,at_risk,lost,left,share,std_error,lower,upper", strings.Join(got[0], ","))
	scopes := [][]string{{"all", "", ""}, {"all", "season", "2026 spring"}, {"box", "", ""}}
	require.Len(t, got, 1+len(scopes)*len(want))
	for s, scope := range scopes {
		for i, row := range want {
			have := got[1+s*len(want)+i]
			assert.Equal(t, append(append([]string(nil), scope...), row[:5]...), have[:8], "to the byte")
			for k := 5; k < 8; k++ {
				x, err := strconv.ParseFloat(row[k], 64)
				require.NoError(t, err)
				y, err := strconv.ParseFloat(have[3+k], 64)
				require.NoError(t, err)
				assert.InEpsilon(t, x, y, 2e-15, "day %s", row[0])
			}
		}
	}
}

func TestADiaryWithoutPlantsHasTheHeaderAlone(t *testing.T) {
	c := diary(t, "\n== diary.yaml\nname: Empty\ntime-zone: UTC\n")
	assert.Equal(t, "scope,group_by,group,day,at_risk,lost,left,share,std_error,lower,upper\n", string(survivalCurves(c).data))
	files, err := Files(c, c.Comparisons(c.All(), 42, 3))
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
		assert.Zero(t, f.Rows, f.Name)
	}
	assert.Equal(t, Names(), names)
}

// aList is an import kept as a list: three rows with days, two without.
const aList = `
== imports/old.md
---
season: 2024 spring
arrived: 2024-04-10
list: {file: lists/old.csv, id: id, name: name, alive: alive, lost: lost}
---
== lists/old.csv
id;name;alive;lost
x-1;=HYPERLINK("https://example.org");2024-05-01;2024-05-31
x-2;Hoya kerrii;2024-05-20;
x-3;Hoya carnosa;;2024-04
x-4;Hoya lacunosa;;yes
x-5;Hoya obovata;;
`

// Rows without a day stand in specimens.csv by their word, and in no curve; a
// row's text that a spreadsheet would take for a formula is defused.
func TestRowsOfAListArePublished(t *testing.T) {
	c := diary(t, sixLines+aList)
	got := map[string]string{}
	for _, row := range readBack(t, specimens(c).data) {
		if row["from_list"] == "true" {
			got[row["specimen"]] = strings.Join([]string{row["line_fate"], row["line_day"], row["line_lost"], row["line_lost_after_day"], row["lost_day"]}, "|")
			assert.False(t, strings.HasPrefix(row["name"], "="))
		}
	}
	// 31 May is day 51, 1 May day 21, 20 May day 40, 30 April day 20.
	assert.Equal(t, map[string]string{"x-1": "lost|51|1|21|51", "x-2": "not seen since|40|0||", "x-3": "lost|20|1|-1|20", "x-4": "lost||||", "x-5": "not seen since||||"}, got)
	for _, row := range readBack(t, survivalCurves(c).data) {
		if row["scope"] == "old" && row["day"] == "0" {
			assert.Equal(t, "3", row["at_risk"])
		}
	}
}

// table reads a CSV back by its header.
func readBack(t *testing.T, data []byte) []map[string]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	require.NoError(t, err)
	require.NotEmpty(t, rows)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, name := range rows[0] {
			m[name] = row[i]
		}
		out = append(out, m)
	}
	return out
}

// The published specimens.csv alone gives survival.csv again, by the definition
// of the product limit and nothing of ours: for each day the product over earlier
// losses of (n − d)/n, counted row by row.
func TestSpecimensGiveTheCurvesAgain(t *testing.T) {
	for name, c := range map[string]*cohort.Cohort{"six lines": diary(t, sixLines), "a list": diary(t, sixLines+aList), "the example": read(t, example.Files())} {
		t.Run(name, func(t *testing.T) {
			specimens, curves := readBack(t, specimens(c).data), readBack(t, survivalCurves(c).data)
			require.NotEmpty(t, curves)
			for _, row := range curves {
				var days []float64
				var lost []bool
				for _, s := range specimens {
					in := s["import"] == row["scope"]
					if row["scope"] == "all" {
						in = s["pooled"] == "true" && (row["group_by"] == "" || s["season"] == row["group"])
					}
					if !in || s["parent"] != "" || s["line_day"] == "" {
						continue
					}
					day, err := strconv.ParseFloat(s["line_day"], 64)
					require.NoError(t, err)
					days, lost = append(days, day), append(lost, s["line_lost"] == "1")
				}
				on, err := strconv.ParseFloat(row["day"], 64)
				require.NoError(t, err)
				share := slowShare(days, lost, on)
				got, err := strconv.ParseFloat(row["share"], 64)
				require.NoError(t, err)
				assert.InDelta(t, share, got, 1e-9, "%v", row)
			}
			ends := map[string]int{}
			for _, row := range curves {
				key := row["scope"] + "/" + row["group"]
				l, _ := strconv.Atoi(row["lost"])
				left, _ := strconv.Atoi(row["left"])
				ends[key] += l + left
				if row["day"] == "0" {
					n, _ := strconv.Atoi(row["at_risk"])
					ends[key] -= n
				}
			}
			for key, n := range ends {
				assert.Zero(t, n, "%s: lost and left add up to those at risk on day 0", key)
			}
		})
	}
}

func slowShare(days []float64, lost []bool, on float64) float64 {
	at := append([]float64(nil), days...)
	sort.Float64s(at)
	share, last := 1.0, math.Inf(-1)
	for _, day := range at {
		if day == last || day > on {
			continue
		}
		last = day
		var n, d float64
		for i := range days {
			if days[i] >= day {
				n++
			}
			if days[i] == day && lost[i] {
				d++
			}
		}
		share *= (n - d) / n
	}
	return share
}
