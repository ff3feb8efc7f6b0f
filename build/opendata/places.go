package opendata

import (
	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// placeColumns are the columns of places.csv. One grower's bin is another's
// step-down, so that whoever sets two diaries side by side has to know what each
// calls by a word.
var placeColumns = []column[*content.Place]{
	{field{name: "place", kind: "string", required: true, says: "the place's ID, as check-ins.csv names it"}, func(p *content.Place) cell { return text(p.ID) }},
	{field{name: "name", kind: "string", says: "what the grower calls it"}, func(p *content.Place) cell { return text(p.Name) }},
	{field{name: "stage", kind: "string", required: true, says: "soak: roots in water; bin: air near saturation; step-down: in between; room: the air of the room", words: []string{"soak", "bin", "step-down", "room"}}, func(p *content.Place) cell { return text(p.Stage.String()) }},
	{field{name: "humidity", kind: "number", unit: "%", says: "the relative humidity that the grower calls typical there"}, func(p *content.Place) cell { return typical(p.Humidity) }},
	{field{name: "temperature", kind: "number", unit: "°C", says: "the temperature that the grower calls typical there"}, func(p *content.Place) cell { return typical(p.Temperature) }},
	{field{name: "bottom_heat", kind: "boolean", required: true, says: "whether it is warmed from below"}, func(p *content.Place) cell { return trueFalse(p.BottomHeat) }},
	{field{name: "quarantine", kind: "boolean", required: true, says: "whether plants stand apart there"}, func(p *content.Place) cell { return trueFalse(p.Quarantine) }},
	{field{name: "check_every", kind: "integer", unit: "days", says: "how often it is looked at; a plant unseen for longer than twice that, and than 7 days, counts as not seen since, unless the diary sets a number of its own"}, func(p *content.Place) cell {
		if p.CheckEvery == 0 {
			return missing
		}
		return whole(p.CheckEvery)
	}},
}

func typical[T measure.Humidity | measure.Temperature](f *measure.Figure[T]) cell {
	if f == nil {
		return missing
	}
	return number(float64(f.Value))
}

// placesTable writes places.csv: a row a place, by ID.
func placesTable(c *cohort.Cohort) resource {
	r := fillTable("places", "A row is a place where plants stand, as the grower defines it.", placeColumns, c.Diary.Places)
	r.from = written
	r.key = []string{"place"}
	return r
}
