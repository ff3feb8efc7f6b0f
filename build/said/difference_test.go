package said

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wardian/build/cohort"
	"wardian/build/survival"
)

// lines are n plants of which so many were lost on day 10 and so many left alive on
// day 20; the others were seen on day 50.
func lines(name string, n, lost, left int) cohort.Group {
	g := cohort.Group{Name: name, N: n, Ripe: true, Lost: lost, Left: left, Unknown: left, Alive: n - lost - left}
	var subjects []survival.Subject
	for i := range n {
		switch {
		case i < lost:
			subjects = append(subjects, survival.Subject{Time: 10, Lost: true})
		case i < lost+left:
			subjects = append(subjects, survival.Subject{Time: 20})
		default:
			subjects = append(subjects, survival.Subject{Time: 42})
		}
	}
	g.Curve = survival.ProductLimit(subjects)
	at := g.Curve.At(42)
	g.Row = cohort.Row{Day: 42, Kind: cohort.Counted, N: n, Alive: g.Alive, Share: at.Share}
	if left > 0 {
		g.Row.Kind = cohort.Estimated
	}
	return g
}

func of(groups ...cohort.Group) cohort.Comparison {
	return cohort.Comparison{Horizon: 42, Groups: groups}
}

// Three groups are each set against the largest. The limits are Newcombe's 1998
// (Stat Med 17:873-890), method 10, from Wilson's limits of 6 of 8 (0.4093,
// 0.9285), 1 of 8 (0.0224, 0.4709) and 6 of 12 (0.2538, 0.7462):
// 0.75-0.5 - sqrt((0.75-0.4093)^2 + (0.7462-0.5)^2) = -0.170, 0.125-0.5 -
// sqrt((0.125-0.0224)^2 + (0.7462-0.5)^2) = -0.642, and so on, by hand.
func TestThreeGroupsAreSetAgainstTheLargest(t *testing.T) {
	says := Differences(of(lines("small", 8, 2, 0), lines("medium", 12, 6, 0), lines("large", 8, 7, 0)))
	assert.Equal(t, []string{"Put as plants in a hundred, and set against “medium”, the largest group: under “small” 25 more alive (95% limits: 17 fewer to 55 more); under “large” 38 fewer alive (95% limits: 64 fewer to 5 more). Each is taken by itself: of several, some lie far apart by luck."}, says)
}

// Where the state of some is unknown in a small group, the limits come with their
// own record.
func TestLimitsThatHoldTooSeldomSaySo(t *testing.T) {
	const seldom = "With fewer than ten lines a group such limits are too narrow: meant to hold 95 times in 100, they held 76 times with five a group and 91 with ten in our own simulation."
	for name, c := range map[string]struct {
		r    cohort.Comparison
		says bool
	}{
		"small, some unknown":       {of(lines("a", 8, 3, 1), lines("b", 14, 3, 0)), true},
		"small, all known":          {of(lines("a", 8, 3, 0), lines("b", 14, 3, 0)), false},
		"ten and more":              {of(lines("a", 10, 3, 1), lines("b", 14, 3, 2)), false},
		"of three, one pair is":     {of(lines("a", 20, 3, 0), lines("b", 14, 3, 2), lines("c", 6, 3, 1)), true},
		"nobody lost in either one": {of(lines("a", 6, 0, 2), lines("b", 6, 0, 1)), false},
	} {
		says := Differences(c.r)
		if c.says {
			assert.Equal(t, seldom, says[len(says)-1], name)
		} else {
			assert.NotContains(t, says, seldom, name)
		}
	}
	assert.Empty(t, Differences(of(lines("a", 6, 0, 2), lines("b", 6, 0, 1))), "no error to go by, so no limits and no difference")
	assert.Empty(t, Differences(of(lines("a", 6, 1, 0))))
}
