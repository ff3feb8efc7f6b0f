package survival

import (
	"maps"
	"math"
	"slices"
)

// The number of relabellings that reach each sum. A stratum's units are taken
// one tied class after another; the state is how many of each group's labels
// are used up, and for each state there is a list of sums, ascending, with the
// number of ways to each. All strata together are split into two halves, and
// the sums of one half are counted against those of the other.

// same says when two sums within a list are one; far below equal, so that
// merging can't move a sum across a tie.
const same = 1e-11

// maxSums bounds the sums held by one half: about 16 bytes each, and the work
// is a few passes over them.
const maxSums = 1 << 20

// reach is a sum with the number of ways to it.
type reach struct {
	sum, ways float64
}

// half is one half of the problem: for every state of the split stratum a list
// of sums.
type half map[int][]reach

// states are the states in their order: the ways to a sum are added up in one
// order, so that a p is the same to its last bit whenever it is counted.
func (h half) states() []int { return slices.Sorted(maps.Keys(h)) }

// halves prepares the pairs to be counted; ok is false where a half grows
// beyond maxSums.
func (d deal) halves(weights []float64) (left, right [][]reach, ok bool) {
	// The stratum with most relabellings is split; the others go whole to the
	// lighter side.
	largest := -1
	for i, h := range d.strata {
		if largest < 0 || h.ways() > d.strata[largest].ways() {
			largest = i
		}
	}
	sides := [2][]reach{{{0, 1}}, {{0, 1}}}
	for i, h := range d.strata {
		if i == largest || !h.contributes() {
			continue
		}
		whole, ok := h.partial(weights, classes(h.scores))
		if !ok {
			return nil, nil, false
		}
		sums := whole[h.state(h.counts)]
		side := 0
		if len(sides[1]) < len(sides[0]) {
			side = 1
		}
		if sides[side], ok = convolve(sides[side], sums); !ok {
			return nil, nil, false
		}
	}
	h := d.strata[largest]
	all := classes(h.scores)
	lower, okLower := h.partial(weights, all[:middle(all)])
	upper, okUpper := h.partial(weights, all[middle(all):])
	if !okLower || !okUpper {
		return nil, nil, false
	}
	full, total := h.state(h.counts), 0
	for _, state := range lower.states() {
		sums, others := lower[state], upper[full-state]
		if len(others) == 0 {
			continue
		}
		l, okLeft := convolve(sides[0], sums)
		r, okRight := convolve(sides[1], others)
		total += len(l) + len(r)
		if !okLeft || !okRight || total > 2*maxSums {
			return nil, nil, false
		}
		left, right = append(left, l), append(right, r)
	}
	return left, right, true
}

// middle splits the classes where both halves have about as many deals.
func middle(all []class) int {
	total := 0.0
	for _, c := range all {
		total += math.Log(float64(c.n + 1))
	}
	sum := 0.0
	for i, c := range all {
		if sum += math.Log(float64(c.n + 1)); sum >= total/2 {
			return i + 1
		}
	}
	return len(all)
}

// state numbers the labels used up; the last group's follow from the rest.
func (h hand) state(used []int) int {
	state, radix := 0, 1
	for g := range len(used) - 1 {
		state += used[g] * radix
		radix *= h.counts[g] + 1
	}
	return state
}

// partial builds the lists over some of the stratum's classes.
func (h hand) partial(weights []float64, all []class) (half, bool) {
	merged := half{0: {{0, 1}}}
	dealt := 0
	for _, c := range all {
		next := map[int][][]reach{} // shifted copies still to be merged
		total := 0
		for _, state := range merged.states() {
			sums := merged[state]
			splits(c.n, h.counts, h.used(state, dealt), func(part []int) bool {
				to, shift := state+h.state(part), 0.0
				for g, n := range part {
					shift += float64(n) * weights[g] * c.score
				}
				ways := multinomial(part)
				list := make([]reach, len(sums))
				for i, r := range sums {
					list[i] = reach{r.sum + shift, r.ways * ways}
				}
				next[to] = append(next[to], list)
				total += len(list)
				return total <= 4*maxSums
			})
			if total > 4*maxSums {
				return nil, false
			}
		}
		merged, total = half{}, 0
		for state, lists := range next {
			merged[state] = mergeAll(lists)
			total += len(merged[state])
		}
		if total > maxSums {
			return nil, false
		}
		dealt += c.n
	}
	return merged, true
}

