package cohort

import (
	"math"

	"wardian/build/survival"
)

// wideDays is the length of an interval, in days, beyond which the day of a loss is
// called open; wideShare is the least part of the losses with such intervals for
// which boxes are shown (measures: Survival).
const (
	wideDays  = 7
	wideShare = 5 // a fifth
)

// Boxes are a scope's losses laid where looks leave their days open.
type Boxes struct {
	survival.Boxes
	Lost, Wide int // losses; those whose interval is longer than 7 days
}

// Boxes is Turnbull's estimate of when a scope's losses came: each lies in (A, B], A
// the last day that surely saw a part alive, B the day on which the last was found
// lost. A line that isn't lost is known to live to the day on which it leaves, an open
// one to the as-of day, as in Curve: else a loss that is logged on its own, a day after
// a round, would take the share of all to 0. shown is false where fewer than a fifth of
// the losses have an interval longer than 7 days (the curve says it better then), where
// nobody was lost, and where the estimate found no maximum.
func (s Scope) Boxes() (b Boxes, shown bool) {
	spans := make([]survival.Span, len(s.Lines))
	for n, l := range s.Lines {
		if l.Fate != Lost {
			spans[n] = survival.Span{Left: float64(max(l.Day, 0)), Right: math.Inf(1)}
			continue
		}
		day := max(l.Day, 0)
		after := max(-1, min(l.After, day-1))
		spans[n] = survival.Span{Left: float64(after), Right: float64(day)}
		b.Lost++
		if day-after > wideDays {
			b.Wide++
		}
	}
	if b.Lost == 0 || b.Wide*wideShare < b.Lost {
		return b, false
	}
	b.Boxes = survival.Turnbull(spans)
	return b, b.Converged
}
