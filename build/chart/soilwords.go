package chart

import (
	"sort"
	"strconv"
)

// What a soil line says: notes, key, tables, description.

// notes are the sentences under the picture.
func (p *soilPicture) notes() []string {
	var out []string
	if len(p.leaf)+len(p.roots) == 0 && !p.hasCounts() && !p.hasGrades() {
		out = append(out, "no leaf and no root measured yet")
	}
	if w := p.unseen(); w != "" {
		out = append(out, w)
	}
	for i := 1; i < len(p.roots); i++ {
		if a, b := p.roots[i-1], p.roots[i]; a.kind != b.kind {
			out = append(out, a.kind.Word()+" up to day "+f1(a.pts[len(a.pts)-1].day)+", "+b.kind.Word()+" from day "+f1(b.pts[0].day)+": not joined")
		}
	}
	return out
}

// unseen says since when roots weren't looked at.
func (p *soilPicture) unseen() string {
	if len(p.s.Looks) == 0 {
		return ""
	}
	seen := -1
	for _, l := range p.s.Looks {
		if l.Roots != Unknown || l.Graded {
			seen = l.Day
		}
	}
	last := max(p.s.Looks[len(p.s.Looks)-1].Day, p.s.End.Day)
	switch {
	case seen < 0:
		return "roots not seen yet"
	case last-seen >= unseenAfter || len(p.roots) == 0 && last > seen:
		return "roots not seen since day " + strconv.Itoa(seen)
	}
	return ""
}

// key has every mark below 640 px, and from there on those that found no lane;
// likewise the places.
func (p *soilPicture) key() []keyEntry {
	var out []keyEntry
	for i, l := range p.labels {
		w := "day " + f1(l.day) + ": " + l.words
		if l.note != "" {
			w += " (" + l.note + ")"
		}
		out = append(out, keyEntry{day: int(l.day), icon: string(Icon(p.labelMark[i])), words: w, until: l.from()})
	}
	for _, s := range p.stays {
		w := "day " + strconv.Itoa(s.stay.From) + " to " + strconv.Itoa(s.stay.To) + ": " + s.stay.Stage.Word()
		if s.stay.Place != "" {
			if s.stay.Stage != NoStage {
				w += ", "
			}
			w += s.stay.Place
		}
		until := ""
		if s.place || s.wide && s.stay.Place == "" {
			until = "wide"
		}
		if s.stay.Place != "" || !s.narrow {
			out = append(out, keyEntry{day: s.stay.From, icon: waterIcon(s.stay.Stage), words: w, until: until})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].day < out[j].day })
	return out
}

func (p *soilPicture) tables() []Table {
	var out []Table
	if len(p.s.Looks) > 0 {
		out = append(out, looksTable("Leaf area and roots, by check-in.", p.s.Looks))
	}
	if len(p.s.Events) > 0 || p.s.End.Mark != NoMark {
		out = append(out, eventsTable(p.s.Events, p.s.End))
	}
	if len(p.s.Stays) > 0 {
		out = append(out, staysTable(p.s.Stays))
	}
	if len(p.s.DeficitKPa) > 0 {
		out = append(out, deficitTable(p.s.DeficitKPa))
	}
	return out
}

// desc says in words what is seen.
func (p *soilPicture) desc() string {
	if p.s.Desc != "" {
		return p.s.Desc
	}
	out := ""
	tell := func(what, unit string, first, last point, lo point) {
		out += what + " is " + f1(first.v) + " " + unit + " on day " + f1(first.day)
		if lo.v < min(first.v, last.v) {
			out += ", " + f1(lo.v) + " on day " + f1(lo.day)
		}
		if last.day > first.day {
			out += " and " + f1(last.v) + " on day " + f1(last.day)
		}
		out += ". "
	}
	if len(p.leaf) > 0 {
		first, last := p.leaf[0][0], point{}
		lo := first
		for _, r := range p.leaf {
			for _, q := range r {
				last = q
				if q.v < lo.v {
					lo = q
				}
			}
		}
		tell("Leaf area", "cm²", first, last, lo)
	}
	for _, r := range p.roots {
		lo := r.pts[0]
		for _, q := range r.pts {
			if q.v < lo.v {
				lo = q
			}
		}
		w := r.kind.Word()
		tell(string(w[0]-32)+w[1:], "cm", r.pts[0], r.pts[len(r.pts)-1], lo)
	}
	if len(p.leaf) == 0 && p.hasCounts() {
		out += "Last leaf count: " + strconv.Itoa(p.lastCounted().Leaves) + ". "
	}
	if len(p.roots) == 0 && p.hasGrades() {
		out += "Last root grade: " + strconv.Itoa(p.lastGraded().Grade) + ". "
	}
	if e := p.s.End; e.Mark != NoMark {
		out += "On day " + strconv.Itoa(e.Day) + ": " + e.Mark.Word() + ". "
	}
	return out + "The table holds all numbers and marks."
}
