package cohort

import "wardian/build/survival"

// StatedDays are the days of the survival table.
var StatedDays = []int{7, 14, 28, 42, 56, 84}

// Kind tells which figures a row of the survival table can give.
type Kind int

const (
	// Counted: nobody's state is unknown; Alive of N with a Wilson interval.
	Counted Kind = iota
	// Estimated: some are unknown; the product-limit share with log-log
	// limits, and the range from all of them lost to all of them alive.
	Estimated
	// NotYet: the day lies after the as-of day of a line in the scope.
	NotYet
	// Over: no line was at risk on the day any more.
	Over
)

// Row is one stated day of the survival table. Alive + Lost + PassedOn +
// NotSeen = N.
type Row struct {
	Day                            int
	Kind                           Kind
	N                              int
	Alive, Lost, PassedOn, NotSeen int
	AtRisk                         int
	// Share is the share alive on the day, with 95 % limits: Wilson's where
	// Counted, the curve's log-log limits where Estimated. HasLimits is false
	// where the latter don't exist; then Lower and Upper are Wilson's for
	// those at risk (all of them alive, or none).
	Share, Lower, Upper float64
	HasLimits           bool
	// Least and Most are the numbers alive if all unknown were lost, and if
	// all were alive.
	Least, Most int
}

// Table is the survival table of a scope at the stated days.
func (s Scope) Table() []Row {
	rows := make([]Row, len(StatedDays))
	curve := s.Curve()
	for n, day := range StatedDays {
		rows[n] = s.row(curve, day)
	}
	return rows
}

// At is the survival table's row for any day.
func (s Scope) At(day int) Row { return s.row(s.Curve(), day) }

func (s Scope) row(curve survival.Curve, day int) Row {
	r := Row{Day: day, N: len(s.Lines), AtRisk: curve.AtRisk(float64(day))}
	for _, l := range s.Lines {
		if l.AsOfDay < day {
			r.Kind = NotYet
		}
		switch l.on(day) {
		case Open:
			r.Alive++
		case Lost:
			r.Lost++
		case PassedOn:
			r.PassedOn++
		case NotSeen:
			r.NotSeen++
		}
	}
	r.Least, r.Most = r.Alive, r.Alive+r.PassedOn+r.NotSeen
	switch {
	case r.Kind == NotYet:
	case r.N == 0 || r.AtRisk == 0 && r.Most > r.Least:
		r.Kind = Over
	case r.Most == r.Least:
		r.Kind = Counted
		w := survival.Wilson(r.Alive, r.N, 0.95)
		r.Share, r.Lower, r.Upper, r.HasLimits = float64(r.Alive)/float64(r.N), w.Lower, w.Upper, true
	default:
		r.Kind = Estimated
		e := curve.At(float64(day))
		r.Share, r.Lower, r.Upper, r.HasLimits = e.Share, e.Lower, e.Upper, e.HasLimits
		if !e.HasLimits {
			all := r.AtRisk
			if e.Share == 0 {
				all = 0
			}
			w := survival.Wilson(all, r.AtRisk, 0.95)
			r.Lower, r.Upper = w.Lower, w.Upper
		}
	}
	return r
}

// on tells what is known of a line on a day. A loss counts from the day it was
// found; a line that left counts as known up to the day it was last seen alive.
func (l *Line) on(day int) Fate {
	switch {
	case l.Fate == Lost && l.Day <= day:
		return Lost
	case l.Fate == Lost || l.Fate == Open && l.Day >= day || l.LastAlive >= day:
		return Open
	case l.Fate == PassedOn:
		return PassedOn
	default:
		return NotSeen
	}
}
