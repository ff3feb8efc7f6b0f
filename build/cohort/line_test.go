package cohort

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/measure"
)

// told makes a cohort of one import from lines told in short: one plant a line
// of text, "ID [<PARENT@DAY]: DAY WORD, DAY WORD …" with the words alive,
// resting, grew (resting, with a new root), lost, passed, established, after all,
// divided. A loss may name the last good day: "lost>12". The as-of day is the
// latest day of a look, or of "asof: DAY".
func told(t *testing.T, text string) *Cohort {
	t.Helper()
	day0, _ := measure.Date(2026, 3, 9)
	box := &content.Import{ID: "box", Season: "2026 spring", Arrived: measure.On(day0), Unpacked: measure.At(day0), FollowedFrom: measure.NoDay}
	bin := &content.Place{ID: "bin", Stage: content.Bin, CheckEvery: 2}
	d := &content.Diary{Imports: []*content.Import{box}, Places: []*content.Place{bin}}
	d.Settings.SeenWithin = -1
	c := &Cohort{Diary: d, Times: &content.Timelines{Diary: d, Until: measure.NoDay}, AsOf: measure.NoDay, parts: map[string]*Part{}}
	c.air = airs(c.Times, nil)
	byID := map[string]*content.Timeline{}
	for _, row := range strings.Split(strings.TrimSpace(text), "\n") {
		name, looks, ok := strings.Cut(strings.TrimSpace(row), ":")
		require.True(t, ok, row)
		if name == "asof" {
			n, err := strconv.Atoi(strings.TrimSpace(looks))
			require.NoError(t, err)
			c.AsOf = day0 + measure.Day(n)
			continue
		}
		id, cut, isPiece := strings.Cut(name, " <")
		tl := &content.Timeline{
			Specimen: &content.Specimen{ID: id, Import: box, Renamed: measure.NoDay}, Begins: measure.At(day0), Divided: measure.NoMoment,
			Stays: []content.Stay{{Place: bin, From: measure.At(day0), Until: measure.NoMoment}},
		}
		if isPiece {
			parent, day, _ := strings.Cut(cut, "@")
			n, err := strconv.Atoi(day)
			require.NoError(t, err)
			tl.Specimen.Parent, tl.Begins = byID[parent].Specimen, measure.At(day0+measure.Day(n))
			byID[parent].Pieces = append(byID[parent].Pieces, tl)
		}
		for _, look := range strings.Split(looks, ",") {
			if strings.TrimSpace(look) == "" {
				continue
			}
			var n int
			var word string
			_, err := fmt.Sscanf(strings.ReplaceAll(strings.TrimSpace(look), " after all", " afterall"), "%d %s", &n, &word)
			require.NoError(t, err, look)
			l := &content.Look{Timeline: tl, When: measure.At(day0 + measure.Day(n)), Day: n, At: bin}
			l.LastGood = measure.NoDay
			c.AsOf = max(c.AsOf, l.When.Day)
			word, good, _ := strings.Cut(word, ">")
			if good != "" {
				n, err := strconv.Atoi(good)
				require.NoError(t, err)
				l.LastGood = day0 + measure.Day(n)
			}
			switch word {
			case "alive":
			case "resting":
				l.AtRest, l.Facts.Resting = true, true
			case "grew":
				l.AtRest, l.Facts.Roots = true, &content.Roots{New: true}
			case "lost":
				l.Outcome, l.Cause = content.Lost, content.Cause{Words: []string{"rot"}}
			case "passed":
				l.Outcome = content.PassedOn
			case "established":
				l.Outcome = content.Established
			case "afterall":
				l.Outcome = content.AliveAfterAll
				for _, earlier := range tl.Looks {
					if earlier.Outcome == content.Lost {
						tl.Withdrawn = append(tl.Withdrawn, earlier)
					}
				}
			case "divided":
				tl.Divided = l.When
			default:
				t.Fatalf("no such word: %s", word)
			}
			tl.Looks = append(tl.Looks, l)
		}
		byID[id] = tl
		c.Times.List = append(c.Times.List, tl)
	}
	for _, tl := range c.Times.List {
		if tl.Specimen.Parent == nil {
			c.Lines = append(c.Lines, c.follow(tl))
		}
	}
	return c
}

