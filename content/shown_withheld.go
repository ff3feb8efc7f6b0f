package content

import (
	"slices"

	"wardian/content/measure"
)

// Withheld is what of a diary isn't shown: things as wholes, in the diary's order.
type Withheld struct {
	Imports   []*Import
	Specimens []*Specimen
	Places    []*Place
	Entries   []*Entry
	Updates   []*Update
}

// Withheld tells what Shown leaves out as a whole.
func (d *Diary) Withheld(o ShowOptions) Withheld {
	s := d.showing(o)
	var w Withheld
	for _, u := range d.Updates {
		if !s.finished(u.Page) || s.late(u.Date) {
			w.Updates = append(w.Updates, u)
		}
	}
	further := false // something is left out that takes other things along
	for _, p := range d.Places {
		further = further || !s.finished(p.Page)
	}
	for _, i := range d.Imports {
		further = further || !s.finished(i.Page) || !s.arrived(i)
	}
	for _, p := range d.Specimens {
		further = further || p.Parent == nil && !s.finished(p.Page)
	}
	if !o.Unfinished {
		for _, e := range d.Timelines(measure.NoDay).unfinished {
			if !s.late(e.When.Day) {
				w.Entries = append(w.Entries, e)
			}
		}
	}
	young := len(d.Entries)
	for young > 0 && s.late(d.Entries[young-1].When.Day) {
		young--
	}
	w.Entries = append(w.Entries, d.Entries[young:]...)
	for _, e := range w.Entries {
		further = further || slices.ContainsFunc(e.Named, func(c *CheckIn) bool { return len(c.CutInto) > 0 })
	}
	if !further {
		return w
	}
	shown := d.Shown(o)
	kept := make(map[string]bool, len(shown.Entries))
	for _, e := range shown.Entries {
		kept[e.Path] = true
	}
	w.Entries = slices.DeleteFunc(slices.Clone(d.Entries), func(e *Entry) bool { return kept[e.Path] })
	w.Specimens = slices.DeleteFunc(slices.Clone(d.Specimens), func(p *Specimen) bool { return shown.Specimen(p.ID) != nil })
	w.Imports = slices.DeleteFunc(slices.Clone(d.Imports), func(i *Import) bool { return shown.Import(i.ID) != nil })
	w.Places = slices.DeleteFunc(slices.Clone(d.Places), func(p *Place) bool { return shown.Place(p.ID) != nil })
	return w
}
