package page

import (
	"sort"

	"wardian/build/address"
	"wardian/content"
	"wardian/content/measure"
)

// amendmentRow is one thing set right.
type amendmentRow struct {
	Date, Words string
	Of          way

	day measure.Day
}

// amendmentsPage plans the page of everything set right, the latest first.
func (s *site) amendmentsPage() Page {
	return Page{Path: address.Amendments(), Make: func() ([]byte, error) {
		return s.set(address.Amendments(), "amendments", noRoom, "Amendments", "Everything in the diary that was set right in the open.", func(v view) any {
			rows := v.amendments()
			sort.SliceStable(rows, func(i, j int) bool { return rows[i].day > rows[j].day })
			return rows
		})
	}}
}

// amendments gathers what was set right in every kind of file.
func (v view) amendments() []amendmentRow {
	var rows []amendmentRow
	add := func(of string, href string, list []content.Amendment) {
		for _, a := range list {
			rows = append(rows, amendmentRow{Date: a.Date.InWords(), Words: a.Words, Of: way{Words: of, Href: href}, day: a.Date})
		}
	}
	d := v.s.Diary
	for _, i := range d.Imports {
		add("Import "+i.ID, v.Href(address.Import(i.ID)), i.Amended)
	}
	for _, sp := range d.Specimens {
		if v.s.Cohort.Part(sp.ID) != nil {
			add("Specimen "+sp.ID, v.Href(address.Specimen(sp.ID)), sp.Amended)
		}
	}
	for _, p := range d.Places {
		add(p.Name, v.Href(address.Place(p.ID)), p.Amended)
	}
	for _, e := range d.Entries {
		if len(e.Amended) > 0 {
			add("The entry of "+e.When.Day.InWords(), v.entryHref(e), e.Amended)
		}
	}
	for _, u := range d.Updates {
		add(u.Title, v.Href(address.Update(u.Slug)), u.Amended)
	}
	for _, w := range d.Seasons {
		add("The season "+w.Season, v.Href(address.Seasons()), w.Amended)
	}
	return rows
}

// entryHref is where an entry is shown; the list of plants where it is shown
// nowhere.
func (v view) entryHref(e *content.Entry) string {
	to, ok := address.Entry(v.s.Diary, e)
	if !ok {
		return v.Href(address.Specimens())
	}
	return v.Href(to.Path) + to.Fragment
}
