package build_test

import (
	"bytes"
	"encoding/csv"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// table is a published CSV: its columns by name, and its rows.
type table struct {
	columns []string
	rows    []map[string]string
}

func readTable(t *testing.T, data []byte) table {
	t.Helper()
	records, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	require.NoError(t, err)
	require.NotEmpty(t, records)
	out := table{columns: records[0]}
	for _, record := range records[1:] {
		row := map[string]string{}
		for i, name := range records[0] {
			row[name] = record[i]
		}
		out.rows = append(out.rows, row)
	}
	return out
}

// rscript is R with its survival package, or the test ends with a word.
func rscript(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("Rscript")
	missing := "no Rscript on this machine (Debian: r-base-core)"
	if err == nil {
		if exec.Command(path, "-e", "library(survival)").Run() == nil {
			return path
		}
		missing = "R has no survival package on this machine (Debian: r-cran-survival)"
	}
	if required() {
		t.Fatal(missing)
	}
	t.Skip(missing)
	return ""
}

// C11: the published specimens.csv, read by another program, gives the curves of
// survival.csv and milestones.csv again: every row, every count, and every share,
// standard error and limit to 1e-9. The other program is R with its survival
// package; testdata/second/curves.R says how it reads the table. (milestones.csv has
// two milestones more, of which specimens.csv doesn't say which lines count, and of
// a list it doesn't say which rows had a check-in.)
func TestC11AnotherProgramDrawsTheSameCurves(t *testing.T) {
	r := rscript(t)
	script, err := filepath.Abs(filepath.Join(top, "testdata", "second", "curves.R"))
	require.NoError(t, err)
	day := func(date, lines string) string {
		return "\n== check-ins/" + date + ".md\n---\ndate: " + date + "\nplace: bin\nspecimens:\n" + lines + "\n---\n"
	}
	tables := func(diary string) site {
		return made(t, load(t, written(diary)), "open-data/specimens.csv", "open-data/survival.csv", "open-data/milestones.csv")
	}
	two := settings + binPlace + boxImport + plantOne + plantTwo
	diaries := map[string]site{
		"the example":           exampleSite(t),
		"a list":                tables(settings + binPlace + oldSeason),
		"all lost on day 0":     tables(two + day("2026-03-09", "  p-1: lost cold\n  p-2: lost cold")),
		"none lost":             tables(two + day("2026-03-09", "  p-1: firm\n  p-2: firm") + day("2026-06-09", "  p-1: firm\n  p-2: firm")),
		"one never looked at":   tables(two + day("2026-03-12", "  p-1: firm")),
		"one lost, one let go":  tables(two + day("2026-03-09", "  p-1: firm\n  p-2: firm") + day("2026-03-20", "  p-1: lost rot\n  p-2: passed on")),
		"an import, no plants":  tables(settings + boxImport),
		"nothing was brought":   tables(settings),
		"two on one day, later": tables(two + day("2026-03-09", "  p-1: firm\n  p-2: firm") + day("2026-05-09", "  p-1: lost rot\n  p-2: lost rot?")),
	}
	args := []string{"--vanilla", script}
	folder := map[string]string{}
	for name, s := range diaries {
		folder[name] = t.TempDir()
		args = append(args, folder[name])
		require.NoError(t, os.WriteFile(filepath.Join(folder[name], "specimens.csv"), s["open-data/specimens.csv"], 0o644))
	}
	said, err := exec.Command(r, args...).CombinedOutput()
	require.NoError(t, err, string(said))
	for name, s := range diaries {
		t.Run(name, func(t *testing.T) {
			again := func(which string) table {
				data, err := os.ReadFile(filepath.Join(folder[name], which+"-again.csv"))
				require.NoError(t, err)
				return readTable(t, data)
			}
			ours := readTable(t, s["open-data/survival.csv"])
			sameTables(t, again("survival"), ours, ours.columns)
			if name == "a list" {
				return
			}
			ours = readTable(t, s["open-data/milestones.csv"])
			ours.rows = slices.DeleteFunc(ours.rows, func(row map[string]string) bool {
				return row["milestone"] == "left the bin" || row["milestone"] == "recovered"
			})
			sameTables(t, again("milestones"), ours, []string{"scope", "group_by", "group", "milestone", "day", "share", "lost_share"})
			if name == "the example" {
				require.Greater(t, len(ours.rows), 100)
			}
		})
	}
}

// sameTables compares row by row: words and counts to the letter, figures to 1e-9.
func sameTables(t *testing.T, want, got table, columns []string) {
	t.Helper()
	require.Equal(t, len(want.rows), len(got.rows))
	for i, row := range want.rows {
		for _, name := range columns {
			x, notX := strconv.ParseFloat(row[name], 64)
			y, notY := strconv.ParseFloat(got.rows[i][name], 64)
			if notX != nil || notY != nil {
				require.Equal(t, row[name], got.rows[i][name], "row %d, %s", i+1, name)
				continue
			}
			assert.LessOrEqual(t, math.Abs(x-y), 1e-9*math.Max(1e-3, math.Abs(x)), "row %d (%v), %s", i+1, row, name)
		}
	}
}
