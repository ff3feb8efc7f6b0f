package survival

import "math"

// Newcombe is the interval for the difference k1/n1 − k2/n2 of two independent
// shares, built from the two Wilson intervals (method 10 of Newcombe 1998,
// Stat Med 17:873-890). Where one side has nobody nothing is known of it, so
// ok is false. It panics if a k lies outside 0 to its n.
func Newcombe(k1, n1, k2, n2 int, confidence float64) (i Interval, ok bool) {
	return newcombe(k1, n1, k2, n2, confidence, Wilson)
}

// NewcombeCorrected is the same with continuity correction (method 11 of the
// same paper).
func NewcombeCorrected(k1, n1, k2, n2 int, confidence float64) (i Interval, ok bool) {
	return newcombe(k1, n1, k2, n2, confidence, WilsonCorrected)
}

func newcombe(k1, n1, k2, n2 int, confidence float64, single func(k, n int, confidence float64) Interval) (Interval, bool) {
	if noShare(k1, n1) || noShare(k2, n2) {
		return Interval{}, false
	}
	a, b := single(k1, n1, confidence), single(k2, n2, confidence)
	p, q := float64(k1)/float64(n1), float64(k2)/float64(n2)
	return Interval{
		p - q - math.Hypot(p-a.Lower, b.Upper-q),
		p - q + math.Hypot(a.Upper-p, q-b.Lower),
	}, true
}
