package forecast

import "math"

// EachSurvivor is what every plant alive on the day would have cost, by the
// forecast, in the currency of the landed cost. A figure beside a false flag is
// 0 and means nothing.
type EachSurvivor struct {
	// Expected is landed ÷ the expected number alive.
	Expected float64
	// Low is landed ÷ the range's larger count; without HasLow that count is 0
	// too: "none survived".
	Low    float64
	HasLow bool
	// High is landed ÷ the range's smaller count; without HasHigh that count is
	// 0: the range ends in "none survived", which no cost per survivor is.
	High    float64
	HasHigh bool
}

// CostEach divides the landed cost of the whole order by the number alive: the
// expected one, and the ends of the range of counts that holds it with at least
// confidence. Expected isn't the mean of the costs, which doesn't exist where
// none may survive. ok is false for a cost below 0, one that isn't a number or
// is too large for the answer to be one, and for an order of nothing. It panics
// on a confidence as Range does.
func (c Count) CostEach(landed, confidence float64) (e EachSurvivor, ok bool) {
	r := c.Range(confidence)
	if !(landed >= 0) || c.Expected <= 0 || math.IsInf(landed/c.Expected, 0) {
		return EachSurvivor{}, false
	}
	e.Expected = landed / c.Expected
	if r.High > 0 {
		e.Low, e.HasLow = landed/float64(r.High), true
	}
	if r.Low > 0 {
		e.High, e.HasHigh = landed/float64(r.Low), true
	}
	return e, true
}
