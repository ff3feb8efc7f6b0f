package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What just can be is no finding: the edge of each judgment, from its sound
// side. The other sides are the fault diaries.
func TestWhatCanBeIsNoFinding(t *testing.T) {
	for what, over := range map[string][]string{
		"a record of arrival three days after unpacking": {
			entries("date: 2026-03-12\nspecimen: b26-01\narrival: yes\nturgor: limp")},
		"a record of arrival three days after a late unpacking": {
			"-- imports/2026-spring-b.md --\n---\nseason: 2026 spring\narrived: 2026-03-09\nunpacked: 2026-03-11\n---\n",
			entries("date: 2026-03-14\nspecimen: b26-01\narrival: yes\nturgor: limp")},
		"no root twice": {
			entries("date: 2026-03-10\nspecimens: {b26-01: roots 0}", "date: 2026-03-12\nspecimens: {b26-01: roots 0}")},
		"a root on a section of which nobody told a grade": {
			entries("date: 2026-03-10\nspecimen: b26-01\nroots: {grade: 0}\ncut-into: {b26-01: base, b26-01a: top}", "date: 2026-03-12\nspecimens: {b26-01a: roots 1}")},
		"days of a parcel that are one day": {
			"-- imports/2026-spring-b.md --\n---\nseason: 2026 spring\nordered: 2026-03-09\ndispatched: 2026-03-09\narrived: 2026-03-09\nunpacked: 2026-03-09 10:00\nclaim-until: 2026-03-09 10:00\nquarantine-until: 2026-03-09\nfollowed-from: 2026-03-09\nreceived: 3\nrefunds: [{date: 2026-03-09, amount: 4, for: b26-01}, {date: 2026-03-10, amount: 4, for: other dead moss}]\n---\n"},
		"days half known that can be in order": {
			"-- imports/2026-spring-b.md --\n---\nseason: 2026 spring\nordered: 2026-03-09..2026-03-12\ndispatched: 2026-03\narrived: 2026-03-02..2026-03-10\n---\n"},
		"sections aren't received": {
			"-- imports/2026-spring-b.md --\n---\nseason: 2026 spring\narrived: 2026-03-09\nreceived: 3\n---\n",
			entries("date: 2026-03-10\nspecimen: b26-01\ncut-into: {b26-01: base, b26-01a: top}")},
		"a check-in on the day of arrival": {
			entries("date: 2026-03-09\nspecimen: b26-01\nturgor: firm")},
		"last seen well on the day of arrival, and on the day of the loss": {
			entries("date: 2026-03-20\nspecimen: b26-01\noutcome: lost\nlast-good: 2026-03-09", "date: 2026-03-20\nspecimen: b26-02\noutcome: lost\nlast-good: 2026-03-20")},
		"a soak over two tubs, its hours told together": {
			tubFile, "-- places/basin.md --\n---\nname: Basin\nstage: soak\n---\n",
			entries("date: 2026-03-10 08:00\nspecimen: b26-01\nto: tub", "date: 2026-03-10 20:00\nspecimen: b26-01\nto: basin", "date: 2026-03-11 08:00\nspecimen: b26-01\nto: tote\nsoak: 24 h")},
		"a soak told about right": {
			tubFile, entries("date: 2026-03-10 08:00\nspecimen: b26-01\nto: tub", "date: 2026-03-11 08:00\nspecimen: b26-01\nto: tote\nsoak: 19 h")},
		"water in a soak": {
			tubFile, entries("date: 2026-03-10\nspecimen: b26-01\nto: tub\nmedium: water")},
		"a first move beside the first place": {
			entries("date: 2026-03-10\nspecimen: b26-01\nplace: tote\nto: cabinet")},
		"a first move straight out of the box": {
			entries("date: 2026-03-09\nspecimen: b26-01\nto: tote")},
		"a plant at its place again, and a plant of another place named without a place": {
			entries(arrivalRound, "date: 2026-03-10\nspecimens: {b26-01: to cabinet}", "date: 2026-03-12\nspecimens: {b26-01: firm, b26-02: firm}")},
		"two check-ins on one day, one with its time": {
			entries("date: 2026-03-10\nspecimen: b26-01\nturgor: limp", "date: 2026-03-10 09:00\nspecimen: b26-01\nturgor: firm")},
		"a round that speaks for all, and a check-in of one, on one day": {
			entries(arrivalRound, "date: 2026-03-10\nplace: tote\nothers: same", "date: 2026-03-10\nspecimen: b26-01\nturgor: firm")},
		"resting without a leaf": {
			entries("date: 2026-03-10\nspecimen: b26-01\nresting: yes\nleaves: {count: 0}")},
		"new on the day after arrival": {
			entries("date: 2026-03-10\nspecimens: {b26-01: new root}")},
		"a round where nothing was looked at": {
			entries(arrivalRound, "date: 2026-03-10\nplace: tote\nothers: not seen", "date: 2026-03-11\nplace: tote\nnot-seen: [b26-01, b26-02, b26-03]")},
		"words under the heading of one whom others: same speaks for, and of a piece just cut": {
			entries(arrivalRound, "date: 2026-03-10\nplace: tote\nspecimens: {b26-01: {cut-into: {b26-01: base, b26-01a: top}}}\nothers: same\n---\n## b26-02\n\nQuiet.\n\n## b26-01a\n\nOne node.\n")},
		"finished beside unfinished, marked so": {
			"-- places/shelf.md --\n---\nname: Shelf\nstage: room\nunfinished: yes\n---\n",
			entries("date: 2026-03-10\nspecimen: b26-01\nto: shelf\nunfinished: yes")},
		"amended on its own day": {
			entries("date: 2026-03-10\nspecimen: b26-01\nturgor: firm\namended: {2026-03-10: it was another}")},
	} {
		_, findings := tell(t, over...)
		assert.Empty(t, findings, what)
	}
}

