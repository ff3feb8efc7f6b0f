package build_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// places and an import with plants of which little is known.
const (
	binPlace = `
== places/bin.md
---
name: The bin
stage: bin
---
`
	boxImport = `
== imports/box.md
---
season: 2026 spring
origin: Taiwan
exporter: exporter A
arrived: 2026-03-09
---
`
	plantOne = `
== specimens/p-1.md
---
name: Hoya siariae
import: box
---
`
	plantTwo = `
== specimens/p-2.md
---
name: Begonia 'Fog Lamp'
import: box
---
`
)

// notNumbers are what no page, chart or table may show.
var notNumbers = regexp.MustCompile(`\b(?:NaN|[+-]?Inf(?:inity)?|%!|<nil>|-?\d+e[+-]\d+)\b`)

// Diaries of which little is known make every page, and say something sensible.
func TestSparseDiariesMakeEveryPage(t *testing.T) {
	round := func(date, lines string) string {
		return "\n== check-ins/" + date + ".md\n---\ndate: " + date + "\nplace: bin\nspecimens:\n" + lines + "\n---\n"
	}
	for name, c := range map[string]struct {
		diary string
		says  map[string]string // page: what it must say
	}{
		"nothing at all": {settings, map[string]string{
			"index.html": "Nothing has arrived yet", "imports/index.html": "No import", "specimens/index.html": "No import",
			"seasons/index.html": "No season yet", "places/index.html": "No place", "updates/index.html": "No letter",
			"amendments/index.html": "Nothing had to be set right",
		}},
		"an import without plants": {settings + boxImport, map[string]string{
			"imports/box.html": "No plants yet", "index.html": "No plant of it was written down yet",
		}},
		"a plant never looked at": {settings + boxImport + plantOne, map[string]string{
			"specimens/p-1.html": "Not looked at yet", "imports/box.html": "One plant",
		}},
		"one plant, one check-in": {settings + boxImport + binPlace + plantOne + round("2026-03-09", "  p-1: firm"), map[string]string{
			"specimens/p-1.html": "Alive on day 0", "imports/box.html": "too early for a share",
		}},
		"all lost on the first day": {settings + boxImport + binPlace + plantOne + plantTwo + round("2026-03-09", "  p-1: lost cold\n  p-2: lost cold"), map[string]string{
			"specimens/p-1.html": "Dead on arrival", "imports/box.html": "Both plants are lost", "seasons/index.html": "No season has reached day 42",
		}},
		"all lost later": {settings + boxImport + binPlace + plantOne + plantTwo + round("2026-03-09", "  p-1: firm\n  p-2: firm") + round("2026-05-09", "  p-1: lost rot\n  p-2: lost rot?"), map[string]string{
			"imports/box.html": "0 of 2", "specimens/p-2.html": "perhaps rot",
		}},
		"none lost": {settings + boxImport + binPlace + plantOne + plantTwo + round("2026-03-09", "  p-1: firm\n  p-2: firm") + round("2026-06-09", "  p-1: firm\n  p-2: firm"), map[string]string{
			"imports/box.html": "None of the two plants is known to be lost", "seasons/index.html": "2 of 2",
		}},
		"an import after the last look": {settings + boxImport + binPlace + plantOne + round("2026-03-12", "  p-1: firm") + `
== imports/late.md
---
season: 2026 autumn
arrived: 2026-09-01
---
== specimens/q-1.md
---
name: Macodes petola
import: late
---
`, map[string]string{
			"imports/late.html": "arrived after the latest look", "specimens/q-1.html": "Not looked at yet",
		}},
		"a plant without a place": {settings + boxImport + plantOne + "\n== check-ins/a.md\n---\ndate: 2026-03-10\nspecimen: p-1\nleaves: {count: 3}\n---\nStill in its paper.\n", map[string]string{
			"specimens/p-1.html": "Still in its paper",
		}},
		"all passed on": {settings + boxImport + binPlace + plantOne + round("2026-03-09", "  p-1: firm") + round("2026-03-20", "  p-1: passed on"), map[string]string{
			"specimens/p-1.html": "Passed on alive on day 11", "imports/box.html": "One was passed on",
		}},
		"an update before anything": {settings + boxImport + plantOne + `
== updates/hello.md
---
title: Hello
date: 2026-01-01
---
Nothing yet.

` + "```plate\nshow: survival\nimport: box\n```\n\n```plate\nshow: root-to-leaf\nspecimen: p-1\n```\n", map[string]string{
			"updates/hello.html": "Nothing had been looked at by then",
		}},
	} {
		t.Run(name, func(t *testing.T) {
			s := made(t, load(t, written(c.diary)))
			for path, words := range c.says {
				require.Contains(t, s, path)
				assert.Contains(t, strings.ReplaceAll(string(s[path]), "\u00a0", " "), words, path)
			}
			for path, data := range s {
				assert.Empty(t, notNumbers.FindString(textOf(path, data)), path)
			}
			followLinks(t, s)
		})
	}
}

// textOf is what a reader or a program sees of a file: of a style sheet nothing.
func textOf(path string, data []byte) string {
	if strings.HasSuffix(path, ".css") {
		return ""
	}
	return string(data)
}

func TestTheExampleShowsNoImpossibleNumber(t *testing.T) {
	if racing {
		t.Skip("one text after the other is searched here: it is done without the race detector")
	}
	for path, data := range exampleSite(t) {
		assert.Empty(t, notNumbers.FindString(textOf(path, data)), path)
	}
}
