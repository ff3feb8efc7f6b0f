package content

import (
	"fmt"
	"slices"

	"wardian/content/source"
)

// judgeDays judges the days that an entry of any kind holds beside its own.
func (w *walk) judgeDays(e *Entry) {
	for _, a := range e.Amended {
		if a.Date < e.When.Day {
			w.fault(e.File, e.Spans.Of("amended."+a.Date.String(), e.Spans.Of("amended", e.Head)), "days-out-of-order",
				"amended on "+a.Date.String()+", before the entry's own date", "a day from "+e.When.Day.String()+" on", "look at both days")
		}
	}
	if e.Place != nil && e.Place.Unfinished && !e.Unfinished {
		w.unfinishedPlace(e, e.Spans.Of("place", e.Head), e.Place)
	}
}

// unfinishedPlace tells of an entry that would be shown without its place.
func (w *walk) unfinishedPlace(e *Entry, at source.Span, place *Place) {
	w.fault(e.File, at, "unfinished-named", place.ID+" is unfinished, and this entry isn't",
		"a place that is shown", "take unfinished out of places/"+place.ID+".md, or write unfinished: yes here")
}

// judgeEntry judges an entry as a whole, when everything that it names is told:
// its days, specimens that weren't there yet, a place that is a move, a round that
// speaks for nobody.
func (w *walk) judgeEntry(e *Entry) {
	w.judgeDays(e)
	if e.PlaceNote() {
		return
	}
	named := named(e)
	w.judgeNamedTwice(e, named)
	w.judgeEarly(e, named)
	w.judgePlace(e, named)
	w.judgeRound(e, named)
}

// judgeEarly tells of specimens that hadn't come. Where all of a round's
// hadn't, its date is the one cause.
func (w *walk) judgeEarly(e *Entry, named []*CheckIn) {
	var early []*CheckIn
	for _, c := range named {
		p := w.byID[c.ID]
		if p == nil || p.Specimen.Parent != nil {
			continue
		}
		if i := p.Specimen.Import; i != nil && i.Arrived.Known() && e.When.Day < i.Day0() {
			early = append(early, c)
		}
	}
	if len(early) == 0 {
		return
	}
	tell := func(c *CheckIn, at source.Span, who string) {
		i := w.byID[c.ID].Specimen.Import
		w.fault(e.File, at, "before-arrival", fmt.Sprintf("%s here yet on %s", who, e.When.Day),
			"a day from "+i.Day0().String()+" on, when "+i.ID+" arrived", "set right this date, or arrived: in "+i.File.Path,
			source.Related{File: i.File.Path, Start: i.Spans.Of("arrived", i.Head).Start, Message: "it arrived here"})
	}
	if len(early) == len(named) {
		tell(early[0], e.Spans.Of("date", e.Head), several(early, "wasn't", "weren't"))
		return
	}
	for _, c := range early {
		tell(c, c.Span, c.ID+" wasn't")
	}
}

// strayed is a check-in made at another place than where its specimen stands.
type strayed struct {
	in    *CheckIn
	stand *Place
}

// judgeStanding remembers, before a check-in is taken in, whether it is made
// where its specimen stands. The first check-in at a wrong place tells it.
func (w *walk) judgeStanding(p *plant, c *CheckIn) {
	at := c.Entry.Place
	switch {
	case w.report == nil || at == nil:
	case p.at == at:
		p.wrong = nil
	case !p.begun || p.at == nil || p.gone != stillThere && (p.gone != goneLost || c.Outcome != AliveAfterAll):
	case p.wrong != at:
		p.wrong = at
		p.strayed = append(p.strayed, strayed{c, p.at})
	}
}

// judgePlace tells of an entry made at another place than where a specimen
// stands. Where that holds for all that a round names, and they stand together,
// the round's place is the one cause.
func (w *walk) judgePlace(e *Entry, named []*CheckIn) {
	var astray []*CheckIn
	var stands []*Place
	for _, c := range named {
		if p := w.byID[c.ID]; p != nil {
			for _, s := range p.strayed {
				if s.in == c {
					astray, stands = append(astray, c), append(stands, s.stand)
				}
			}
		}
	}
	if len(astray) == 0 {
		return
	}
	if together := len(slices.Compact(slices.Clone(stands))) == 1; !e.Round || together && len(astray) == len(named) {
		w.astray(e, astray[0], e.Spans.Of("place", e.Head), several(astray, "stands", "stand"), stands[0])
		return
	}
	for n, c := range astray {
		w.astray(e, c, c.Span, c.ID+" stands", stands[n])
	}
}

// several opens a sentence on one specimen or more.
func several(of []*CheckIn, one, many string) string {
	if len(of) == 1 {
		return of[0].ID + " " + one
	}
	return fmt.Sprintf("%s and %d more %s", of[0].ID, len(of)-1, many)
}

func (w *walk) astray(e *Entry, c *CheckIn, at source.Span, who string, stand *Place) {
	hint := "write to: " + e.Place.ID
	switch {
	case c.To != nil:
		hint = "write place: " + stand.ID
	case e.Round && at == c.Span:
		hint = "write to " + e.Place.ID + " on its line"
	}
	w.fault(e.File, at, "place-for-to", fmt.Sprintf("%s at %s, and no move to %s is told", who, stand.ID, e.Place.ID),
		"the place where it stands; a move is written to:", hint)
}
