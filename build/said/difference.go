package said

import (
	"fmt"
	"strconv"
	"strings"

	"wardian/build/cohort"
	"wardian/build/survival"
)

// Differences are the groups' differences of shares with their 95 % limits, of a
// hundred plants each: one where there are two groups, else each group's against
// the largest, the one that hazard ratios refer to as well. A difference without
// limits isn't told. Where a difference is of product-limit shares and one of its
// groups has fewer than ten lines, a sentence says how badly such limits hold.
func Differences(r cohort.Comparison) []string {
	groups := WithShare(r)
	if len(groups) < 2 {
		return nil
	}
	name := func(n int) string { return Group(r.By, r.Groups[n].Name) }
	if len(groups) == 2 {
		a, b := groups[0], groups[1]
		if r.Groups[a].Row.Share < r.Groups[b].Row.Share {
			a, b = b, a
		}
		value, lower, upper, ok := r.Difference(a, b)
		if !ok {
			return nil
		}
		than := fmt.Sprintf("alive under “%s” than under “%s”", name(a), name(b))
		more := moreFewer(value)
		if hundredths(value) == 0 {
			more, than = "as many", fmt.Sprintf("alive under “%s” as under “%s”", name(a), name(b))
		}
		return append([]string{fmt.Sprintf("Put as plants in a hundred, that is %s %s; the 95%% limits run from %s to %s.", more, than, moreFewer(lower), moreFewer(upper))},
			holdSeldom(r, [][2]int{{a, b}})...)
	}
	return againstLargest(r, groups)
}

// againstLargest sets three groups or more against the largest of them.
func againstLargest(r cohort.Comparison, groups []int) []string {
	name := func(n int) string { return Group(r.By, r.Groups[n].Name) }
	reference := groups[0]
	for _, n := range groups {
		if r.Groups[n].N > r.Groups[reference].N {
			reference = n
		}
	}
	var parts []string
	var pairs [][2]int
	for _, n := range groups {
		if n == reference {
			continue
		}
		value, lower, upper, ok := r.Difference(n, reference)
		if !ok {
			continue
		}
		more := moreFewer(value)
		if hundredths(value) == 0 {
			more = "as many"
		}
		parts = append(parts, fmt.Sprintf("under “%s” %s alive (95%% limits: %s to %s)", name(n), more, moreFewer(lower), moreFewer(upper)))
		pairs = append(pairs, [2]int{n, reference})
	}
	if len(parts) == 0 {
		return nil
	}
	words := fmt.Sprintf("Put as plants in a hundred, and set against “%s”, the largest group: %s.", name(reference), strings.Join(parts, "; "))
	if len(parts) > 1 {
		words += " Each is taken by itself: of several, some lie far apart by luck."
	}
	return append([]string{words}, holdSeldom(r, pairs)...)
}

// moreFewer writes a difference of shares as plants in a hundred.
func moreFewer(share float64) string {
	switch n := hundredths(share); {
	case n < 0:
		return strconv.Itoa(-n) + " fewer"
	case n == 0:
		return "no more"
	default:
		return strconv.Itoa(n) + " more"
	}
}

// seldomBelow is the size of a group below which limits of a difference of
// product-limit shares hold too seldom to stand without a word.
const seldomBelow = 10

// holdSeldom says how seldom limits from standard errors hold in small groups, by
// our own simulation; nothing where none of the differences has such limits.
func holdSeldom(r cohort.Comparison, pairs [][2]int) []string {
	for _, p := range pairs {
		if !r.BothCounted(p[0], p[1]) && min(r.Groups[p[0]].N, r.Groups[p[1]].N) < seldomBelow {
			few, _ := held("difference", 5)
			ten, _ := held("difference", seldomBelow)
			return []string{fmt.Sprintf("With fewer than ten lines a group such limits are too narrow: meant to hold 95 times in 100, they held %d times with five a group and %d with ten in our own simulation.", few, ten)}
		}
	}
	return nil
}

// held is how often in a hundred an interval held the truth with n lines; the
// lowest where several truths were tried.
func held(interval string, n int) (times int, ok bool) {
	for _, row := range survival.Coverage() {
		if row.Interval != interval || row.N != n {
			continue
		}
		if h := hundredths(row.Coverage); !ok || h < times {
			times, ok = h, true
		}
	}
	return times, ok
}
