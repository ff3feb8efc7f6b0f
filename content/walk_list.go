package content

import (
	"cmp"
	"fmt"
	"slices"

	"wardian/content/measure"
	"wardian/content/source"
)

// A list has no looks to walk over: of a plant it says at most one end, on a day
// that may be known by half. On the walk that end comes after all entries of its
// last possible day, so that what was seen on the day itself still counts.

// listEnd is an end that a list tells of.
type listEnd struct {
	day measure.Day
	why ending
	at  source.Span
}

// endingCodes are the codes of what is said of a plant after its end.
var endingCodes = map[ending]string{goneLost: "after-loss", gonePassedOn: "after-passing-on", goneDivided: "after-dividing"}

// listed begins to tell a specimen from a list.
func (w *walk) listed(p *plant, until measure.Day) {
	s := p.Specimen
	if s.Listed == nil {
		return
	}
	p.Listed = s.Listed.told(until)
	if d := p.Listed.Lost.Day; d.Known() {
		w.lists = append(w.lists, listEnd{d.Last, goneLost, s.Listed.lost})
	}
	if d := p.Listed.Left.Day; d.Known() {
		w.lists = append(w.lists, listEnd{d.Last, gonePassedOn, s.Listed.left})
	}
	slices.SortStableFunc(w.lists, func(a, b listEnd) int { return cmp.Compare(a.day, b.day) })
}

// listsBefore takes in the ends that its list tells of a specimen, up to the day before one;
// noEnd: all that are left.
func (w *walk) listsBefore(p *plant, day measure.Day) {
	for len(w.lists) > 0 && (!day.Known() || w.lists[0].day < day) {
		w.listEnds(p, w.lists[0])
		w.lists = w.lists[1:]
	}
}

func (w *walk) listEnds(p *plant, e listEnd) {
	switch {
	case p.gone == stillThere:
		p.leave(measure.At(e.day))
		p.gone, p.over, p.on = e.why, nil, e.day
	case p.told == p.gone:
	default:
		p.told = p.gone
		w.fault(p.Specimen.File, e.at, endingCodes[p.gone], fmt.Sprintf("%s %s on %s, by a check-in", p.Specimen.ID, p.gone, p.on),
			"nothing in the list after that", "leave it out here: the check-in says it", p.ended("it "+p.gone.String()+" here"))
	}
}

// listedLost says whether it is a list that calls a plant lost, with a day that
// the walk has passed or without any.
func (p *plant) listedLost() bool {
	if p.Listed == nil || p.ListedBack != nil || !p.Listed.Lost.Said || p.Loss != nil {
		return false
	}
	return p.gone == goneLost || p.gone == stillThere && !p.Listed.Lost.Day.Known()
}

// ended points to what ended a plant.
func (p *plant) ended(message string) source.Related {
	if p.over != nil {
		return earlier(p.over, message)
	}
	s := p.Specimen
	at := s.Listed.lost
	if p.gone == gonePassedOn {
		at = s.Listed.left
	}
	return source.Related{File: s.File.Path, Start: at.Start, Message: message}
}

// judgeListed judges, at the end of the walk, what a list says against what
// check-ins say.
func (w *walk) judgeListed(p *plant) {
	row := p.Specimen.Listed
	if w.report == nil || row == nil {
		return
	}
	f := p.Specimen.File
	if l := p.Loss; l != nil && row.Alive.Day.Known() && row.Alive.Day.First > l.When.Day {
		w.fault(f, row.alive, "days-out-of-order", fmt.Sprintf("seen alive on %s, after it was found lost on %s", row.Alive.Day.Written, l.When.Day),
			"a day up to "+l.When.Day.String(), "look at both days", earlier(l, "it was found lost here"))
	}
	if p.over == nil { // it lives, or a list alone says that it doesn't
		return
	}
	for _, end := range []struct {
		said Stated
		at   source.Span
	}{{row.Lost, row.lost}, {row.Left, row.left}} {
		if p.ListedBack != nil && end.at == row.lost {
			continue // that loss was taken back before this end
		}
		if end.said.Said && !end.said.Day.Known() { // of one with a day it was told when the day came
			w.fault(f, end.at, endingCodes[p.gone], fmt.Sprintf("%s %s on %s, by a check-in", p.Specimen.ID, p.gone, p.on),
				"nothing in the list beside that", "leave it out here: the check-in says it", p.ended("it "+p.gone.String()+" here"))
		}
	}
}
