package content

import "wardian/content/measure"

// ShowOptions says how much of a diary may be shown.
type ShowOptions struct {
	Unfinished bool        // what is marked unfinished, too
	On         measure.Day // the day of the build; measure.NoDay: nothing is too young
}

// Shown gives a copy of the diary that holds only what may be shown.
func (d *Diary) Shown(o ShowOptions) *Diary {
	return d
}
