package cohort

import (
	"cmp"
	"slices"

	"wardian/content"
	"wardian/content/measure"
)

// The order in which plants stand isn't written anywhere; the rounds of a place
// tell it, since a grower goes along the shelf. A round that names only the few
// that changed tells little, so the last one that named half of those who stand
// there now decides, or where none did, the one that named most of them.

// Standing gives the living parts that stand at a place, in standing order:
// that of the last round there, newcomers behind by the time they came and by
// ID. A line that was left empty counts as named.
func (c *Cohort) Standing(place *content.Place) []*Part {
	var there []*Part
	for _, l := range c.Lines {
		for _, p := range l.Parts {
			if p.Place() == place {
				there = append(there, p)
			}
		}
	}
	rank := c.lastOrder(place, there)
	slices.SortStableFunc(there, func(a, b *Part) int {
		ra, knownA := rank[a.Specimen.ID]
		rb, knownB := rank[b.Specimen.ID]
		switch {
		case knownA && knownB:
			return cmp.Compare(ra, rb)
		case knownA:
			return -1
		case knownB:
			return 1
		}
		cameA, cameB := a.Stays[len(a.Stays)-1].From, b.Stays[len(b.Stays)-1].From
		switch {
		case cameA.Before(cameB):
			return -1
		case cameB.Before(cameA):
			return 1
		}
		return cmp.Compare(a.Specimen.ID, b.Specimen.ID)
	})
	return there
}

// lastOrder ranks the IDs that a round at the place named.
func (c *Cohort) lastOrder(place *content.Place, there []*Part) map[string]int {
	var best map[string]int
	most := 0
	for _, e := range slices.Backward(c.Diary.Entries) {
		if !e.Round || e.Place != place || c.Times.Until.Known() && e.When.Day > c.Times.Until {
			continue
		}
		rank := map[string]int{}
		for _, n := range e.Named {
			rank[n.ID] = len(rank)
		}
		for _, m := range e.NotSeen {
			if _, named := rank[m.ID]; !named {
				rank[m.ID] = len(rank)
			}
		}
		named := 0
		for _, p := range there {
			if _, ok := rank[p.Specimen.ID]; ok {
				named++
			}
		}
		if named > most {
			best, most = rank, named
		}
		if 2*named >= len(there) {
			break
		}
	}
	return best
}

// LastReading is the reading that the last entry at a place gave; nil where
// none did.
func (c *Cohort) LastReading(place *content.Place) *content.Climate {
	for _, e := range slices.Backward(c.Diary.Entries) {
		if e.Place == place && e.Reading != nil && !(c.Times.Until.Known() && e.When.Day > c.Times.Until) {
			return e.Reading
		}
	}
	return nil
}

// Occupied lists the places where living plants stand, by ID, with how many do.
func (c *Cohort) Occupied() (places []*content.Place, plants []int) {
	count := map[*content.Place]int{}
	for _, l := range c.Lines {
		for _, p := range l.Parts {
			count[p.Place()]++
		}
	}
	for _, place := range c.Diary.Places {
		if n := count[place]; n > 0 {
			places, plants = append(places, place), append(plants, n)
		}
	}
	return places, plants
}

// Living tells whether a part may still be looked at: it is neither lost,
// divided nor passed on. One that was not seen for long counts as living.
func (p *Part) Living() bool { return p.Fate == Open }

// LastSeen is the day of the last look at a part; NoDay where there was none.
func (p *Part) LastSeen() measure.Day {
	if n := len(p.Looks); n > 0 {
		return p.Looks[n-1].When.Day
	}
	return measure.NoDay
}
