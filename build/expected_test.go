package build_test

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write what the pages are into testdata/expected")

// expectedDiary has one plant that lives and one that is lost, small enough that
// its pages can be read.
const expectedDiary = settings + `
== places/tub.md
---
name: The tub
stage: soak
---
== places/bin.md
---
name: The bin
stage: bin
humidity: 98%
temperature: 24 C
---
== imports/box.md
---
season: 2026 spring
origin: Taiwan
exporter: exporter A
dispatched: 2026-03-02
arrived: 2026-03-09
received: 2
costs: {freight: 62.50}
---
A small box.
== specimens/p-1.md
---
name: Hoya cf. callistophylla
import: box
price: 30
leaf-shape: elliptic
---
== specimens/p-2.md
---
name: Begonia 'Fog Lamp'
import: box
price: 45
---
== check-ins/2026-03-09.md
---
date: 2026-03-09
place: tub
arrival: yes
specimens:
  p-1: leaves 2 10x5 10x5, roots 2 length 12, soft
  p-2: leaves 3, limp; a torn leaf
---
Cold outside, damp inside.
== check-ins/2026-03-10.md
---
date: 2026-03-10
specimens:
  p-1: to bin, cut 1 leaf, leaves 1 10x5
  p-2: to bin
---
== check-ins/2026-03-19.md
---
date: 2026-03-19
place: bin
specimens:
  p-1: new root, roots 2 length 14, firm
  p-2: lost rot?
---

## p-1
A white tip, *as long as a comma*.
`

var fingerprints = regexp.MustCompile(`look/([a-z]+)-[0-9a-f]{10}\.`)

// The pages as they are, to be read by whoever changes them.
func TestPagesAreAsExpected(t *testing.T) {
	s := made(t, load(t, written(expectedDiary)))
	for _, path := range []string{"index.html", "specimens/p-1.html", "specimens/p-2.html", "imports/box.html", "places/bin.html", "open-data/specimens.csv", "open-data/survival.csv"} {
		file := filepath.Join(top, "testdata", "expected", filepath.Base(filepath.Dir(path))+"-"+filepath.Base(path))
		if filepath.Dir(path) == "." {
			file = filepath.Join(top, "testdata", "expected", path)
		}
		require.Contains(t, s, path)
		// The names of style and icon follow their bytes, which aren't the page's.
		s[path] = fingerprints.ReplaceAll(s[path], []byte("look/$1-FINGERPRINT."))
		if *update {
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, s[path], 0o644))
			continue
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err, "write it with: go test ./build -run Expected -update")
		assert.Equal(t, string(want), string(s[path]), path)
	}
}