// A move into a soak told in the wrong hours is held to both tubs together.
func TestSoakOverTwoTubsIsOneSoak(t *testing.T) {
	_, findings := tell(t, tubFile, "-- places/basin.md --\n---\nname: Basin\nstage: soak\n---\n",
		entries("date: 2026-03-10 08:00\nspecimen: b26-01\nto: tub", "date: 2026-03-10 20:00\nspecimen: b26-01\nto: basin", "date: 2026-03-11 08:00\nspecimen: b26-01\nto: tote\nsoak: 12 h"))
	if assert.Len(t, findings, 1) {
		assert.Equal(t, "soak-against-moves", findings[0].Code)
		assert.Contains(t, findings[0].Message, "for 24 h")
	}
}

// A fault told once is not told again at every later check-in; a new one is.
func TestOneCauseOneFindingInTheStory(t *testing.T) {
	for what, c := range map[string]struct {
		over []string
		want []string
	}{
		"lost, and looked at ever after": {
			[]string{"date: 2026-03-10\nspecimen: b26-01\noutcome: lost", "date: 2026-03-12\nspecimen: b26-01\nturgor: firm", "date: 2026-03-14\nspecimen: b26-01\nto: tote\nturgor: firm"},
			[]string{"after-loss"}},
		"taken back, lost again, and looked at again": {
			[]string{"date: 2026-03-10\nspecimen: b26-01\noutcome: lost", "date: 2026-03-12\nspecimen: b26-01\noutcome: alive after all", "date: 2026-03-14\nspecimen: b26-01\noutcome: lost", "date: 2026-03-16\nspecimen: b26-01\nturgor: firm"},
			[]string{"after-loss"}},
		"looked at after each of two losses": {
			[]string{"date: 2026-03-10\nspecimen: b26-01\noutcome: lost", "date: 2026-03-11\nspecimen: b26-01\nturgor: firm", "date: 2026-03-12\nspecimen: b26-01\noutcome: alive after all", "date: 2026-03-14\nspecimen: b26-01\noutcome: lost", "date: 2026-03-16\nspecimen: b26-01\nturgor: firm"},
			[]string{"after-loss", "after-loss"}},
		"a place by mistake, then where it stands, then by mistake again": {
			[]string{"date: 2026-03-10\nspecimen: b26-01\nplace: tote\nturgor: firm", "date: 2026-03-12\nspecimen: b26-01\nplace: cabinet\nturgor: firm",
				"date: 2026-03-14\nspecimen: b26-01\nplace: tote\nturgor: firm", "date: 2026-03-16\nspecimen: b26-01\nplace: cabinet\nturgor: firm"},
			[]string{"place-for-to", "place-for-to"}},
		"two dates that are slips": {
			[]string{"date: 2025-03-10\nspecimen: b26-01\nturgor: firm", "date: 2025-03-12\nspecimen: b26-01\nturgor: firm"},
			[]string{"before-arrival", "before-arrival"}},
		"a section long before its cut": {
			[]string{"date: 2026-03-10\nspecimen: b26-01a\nturgor: firm", "date: 2026-03-11\nspecimen: b26-01a\nturgor: firm", "date: 2026-03-12\nspecimen: b26-01\ncut-into: {b26-01: base, b26-01a: top}"},
			[]string{"before-cut"}},
		"alive after all at another place than where it stood": {
			[]string{"date: 2026-03-10\nspecimen: b26-01\nplace: tote\noutcome: lost", "date: 2026-03-12\nspecimen: b26-01\nplace: cabinet\noutcome: alive after all"},
			[]string{"place-for-to"}},
	} {
		_, findings := tell(t, entries(c.over...))
		var got []string
		for _, f := range findings {
			got = append(got, f.Code)
		}
		assert.Equal(t, c.want, got, what)
	}
}
