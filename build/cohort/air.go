package cohort

import (
	"slices"
	"sort"

	"wardian/build/climate"
	"wardian/content"
	"wardian/content/measure"
)

// PlaceAir is what was measured at a place, by loggers and by the readings
// that check-ins took there.
type PlaceAir struct {
	Place   *content.Place
	Days    []climate.Day // days with a reading, in order
	Typical climate.Typical

	readings []climate.Reading // in order of time
	taken    []*content.Entry  // those of them that check-ins took
}

// On is the day's summary; nil where nothing was measured.
func (a *PlaceAir) On(day measure.Day) *climate.Day {
	i := sort.Search(len(a.Days), func(i int) bool { return a.Days[i].Day >= day })
	if i < len(a.Days) && a.Days[i].Day == day {
		return &a.Days[i]
	}
	return nil
}

// around gives the readings of the days first to last with one day on either
// side, which can cover hours of theirs.
func (a *PlaceAir) around(first, last measure.Day) []climate.Reading {
	from := sort.Search(len(a.readings), func(i int) bool { return a.readings[i].Moment.Day >= first-1 })
	to := sort.Search(len(a.readings), func(i int) bool { return a.readings[i].Moment.Day > last+1 })
	return a.readings[from:to]
}

// Air is what was measured at a place up to the cohort's day.
func (c *Cohort) Air(p *content.Place) *PlaceAir { return c.air[p] }

// airs gathers what was measured at every place, up to and including until. A
// place where nothing else was measured before has its air from there.
func airs(t *content.Timelines, before map[*content.Place]*PlaceAir) map[*content.Place]*PlaceAir {
	out := make(map[*content.Place]*PlaceAir, len(t.Diary.Places))
	told := func(day measure.Day) bool { return !t.Until.Known() || day <= t.Until }
	taken := map[*content.Place][]*content.Entry{}
	for _, e := range t.Taken {
		taken[e.Place] = append(taken[e.Place], e)
	}
	for _, p := range t.Diary.Places {
		if was := before[p]; was != nil && slices.Equal(was.taken, taken[p]) {
			out[p] = was
			continue
		}
		a := &PlaceAir{Place: p, taken: taken[p]}
		if p.Temperature != nil && p.Humidity != nil {
			a.Typical = climate.Typical{Known: true, T: p.Temperature.Value, RH: p.Humidity.Value}
		}
		for _, r := range p.Readings {
			if told(r.Moment.Day) {
				a.readings = append(a.readings, climate.Reading{Moment: r.Moment, T: r.Temperature, RH: r.Humidity})
			}
		}
		for _, e := range a.taken {
			a.readings = append(a.readings, climate.Reading{Moment: e.When, T: e.Reading.Temperature, RH: e.Reading.Humidity})
		}
		sort.SliceStable(a.readings, func(i, j int) bool { return a.readings[i].Moment.Before(a.readings[j].Moment) })
		a.Days = climate.Days(a.readings)
		out[p] = a
	}
	return out
}

// Move is a plant's change of place and what it asked of the plant.
type Move struct {
	Look     *content.Look // nil for a section that was cut into another place
	Day      int
	From, To *content.Place
	// Before and After are the air of the old and the new place around the
	// move, and tell whether they were measured or typical.
	Before, After climate.Air
	Step          climate.Step
}

// Drier tells whether the move went to a drier stage.
func (m Move) Drier() bool { return m.To.Stage > m.From.Stage }

// Wetter tells whether it went back to a wetter one.
func (m Move) Wetter() bool { return m.To.Stage < m.From.Stage }

// move finds a part's moves, with the step in demand of each (measures: Water).
func (c *Cohort) move(p *Part) {
	for n, stay := range p.Stays {
		from := p.before(n)
		if from == nil || from == stay.Place {
			continue
		}
		day := stay.From.Day
		old, new := c.air[from], c.air[stay.Place]
		m := Move{
			Look: stay.Move, Day: p.dayOf(stay.From), From: from, To: stay.Place,
			Before: climate.Before(old.around(day-climate.Window, day-1), day, old.Typical),
			After:  climate.After(new.around(day+1, day+climate.Window), day, new.Typical),
		}
		was, is, known := p.areaAround(stay.Move, m.Day)
		m.Step = climate.Move(m.Before, m.After, was, is, known, known)
		p.Moves = append(p.Moves, m)
	}
}

// DayAir is one day of a plant: how dry the air was where it stood.
type DayAir struct {
	Day     int
	Place   *content.Place
	Deficit measure.Pressure // kPa, the day's mean of what was measured
}

// DayAirs are the days of a part on which the air was measured where it stood
// at the end of the day. Days without a measurement are left out.
func (c *Cohort) DayAirs(p *Part) []DayAir {
	var out []DayAir
	for _, s := range p.Spans() {
		last := s.Until - 1
		if s.Until == p.End() {
			last = s.Until
		}
		for day := s.From; day <= last; day++ {
			if d := c.air[s.Place].On(p.Specimen.Import.Day0() + measure.Day(day)); d != nil {
				out = append(out, DayAir{Day: day, Place: s.Place, Deficit: d.Deficit.Mean})
			}
		}
	}
	return out
}

// Known tells whether the air is known, measured or typical, at both ends of a
// move.
func (m Move) Known() bool {
	return m.Before.Source != climate.Unknown && m.After.Source != climate.Unknown
}

// Bounded says how a move's ratio is to be read: "at least ", "at most ", or
// nothing where it is the ratio itself.
func (m Move) Bounded() string {
	switch m.Step.Bound {
	case climate.AtLeast:
		return "at least "
	case climate.AtMost:
		return "at most "
	}
	return ""
}

// Typical tells whether either end rests on the place's typical figures alone.
func (m Move) Typical() bool {
	return m.Before.Source == climate.TypicalValue || m.After.Source == climate.TypicalValue
}
