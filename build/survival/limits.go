package survival

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// LimitKind is the scale on which the limits of a product-limit share are
// symmetric.
type LimitKind int

const (
	// LogLog limits are symmetric in ln(−ln S): they stay between 0 and 1 and
	// hold well with few subjects (Kalbfleisch and Prentice 1980, section 1.3).
	// They don't exist where the share is 0 or 1.
	LogLog LimitKind = iota
	// Log limits are symmetric in ln S, cut at 1; none where the share is 0.
	Log
	// Plain limits are symmetric in S, cut at 0 and 1; none where it is 0.
	Plain
)

// limiter holds what the limits of one curve have in common.
type limiter struct {
	kind LimitKind
	z    float64
}

func newLimiter(kind LimitKind, confidence float64) limiter {
	if confidence == 0 { // the zero Curve
		confidence = 0.95
	}
	return limiter{kind, normalQuantile(confidence)}
}

// of gives the limits of a share whose logarithm has the variance greenwood;
// the formulas stand side by side in Klein and Moeschberger 2003, section 4.3.
func (l limiter) of(share, greenwood float64) (lower, upper float64, ok bool) {
	if share == 0 || (share == 1 && l.kind == LogLog) {
		return 0, 0, false
	}
	half := l.z * math.Sqrt(greenwood)
	switch l.kind {
	case LogLog:
		ln := math.Log(share)
		w := math.Exp(half / ln) // below 1, for ln is negative
		return math.Exp(ln / w), math.Exp(ln * w), true
	case Log:
		w := math.Exp(half)
		return share / w, math.Min(1, share*w), true
	default:
		return math.Max(0, share-share*half), math.Min(1, share+share*half), true
	}
}

// normalQuantile is z for a two-sided interval: 1.959964 for 0.95. A
// confidence outside (0, 1) is a broken promise and panics.
func normalQuantile(confidence float64) float64 {
	if !(confidence > 0 && confidence < 1) {
		panic(fmt.Sprintf("survival: confidence %v is not between 0 and 1", confidence))
	}
	return -distuv.UnitNormal.Quantile((1 - confidence) / 2)
}