// The cases are those of the project's own definition of a loss, each worked by
// hand.
func TestHowTheWatchOverALineEnds(t *testing.T) {
	for name, want := range map[string]struct {
		text  string
		fate  Fate
		day   int
		after int // L of a lost line
	}{
		"parent lost, piece cut the same day alive": {"p: 0 alive, 10 lost\na <p@10: 40 alive", Open, 40, Never},
		"piece lost":                          {"p: 0 alive, 10 divided\na <p@10: 20 alive, 30 lost", Lost, 30, 20},
		"piece lost and nobody saw it before": {"p: 0 alive, 10 divided\na <p@10: 30 lost", Lost, 30, 10},
		"parent passed on, piece lost":        {"p: 0 alive, 20 passed\na <p@10: 25 alive, 30 lost", PassedOn, 25, Never},
		"parent unseen, piece lost":           {"p: 0 alive, 12 alive\na <p@10: 25 alive, 30 lost\nq: 60 alive", NotSeen, 25, Never},
		"rest does not show life":             {"p: 4 alive, 8 resting, 12 resting, 16 resting, 20 lost", Lost, 20, 4},
		"a root at rest does":                 {"p: 4 alive, 8 resting, 12 grew, 16 resting, 20 lost", Lost, 20, 12},
		"rest from the first look on":         {"p: 0 resting, 8 resting, 20 lost", Lost, 20, -1},
		"no look before":                      {"p: 6 lost", Lost, 6, -1},
		"last good after the last look":       {"p: 4 alive, 20 lost>12", Lost, 20, 12},
		"last good before the last look":      {"p: 14 alive, 20 lost>12", Lost, 20, 14},
		"seen alive and lost on one day":      {"p: 0 alive, 9 alive, 9 lost", Lost, 9, 8},
		"lost on the day of arrival":          {"p: 0 lost", Lost, 0, -1},
		"taken back":                          {"p: 0 alive, 10 lost, 14 after all, 30 alive", Open, 30, Never},
		"taken back, then lost":               {"p: 0 alive, 10 lost, 14 after all, 30 lost", Lost, 30, 14},
		"established and watched on":          {"p: 0 alive, 40 established, 41 alive", Open, 41, Never},
		"established and left alone":          {"p: 0 alive, 40 established\nq: 84 alive", NotSeen, 40, Never},
		"seen a week ago":                     {"p: 0 alive, 33 alive\nq: 40 alive", Open, 40, Never},
		"seen eight days ago":                 {"p: 0 alive, 32 alive\nq: 40 alive", NotSeen, 32, Never},
		"never looked at":                     {"p:\nq: 40 alive", NotSeen, 0, Never},
		"two pieces lost, the later counts":   {"p: 0 alive, 10 divided\na <p@10: 18 alive, 20 lost\nb <p@10: 12 alive, 30 lost", Lost, 30, 18},
		"one piece passed on, one overdue":    {"p: 0 alive, 10 divided\na <p@10: 20 passed\nb <p@10: 25 alive\nq: 60 alive", NotSeen, 25, Never},
		"arrived after the last look":         {"p:\nasof: -5", NotSeen, 0, Never},
	} {
		t.Run(name, func(t *testing.T) {
			l := told(t, want.text).Lines[0]
			assert.Equal(t, want.fate.String(), l.Fate.String())
			assert.Equal(t, want.day, l.Day, "day")
			assert.Equal(t, want.after, l.After, "after")
		})
	}
}

