package ledger

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// word is a word of a line.
type word struct {
	text    string // without its quotes or brackets
	written string
	quoted  bool // it stood in quotes: a cultivar's name
	bracket bool
}

var (
	leader  = regexp.MustCompile(`^\s*(?:[-*•]|\d{1,3}[.)])\s+`)
	closing = map[rune]string{'\'': "'’", '‘': "'’", '"': `"”`, '“': `"”`, '(': ")", '[': "]"}
)

// wordsOf parts a line at spaces, semicolons, bars and commas, but for a decimal
// comma and a price's ,-. What stands in quotes or brackets is one word. open is
// a quote that isn't closed.
func wordsOf(line string) (words []word, open string) {
	r := []rune(line)
	never := map[string]bool{} // ends that don't come any more
	for i := 0; i < len(r); {
		if parts(r, i) {
			i++
			continue
		}
		if ends := closing[r[i]]; ends != "" && never[ends] {
			i++
			continue
		} else if ends != "" {
			// A quote ends where no letter follows: 'Fog's Lamp' is one name.
			end := i + 1
			for end < len(r) && (!strings.ContainsRune(ends, r[end]) || end+1 < len(r) && (unicode.IsLetter(r[end+1]) || unicode.IsDigit(r[end+1]))) {
				end++
			}
			if inner := strings.Join(strings.Fields(string(r[i+1:min(end, len(r))])), " "); end < len(r) && inner != "" {
				bracket := r[i] == '(' || r[i] == '['
				words = append(words, word{inner, string(r[i]) + inner + string(r[end]), !bracket, bracket})
				i = end + 1
				continue
			}
			never[ends] = end >= len(r)
			if r[i] != '(' && r[i] != '[' && open == "" {
				open = string(r[i:])
			}
			i++
			continue
		}
		from := i
		for i < len(r) && !parts(r, i) && r[i] != '(' && r[i] != ')' {
			i++
		}
		if w := strings.TrimRight(string(r[from:i]), ":"); w != "" {
			words = append(words, word{text: w, written: w})
		}
		if i < len(r) && r[i] == ')' {
			i++
		}
	}
	return words, open
}

// parts tells whether a rune stands between words.
func parts(r []rune, i int) bool {
	if r[i] != ',' {
		return unicode.IsSpace(r[i]) || r[i] == ';' || r[i] == '|'
	}
	return i == 0 || i+1 == len(r) || !unicode.IsDigit(r[i-1]) || !unicode.IsDigit(r[i+1]) && r[i+1] != '-' && r[i+1] != '–'
}

// at is a word in small letters; "" behind the last and for one in quotes.
func at(words []word, i int) string {
	if i >= len(words) || words[i].quoted || words[i].bracket {
		return ""
	}
	return strings.ToLower(words[i].text)
}

func number(digits string) int {
	n, _ := strconv.Atoi(digits)
	return n
}

