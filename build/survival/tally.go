package survival

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Two ways to count subjects by day stand in this file. A diary's days are
// whole, so one pass that counts into a slot a day is enough, and reading the
// data once is the floor. Times that aren't whole are sorted instead, by their
// bits: for numbers that are not negative the order of the bits is the order
// of the numbers, and a radix sort needs no comparisons.

// dayCount is one distinct time.
type dayCount struct {
	time       float64
	lost, left int
}

// maxSlots bounds the memory of the counting pass: whole days up to 180 years.
const maxSlots = 1 << 16

// tally counts losses and leavings for every distinct time, ascending.
func tally(subjects []Subject) []dayCount {
	if days, ok := tallyWhole(subjects); ok {
		return days
	}
	entries := make([]entry, len(subjects))
	for i, s := range subjects {
		entries[i] = entry{key: timeKey(s.Time, s.Lost)}
	}
	sortEntries(entries)
	var days []dayCount
	for i := 0; i < len(entries); {
		d := dayCount{time: entries[i].time()}
		for t := entries[i].key >> 1; i < len(entries) && entries[i].key>>1 == t; i++ {
			if entries[i].lost() {
				d.lost++
			} else {
				d.left++
			}
		}
		if days == nil {
			days = make([]dayCount, 0, 1+len(entries)-i)
		}
		days = append(days, d)
	}
	return days
}

// tallyWhole counts in one pass; ok is false where a time isn't whole, or lies
// beyond the slots.
func tallyWhole(subjects []Subject) (days []dayCount, ok bool) {
	var slots [][2]int // lost, left
	for i := range subjects {
		s := &subjects[i]
		day, whole := wholeDay(s.Time)
		if !whole {
			return nil, false
		}
		for day >= len(slots) {
			slots = append(slots, make([][2]int, max(128, len(slots)))...)
		}
		if s.Lost {
			slots[day][0]++
		} else {
			slots[day][1]++
		}
	}
	for day, n := range slots {
		if n[0]+n[1] > 0 {
			days = append(days, dayCount{float64(day), n[0], n[1]})
		}
	}
	return days, true
}

// sortedDays puts counts in the order of their times.
func sortedDays(counts map[float64]dayCount) []dayCount {
	var days []dayCount
	for _, d := range counts {
		if d.lost+d.left > 0 {
			days = append(days, d)
		}
	}
	slices.SortFunc(days, func(a, b dayCount) int { return cmp.Compare(a.time, b.time) })
	return days
}

func wholeDay(time float64) (int, bool) {
	if !(time >= 0 && time < maxSlots) {
		checkTime(time)
		return 0, false
	}
	day := int(time)
	return day, float64(day) == time
}

// checkTime panics at a time that no line can have.
func checkTime(time float64) {
	if !(time >= 0) || math.IsInf(time, 1) {
		panic(fmt.Sprintf("survival: %v is no time", time))
	}
}

// entry is a subject made ready for sorting.
type entry struct {
	key   uint64 // the bits of the time, the sign bit pushed out, then 1 for a loss
	group int32
}

func timeKey(time float64, lost bool) uint64 {
	checkTime(time)
	key := math.Float64bits(time) << 1
	if lost {
		key |= 1
	}
	return key
}

func (e entry) time() float64 { return math.Float64frombits(e.key >> 1) }
func (e entry) lost() bool    { return e.key&1 == 1 }

// sortEntries sorts by key: least significant digit first, eleven bits a
// digit, and a digit in which all agree is passed over.
func sortEntries(entries []entry) {
	const bits, passes = 11, 6
	counts := new([passes][1 << bits]int)
	for i := range entries {
		for p, k := 0, entries[i].key; p < passes; p, k = p+1, k>>bits {
			counts[p][k&(1<<bits-1)]++
		}
	}
	from, to := entries, make([]entry, len(entries))
	for p := range passes {
		sum, busy := 0, false
		for i, n := range counts[p] {
			busy = busy || n > 0 && n < len(entries)
			counts[p][i] = sum
			sum += n
		}
		if !busy {
			continue
		}
		for i := range from {
			d := from[i].key >> (bits * p) & (1<<bits - 1)
			to[counts[p][d]] = from[i]
			counts[p][d]++
		}
		from, to = to, from
	}
	if len(entries) > 0 && &from[0] != &entries[0] {
		copy(entries, from)
	}
}
