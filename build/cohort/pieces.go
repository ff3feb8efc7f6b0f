package cohort

import "slices"

// PieceCount counts the pieces that were cut from one part of the plant: Saved +
// Lost = Cut. Pieces of one plant share its luck, so they are counted and no more.
type PieceCount struct {
	Position string // top, middle, base, offset, division, growing point; "" where nobody said
	Cut      int    // pieces cut, but for those that were cut up again: their own pieces count
	Saved    int    // alive when last seen, or passed on
	Lost     int
}

// positions are where a piece can come from, in the order of tables (common
// practice, no source).
var positions = []string{"top", "middle", "base", "offset", "division", "growing point", ""}

// Pieces counts the sections of a scope's lines by the part of the plant they were
// cut from; a position that nothing was cut from is left out. A list tells of none.
func (s Scope) Pieces() []PieceCount {
	counts := make([]PieceCount, len(positions))
	for _, l := range s.Lines {
		for _, p := range l.Sections() {
			n := max(slices.Index(positions, p.Specimen.Position), 0)
			if p.Specimen.Position == "" {
				n = len(positions) - 1
			}
			switch c := &counts[n]; p.Fate {
			case Divided:
			case Lost:
				c.Cut, c.Lost = c.Cut+1, c.Lost+1
			default:
				c.Cut, c.Saved = c.Cut+1, c.Saved+1
			}
		}
	}
	var out []PieceCount
	for n, c := range counts {
		if c.Position = positions[n]; c.Cut > 0 {
			out = append(out, c)
		}
	}
	return out
}
