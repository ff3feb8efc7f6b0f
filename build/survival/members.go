package survival

import (
	"slices"
)

// Member is a subject with the group it is compared in and the stratum it is
// compared within. Both are numbers of the caller's choosing; results list
// groups ascending.
type Member struct {
	Subject
	Group, Stratum int
}

// table counts the members of one stratum by time and group.
type table struct {
	times []float64
	// lost and left have a row for every time and a column for every group.
	lost, left []int
}

// tabulation is all that the tests need of the members: every stratum's table
// with the same groups as columns, strata ascending.
type tabulation struct {
	groups []int
	sizes  []int // members by group
	strata []int
	tables []table
}

// quickGroups and quickDays bound the counting pass: it is meant for a few
// groups of one stratum in whole days, and falls back to sorting otherwise.
const (
	quickGroups = 16
	quickDays   = 1 << 12
)

// tabulate counts members by stratum, time and group.
func tabulate(members []Member) tabulation {
	if t, ok := tabulateWhole(members); ok {
		return t
	}
	t := tabulation{}
	byStratum := map[int][]entry{}
	number := map[int]int32{}
	for _, m := range members {
		number[m.Group] = 0
	}
	for g := range number {
		t.groups = append(t.groups, g)
	}
	slices.Sort(t.groups)
	for i, g := range t.groups {
		number[g] = int32(i)
	}
	t.sizes = make([]int, len(t.groups))
	if len(members) > 0 && !slices.ContainsFunc(members, func(m Member) bool { return m.Stratum != members[0].Stratum }) {
		byStratum[members[0].Stratum] = make([]entry, 0, len(members))
	}
	last, lastNumber := 0, int32(-1)
	var group []entry
	stratum, open := 0, false
	for i := range members {
		m := &members[i]
		if lastNumber < 0 || m.Group != last {
			last, lastNumber = m.Group, number[m.Group]
		}
		if !open || m.Stratum != stratum {
			if open {
				byStratum[stratum] = group
			}
			stratum, group, open = m.Stratum, byStratum[m.Stratum], true
		}
		group = append(group, entry{key: timeKey(m.Time, m.Lost), group: lastNumber})
		t.sizes[lastNumber]++
	}
	if open {
		byStratum[stratum] = group
	}
	for s := range byStratum {
		t.strata = append(t.strata, s)
	}
	slices.Sort(t.strata)
	for _, s := range t.strata {
		t.tables = append(t.tables, tableOf(byStratum[s], len(t.groups)))
	}
	return t
}

func tableOf(entries []entry, groups int) table {
	sortEntries(entries)
	distinct := 0
	for i := range entries {
		if i == 0 || entries[i].key>>1 != entries[i-1].key>>1 {
			distinct++
		}
	}
	t := table{make([]float64, 0, distinct), make([]int, distinct*groups), make([]int, distinct*groups)}
	at := -groups
	for i, e := range entries {
		if i == 0 || e.key>>1 != entries[i-1].key>>1 {
			t.times = append(t.times, e.time())
			at += groups
		}
		if e.lost() {
			t.lost[at+int(e.group)]++
		} else {
			t.left[at+int(e.group)]++
		}
	}
	return t
}

// tabulateWhole is the counting pass: one read of the members. ok is false if
// they aren't of its kind.
func tabulateWhole(members []Member) (tabulation, bool) {
	if len(members) == 0 {
		return tabulation{}, false
	}
	const width = 2 * quickGroups
	slots := make([]int32, 128*width) // by day, group, lost or left
	stratum := members[0].Stratum
	for i := range members {
		m := &members[i]
		day := int(m.Time)
		if float64(day) != m.Time || uint(day) >= quickDays || uint(m.Group) >= quickGroups || m.Stratum != stratum {
			checkTime(m.Time)
			return tabulation{}, false
		}
		lost := 0
		if m.Lost {
			lost = 1
		}
		slot := day*width + m.Group*2 + lost
		for slot >= len(slots) {
			slots = append(slots, make([]int32, len(slots))...)
		}
		slots[slot]++
	}
	var sizes [quickGroups]int
	for i, n := range slots {
		sizes[i%width/2] += int(n)
	}
	t := tabulation{strata: []int{stratum}, tables: make([]table, 1)}
	for g, n := range sizes {
		if n > 0 {
			t.groups, t.sizes = append(t.groups, g), append(t.sizes, n)
		}
	}
	tab := &t.tables[0]
	for day := 0; day*width < len(slots); day++ {
		counts := slots[day*width : (day+1)*width]
		if !slices.ContainsFunc(counts, func(n int32) bool { return n > 0 }) {
			continue
		}
		tab.times = append(tab.times, float64(day))
		for _, g := range t.groups {
			tab.left = append(tab.left, int(counts[2*g]))
			tab.lost = append(tab.lost, int(counts[2*g+1]))
		}
	}
	return t, true
}