var (
	countWord = regexp.MustCompile(`^(?:(\d{1,3})[x×]|[x×](\d{1,3})|(\d{1,3})(?:pcs?|plants?|stk|pieces?)\.?)$`)
	wholeWord = regexp.MustCompile(`^\d{1,3}$`)
	pieces    = regexp.MustCompile(`^(?:x|×|pcs?\.?|plants?|stk\.?|pieces?)$`)
	quantity  = regexp.MustCompile(`^(?:qty|quantity|antall|pcs|x|×)\.?$`)
	countName = []string{"", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	timesCost = regexp.MustCompile(`^(\d{1,3})[x×](\d.*)$`)
)

// takeCount takes a count at the opening of words and gives how many words it
// took.
func (t *taker) takeCount(words []word) int {
	w, next := at(words, 0), at(words, 1)
	switch m := countWord.FindStringSubmatch(w); {
	case m != nil:
		t.count(number(m[1] + m[2] + m[3]))
		return 1
	case wholeWord.MatchString(w) && pieces.MatchString(next) && !(next == "x" && isName(at(words, 2)) && len(t.name) > 0):
		t.count(number(w))
		return 2
	case quantity.MatchString(w) && wholeWord.MatchString(next) && currencyOf(at(words, 2), t.home) == "":
		t.count(number(next))
		return 2
	case (w == "x" || w == "×") && len(t.name) > 0 && t.priceAt(words[1:]) > 0: // "x 15 USD"
		return 1
	}
	if n := slices.Index(countName, w); n > 0 && len(t.name) == 0 && isName(next) {
		t.count(n)
		return 1
	}
	if m := timesCost.FindStringSubmatch(w); m != nil && currencyOf(next, t.home) != "" { // "2x15 USD"
		if amount, ok := amountOf(m[2]); ok {
			t.count(number(m[1]))
			t.price(amount, t.currency(next))
			return 2
		}
	}
	return 0
}

var (
	letters   = regexp.MustCompile(`^\pL{2,}`)
	epithet   = regexp.MustCompile(`^\p{Ll}{4,}$`)
	initials  = regexp.MustCompile(`^\p{Lu}{2,5}$`)
	collector = regexp.MustCompile(`^\pL{1,6}[-.#]?\d{1,6}\pL?$`) // a collector's number, such as BN-01
	odd       = regexp.MustCompile(`[0-9$€£¥฿₫₩₹₱#]|^[-/@]+$`)
)

func isName(w string) bool { return letters.MatchString(w) }

func large(w string) string {
	r := []rune(strings.ToLower(w))
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}

// sizeWords are the words by which sellers tell sizes, and the size they stand
// for; "" where they tell none (common practice, no source).
var sizeWords = map[string]string{
	"seedling": "seedling", "seedlings": "seedling", "plug": "seedling", "plugs": "seedling", "plantlet": "seedling", "plantlets": "seedling",
	"xs": "small", "s": "small", "small": "small", "mini": "small", "starter": "small", "juvenile": "small", "sm": "small",
	"m": "medium", "medium": "medium", "med": "medium",
	"l": "large", "large": "large", "xl": "large", "xxl": "large", "lg": "large", "big": "large", "mature": "large", "adult": "large", "jumbo": "large",
	"s/m": "", "m/l": "", "l/xl": "", "xs/s": "", "s-m": "", "m-l": "", "small-medium": "", "medium-large": "", "cutting": "", "cuttings": "", "rooted": "",
	"unrooted": "", "division": "", "divisions": "", "rhizome": "", "rhizomes": "", "tuber": "", "tubers": "", "bare-root": "", "bareroot": "",
	"liner": "", "tc": "", "potted": "",
}

var (
	lengthWord = regexp.MustCompile(`^\d{1,3}(?:[.,]\d)?(?:[-–]\d{1,3}(?:[.,]\d)?)?(?:cm|mm|in|inch|inches|["”″]|'')$`)
	lengthUnit = regexp.MustCompile(`^(?:cm|mm|inch|inches|in|["”″]|'')$`)
	someWord   = regexp.MustCompile(`^\d{1,3}(?:[.,]\d)?(?:[-–]\d{1,3}(?:[.,]\d)?)?$`)
	partsWord  = regexp.MustCompile(`^(?:leaf|leaves|lvs|nodes?|growths?)$`)
	partsGlued = regexp.MustCompile(`^\d{1,2}(?:[-–]\d{1,2})?-?(?:leaf|leaves|lvs|nodes?)$`)
	ofLeaf     = regexp.MustCompile(`^(?:leaf|leaves|leaved|leafed|form|flowers?|flowered)$`)
)

// takeSize takes the seller's words for a size.
func (t *taker) takeSize(words []word) int {
	w, next := at(words, 0), at(words, 1)
	_, known := sizeWords[w]
	n := 0
	switch {
	case lengthWord.MatchString(w) || partsGlued.MatchString(w):
		n = 1
	case someWord.MatchString(w) && (lengthUnit.MatchString(next) || partsWord.MatchString(next)):
		n = 2
	case (w == "pot" || w == "pots") && len(t.name) > 0:
		n = 1
	case w == "size" && len(t.name) > 0 && next != "": // "size M"
		return 1
	case known && ofLeaf.MatchString(next): // "small leaf" is a form's name
		return 0
	case known && len(t.name) != 1: // a lone word before it is a genus, whose epithet may be one
		n = 1
	}
	for _, w := range words[:n] {
		t.sizes = append(t.sizes, w.text)
	}
	return n
}

var (
	noise  = regexp.MustCompile(`^(?:pcs?\.?|plants?|stk\.?|pieces?|each|ea\.?|/ea|/each|/pc|pr\.?|per|at|[-–—@=])$`)
	total  = regexp.MustCompile(`^(?:both|total|altogether|together|all|sum)$`)
	nobody = regexp.MustCompile(`^(?:free|gift|gratis|bonus)$`)
)

// takeNoise takes a word that says nothing, or that the price is that of several.
func (t *taker) takeNoise(words []word) int {
	switch w := at(words, 0); {
	case w == "for" || total.MatchString(w):
		t.forAll = true
		return 1
	case noise.MatchString(w):
		return 1
	}
	return 0
}
