// Package cohort is where the words of a diary become statistics: which plants
// were watched from when to when, which were lost and on what day, what leaf
// and root each carried, how dry the air was where it stood, and what it cost.
//
// The unit of every share is the line: a specimen as received with everything
// that was cut from it. Days are whole and count from the import's arrival.
// Nothing here reads a clock: the latest day of a look that is shown stands for
// today (the as-of day), so that the same diary gives the same figures on every
// day and an update gives the figures of its own date.
//
// The package does no arithmetic of its own beyond counting: product limits
// are in build/survival, areas in build/growth, vapour pressure in
// build/climate, money in build/cost. It chooses no words: those of comparisons
// are in build/said, all others in the pages.
package cohort

import (
	"wardian/content"
	"wardian/content/measure"
)

// Cohort is a diary's plants as of a day.
type Cohort struct {
	Diary *content.Diary
	Times *content.Timelines
	AsOf  measure.Day // latest day of a look, or of a list's row, that is shown; NoDay where there is none
	Lines []*Line     // one for each specimen as received, by ID

	parts map[string]*Part // by specimen ID
	air   map[*content.Place]*PlaceAir
	costs map[string]*Bill // by import ID
}

// At tells the diary up to and including a day (measure.NoDay: all of it).
func At(d *content.Diary, until measure.Day) *Cohort { return at(d, until, &Cohort{}) }

// After tells all of a diary that was read again: what is told of it just as it
// was before is taken over, and gives what At would.
func After(before *Cohort, d *content.Diary) *Cohort { return at(d, measure.NoDay, before) }

func at(d *content.Diary, until measure.Day, before *Cohort) *Cohort {
	c := &Cohort{Diary: d, Times: d.Timelines(until), AsOf: measure.NoDay, parts: make(map[string]*Part, len(d.Specimens))}
	for _, t := range c.Times.List {
		if n := len(t.Looks); n > 0 { // looks are in order
			c.AsOf = max(c.AsOf, t.Looks[n-1].When.Day)
		}
		c.AsOf = max(c.AsOf, listedAsOf(t))
	}
	c.air = airs(c.Times, before.air)
	c.Lines = make([]*Line, 0, len(c.Times.List))
	for _, t := range c.Times.List {
		if t.Specimen.Parent != nil {
			continue
		}
		l := before.Line(t.Specimen.ID)
		if l == nil || l.Timeline != t || before.AsOf != c.AsOf || !c.sameAir(l, before) {
			c.Lines = append(c.Lines, c.follow(t))
			continue
		}
		c.Lines = append(c.Lines, l)
		for _, p := range l.Parts {
			c.parts[p.Specimen.ID] = p
		}
	}
	if b := before.Diary; b != nil && same(b.Specimens, d.Specimens) && same(b.Imports, d.Imports) {
		c.costs = before.costs
	} else {
		c.costs = c.bills()
	}
	return c
}

// same tells whether two lists are one and the same, not only equal.
func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// sameAir tells whether the air of a line's moves is what it was before.
func (c *Cohort) sameAir(l *Line, before *Cohort) bool {
	for _, p := range l.Parts {
		for _, m := range p.Moves {
			if c.air[m.From] != before.air[m.From] || c.air[m.To] != before.air[m.To] {
				return false
			}
		}
	}
	return true
}

// Part gives the part of a line with a specimen's or section's ID; nil where
// it had not begun by then.
func (c *Cohort) Part(id string) *Part { return c.parts[id] }

// Line gives the line to which a specimen or a section belongs, or nil.
func (c *Cohort) Line(id string) *Line {
	if p := c.parts[id]; p != nil {
		return p.Line
	}
	return nil
}

// Day is the as-of day counted from an import's arrival; it is below 0 where
// the import came later, and ok is false where nothing was ever looked at.
func (c *Cohort) Day(i *content.Import) (day int, ok bool) {
	if !c.AsOf.Known() {
		return 0, false
	}
	return int(c.AsOf - i.Day0()), true
}