// splits calls f with every way to give n units to the groups without passing
// their counts; it stops when f says false. part is used again.
func splits(n int, counts, used []int, f func(part []int) bool) {
	part := make([]int, len(counts))
	room := make([]int, len(counts)+1) // in the groups from g on
	for g := len(counts) - 1; g >= 0; g-- {
		room[g] = room[g+1] + counts[g] - used[g]
	}
	if n > room[0] {
		return
	}
	var give func(g, left int) bool
	give = func(g, left int) bool {
		if g == len(counts)-1 {
			part[g] = left
			return f(part)
		}
		for part[g] = max(0, left-room[g+1]); part[g] <= min(left, counts[g]-used[g]); part[g]++ {
			if !give(g+1, left-part[g]) {
				return false
			}
		}
		return true
	}
	give(0, n)
}

// mergeAll merges ascending lists, adding up the ways to the same sum.
func mergeAll(lists [][]reach) []reach {
	for len(lists) > 1 {
		var fewer [][]reach
		for i := 0; i < len(lists); i += 2 {
			if i+1 == len(lists) {
				fewer = append(fewer, lists[i])
				continue
			}
			fewer = append(fewer, merge(lists[i], lists[i+1]))
		}
		lists = fewer
	}
	return lists[0]
}

func merge(a, b []reach) []reach {
	out := make([]reach, 0, len(a)+len(b))
	for len(a) > 0 || len(b) > 0 {
		var r reach
		if len(b) == 0 || len(a) > 0 && a[0].sum <= b[0].sum {
			r, a = a[0], a[1:]
		} else {
			r, b = b[0], b[1:]
		}
		if n := len(out); n > 0 && r.sum-out[n-1].sum <= same {
			out[n-1].ways += r.ways
		} else {
			out = append(out, r)
		}
	}
	return out
}

// convolve gives all sums of one of a and one of b.
func convolve(a, b []reach) ([]reach, bool) {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(a)*len(b) > maxSums {
		return nil, false
	}
	if len(a) == 1 && a[0] == (reach{0, 1}) {
		return b, true
	}
	lists := make([][]reach, len(a))
	for i, x := range a {
		lists[i] = make([]reach, len(b))
		for j, y := range b {
			lists[i][j] = reach{x.sum + y.sum, x.ways * y.ways}
		}
	}
	return mergeAll(lists), true
}

// count adds up the ways to a sum of at least |u| or at most −|u|, of at least
// u, and of at most u, one list of the left against its list of the right.
func count(left, right [][]reach, u float64) (atLeast, greater, less float64) {
	for i, l := range left {
		r := right[i]
		all := 0.0
		for _, x := range l {
			all += x.ways
		}
		rest := 0.0
		for _, x := range r {
			rest += x.ways
		}
		up, down := tails(l, r, math.Abs(u))
		if math.Abs(u) <= equal {
			atLeast += all * rest
		} else {
			atLeast += up + down
		}
		if u >= 0 {
			greater += up
			_, down = tails(l, r, -u)
			less += down
		} else {
			less += down
			up, _ = tails(l, r, u)
			greater += up
		}
	}
	return atLeast, greater, less
}

// tails counts sums of at least u and sums of at most −u. Both counts only
// grow while the lists are walked: taking away would lose small ones beside
// large ones.
func tails(left, right []reach, u float64) (up, down float64) {
	from, ways := len(right), 0.0
	for _, l := range left { // as left rises, more of right reaches u
		for from > 0 && l.sum+right[from-1].sum >= u-equal {
			from--
			ways += right[from].ways
		}
		up += l.ways * ways
	}
	to, ways := 0, 0.0
	for i := len(left) - 1; i >= 0; i-- { // as it falls, more stays below −u
		for to < len(right) && left[i].sum+right[to].sum <= -u+equal {
			ways += right[to].ways
			to++
		}
		down += left[i].ways * ways
	}
	return up, down
}
