package content

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
	"wardian/content/source"
)

// sill is a small sound diary of two imports, invented, for the tests of the
// walk: what a test adds is laid over it.
const sill = `
-- diary.yaml --
name: Test sill
grower: M.
time-zone: Europe/Oslo
currency: NOK
-- imports/2026-spring-b.md --
---
season: 2026 spring
arrived: 2026-03-09
---
-- imports/2025-spring-a.md --
---
season: 2025 spring
arrived: 2025-04-01
---
-- places/tote.md --
---
name: Clear tote
stage: bin
---
-- places/cabinet.md --
---
name: Cabinet
stage: step-down
---
-- specimens/b26-01.md --
---
name: Hoya callistophylla
import: 2026-spring-b
---
-- specimens/b26-02.md --
---
name: Begonia amphioxus
import: 2026-spring-b
---
-- specimens/b26-03.md --
---
name: Macodes petola
import: 2026-spring-b
---
-- specimens/a25-01.md --
---
name: Davallia parvula
import: 2025-spring-a
price: 45
---
`

// tell reads the small diary with files laid over it.
func tell(t testing.TB, over ...string) (*Diary, []source.Finding) {
	t.Helper()
	files := fstest.MapFS{}
	for _, archive := range append([]string{sill}, over...) {
		for _, f := range txtar.Parse([]byte(archive)).Files {
			files[f.Name] = &fstest.MapFile{Data: f.Data}
		}
	}
	d, report, err := Load(files, Options{Today: measure.NoDay})
	require.NoError(t, err)
	return d, report.Findings()
}

// entries writes check-ins, one a text of keys; the file names keep their
// order. Words may follow the keys after a line of three hyphens.
func entries(texts ...string) string {
	var b strings.Builder
	for i, text := range texts {
		keys, words, _ := strings.Cut(strings.TrimSpace(text)+"\n", "---\n")
		b.WriteString("-- " + entryFile(i) + " --\n---\n" + keys + "---\n" + words)
	}
	return b.String()
}

func entryFile(i int) string {
	return "check-ins/" + string(rune('a'+i/26)) + string(rune('a'+i%26)) + ".md"
}
