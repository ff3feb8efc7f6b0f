package photo

// turn is EXIF's orientation, 1 to 8: where the stored picture's row 0 and column 0 are when it is seen
// upright (Exif 2.32, tag 0x0112, from memory).
//
//	1 row 0 top, column 0 left      5 row 0 left, column 0 top
//	2 row 0 top, column 0 right     6 row 0 right, column 0 top
//	3 row 0 bottom, column 0 right  7 row 0 right, column 0 bottom
//	4 row 0 bottom, column 0 left   8 row 0 left, column 0 bottom
//
// Every one of them is a mirror of the stored columns or not, of the stored rows or not, and then rows for columns or
// not. The mirrors cost nothing here, since they are done in the resampler's weights.
type turn int

const upright turn = 1

// transposes tells whether rows become columns.
func (t turn) transposes() bool { return t >= 5 }

// mirrorsColumns tells whether the stored picture's left and right change places, before any transposing.
func (t turn) mirrorsColumns() bool { return t == 2 || t == 3 || t == 7 || t == 8 }

// mirrorsRows tells whether its top and bottom do.
func (t turn) mirrorsRows() bool { return t == 3 || t == 4 || t == 6 || t == 7 }

// transpose changes rows for columns. It goes by small squares, so that both sides stay in the cache.
func transpose(src []byte, w, h int) []byte {
	const side = 32
	dst := make([]byte, len(src))
	for y0 := 0; y0 < h; y0 += side {
		for x0 := 0; x0 < w; x0 += side {
			for y := y0; y < min(y0+side, h); y++ {
				for x := x0; x < min(x0+side, w); x++ {
					dst[x*h+y] = src[y*w+x]
				}
			}
		}
	}
	return dst
}
