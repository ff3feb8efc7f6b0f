package chart

import "testing"

// Aim: 150 µs a drawing, so that a site of 500 pages spends less than a tenth
// of a second on them.

func BenchmarkSoilLine(b *testing.B) {
	s := wholeSoil()
	for b.Loop() {
		s.Draw()
	}
}

func BenchmarkSoilLine200Days(b *testing.B) {
	s := longSoil()
	for b.Loop() {
		s.Draw()
	}
}

func BenchmarkThumbs14(b *testing.B) {
	s := sampleThumbs()
	for b.Loop() {
		s.Draw()
	}
}

func BenchmarkRows7(b *testing.B) {
	s := sampleRows()
	for b.Loop() {
		s.Draw()
	}
}

func BenchmarkCurve(b *testing.B) {
	s := importCurve()
	for b.Loop() {
		s.Draw()
	}
}

func BenchmarkCurves3(b *testing.B) {
	s := threeSeasons()
	for b.Loop() {
		s.Draw()
	}
}

func BenchmarkTree(b *testing.B) {
	s := sampleTree()
	for b.Loop() {
		s.Draw()
	}
}

func BenchmarkPlace84(b *testing.B) {
	s := samplePlace(84)
	for b.Loop() {
		s.Draw()
	}
}

func BenchmarkWhisker(b *testing.B) {
	for b.Loop() {
		Whisker(Interval{.64, .39, .84})
	}
}
