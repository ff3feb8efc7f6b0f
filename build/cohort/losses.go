package cohort

import (
	"math"
	"sort"
	"strings"

	"wardian/build/survival"
	"wardian/content"
)

// Stretch is a run of days in which losses are counted, of those alive at its
// start.
type Stretch struct {
	From, To int  // days, both included
	Lost     int  // found lost in them
	Of       int  // not known lost before From, and not left before it
	Reached  bool // every line has been followed, or was lost or left, up to To
}

// stretches are the runs of days of "when losses come".
var stretches = [][2]int{{0, 7}, {8, 14}, {15, 28}, {29, 56}, {57, 84}}

// WhenLost counts the losses of a scope by the days on which they were found.
// A stretch that begins after every line's watch ended is left out.
func (s Scope) WhenLost() []Stretch {
	var out []Stretch
	for _, days := range stretches {
		r := Stretch{From: days[0], To: days[1], Reached: true}
		for _, l := range s.Lines {
			if max(l.Day, 0) < r.From {
				continue
			}
			r.Reached = r.Reached && (l.Fate != Open || l.Day >= r.To)
			r.Of++
			if l.Fate == Lost && l.Day <= r.To {
				r.Lost++
			}
		}
		if r.Of > 0 {
			out = append(out, r)
		}
	}
	return out
}

// CauseRow is one cause of loss and the lines lost to it.
type CauseRow struct {
	Cause string // "rot", "rot and cold", "dead on arrival", "unknown"
	Lines []*Line
	// Doubted counts those whose cause was written with a question mark.
	Doubted int
}

// CauseWords names a cause: "rot", "rot and cold", or the grower's own words;
// "" where nothing was said.
func CauseWords(c content.Cause) string {
	words := make([]string, len(c.Words))
	for i, w := range c.Words {
		words[i] = strings.TrimPrefix(w, "other ")
	}
	return strings.Join(words, " and ")
}

// OnArrivalWord is the row among the causes for plants found dead when they
// were unpacked.
const OnArrivalWord = "dead on arrival"

// Causes counts the lost lines by cause, most first, then by the word.
func (s Scope) Causes() []CauseRow { return s.CausesUpTo(math.MaxInt) }

// CausesUpTo counts those found lost up to and on a day: what is compared on a day
// counts nothing later.
func (s Scope) CausesUpTo(day int) []CauseRow {
	at := map[string]int{}
	var rows []CauseRow
	for _, l := range s.Lines {
		if l.Fate != Lost || l.Day > day {
			continue
		}
		word := CauseWords(l.Cause)
		switch {
		case l.OnArrival:
			word = OnArrivalWord
		case word == "":
			word = "unknown"
		}
		n, ok := at[word]
		if !ok {
			n = len(rows)
			at[word] = n
			rows = append(rows, CauseRow{Cause: word})
		}
		rows[n].Lines = append(rows[n].Lines, l)
		if l.Cause.Doubt {
			rows[n].Doubted++
		}
	}
	sort.SliceStable(rows, func(a, b int) bool {
		if len(rows[a].Lines) != len(rows[b].Lines) {
			return len(rows[a].Lines) > len(rows[b].Lines)
		}
		return rows[a].Cause < rows[b].Cause
	})
	return rows
}

// Later says what became of those alive on one day by another: Alive of Of.
// Unknown counts those of them who had left by then; Reached is false where the
// later day hasn't come for every line, or nobody was alive on the first.
type Later struct {
	From, To           int
	Alive, Of, Unknown int
	Reached            bool
}

// AliveFrom follows the lines seen alive on one day to another.
func (s Scope) AliveFrom(from, to int) Later {
	r := Later{From: from, To: to, Reached: true}
	for _, l := range s.Lines {
		r.Reached = r.Reached && l.AsOfDay >= to
		if l.on(from) != Open {
			continue
		}
		r.Of++
		switch l.on(to) {
		case Open:
			r.Alive++
		case PassedOn, NotSeen:
			r.Unknown++
		}
	}
	r.Reached = r.Reached && r.Of > 0
	return r
}

// Unseen are the lines that the figures miss: not looked at for longer than
// the rule allows, or never.
func (s Scope) Unseen() []*Line {
	var out []*Line
	for _, l := range s.Lines {
		if l.Fate == NotSeen {
			out = append(out, l)
		}
	}
	return out
}

// MeanDays is the restricted mean: the days alive within the first limit days,
// on average. The horizon is cut to the last day with a line at risk unless all
// were lost, and is given back; ok is false for nobody.
func (s Scope) MeanDays(limit int) (days float64, horizon int, ok bool) {
	curve := s.Curve()
	h := survival.CommonHorizon(float64(limit), curve)
	m, ok := curve.RestrictedMean(h)
	return m.Days, int(h), ok
}
