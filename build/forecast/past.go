package forecast

import (
	"math"

	"wardian/build/survival"
)

// Import is what one past import says of a day: of Lines plants Alive were
// alive on it. Where every fate is known these are plain counts; where some are
// not, they are the equivalent of counts (see Followed) and needn't be whole.
// 0 ≤ Alive ≤ Lines and Lines > 0; the functions below make no other.
type Import struct {
	Alive, Lines float64
}

// usable says that i can be learned from.
func (i Import) usable() bool {
	return i.Lines > 0 && i.Alive >= 0 && i.Alive <= i.Lines && !math.IsInf(i.Lines, 0)
}

// Counted is an import of which alive of known plants were alive on the day and
// nobody's fate is unknown. ok is false where the counts can't be (nobody, a
// number below 0, more alive than known).
func Counted(alive, known int) (i Import, ok bool) {
	i = Import{float64(alive), float64(known)}
	return i, i.usable()
}

// Estimated makes counts of an estimated share of an import alive on a day: a
// binomial share of n plants has the variance share·(1−share)/n, so the estimate
// is worth n* = share·(1−share)/variance plants, y* = n*·share of them alive.
// This is the effective sample size of a product limit with Greenwood's variance
// (of the share itself, its standard error squared; Cutler and Ederer 1958, J
// Chronic Dis 8:699-712, from memory). With nobody unknown it is the plain
// counts again. A share of 0 or 1 has no such variance; there n* is known, the
// number of plants whose state on the day is known. ok is false where nothing
// usable comes of it: a share outside 0 to 1, a variance that isn't above 0
// where one is needed, nobody known where that is.
func Estimated(share, variance float64, known int) (i Import, ok bool) {
	if !(share >= 0 && share <= 1) {
		return Import{}, false
	}
	lines := float64(known)
	if share > 0 && share < 1 {
		if !(variance > 0) {
			return Import{}, false
		}
		lines = share * (1 - share) / variance
	}
	i = Import{lines * share, lines}
	return i, i.usable()
}

// Followed makes counts of the follow-up of one import's lines to day horizon:
// plain counts if every line was lost by then or followed up to it, else those
// of Estimated from the product limit. A line that left on the day itself was
// seen alive on it.
//
// ok is false for nobody and where the product limit doesn't reach the day: no
// line was followed up to it and the last one followed had left alive. The share
// would be that of an earlier day. It panics, as survival.ProductLimit does, if
// a time is NaN, infinite or below 0.
func Followed(lines []survival.Subject, horizon float64) (i Import, ok bool) {
	curve := survival.ProductLimit(lines)
	alive, lost := curve.AtRisk(horizon), curve.LostBy(horizon)
	for _, l := range lines {
		if l.Lost && l.Time == horizon {
			alive-- // lost on the day: at risk on it, not alive after it
		}
	}
	if alive+lost == len(lines) {
		return Counted(alive, alive+lost)
	}
	end := curve.At(horizon)
	if curve.AtRisk(horizon) == 0 && end.Share > 0 {
		return Import{}, false
	}
	return Estimated(end.Share, end.StdError*end.StdError, alive+lost)
}
