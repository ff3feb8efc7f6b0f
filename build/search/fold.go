package search

import (
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// single are letters that no decomposition takes a mark off, with what people
// type instead.
var single = map[rune]string{
	'ø': "o", 'æ': "ae", 'œ': "oe", 'ß': "ss", 'ł': "l", 'đ': "d", 'ð': "d", 'þ': "th", 'ı': "i", 'ħ': "h", 'ŋ': "n", '×': "x",
}

// word is a run of letters and digits, folded, with the byte at which it begins.
type word struct {
	text string
	at   int
}

// split cuts a text into words.
func split(text string) []word {
	var out []word
	var current []byte
	start := -1
	end := func() {
		if start >= 0 && len(current) > 0 {
			out = append(out, word{string(current), start})
		}
		current, start = current[:0], -1
	}
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || r == '×':
			if start < 0 {
				start = i
			}
			current = fold(current, r)
		case unicode.Is(unicode.Mn, r) && start >= 0: // a mark written apart from its letter
		default:
			end()
		}
		i += size
	}
	end()
	return out
}

// fold adds a letter without its case and its marks.
func fold(to []byte, r rune) []byte {
	if r < utf8.RuneSelf {
		return append(to, byte(unicode.ToLower(r)))
	}
	r = unicode.ToLower(r)
	if plain, ok := single[r]; ok {
		return append(to, plain...)
	}
	var one [utf8.UTFMax]byte
	n := utf8.EncodeRune(one[:], r)
	for _, part := range string(norm.NFD.Bytes(one[:n])) {
		if plain, ok := single[part]; ok {
			to = append(to, plain...)
		} else if !unicode.Is(unicode.Mn, part) {
			to = utf8.AppendRune(to, part)
		}
	}
	return to
}