// Where the one look of a day finds a plant lost a day after the round, the
// others stay under watch: 24 lines, 23 seen on day 40, one lost on day 41 give
// 23/24 on day 41 with all 24 at risk.
func TestALossLoggedAloneDoesNotStandAlone(t *testing.T) {
	var rows strings.Builder
	for n := 1; n <= 23; n++ {
		fmt.Fprintf(&rows, "p%02d: 0 alive, 40 alive\n", n)
	}
	rows.WriteString("p24: 0 alive, 40 alive, 41 lost")
	s := told(t, rows.String()).All()
	curve := s.Curve()
	assert.Equal(t, 24, curve.AtRisk(41))
	assert.InDelta(t, 23.0/24, curve.At(41).Share, 1e-12)
}

// Twenty lines: ten established on day 40 and left alone, three of the others
// lost by day 84, the rest seen to the end. Nothing is known of the ten, so
// between 7 and 17 are alive.
func TestTheTableSaysWhatIsUnknown(t *testing.T) {
	var rows strings.Builder
	for n := 1; n <= 10; n++ {
		fmt.Fprintf(&rows, "e%02d: 0 alive, 40 established\n", n)
	}
	for n, lost := range []int{50, 60, 70} {
		fmt.Fprintf(&rows, "l%02d: 0 alive, 45 alive, %d lost\n", n, lost)
	}
	for n := 1; n <= 7; n++ {
		fmt.Fprintf(&rows, "s%02d: 0 alive, 84 alive\n", n)
	}
	r := told(t, rows.String()).All().At(84)
	assert.Equal(t, Estimated, r.Kind)
	assert.Equal(t, [4]int{7, 3, 0, 10}, [4]int{r.Alive, r.Lost, r.PassedOn, r.NotSeen})
	assert.Equal(t, 7, r.Least)
	assert.Equal(t, 17, r.Most)

	early := told(t, rows.String()).All().At(28)
	assert.Equal(t, Counted, early.Kind)
	assert.Equal(t, 20, early.Alive)
}

func TestRowsOfTheTableAlwaysAddUp(t *testing.T) {
	c := told(t, `
p1: 0 alive, 3 lost
p2: 0 alive, 10 passed
p3: 0 alive, 12 alive
p4:
p5: 0 alive, 30 alive
p6: 0 lost
`)
	for _, r := range c.All().Table() {
		assert.Equal(t, 6, r.Alive+r.Lost+r.PassedOn+r.NotSeen, "day %d", r.Day)
		if r.Day > 30 {
			assert.Equal(t, NotYet, r.Kind, "day %d", r.Day)
		} else {
			assert.Equal(t, Estimated, r.Kind, "day %d", r.Day)
			assert.Less(t, r.Least, r.Most)
		}
	}
	steps := c.All().Curve().FromDayZero()
	require.NotEmpty(t, steps)
	ended := 0
	for _, s := range steps {
		ended += s.Lost + s.Left
	}
	assert.Equal(t, steps[0].AtRisk, ended, "lost and left add up to those at risk on day 0")
}

func TestWhenLossesCome(t *testing.T) {
	c := told(t, `
p1: 0 alive, 3 lost
p2: 0 alive, 8 lost
p3: 0 alive, 7 lost
p4: 0 alive, 20 alive
p5: 0 alive, 10 passed
`)
	got := c.All().WhenLost()
	require.Len(t, got, 3)
	assert.Equal(t, Stretch{From: 0, To: 7, Lost: 2, Of: 5, Reached: true}, got[0])
	assert.Equal(t, Stretch{From: 8, To: 14, Lost: 1, Of: 3, Reached: true}, got[1])
	assert.Equal(t, Stretch{From: 15, To: 28, Lost: 0, Of: 1, Reached: false}, got[2])
	assert.Equal(t, Later{From: 7, To: 14, Alive: 1, Of: 3, Unknown: 1, Reached: true}, c.All().AliveFrom(7, 14))
}
