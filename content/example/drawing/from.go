package main

import (
	"sort"
	"time"

	"wardian/content"
	"wardian/content/measure"
)

// seen is what the diary knows of one specimen after one look, and where it
// stood then.
type seen struct {
	plant
	date measure.Day
	at   setting
}

// look gathers what a diary knows of a specimen at the end of a day: the figures
// of that day's looks, and where they say nothing, those of the latest look that
// did. ok is false where nobody looked that day.
func look(t *content.Timeline, day measure.Day) (s seen, ok bool) {
	sp := t.Specimen
	s = seen{plant: plant{id: sp.ID, name: sp.Name, leaves: -1, cut: sp.Parent != nil}, date: day, at: tote}
	s.day = int(day - sp.Import.Day0())
	switch day.Time().Month() { // the light of 60 degrees north
	case time.November, time.December, time.January:
		s.dusk = 1
	case time.October, time.February:
		s.dusk = 0.5
	}
	for _, l := range t.Looks {
		if l.When.Day > day {
			break
		}
		ok = l.When.Day == day
		s.take(l)
		if l.Arrival && l.When.Day == day {
			s.at = paper
			return s, true
		}
	}
	if s.dead && s.day == 0 {
		s.at = paper // dead on arrival
	}
	if s.leaves < 0 { // a section that was counted only later
		for _, l := range t.Looks {
			if l.Leaves != nil && l.Leaves.Count != nil && s.leaves < 0 {
				s.take(&content.Look{Facts: content.Facts{Leaves: l.Leaves}})
			}
		}
	}
	return s, ok
}

// take lays one look over what was known before it.
func (s *seen) take(l *content.Look) {
	place := l.At
	if l.To != nil {
		place = l.To
	}
	if place != nil {
		s.at = settingOf(place)
	}
	if l.MediumNow != "" {
		s.medium = l.MediumNow
	}
	switch l.Turgor {
	case content.Firm:
		s.droop = 0
	case content.Soft:
		s.droop = 0.45
	case content.Limp:
		s.droop = 1
	}
	if r := l.Roots; r != nil {
		if r.Grade != nil {
			s.grade = *r.Grade
		}
		if r.Longest != nil {
			s.root = float64(r.Longest.Value)
		}
		if r.New && s.grade == 0 {
			s.grade = 1
		}
		if r.Cut != nil {
			s.root *= 1 - float64(r.Cut.Value)/2
		}
	}
	if v := l.Leaves; v != nil {
		s.leaves = s.countAfter(v)
		if len(v.Sizes) > 0 {
			s.sizes = nil
			for _, z := range v.Sizes {
				s.sizes = append(s.sizes, [2]float64{float64(z.Value.Length), float64(z.Value.Width)})
			}
			sort.Slice(s.sizes, func(i, j int) bool { return s.sizes[i][0] > s.sizes[j][0] })
		}
	}
	s.rest = l.AtRest
	if l.Rot != "" {
		s.rotten = l.Rot != "none"
	}
	s.dead = l.Outcome == content.Lost
}

// countAfter is how many leaves there are, by what a look counted or took away.
func (s *seen) countAfter(v *content.Leaves) int {
	if v.Count != nil {
		return v.Count.Value
	}
	if s.leaves < 0 {
		return s.leaves
	}
	return max(0, s.leaves-v.Cut-v.Dropped)
}

// settingOf tells how a place looks in a picture.
func settingOf(p *content.Place) setting {
	switch p.Stage {
	case content.Soak:
		return paper
	case content.StepDown:
		return cabinet
	case content.Room:
		if p.ID == "sill" {
			return sill
		}
		return room
	}
	if p.BottomHeat {
		return tote
	}
	return cool
}
