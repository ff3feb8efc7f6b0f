package paper

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rsc.io/qr/coding"
)

// modules reads a drawing back.
func modules(t *testing.T, svg string) (grid map[[2]int]bool, side int) {
	t.Helper()
	m := regexp.MustCompile(`viewBox="0 0 (\d+) (\d+)"`).FindStringSubmatch(svg)
	require.Len(t, m, 3)
	require.Equal(t, m[1], m[2])
	side, _ = strconv.Atoi(m[1])
	grid = map[[2]int]bool{}
	for _, run := range regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`).FindAllStringSubmatch(svg, -1) {
		var n [4]int
		for i := range n {
			n[i], _ = strconv.Atoi(run[i+1])
		}
		require.Equal(t, n[2], n[3])
		for x := range n[2] {
			grid[[2]int{n[0] + x, n[1]}] = true
		}
	}
	return grid, side
}

// ISO/IEC 18004: three finders of 7 modules, dark around light around dark 3;
// a timing line of alternating modules between them; a border of four modules.
func TestADrawingHasTheMarksOfACode(t *testing.T) {
	code, err := encode("https://example.org/sill/specimens/p-02.html")
	require.NoError(t, err)
	grid, side := modules(t, string(drawing(code, "x")))
	require.Equal(t, code.Size+8, side)
	finder := []string{"#######", "#.....#", "#.###.#", "#.###.#", "#.###.#", "#.....#", "#######"}
	for _, corner := range [][2]int{{4, 4}, {side - 11, 4}, {4, side - 11}} {
		for y, line := range finder {
			for x, want := range line {
				assert.Equal(t, want == '#', grid[[2]int{corner[0] + x, corner[1] + y}], "corner %v, %d %d", corner, x, y)
			}
		}
	}
	for n := 8; n < code.Size-8; n++ {
		assert.Equal(t, n%2 == 0, grid[[2]int{4 + n, 4 + 6}], n)
		assert.Equal(t, n%2 == 0, grid[[2]int{4 + 6, 4 + n}], n)
	}
	for at := range grid {
		for _, n := range at {
			assert.True(t, n >= quiet && n < side-quiet, at)
		}
	}
	for y := range code.Size {
		for x := range code.Size {
			require.Equal(t, code.Black(x, y), grid[[2]int{x + quiet, y + quiet}])
		}
	}
}

// The capacities at level Q in bytes are the standard's (ISO/IEC 18004:2015,
// table 7; from memory): version 1 holds 11, 4 holds 46, 10 holds 151, 40 holds
// 1663. A code of version V has 17 + 4 V modules a side.
func TestACodeIsAsSmallAsTheStandardAllows(t *testing.T) {
	for _, c := range []struct{ bytes, version int }{
		{11, 1}, {12, 2}, {46, 4}, {47, 5}, {151, 10}, {152, 11}, {1663, 40},
	} {
		code, err := encode(strings.Repeat("a", c.bytes))
		require.NoError(t, err)
		assert.Equal(t, 17+4*c.version, code.Size, c.bytes)
	}
	_, err := encode(strings.Repeat("a", 1664))
	assert.Error(t, err)
}

// lines makes a code of rows of # and dots.
func lines(rows ...string) *coding.Code {
	c := &coding.Code{Size: len(rows), Stride: (len(rows) + 7) / 8}
	c.Bitmap = make([]byte, c.Size*c.Stride)
	for y, row := range rows {
		for x, r := range row {
			if r == '#' {
				c.Bitmap[y*c.Stride+x/8] |= 1 << (7 - x%8)
			}
		}
	}
	return c
}

// Worked by hand from the standard's weights: a run of five 3 and each further
// module 1, a blot of two by two 3, a finder's pattern beside four light modules
// 40, each full five per cent away from half 10.
func TestPenalties(t *testing.T) {
	for _, c := range []struct {
		line string
		want int
	}{
		{"#.#.#.#", 0}, {"####.##", 0}, {"#####..", 3}, {"######.", 4}, {"#.###.#", 40}, {"#.###.#....", 40}, {"##.###.####", 0}, {"#.....#", 3}, {"#.###.#.#.#", 40},
	} {
		row := make([]bool, len(c.line))
		for i, r := range c.line {
			row[i] = r == '#'
		}
		assert.Equal(t, c.want, alongside(row), c.line)
	}
	assert.Equal(t, 0, penalty(lines("#.", ".#")))
	assert.Equal(t, 3+100, penalty(lines("##", "##")), "one blot, and half too much black")
	assert.Equal(t, 50, penalty(lines("#.", "..")), "a quarter too little")
	assert.Equal(t, 0, penalty(lines("#.#.", ".#.#", "#.#.", ".#.#")))
}

// No mask would have been better.
func TestTheMaskIsTheBest(t *testing.T) {
	masks := map[string]bool{}
	for n := range 20 {
		text := fmt.Sprintf("https://example.org/sill/specimens/p-%02d.html", n)
		best, err := encode(text)
		require.NoError(t, err)
		for mask := coding.Mask(0); mask < 8; mask++ {
			plan, err := coding.NewPlan(coding.Version((best.Size-17)/4), coding.Q, mask)
			require.NoError(t, err)
			code, err := plan.Encode(coding.String(text))
			require.NoError(t, err)
			assert.GreaterOrEqual(t, penalty(code), penalty(best))
			if string(code.Bitmap) == string(best.Bitmap) {
				masks[fmt.Sprint(mask)] = true
			}
		}
	}
	assert.Greater(t, len(masks), 2, "one mask isn't the best of all texts")
}

func BenchmarkEncode(b *testing.B) {
	for b.Loop() {
		if _, err := encode("https://example.org/sill/specimens/p-02.html"); err != nil {
			b.Fatal(err)
		}
	}
}
