package chart

import (
	"sort"
)

// Cleaning keeps what can be drawn and rounds it to what the tables print. A
// figure that is NaN, infinite or out of range counts as not known; a day
// before arrival, or a century after it, takes its entry out.

const (
	maxAreaCm2  = 1e6
	maxLengthCm = 1e6
	maxLeaves   = 100000
	maxGrade    = 5
)

func cleanLooks(in []Look) []Look {
	out := make([]Look, 0, len(in))
	for _, l := range in {
		if !dayOK(l.Day) {
			continue
		}
		if l.Leaf < Measured || l.Leaf > Estimated || !finite(l.AreaCm2, 0, maxAreaCm2) {
			l.Leaf, l.AreaCm2, l.Falls = Unknown, 0, false
		}
		if l.Roots < Measured || l.Roots > Estimated || l.Length < RootLength || l.Length > LongestRoot || !finite(l.LengthCm, 0, maxLengthCm) {
			l.Roots, l.Length, l.LengthCm = Unknown, NoLength, 0
		}
		if !l.Counted || l.Leaves < 0 || l.Leaves > maxLeaves {
			l.Counted, l.Leaves = false, 0
		}
		if !l.Graded || l.Grade < 0 || l.Grade > maxGrade {
			l.Graded, l.Grade = false, 0
		}
		l.AreaCm2, l.LengthCm = round(l.AreaCm2, 10), round(l.LengthCm, 10)
		out = append(out, l)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Day < out[j].Day })
	return out
}

func cleanEvents(in []Event) []Event {
	out := make([]Event, 0, len(in))
	for _, e := range in {
		if !dayOK(e.Day) || !e.Mark.known() {
			continue
		}
		if e.Words == "" {
			e.Words = e.Mark.Word()
		}
		twice := false
		for _, o := range out[max(0, len(out)-8):] {
			twice = twice || o == e
		}
		if !twice {
			out = append(out, e)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Day < out[j].Day })
	return out
}

// cleanStays cuts what overlaps at the next one's start.
func cleanStays(in []Stay) []Stay {
	out := make([]Stay, 0, len(in))
	for _, s := range in {
		if dayOK(s.From) && dayOK(s.To) && s.To > s.From {
			if s.Stage < Soak || s.Stage > Room {
				s.Stage = NoStage
			}
			out = append(out, s)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].From < out[j].From })
	keep := out[:0]
	for i, s := range out {
		if i+1 < len(out) && out[i+1].From < s.To {
			s.To = out[i+1].From
		}
		if s.To > s.From {
			keep = append(keep, s)
		}
	}
	return keep
}

func cleanEnd(e End) End {
	switch e.Mark {
	case Lost, PassedOn, AliveLastSeen, Divided:
		if dayOK(e.Day) {
			return e
		}
	}
	return End{}
}

// stageOn is the stage on a day, NoStage between stays; stays are sorted.
func stageOn(stays []Stay, day int) Stage {
	i := sort.Search(len(stays), func(i int) bool { return stays[i].To > day })
	if i < len(stays) && stays[i].From <= day {
		return stays[i].Stage
	}
	return NoStage
}

// lastDay is the last day that any of it speaks of.
func lastDay(looks []Look, evs []Event, stays []Stay, end End) int {
	d := end.Day
	if n := len(looks); n > 0 {
		d = max(d, looks[n-1].Day)
	}
	if n := len(evs); n > 0 {
		d = max(d, evs[n-1].Day)
	}
	if n := len(stays); n > 0 {
		d = max(d, stays[n-1].To)
	}
	return d
}
