package scaffold

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content/measure"
)

// told is a diary in which everything that a letter tells of happens once, each
// on a day of its own.
func told() files {
	f := box(6, "{length: cm, temperature: C}")
	for name, text := range map[string]string{
		"03-10": "place: tote\nspecimens: {a26-06: lost rot?}\nothers: same",
		"03-12": "specimen: a26-05\noutcome: alive after all",
		"03-11": "specimen: a26-05\noutcome: lost",
		"03-13": "specimen: a26-04\ncut-into: {a26-04: base, a26-04a: top}",
		"03-14": "specimen: a26-03\nto: shelf",
		"03-15": "specimen: a26-03\nto: tote",
		"03-16": "specimen: a26-02\nroots: {new: yes}",
		"03-17": "specimen: a26-02\nleaves: {count: 9, new: yes}",
		"03-18": "specimen: a26-02\noutcome: established",
		"03-19": "specimen: a26-01\noutcome: passed on",
		"03-20": "place: tote\nevent: power cut",
	} {
		f["check-ins/"+name+".md"] = "---\ndate: 2026-" + name + "\n" + text + "\n---\n"
	}
	return f
}

func TestLetterListsWhatChanged(t *testing.T) {
	d := sound(t, told())
	on := day(t, "2026-03-21")
	stem, text := Letter(cohort.At(d, on), nil, nil, on)
	assert.Equal(t, "updates/26-a-day-12", stem)
	name := func(n string) string {
		return "[Hoya callistophylla 'No #" + n + "'](specimens/a26-0" + n + ") a26-0" + n
	}
	want := `---
title: Day 12  # in your own words
date: 2026-03-21
import: 26-a
unfinished: yes  # delete this line when it is a letter
---
Notes on what happened so far:

**Arrived**

- 6 plants on 9 March, day 0

**Lost**

- ` + name("6") + `, found 10 March, day 1: rot?

**Alive after all**

- ` + name("5") + `, 12 March, day 3

**Cut into sections**

- ` + name("4") + `, 13 March, day 4: a26-04 (base), a26-04a (top)

**Passed on**

- ` + name("1") + `, 19 March, day 10

**Established**

- ` + name("2") + `, 18 March, day 9

**Moved to drier air**

- ` + name("3") + `, 14 March, day 5: to [The shelf](places/shelf)

**Moved back to wetter air**

- ` + name("3") + `, 15 March, day 6: to [The big \*tote\*](places/tote)

**First new root**

- ` + name("2") + `, 16 March, day 7

**First new leaf**

- ` + name("2") + `, 17 March, day 8

**More leaf than came**

- ` + name("2") + `, 17 March, day 8

**What befell a place**

- power cut: [The big \*tote\*](places/tote), 20 March, day 11

Of 6 lines, 4 alive, 1 lost, 1 passed on at the last look, 19 March 2026.

` + "```plate\nshow: rows\nimport: 26-a\n```\n"
	assert.Equal(t, want, text)
	sound(t, told().with(stem+".md", text)) // and nothing is wrong with it
}

func TestLetterBeginsBehindTheLastOne(t *testing.T) {
	letter := func(date, more string) string {
		return "---\ntitle: A letter\ndate: " + date + "\n" + more + "---\nHello.\n"
	}
	f := told().with("updates/a.md", letter("2026-03-12", "")).with("updates/b.md", letter("2026-03-15", "import: 26-a\n")).
		with("updates/c.md", letter("2026-03-17", "unfinished: yes\n")).with("updates/d.md", letter("2026-03-30", ""))
	d := sound(t, f)
	on := day(t, "2026-03-21")
	last := LastLetter(d, d.Import("26-a"), on)
	require.NotNil(t, last)
	assert.Equal(t, "b", last.Slug)
	_, text := Letter(cohort.At(d, on), d.Import("26-a"), last, on)
	assert.Contains(t, text, "since [A letter](updates/b), 15 March 2026:")
	assert.NotContains(t, text, "15 March, day", "that day was told")
	assert.Contains(t, text, "16 March, day 7")
	assert.NotContains(t, text, "Lost")

	// nothing later is told, and nothing at all where nothing changed
	early := day(t, "2026-03-16")
	_, text = Letter(cohort.At(d, early), nil, last, early)
	assert.NotContains(t, text, "17 March")
	stem, text := Letter(cohort.At(d, last.Date), nil, last, last.Date)
	assert.Empty(t, stem+text)
}

func TestALetterOnSeveralImportsNamesEach(t *testing.T) {
	f := told().with("imports/26-b.md", "---\nseason: 2026 spring\narrived: 2026-03-18\n---\n").
		with("specimens/b26-01.md", "---\nname: Hoya siariae\nimport: 26-b\n---\n").
		with("check-ins/b.md", "---\ndate: 2026-03-20\nplace: tote\nspecimens: {b26-01: firm}\n---\n")
	d := sound(t, f)
	on := day(t, "2026-03-21")
	stem, text := Letter(cohort.At(d, on), nil, nil, on)
	assert.Equal(t, "updates/2026-03-21", stem)
	assert.Contains(t, text, "\n## [26-a](imports/26-a)\n")
	assert.Contains(t, text, "\n## [26-b](imports/26-b)\n")
	assert.NotContains(t, strings.SplitN(text, "---\n", 3)[1], "import:")
	sound(t, f.with(stem+".md", text))
	_, text = Letter(cohort.At(d, measure.NoDay), d.Import("26-b"), nil, on)
	assert.NotContains(t, text, "26-a")
}
