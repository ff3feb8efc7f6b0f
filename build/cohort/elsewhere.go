package cohort

import "wardian/content"

// Elsewhere is a line of another grower's diary, as published: what of a line
// counts on an axis of days.
type Elsewhere struct {
	Import  string // the ID of its import over there
	Fate    Fate   // Open, Lost, PassedOn or NotSeen
	Day     int    // found lost, left, or the as-of day while it is open
	AsOfDay int    // the as-of day over there, counted from its arrival
}

// GroupElsewhere counts another grower's lines at a horizon by the very
// definitions by which our own are counted. Its lines stand in no scope of ours:
// two growers' plants are never pooled.
func GroupElsewhere(lines []Elsewhere, horizon int) Group {
	imports := map[string]*content.Import{}
	own := make([]*Line, len(lines))
	for n, l := range lines {
		if imports[l.Import] == nil {
			imports[l.Import] = &content.Import{ID: l.Import}
		}
		t := &content.Timeline{Specimen: &content.Specimen{Import: imports[l.Import]}}
		own[n] = &Line{Part: &Part{Timeline: t}, Fate: l.Fate, Day: l.Day, AsOfDay: l.AsOfDay, LastAlive: Never}
		if l.Fate != Lost {
			own[n].LastAlive = l.Day // who leaves does so on the last day alive
		}
	}
	return groupAt("", own, horizon)
}
