package content

import (
	"fmt"

	"wardian/content/measure"
	"wardian/content/source"
)

// noEnd tells everything.
const noEnd = measure.NoDay

// judgeBegun says whether a specimen can be looked at: a section exists from
// its cut on.
func (w *walk) judgeBegun(p *plant, c *CheckIn) bool {
	if p.begun {
		return true
	}
	s := p.Specimen
	if s.Parent == nil || w.report == nil || p.early {
		return s.Parent == nil // an import whose arrival can't be read has its own finding
	}
	p.early = true
	e := c.Entry
	cut := "its cut from " + s.Parent.ID
	if s.CutOn.Known() {
		cut += " on " + s.CutOn.String()
	}
	var related []source.Related
	if s.CutBy != nil {
		related = append(related, source.Related{File: s.CutBy.File.Path, Start: s.CutBy.Spans.Of("date", s.CutBy.Head).Start, Message: "it was cut here"})
	}
	at := c.Span
	if !e.Round {
		at = e.Spans.Of("date", e.Head)
	}
	w.fault(e.File, at, "before-cut", c.ID+" didn't exist on "+e.When.String(), "a moment after "+cut,
		"set right the one date or the other", related...)
	return false
}

// judgeLook judges a look before it is taken in.
func (w *walk) judgeLook(p *plant, c *CheckIn, l *Look) {
	if w.report == nil {
		return
	}
	w.judgeOrder(p, c)
	w.judgeEnding(p, c, l)
	w.judgeMove(p, c, l)
	w.judgeFigures(p, c, l)
	w.judgeArrival(p, c, l)
	w.judgeLastDays(p, c, l)
	p.named = c
}

// judgeOrder warns of two check-ins of one day whose order nobody said.
func (w *walk) judgeOrder(p *plant, c *CheckIn) {
	had := p.named
	if had == nil || had.Entry == c.Entry || had.Entry.When.Day != c.Entry.When.Day ||
		had.Entry.When.Timed() || c.Entry.When.Timed() {
		return
	}
	at := c.Span
	if !c.Entry.Round {
		at = c.Entry.Spans.Of("date", c.Entry.Head)
	}
	w.fault(c.Entry.File, at, "order-unsaid", "two check-ins of "+c.ID+" on one day without a time",
		"a time of day with the date, as in "+c.Entry.When.Day.String()+" 18:30", "write the time behind both dates",
		source.Related{File: had.Entry.File.Path, Start: had.Span.Start, Message: "the other stands here, and is read first"})
}

// judgeEnding tells of a check-in of a specimen that isn't there any more.
func (w *walk) judgeEnding(p *plant, c *CheckIn, l *Look) {
	e := c.Entry
	back := l.Outcome == AliveAfterAll
	switch {
	case back && (p.gone == goneLost || p.listedLost()):
		p.told = stillThere
		return
	case back:
		message := c.ID + " wasn't found lost before"
		if p.gone != stillThere {
			message = fmt.Sprintf("%s %s, which isn't a loss", c.ID, p.gone)
		}
		w.fault(e.File, c.says("outcome"), "no-loss-to-take-back", message,
			"alive after all only after outcome: lost", "leave it out: a check-in says that it is alive")
		return
	case p.gone == stillThere:
		if l.Outcome == Lost && len(l.CutInto) > 0 && !dividedBy(l) {
			w.fault(e.File, c.says("outcome"), "lost-and-living", c.ID+" is among its own pieces, so it lives on, and is lost",
				"one of the two", "leave "+c.ID+" out of cut-into, or leave out lost")
		}
		return
	case p.told == p.gone:
		return
	}
	if p.gone == goneLost && len(l.CutInto) > 0 && l.Outcome != Lost {
		// A piece may be cut on the day its parent is found lost.
		if e.When.Day > p.on {
			p.told = p.gone
			w.fault(e.File, c.says("cut-into"), "cut-after-loss", fmt.Sprintf("%s was found lost on %s", c.ID, p.on),
				"a cut up to that day", "set right the one date or the other", p.ended("it was found lost here"))
		}
		return
	}
	p.told = p.gone
	code, hint := "after-loss", "write outcome: alive after all if it lives"
	switch {
	case p.gone == goneDivided:
		code, hint = "after-dividing", "write the section that was looked at, such as "+p.over.CutInto[0].ID
	case p.gone == gonePassedOn:
		code, hint = "after-passing-on", "leave it out, or take passed on out of the earlier check-in"
		if p.over == nil {
			hint = "leave it out, or take the day out of the list"
		}
	case l.Outcome == Lost:
		hint = "leave one of the two losses out"
	case e.Round:
		hint = "write alive after all on its line if it lives"
	}
	at := c.Span
	if l.Outcome == Lost {
		at = c.says("outcome")
	}
	w.fault(e.File, at, code, fmt.Sprintf("%s %s on %s", c.ID, p.gone, p.on),
		"no check-in of it after that", hint, p.ended("it "+p.gone.String()+" here"))
}

// judgeMove judges where a look brings its specimen.
func (w *walk) judgeMove(p *plant, c *CheckIn, l *Look) {
	e := c.Entry
	at := p.at
	if l.To != nil {
		switch {
		case l.To.Unfinished && !e.Unfinished:
			w.unfinishedPlace(e, c.says("to"), l.To)
		case p.gone == stillThere && l.To == p.at:
			w.fault(e.File, c.says("to"), "already-there", c.ID+" stands at "+l.To.ID+" already",
				"a move to another place", "leave it out")
		case p.gone == stillThere && p.at == nil && p.before(l) != nil:
			w.fault(e.File, c.says("to"), "from-nowhere", "nobody said where "+c.ID+" stood before this move",
				"place: in one of its earlier check-ins", "write place: and where it stood there", earlier(p.before(l), "it was looked at here"))
		}
		at = l.To
	}
	if l.Medium != "" && l.Medium != "water" && at != nil && at.Stage == Soak {
		w.fault(e.File, c.says("medium"), "medium-in-soak", "in "+at.ID+", a soak, the roots are in water",
			"water, or no medium", "leave it out")
	}
	w.judgeSoak(p, c, l)
}

// before is the look before one that was just begun, or nil.
func (p *plant) before(l *Look) *Look {
	for n := len(p.Looks) - 1; n >= 0; n-- {
		if p.Looks[n] != l && p.Looks[n].When.Day < l.When.Day {
			return p.Looks[n]
		}
	}
	return nil
}

// judgeSoak compares the hours that a check-in tells with the moves into and
// out of a soak, where both have their time.
func (w *walk) judgeSoak(p *plant, c *CheckIn, l *Look) {
	n := len(p.Stays)
	if l.Soak == nil || l.To == nil || n == 0 || p.at == nil || p.at.Stage != Soak || l.To.Stage == Soak {
		return
	}
	for n > 1 && p.Stays[n-2].Place.Stage == Soak {
		n--
	}
	moved, ok := p.Stays[n-1].From.HoursUntil(l.When)
	if !ok {
		return
	}
	said := l.Soak.Value
	if apart := max(said-moved, moved-said); apart > 2 && apart > moved/4 {
		w.fault(c.Entry.File, c.says("soak"), "soak-against-moves", fmt.Sprintf("%g h of soaking, but it stood in %s for %.0f h", float64(said), p.at.ID, float64(moved)),
			"the hours between the moves in and out, which count", "leave it out, or set right a time",
			source.Related{File: c.Entry.File.Path, Start: c.Entry.Spans.Of("date", c.Entry.Head).Start, Message: "it came out by this date"})
	}
}
