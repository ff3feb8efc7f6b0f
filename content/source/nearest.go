package source

import (
	"slices"
	"unicode/utf8"
)

// Nearest gives the word among candidates that was probably meant, or "" where
// none is near enough. A candidate is near enough if the lengths differ by at
// most max(2, 0.34 n) characters and the distance is at most 0.4 n, n being the
// length of the word that was written: the rule of the TypeScript compiler's
// spelling suggestions (from memory of its source), which offers nothing for
// unrelated words. One thing is asked beyond it: in a word of eight letters or
// fewer, two edits must stand beside one another ("leafs" for "leaves"), so that
// three of its four letters are those at the ends of the other; else many short
// words would be taken for one another, police for place and pirate for private.
// Equal distances go to the candidate that comes first, except that one
// with the same first letter comes before one without.
//
// The word itself is never offered, except in other letters' case: a word that
// differs by case alone is at distance 0.
func Nearest(word string, candidates []string) string {
	w := fold(word)
	n := float64(len(w))
	longest := max(2, int(0.34*n))
	best, bestDistance, bestFirst := "", 0.4*n, false
	row := make([]int, 0, 3*32)
	for _, c := range candidates {
		if c == word {
			continue
		}
		// Lengths first: they cost nothing, and bytes bound characters.
		length := utf8.RuneCountInString(c)
		if length-len(w) > longest || len(w)-length > longest {
			continue
		}
		folded := fold(c)
		d := float64(distance(w, folded, int(bestDistance), &row))
		if d > 1 && len(w) <= short && !alikeAtEnds(w, folded) {
			continue
		}
		first := startsAlike(w, c)
		if d < bestDistance || d == bestDistance && (best == "" || first && !bestFirst) {
			best, bestDistance, bestFirst = c, d, first
		}
	}
	return best
}

// short is the length up to which a word with two slips must be like the other
// at its ends.
const short = 8

// alikeAtEnds tells whether three of four letters of a word are those before the
// first difference from another and behind the last. Hyphens and spaces aren't
// counted: people leave them out.
func alikeAtEnds(word, other []rune) bool {
	a, b := joined(word), joined(other)
	n, least := 0, min(len(a), len(b))
	for n < least && a[n] == b[n] {
		n++
	}
	behind := 0
	for n+behind < least && a[len(a)-1-behind] == b[len(b)-1-behind] {
		behind++
	}
	return 4*(n+behind) >= 3*len(a)
}

func joined(word []rune) []rune {
	return slices.DeleteFunc(slices.Clone(word), func(r rune) bool { return r == '-' || r == ' ' })
}

// fold spreads a word into characters with the case taken off ASCII letters.
func fold(word string) []rune {
	out := []rune(word)
	for i, r := range out {
		if 'A' <= r && r <= 'Z' {
			out[i] = r + 'a' - 'A'
		}
	}
	return out
}

// distance is the restricted Damerau–Levenshtein distance: the least number of
// letters put in, left out, changed, or swapped with their neighbour, where no
// letter is touched twice. Beyond limit it gives limit + 1. A buffer is handed in
// so that a search through many words allocates once.
func distance(a, b []rune, limit int, buffer *[]int) int {
	width := len(b) + 1
	if need := 3 * width; cap(*buffer) < need {
		*buffer = make([]int, need)
	}
	rows := (*buffer)[:3*width]
	before, above, row := rows[:width], rows[width:2*width], rows[2*width:]
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			d := min(above[j]+1, row[j-1]+1, above[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, before[j-2]+1)
			}
			row[j] = d
			least = min(least, d)
		}
		if least > limit {
			return limit + 1
		}
		before, above, row = above, row, before
	}
	return min(above[len(b)], limit+1)
}

// startsAlike says whether a folded word and a candidate open with one letter.
func startsAlike(w []rune, c string) bool {
	r, size := utf8.DecodeRuneInString(c)
	return len(w) > 0 && size > 0 && w[0] == fold(string(r))[0]
}
