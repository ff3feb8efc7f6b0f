package survival

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The reference: records computed by R 4.2.2, survival 3.5-3. See
// testdata/README.md.

type record struct {
	ID, Kind, Dataset string
	Params            json.RawMessage
	Expected          json.RawMessage
}

// common are the parameters that most kinds share.
type common struct {
	Filter map[string]any
	Group  string
	Strata *string
	Conf   float64
	Tau    float64
	Rho    int
	Scores []float64
}

// eachRecord runs a test for every record of a kind; finding another number of
// them than wanted fails, none included.
func eachRecord(t *testing.T, kind string, want int, run func(t *testing.T, r record)) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "reference", kind+".json"))
	require.NoError(t, err)
	var file struct{ Records []record }
	require.NoError(t, json.Unmarshal(text, &file))
	require.Len(t, file.Records, want, "records of kind %s", kind)
	ran := 0
	for _, r := range file.Records {
		require.Equal(t, kind, r.Kind)
		t.Run(r.ID, func(t *testing.T) { run(t, r) })
		ran++
	}
	require.Equal(t, want, ran)
}

// decode reads the parameters or the expected values of a record.
func decode[T any](t *testing.T, from json.RawMessage) T {
	t.Helper()
	var v T
	require.NoError(t, json.Unmarshal(from, &v))
	return v
}

// row is one line of a data set, by column.
type row map[string]string

func (r row) number(t testing.TB, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, "column %s", column)
	return v
}

// dataset reads a data set and keeps the rows that agree with the filter.
func dataset(t testing.TB, name string, filter map[string]any) []row {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", "datasets", name+".csv"))
	require.NoError(t, err)
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var rows []row
next:
	for _, line := range lines[1:] {
		r := row{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		for column, want := range filter {
			if r[column] != fmt.Sprint(want) {
				continue next
			}
		}
		rows = append(rows, r)
	}
	require.NotEmpty(t, rows)
	return rows
}

func subjectsOf(t testing.TB, rows []row) []Subject {
	t.Helper()
	subjects := make([]Subject, len(rows))
	for i, r := range rows {
		subjects[i] = Subject{Time: r.number(t, "time"), Lost: r["status"] == "1"}
	}
	return subjects
}

// levels numbers the distinct values of a column in sorted order.
func levels(rows []row, column string) (names []string, number map[string]int) {
	number = map[string]int{}
	for _, r := range rows {
		if _, ok := number[r[column]]; !ok {
			number[r[column]] = 0
			names = append(names, r[column])
		}
	}
	sort.Strings(names)
	for i, n := range names {
		number[n] = i
	}
	return names, number
}

// near compares as the tolerances say: relative, and absolute 1e-12 where the
// expected value is below 1e-3.
func near(t testing.TB, want, got, relative float64, what string, args ...any) {
	t.Helper()
	allowed := relative * math.Abs(want)
	if math.Abs(want) < 1e-3 {
		allowed = math.Max(allowed, 1e-12)
	}
	if math.IsNaN(got) || math.Abs(got-want) > allowed {
		assert.Fail(t, fmt.Sprintf(what, args...), "want %.17g, got %.17g, allowed %.3g", want, got, allowed)
	}
}

// nearOrAbsent also compares whether the value exists at all.
func nearOrAbsent(t testing.TB, want *float64, got float64, ok bool, relative float64, what string, args ...any) {
	t.Helper()
	if want == nil {
		assert.False(t, ok, "%s: there should be no value, got %v", fmt.Sprintf(what, args...), got)
		return
	}
	if assert.True(t, ok, "%s: no value, want %v", fmt.Sprintf(what, args...), *want) {
		near(t, *want, got, relative, what, args...)
	}
}

func nearAll(t testing.TB, want, got []float64, relative float64, what string) {
	t.Helper()
	if assert.Len(t, got, len(want), what) {
		for i := range want {
			near(t, want[i], got[i], relative, "%s %d", what, i)
		}
	}
}
