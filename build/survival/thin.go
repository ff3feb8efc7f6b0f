package survival

// fewest is the number at risk below which a curve is thin, whatever its size.
const fewest = 5

// ThinFrom is the day after which fewer than 5, or fewer than a tenth of all,
// are at risk: from there on the curve hangs on a few lines and is drawn
// dashed. ok is false where that never happens before its last day. The bounds
// are common practice, no source.
func (c Curve) ThinFrom() (day float64, ok bool) {
	if c.N == 0 {
		return 0, false
	}
	thin := func(n int) bool { return n < fewest || 10*n < c.N }
	if thin(c.N) {
		return 0, true
	}
	for i, s := range c.Steps {
		if i+1 < len(c.Steps) && thin(s.AtRisk-s.Lost-s.Left) {
			return s.Time, true
		}
	}
	return 0, false
}

// OneMoreLoss is how far the share would fall if one more were lost on day:
// share ÷ number at risk (Gebski et al. 2018, Int J Epidemiol 47:850-859, from
// memory). ok is false with nobody at risk.
func (c Curve) OneMoreLoss(day float64) (fall float64, ok bool) {
	n := c.AtRisk(day)
	if n == 0 {
		return 0, false
	}
	// The share just before: losses of that day are at risk with the others.
	share := 1.0
	for _, s := range c.Steps {
		if s.Time >= day {
			break
		}
		share = s.Share
	}
	return share / float64(n), true
}
