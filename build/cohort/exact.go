package cohort

import "wardian/build/survival"

// Exact figures for programs, which no page shows (measures: Not on pages).

// Exact is the Clopper–Pearson interval, 95 %, of a group's share alive on the
// horizon. ok is false where the share isn't a count of all its lines.
func (g Group) Exact() (i survival.Interval, ok bool) {
	if !g.HasShare() || g.Row.Kind != Counted {
		return survival.Interval{}, false
	}
	return survival.ClopperPearson(g.Alive, g.N, 0.95), true
}

// Fisher is the exact test of the counts alive and lost on the horizon, of all
// groups that have a share: as if plants of one parcel were independent and parcels
// alike. reason says why there is none, "" where there is.
func (r Comparison) Fisher() (p float64, reason string) {
	if r.By.Level == OfImport {
		return 0, "the word is a fact of the parcel, not of the plant"
	}
	var table [][]int
	lost, alive := 0, 0
	for _, g := range r.Groups {
		if !g.HasShare() {
			continue
		}
		if g.Row.Kind != Counted {
			return 0, "of some lines nothing is known on the day"
		}
		table = append(table, []int{g.Alive, g.Lost})
		alive, lost = alive+g.Alive, lost+g.Lost
	}
	switch {
	case len(table) < 2 && r.Test.Reason != Tested && r.Test.Reason != FewLosses && r.Test.Reason != NoLosses && r.Test.Reason != NoSharedImport:
		return 0, r.Test.Reason.String()
	case len(table) < 2:
		return 0, OneGroup.String()
	case lost == 0:
		return 0, NoLosses.String()
	case alive == 0:
		return 0, "nobody was alive"
	}
	p, ok := survival.FisherTable(table)
	if !ok {
		return 0, "too many groups or lines to count every table"
	}
	return p, ""
}
