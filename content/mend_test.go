package content

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// proved gives the errors of a folder as proof --json prints them.
func proved(t testing.TB, dir string) (errors []printed, all string) {
	t.Helper()
	_, report, err := LoadFolder(dir, Options{Today: faultsToday})
	require.NoError(t, err)
	for _, f := range report.Findings() {
		var p printed
		require.NoError(t, json.Unmarshal(f.JSON(), &p))
		if p.Severity == "error" {
			errors = append(errors, p)
			all += f.Long()
		}
	}
	return errors, all
}

// mend follows the hints of a fault diary until no error is left, or until
// following them changes nothing any more.
func (w *follower) mend(t testing.TB) (left []printed, told string) {
	for range 20 {
		left, told = proved(t, w.dir)
		changed := false
		// From the end of a file to its start, so that places stay true; in a
		// line only one thing at a time.
		done := ""
		for _, f := range slices.Backward(left) {
			line := fmt.Sprint(f.File, ":", f.Line)
			if line != done && w.follow(f) {
				changed, done = true, line
			}
		}
		if !changed {
			break
		}
	}
	return left, told
}

// A script that applies only what is printed mends at least eight of ten fault
// diaries: no error is left in them.
func TestHintsAreEnoughToMend(t *testing.T) {
	var whole, broken []string
	shown := 0
	nth := 1
	if racing {
		nth = 10
	}
	for n, file := range faultFiles(t) {
		if n%nth != 0 {
			continue
		}
		a, err := txtar.ParseFile(file)
		require.NoError(t, err)
		dir := overlay(t, a)
		first, _ := proved(t, dir)
		if len(first) == 0 {
			continue // warnings alone
		}
		name := strings.TrimSuffix(filepath.Base(file), ".txtar")
		w := &follower{t: t, dir: dir, tried: map[string]int{}}
		left, told := w.mend(t)
		if len(left) == 0 {
			whole = append(whole, name)
			if w.examples > 0 {
				shown++
			}
			continue
		}
		broken = append(broken, name)
		t.Logf("%s isn't mended:\n%s", name, told)
	}
	slices.Sort(broken)
	all := len(whole) + len(broken)
	require.Greater(t, all, 150/nth)
	t.Logf("%d of %d fault diaries mended by their hints alone, in %d of them with an example typed as it stands; not: %s", len(whole), all, shown, strings.Join(broken, ", "))
	assert.GreaterOrEqual(t, float64(len(whole)), 0.8*float64(all))
}
