// Package taxon sets botanical names by the custom of herbaria: genus and epithets
// in italics; ranks, cf., aff., sp., the hybrid sign, cultivars and provisional
// tags upright; cf. and aff. never parted from the epithet they doubt (names of
// wild plants: International Code of Nomenclature, Shenzhen 2018, which leaves
// italics to editors; of cultivated plants: ICNCP, 9th edition, 2016). It refuses
// to judge whether a name is right.
package taxon

import (
	"html"
	"html/template"
	"strings"
	"unicode"
	"unicode/utf8"
)

// connecting terms stand upright among the italics.
var connecting = map[string]bool{
	"cf.": true, "aff.": true, "sp.": true, "spp.": true, "subsp.": true, "ssp.": true, "var.": true,
	"f.": true, "nothosp.": true, "×": true, "+": true, "ex": true, "hybrid": true, "gx": true, "grex": true, "Group": true,
}

// Name sets a botanical name.
func Name(name string) template.HTML { return setName(Words(name)) }

// ShortName sets a name with its genus cut to the initial, where an epithet or a
// cultivar follows that can tell it by itself: "H. callistophylla".
//
// It stands in narrow cells, so its long words may part.
func ShortName(name string) template.HTML {
	words := shorten(Words(name))
	for i, w := range words {
		words[i] = soften(w)
	}
	return setName(words)
}

// soften puts soft hyphens into a long Latin word before a consonant between two
// vowels (ch, ph, rh and th are one), never within three letters of its ends
// (common practice in setting Latin, no source).
func soften(word string) string {
	const longWord = 12
	if len(word) < longWord {
		return word
	}
	vowel := func(i int) bool { return strings.IndexByte("aeiouy", word[i]) >= 0 }
	var b strings.Builder
	for i := range len(word) {
		if i > 3 && i < len(word)-3 && vowel(i-1) && !vowel(i) && word[i] >= 'a' && word[i] <= 'z' {
			next := i + 1
			if word[next] == 'h' {
				next++
			}
			if vowel(next) {
				b.WriteString("\u00ad")
			}
		}
		b.WriteByte(word[i])
	}
	return b.String()
}

// ShortWords is ShortName as plain words.
func ShortWords(name string) string { return strings.Join(shorten(Words(name)), " ") }

// Genus is the first word of a name that is one; "" where there is none.
func Genus(name string) string {
	for _, w := range Words(name) {
		w = strings.TrimPrefix(w, "×")
		if r, _ := utf8.DecodeRuneInString(w); w != "" && unicode.IsUpper(r) {
			return w
		}
	}
	return ""
}

// Words parts a name into words, single quotes curled and a lone x between
// words read as the hybrid sign.
func Words(name string) []string {
	words := strings.Fields(name)
	for i, w := range words {
		if (w == "x" || w == "X") && i > 0 && i < len(words)-1 {
			w = "×"
		}
		if strings.HasPrefix(w, "'") {
			w = "‘" + w[1:]
		}
		if strings.HasSuffix(w, "'") {
			w = strings.TrimSuffix(w, "'") + "’"
		}
		words[i] = w
	}
	return words
}

func shorten(words []string) []string {
	if len(words) < 2 || words[1] == "sp." || words[1] == "spp." || words[1] == "hybrid" {
		return words
	}
	r, size := utf8.DecodeRuneInString(words[0])
	if !unicode.IsUpper(r) || size == len(words[0]) {
		return words
	}
	return append([]string{string(r) + "."}, words[1:]...)
}

func setName(words []string) template.HTML {
	var b strings.Builder
	upright := rune(0) // the quote that closes an upright stretch
	for i, w := range words {
		if i > 0 {
			if doubted := words[i-1]; doubted == "cf." || doubted == "aff." {
				b.WriteString("&nbsp;")
			} else {
				b.WriteByte(' ')
			}
		}
		first, _ := utf8.DecodeRuneInString(w)
		if upright == 0 {
			switch first {
			case '‘':
				upright = '’'
			case '"', '“':
				upright = '"'
			}
		}
		if upright != 0 || connecting[w] || first == '(' || i > 0 && unicode.IsUpper(first) && words[i-1] != "×" {
			b.WriteString(html.EscapeString(w))
		} else {
			sign := ""
			if rest, ok := strings.CutPrefix(w, "×"); ok && rest != "" {
				sign, w = "×", rest
			}
			b.WriteString(sign + `<i class="taxon">` + html.EscapeString(w) + `</i>`)
		}
		last, _ := utf8.DecodeLastRuneInString(w)
		if upright != 0 && (last == upright || upright == '"' && last == '”') {
			upright = 0
		}
	}
	return template.HTML(b.String())
}
