package content

import (
	"fmt"
	"slices"

	"wardian/content/source"
)

// judgeNamedTwice tells of specimens that a round names as seen and as not
// seen, or as not seen twice.
func (w *walk) judgeNamedTwice(e *Entry, named []*CheckIn) {
	first := map[string]source.Span{}
	for _, c := range named {
		first[c.ID] = c.Span
	}
	for _, m := range e.NotSeen {
		if had, ok := first[m.ID]; ok {
			w.fault(e.File, m.Span, "named-twice", m.ID+" is named in this round already",
				"each specimen once, as seen or as not seen", "leave one of them out",
				source.Related{File: e.File.Path, Start: had.Start, Message: "it is named here"})
			continue
		}
		first[m.ID] = m.Span
	}
}

// judgeRound judges a round when it is known for whom it speaks.
func (w *walk) judgeRound(e *Entry, named []*CheckIn) {
	if !e.Round {
		return
	}
	if !e.asked && len(named) == 0 && len(e.NotSeen) == 0 && e.Others != OthersNotSeen && e.Event == "" && w.spoken[e] == 0 {
		at := e.Spans.Of("others", e.Spans.Of("specimens", e.Head))
		message := "this round speaks for nobody"
		if e.speaksForAll() {
			message = "others: same speaks for nobody, since nothing stands at " + e.Place.ID
		}
		w.fault(e.File, at, "round-of-nobody", message, "at least one specimen that was looked at", "write same on the line of one that was, or leave the file out")
	}
	w.judgeHeadings(e)
}

// judgeNotSeen tells of a specimen said to be there unseen that isn't there.
func (w *walk) judgeNotSeen(p *plant, e *Entry, m Mention) {
	if p.seenIn(e) {
		return
	}
	why := ""
	switch {
	case !p.begun:
		why = m.ID + " hadn't come by then"
		if p.Specimen.Parent != nil {
			why = m.ID + " hadn't been cut by then"
		}
	case p.gone != stillThere:
		why = fmt.Sprintf("%s %s on %s", m.ID, p.gone, p.on)
	case p.at != nil && e.Place != nil && p.at != e.Place:
		why = m.ID + " stands at " + p.at.ID + ", not at " + e.Place.ID
	case e.When.Day < p.Begins.Day:
		why = m.ID + " hadn't come by then"
	}
	if why != "" {
		w.fault(e.File, m.Span, "not-there", why, "specimens that stood there and weren't looked at", "leave it out")
	}
}

// judgeHeadings tells of words under the ID of a specimen that the round
// doesn't speak for.
func (w *walk) judgeHeadings(e *Entry) {
	var ids, near []string
	for id := range e.WordsOf {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		if p := w.byID[id]; p != nil && p.lookIn(e) {
			continue
		}
		if near == nil {
			for _, p := range w.plants {
				if p.lookIn(e) {
					near = append(near, p.Specimen.ID)
				}
			}
		}
		hint := "name it under specimens, same will do; or write ### for a heading of another kind"
		if slices.ContainsFunc(e.NotSeen, func(m Mention) bool { return m.ID == id }) {
			hint = "leave it out of not-seen"
		} else if slices.ContainsFunc(e.Named, func(c *CheckIn) bool { return c.ID == id }) {
			hint = "write something on its line, same will do"
		}
		if word := source.Nearest(id, near); word != "" && w.byID[id] == nil {
			hint = "nearest: " + word
		}
		w.fault(e.File, e.WordsOf[id].Span, "heading-of-nobody", "the round doesn't speak for "+id,
			"the ID of a specimen that this round was looking at", hint)
	}
}

// String ends a sentence that begins with a specimen's ID.
func (g ending) String() string {
	return [...]string{"is there", "was found lost", "was divided", "was passed on"}[g]
}
