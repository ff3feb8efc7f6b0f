package cohort

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/measure"
)

// home is a diary of two places and an import that arrived on 9 March 2026.
const home = `
== diary.yaml
name: A test
time-zone: UTC
currency: NOK
== places/bin.md
---
name: The bin
stage: bin
temperature: 24 C
humidity: 98%
---
== places/shelf.md
---
name: The shelf
stage: room
temperature: 22 C
humidity: 55%
---
== imports/box.md
---
season: 2026 spring
arrived: 2026-03-09
costs: {freight: 62.50, shared-by: price}
---
== specimens/p-1.md
---
name: Hoya siariae
import: box
price: 30
leaf-shape: rhombic
---
== specimens/p-2.md
---
name: Hoya obovata
import: box
price: 45
---
== specimens/p-3.md
---
name: Macodes petola
import: box
price: 25
---
`

// checkIn writes one entry.
func checkIn(date, keys string) string {
	return "== check-ins/" + strings.ReplaceAll(strings.ReplaceAll(date, ":", ""), " ", "-") + ".md\n---\ndate: " + date + "\n" + keys + "\n---\n"
}

func readDiary(t testing.TB, text string) *content.Diary {
	t.Helper()
	files := fstest.MapFS{}
	for _, part := range strings.Split("\n"+text, "\n== ")[1:] {
		path, body, _ := strings.Cut(part, "\n")
		files[strings.TrimSpace(path)] = &fstest.MapFile{Data: []byte(body)}
	}
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	return d
}

func TestAMoveAsksForTheDeficitAndTheLeafOfBothEnds(t *testing.T) {
	d := readDiary(t, home+
		checkIn("2026-03-09", "place: bin\narrival: yes\nspecimens:\n  p-1: leaves 2 10x4 10x4\n  p-2: firm")+
		checkIn("2026-03-30", "specimens:\n  p-1: to shelf, cut 1 leaf, leaves 1 10x4\n  p-2: to shelf"))
	c := At(d, measure.NoDay)

	// Two rhombic leaves of 10 × 4 cm are 40 cm², one is 20: half the area.
	// Typical figures stand in: 24 °C 98 % to 22 °C 55 % is ×11.898 by deficit
	// alone, at least, since the bin's 0.06 kPa is under what a sensor can tell.
	cut := c.Part("p-1").Moves
	require.Len(t, cut, 1)
	assert.True(t, cut[0].Typical() && cut[0].Known() && cut[0].Drier())
	assert.Equal(t, "at least ", cut[0].Bounded())
	assert.InDelta(t, 11.898/2, cut[0].Step.Exact, 0.001)
	assert.Equal(t, "5.9", cut[0].Step.Digits())

	whole := c.Part("p-2").Moves
	require.Len(t, whole, 1)
	assert.Equal(t, "11", whole[0].Step.Digits(), "an area that nobody measured is left out")
	assert.InDelta(t, 1.13, float64(whole[0].Step.Difference), 0.005)

	assert.Equal(t, 21, c.Line("p-1").Milestones.LeftBin)
	assert.Equal(t, []int{21, 0}, []int{c.Part("p-1").DaysAt(content.Bin), c.Part("p-1").DaysAt(content.Room)})
}

func TestMilestonesAreOfTheLineAndNeverOfDayNought(t *testing.T) {
	d := readDiary(t, home+
		checkIn("2026-03-09", "place: bin\narrival: yes\nspecimens:\n  p-1: new root, leaves 2 10x4 10x4\n  p-2: leaves 3\n  p-3: firm")+
		checkIn("2026-03-19", "specimens:\n  p-1: {cut-into: {p-1: base, p-1a: top}}")+
		checkIn("2026-03-25", "specimens:\n  p-1a: new root\n  p-2: leaves 4")+
		checkIn("2026-04-08", "specimens:\n  p-1: new root, leaves 3 10x4 10x4 10x5\n  p-1a: to shelf, new leaf")+
		checkIn("2026-04-18", "specimens:\n  p-1a: to bin, established"))
	m := At(d, measure.NoDay).Line("p-1").Milestones
	assert.Equal(t, 16, m.FirstRoot, "the section's, the earliest after day 0")
	assert.Equal(t, 30, m.FirstLeaf)
	assert.Equal(t, 30, m.LeftBin)
	assert.Equal(t, 1, m.WentBack)
	assert.Equal(t, 40, m.Established)
	assert.Equal(t, 30, m.Recovered, "65 cm² against 40")

	byCount := At(d, measure.NoDay).Line("p-2").Milestones
	assert.True(t, byCount.Measured)
	assert.Equal(t, 16, byCount.Recovered, "4 leaves against 3, where no area was recorded")
	assert.False(t, At(d, measure.NoDay).Line("p-3").Milestones.Measured, "neither area nor count on arrival")

	by := At(d, measure.NoDay).All().Milestone(Recovered).By(28)
	assert.Equal(t, []int{1, 2}, []int{by.Reached, by.N}, "p-3 is left out")
}

