package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/survival"
	"wardian/content/measure"
)

// Boxes stand only where looks leave the days of at least a fifth of the losses open
// by more than a week (measures: Survival). Shares of so few lines are plain counts.
func TestBoxesWhereLooksLeaveTheDayOpen(t *testing.T) {
	const three = "specimens:\n  p-1: firm\n  p-2: firm\n  p-3: firm"
	rounds := func(entries ...string) string {
		out := home
		for i := 0; i < len(entries); i += 2 {
			out += checkIn(entries[i], entries[i+1])
		}
		return out
	}
	for name, c := range map[string]struct {
		diary      string
		shown      bool
		lost, wide int
		boxes      []survival.Box
	}{
		"nobody lost":   {rounds("2026-03-09", three, "2026-04-08", three), false, 0, 0, nil},
		"found in time": {rounds("2026-03-09", three, "2026-03-16", "specimens:\n  p-1: lost rot\n  p-2: firm\n  p-3: firm"), false, 1, 0, nil},
		"eight days":    {rounds("2026-03-09", three, "2026-03-17", "specimens:\n  p-1: lost rot\n  p-2: firm\n  p-3: firm"), true, 1, 1, []survival.Box{{Left: 0, Right: 8, Mass: 1. / 3, ShareAfter: 2. / 3}}},
		"resting looks saw no life": {rounds("2026-03-09", three, "2026-03-13", "specimens:\n  p-1: resting\n  p-2: firm\n  p-3: firm", "2026-03-18", "specimens:\n  p-1: lost rot\n  p-2: firm\n  p-3: firm"),
			true, 1, 1, []survival.Box{{Left: 0, Right: 9, Mass: 1. / 3, ShareAfter: 2. / 3}}},
		// last seen alive on day 17, found lost on its own on day 26: the others, seen on
		// day 20, are open to that day and keep their two thirds
		"logged on its own": {rounds("2026-03-09", three, "2026-03-26", "specimens:\n  p-1: firm", "2026-03-29", "specimens:\n  p-2: firm\n  p-3: firm", "2026-04-04", "specimens:\n  p-1: lost rot"),
			true, 1, 1, []survival.Box{{Left: 17, Right: 26, Mass: 1. / 3, ShareAfter: 2. / 3}}},
		"never seen before":  {rounds("2026-03-17", "specimens:\n  p-1: lost rot\n  p-2: firm\n  p-3: firm"), true, 1, 1, []survival.Box{{Left: -1, Right: 8, Mass: 1. / 3, ShareAfter: 2. / 3}}},
		"dead on unpacking":  {rounds("2026-03-09", "specimens:\n  p-1: lost rot\n  p-2: lost rot\n  p-3: lost rot"), false, 3, 0, nil},
		"all lost meanwhile": {rounds("2026-03-09", three, "2026-05-08", "specimens:\n  p-1: lost rot\n  p-2: lost rot\n  p-3: lost rot"), true, 3, 3, []survival.Box{{Left: 0, Right: 60, Mass: 1}}},
	} {
		d := readDiary(t, c.diary)
		b, shown := At(d, measure.NoDay).All().Boxes()
		assert.Equal(t, c.shown, shown, name)
		assert.Equal(t, [2]int{c.lost, c.wide}, [2]int{b.Lost, b.Wide}, name)
		var closed []survival.Box
		for _, box := range b.Boxes.Boxes {
			if !box.Open {
				closed = append(closed, box)
			}
		}
		require.Len(t, closed, len(c.boxes), name)
		for i, want := range c.boxes {
			assert.Equal(t, [2]float64{want.Left, want.Right}, [2]float64{closed[i].Left, closed[i].Right}, name)
			assert.InDelta(t, want.Mass, closed[i].Mass, 1e-7, name)
			assert.InDelta(t, want.ShareAfter, closed[i].ShareAfter, 1e-7, name)
		}
	}
}
