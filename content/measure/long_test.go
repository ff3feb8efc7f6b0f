package measure

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"wardian/content/patience"
)

// A text of 64 KiB, whatever is in it, is answered within a second.
func TestLongTexts(t *testing.T) {
	const size = 64 << 10
	for _, piece := range []string{"9", "0", ",5", "~", " ", "x8", "-", "1_", "about ", "2024-05-10..", "ca.", "€", "\xff", "1.", "%"} {
		text := strings.Repeat(piece, size/len(piece))
		for name, parse := range parsers {
			began := time.Now()
			trouble := parse(text)
			assert.Less(t, time.Since(began), patience.For(0), "%s of %q", name, piece)
			if piece == "0" && trouble == nil {
				continue // nought, at length
			}
			if assert.NotNil(t, trouble, "%s of %q", name, piece) {
				assert.Less(t, len(trouble.Message), 250)
			}
		}
	}
}

func BenchmarkParseLength(b *testing.B) {
	for b.Loop() {
		ParseLength("~14.5 cm", Units{})
	}
}

func BenchmarkParseMoment(b *testing.B) {
	for b.Loop() {
		ParseMoment("2026-04-06 18:30")
	}
}