// What is told up to a day knows nothing of later days.
func TestAnEarlierDayIsTheSameWalkEndedEarlier(t *testing.T) {
	d := readDiary(t, home+
		checkIn("2026-03-09", "place: bin\nspecimens:\n  p-1: firm\n  p-2: firm\n  p-3: firm")+
		checkIn("2026-03-19", "specimens:\n  p-1: lost rot")+
		checkIn("2026-03-20", "place: bin\nothers: same")+
		checkIn("2026-03-29", "specimens:\n  p-1: alive after all\n  p-2: lost cold"))
	day := func(s string) measure.Day {
		d, trouble := measure.ParseDay(s)
		require.Nil(t, trouble)
		return d
	}
	then := At(d, day("2026-03-21"))
	assert.Equal(t, day("2026-03-20"), then.AsOf)
	assert.Equal(t, Lost, then.Line("p-1").Fate)
	assert.Equal(t, 2, then.All().At(11).Alive)
	now := At(d, measure.NoDay)
	assert.Equal(t, Open, now.Line("p-1").Fate, "the loss is withdrawn everywhere")
	assert.Equal(t, 3, now.All().At(11).Alive)
	assert.Equal(t, Lost, now.Line("p-2").Fate)
	assert.Equal(t, 11, now.Line("p-2").After, "others: same saw it alive on day 11")
	assert.Zero(t, At(d, day("2026-03-01")).Count())
}

// Count is the number of lines.
func (c *Cohort) Count() int {
	n := 0
	for _, l := range c.Lines {
		if l.Seen {
			n++
		}
	}
	return n
}

func TestWhatStandsApartIsInNoFigureWithOthers(t *testing.T) {
	d := readDiary(t, home+`== imports/shop.md
---
season: 2026 spring
arrived: 2026-03-10
local: yes
---
== specimens/q-1.md
---
name: Hoya carnosa
import: shop
---
== imports/late.md
---
season: 2026 spring
arrived: 2026-03-10
followed-from: 2026-04-01
---
== specimens/r-1.md
---
name: Hoya kerrii
import: late
---
`+checkIn("2026-04-02", "place: bin\nspecimens:\n  p-1: firm\n  q-1: firm\n  r-1: firm"))
	c := At(d, measure.NoDay)
	assert.Len(t, c.Lines, 5)
	assert.Len(t, c.All().Lines, 3)
	assert.Len(t, c.Season("2026 spring").Lines, 3)
	assert.Len(t, c.Import(d.Import("shop")).Lines, 1)
	assert.Len(t, c.Import(d.Import("late")).Lines, 1)
	assert.Equal(t, []string{"2026 spring"}, c.Seasons())
}

// 62.50 by price over 30, 45 and 25 is 18.75, 28.125 and 15.625, and the two half
// cents go to the smaller number first: 18.75, 28.13, 15.62 (worked by hand).
func TestWhatAPlantCostWhenItHadLanded(t *testing.T) {
	d := readDiary(t, home+
		checkIn("2026-03-09", "place: bin\nspecimens:\n  p-1: firm\n  p-2: firm\n  p-3: firm")+
		checkIn("2026-04-08", "specimens:\n  p-1: firm\n  p-2: firm\n  p-3: lost rot")+
		checkIn("2026-06-08", "specimens:\n  p-1: firm\n  p-2: passed on"))
	c := At(d, measure.NoDay)
	for id, want := range map[string]string{"p-1": "48.75 NOK", "p-2": "73.13 NOK", "p-3": "40.62 NOK"} {
		landed, ok := c.Landed(d.Specimen(id))
		require.True(t, ok)
		assert.Equal(t, want, landed.String(), id)
	}
	// 162.50 over two alive on day 84 is 81.25.
	each, ok := c.EachSurvivor(d.Import("box"), 84)
	require.True(t, ok)
	assert.Equal(t, "81.25 NOK", each.Low.String())
	assert.Equal(t, each.Low, each.High)
	// Day 92 has not come: the as-of day is 91.
	later, ok := c.EachSurvivor(d.Import("box"), 92)
	require.True(t, ok)
	assert.True(t, later.NotYet)
}

// A plant counts as under watch for seven days after its last look, or twice the
// days between looks at its place, or as long as the diary says.
func TestHowLongAPlantIsTakenToBeUnderWatch(t *testing.T) {
	entries := checkIn("2026-03-09", "place: bin\nspecimens:\n  p-1: firm\n  p-2: firm") + checkIn("2026-03-17", "specimens:\n  p-2: firm")
	assert.Equal(t, NotSeen, At(readDiary(t, home+entries), measure.NoDay).Line("p-1").Fate, "eight days")
	every := strings.Replace(home, "stage: bin\n", "stage: bin\ncheck-every: 4 days\n", 1)
	assert.Equal(t, Open, At(readDiary(t, every+entries), measure.NoDay).Line("p-1").Fate, "twice four days")
	never := strings.Replace(home, "currency: NOK\n", "currency: NOK\nthresholds: {seen-within: 0 days}\n", 1)
	assert.Equal(t, NotSeen, At(readDiary(t, never+entries), measure.NoDay).Line("p-1").Fate)
	assert.Equal(t, Open, At(readDiary(t, never+entries), measure.NoDay).Line("p-2").Fate, "seen on the as-of day itself")
}
