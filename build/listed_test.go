package build_test

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// oldSeason is an invented season that was kept as a list: of nine plants six
// have a day, one of them by a check-in.
const oldSeason = `
== imports/old.md
---
season: 2024 spring
exporter: exporter A
arrived: 2024-04
received: 9
list: {file: lists/old.csv, id: id, name: name, price: paid, alive: alive, lost: lost, left: left, cause: cause, words: notes, size: size}
looked-every: 7 days
---
== lists/old.csv
id;name;size;paid;alive;lost;left;cause;notes
x-1;Hoya siariae;small;45,00;2024-06-01;;;;left alone & well
x-2;Hoya obovata;;12;2024-05-02;2024-06;;rot?;
x-3;Hoya kerrii;;12;;2024-05-10;;;
x-4;Hoya carnosa;;12;;;2024-05-20;;
x-5;Hoya lacunosa;;12;;yes;;cold;
x-6;Macodes petola;;12;yes;;;;
x-7;Begonia 'Fog Lamp';;12;;;;;
x-8;Begonia amphioxus;;12;;;yes;;
x-9;Hoya lyi;;12;;;;;
== check-ins/a.md
---
date: 2024-06-28
place: bin
specimen: x-9
turgor: firm
---
== updates/then.md
---
title: In May
date: 2024-05-15
import: old
---
` + "```plate\nshow: rows\n```\n```plate\nshow: survival\n```\n"

var tags = regexp.MustCompile(`<[^>]*>`)

// words are a page's words without its marks.
func (s site) words(path string) string {
	return strings.Join(strings.Fields(html.UnescapeString(tags.ReplaceAllString(string(s[path]), " "))), " ")
}

func TestASeasonKeptAsAList(t *testing.T) {
	s := made(t, load(t, written(settings+binPlace+oldSeason)))
	for _, path := range s.pages() {
		assert.False(t, notNumbers.Match(s[path]), "%s: %s", path, notNumbers.Find(s[path]))
		assert.NotContains(t, string(s[path]), "-1073741824", path)
	}
	has := func(path string, wanted ...string) {
		t.Helper()
		require.NotEmpty(t, s[path], path)
		for _, w := range wanted {
			assert.Contains(t, s.words(path), w, path)
		}
	}
	// Days count from 1 April: 2 May is day 31, the end of June day 90.
	has("specimens/x-1.html", "From a list, without a timeline: last seen alive 1 June 2024.", "“left alone & well”", "a row of a list", "arrival known to the month", "A list keeps no timeline")
	has("specimens/x-2.html", "last seen alive 2 May 2024, lost 2024-06.", "Lost: found dead on day 90, perhaps rot.", "last seen alive on day 31")
	has("specimens/x-5.html", "lost on a day that isn’t known")
	has("specimens/x-7.html", "From a list, without a timeline.")
	has("specimens/x-9.html", "From a list", "Alive on day 88", "1 look")
	for _, id := range []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"} {
		for _, path := range []string{"specimens/index.html", "imports/old.html", "specimens/x-" + id + ".html"} {
			assert.Contains(t, string(s[path]), "x-"+id, path)
		}
	}
	for _, path := range []string{"specimens/index.html", "imports/old.html"} {
		assert.GreaterOrEqual(t, strings.Count(s.words(path), "from a list"), 9, path)
	}
	has("specimens/index.html", "lost, day not known; from a list", "alive, day not known; from a list", "passed on, day not known; from a list", "nothing known; from a list")
	// By hand: x-1 was last seen too long ago, x-2 and x-3 are lost, x-4 left, x-9
	// lives; x-5 lost, x-6 alive, x-7 nothing, x-8 passed on, without a day.
	has("imports/old.html", "Nine plants", "Two of the five with a day are lost.", "a list of nine rows, without timelines; somebody looked every 7 days", "arrival known to the month",
		"Four of the nine plants have no day to count from (1 alive, 1 lost, 1 passed on and 1 not known). They stand in the season’s shares, and in no curve, table or test.")
	has("seasons/index.html", "5 lines", "of 9 plants: 2 alive, 3 lost, 2 passed on and 2 not known; 4 without a day")

	// The update of 15 May knows of the loss found on the 10th (day 39), and of
	// nothing later, nor of what has no day.
	then := s.words("updates/then.html")
	assert.Contains(t, then, "lost day 39")
	for _, later := range []string{"day 90", "day 88", "passed on", "lost, day not known", "alive, day not known"} {
		assert.NotContains(t, then, later)
	}
}

// A season of which no row has a day makes every page.
func TestAListWithoutADay(t *testing.T) {
	table, _, _ := strings.Cut(oldSeason, "== check-ins")
	table = regexp.MustCompile(`(?m)^(x-\d);([^;]*);.*$`).ReplaceAllString(table, "$1;$2;;;;yes;;;")
	s := made(t, load(t, written(settings+binPlace+table)))
	for _, path := range s.pages() {
		assert.False(t, notNumbers.Match(s[path]), "%s: %s", path, notNumbers.Find(s[path]))
		assert.NotContains(t, string(s[path]), "-1073741824", path)
	}
	assert.Contains(t, s.words("imports/old.html"), "No day is known of any of its plants: 9 lost.")
	assert.Contains(t, s.words("seasons/index.html"), "of 9 plants: 9 lost; 9 without a day")
}
