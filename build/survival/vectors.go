package survival

import "math"

// vectorTable counts the ways to every vector of sums: the groups' sums but for
// the last, and the state of the stratum at hand (the labels used up). Two
// relabellings are told apart by state and sums, these in whole units of same.
// Nothing is ever taken out, so entries lie in flat slices in the order in which
// they were first met; that order, and with it every last bit, doesn't depend on
// anything but the data. A table too full to be of use is known after a few
// milliseconds, which is why it isn't a map.
type vectorTable struct {
	width  int // sums a vector
	states []int
	units  []int64   // width an entry
	sums   []float64 // width an entry, unrounded
	ways   []float64
	slots  []int32 // entry + 1 by hash; 0 is free
}

func newVectorTable(width int) *vectorTable {
	return &vectorTable{width: width, slots: make([]int32, 64)}
}

// at is the vector of an entry.
func (v *vectorTable) at(entry int) []float64 {
	return v.sums[entry*v.width : (entry+1)*v.width]
}

// add counts ways more to a vector in a state.
func (v *vectorTable) add(state int, units []int64, sums []float64, ways float64) {
	slot := v.slot(state, units)
	if at := v.slots[slot]; at > 0 {
		v.ways[at-1] += ways
		return
	}
	v.states = append(v.states, state)
	v.units = append(v.units, units...)
	v.sums = append(v.sums, sums...)
	v.ways = append(v.ways, ways)
	v.slots[slot] = int32(len(v.ways))
	if 2*len(v.ways) > len(v.slots) {
		v.slots = make([]int32, 4*len(v.slots))
		for i, state := range v.states {
			v.slots[v.slot(state, v.units[i*v.width:(i+1)*v.width])] = int32(i + 1)
		}
	}
}

// slot is where a vector stands or would stand.
func (v *vectorTable) slot(state int, units []int64) int {
	const mix = 0x9e3779b97f4a7c15 // 2⁶⁴ over the golden ratio
	h := uint64(state) * mix
	for _, u := range units {
		h = (h ^ h>>29 ^ uint64(u)) * mix
	}
	last := len(v.slots) - 1
	at := int(h>>32) & last
search:
	for ; v.slots[at] > 0; at = (at + 1) & last {
		entry := int(v.slots[at] - 1)
		if v.states[entry] != state {
			continue
		}
		for g, u := range v.units[entry*v.width : (entry+1)*v.width] {
			if u != units[g] {
				continue search
			}
		}
		break
	}
	return at
}

// stage is the dealing of labels to one class of tied units, dealt units of the
// stratum having theirs.
type stage struct {
	hand  hand
	class class
	dealt int
	last  bool // of its stratum
}

func (d deal) stages() []stage {
	var all []stage
	for _, h := range d.strata {
		dealt := 0
		for _, c := range classes(h.scores) {
			all = append(all, stage{hand: h, class: c, dealt: dealt})
			dealt += c.n
		}
		all[len(all)-1].last = true
	}
	return all
}

// patience is the number of steps that looking ahead may take in all.
const patience = 1 << 19

// mustOverflow looks ahead from so many vectors by state: in one state all
// vectors that come from another state by one move stay apart, so a state that
// can be reached holds at least as many as the fullest of those before it. If
// these alone are too many at any later stage, counting is in vain, and that is
// known long before the table is full. It gives up, and says no, after left steps,
// and hands back how many are left.
func mustOverflow(stages []stage, sizes map[int]int, most, left int) (must bool, still int) {
	for _, st := range stages {
		next := map[int]int{}
		total := 0
		for state, n := range sizes {
			splits(st.class.n, st.hand.counts, st.hand.used(state, st.dealt), func(part []int) bool {
				to := state + st.hand.state(part)
				if held := next[to]; n > held {
					total += n - held
					next[to] = n
				}
				left--
				return total <= most && left > 0
			})
			if total > most || left <= 0 {
				return total > most, left
			}
		}
		sizes = next
		if st.last { // all labels are dealt; the next stratum starts with none used
			sizes = map[int]int{0: total}
		}
	}
	return false, left
}

// vectors counts the ways to every vector of sums; ok is false where there are
// more than most at a time.
func (d deal) vectors(most int) (all *vectorTable, ok bool) {
	width := len(d.groups) - 1
	if width > maxOthers {
		return nil, false
	}
	units, sums := make([]int64, width), make([]float64, width)
	all = newVectorTable(width)
	all.add(0, units, sums, 1)
	stages, looked, left := d.stages(), 0, patience
	for i, st := range stages {
		if n := len(all.ways); n >= 2*looked && left > 0 {
			looked = n
			var must bool
			if must, left = mustOverflow(stages[i:], all.sizes(), most, left); must {
				return nil, false
			}
		}
		next := newVectorTable(width)
		for entry, ways := range all.ways {
			state, was := all.states[entry], all.at(entry)
			splits(st.class.n, st.hand.counts, st.hand.used(state, st.dealt), func(part []int) bool {
				for g := range width {
					sums[g] = was[g] + float64(part[g])*st.class.score
					units[g] = int64(math.Round(sums[g] / same))
				}
				to := state + st.hand.state(part)
				if st.last {
					to = 0
				}
				next.add(to, units, sums, ways*multinomial(part))
				return len(next.ways) <= most
			})
			if len(next.ways) > most {
				return nil, false
			}
		}
		all = next
	}
	return all, true
}

// sizes counts the vectors in every state.
func (v *vectorTable) sizes() map[int]int {
	sizes := map[int]int{}
	for _, state := range v.states {
		sizes[state]++
	}
	return sizes
}

// used is the labels used up in a state, dealt being their number.
func (h hand) used(state, dealt int) []int {
	used := make([]int, len(h.counts))
	last := len(used) - 1
	used[last] = dealt
	for g := range last {
		used[g] = state % (h.counts[g] + 1)
		state /= h.counts[g] + 1
		used[last] -= used[g]
	}
	return used
}
