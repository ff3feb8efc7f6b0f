package ledger

import (
	"slices"
	"strings"

	"github.com/govalues/decimal"

	"wardian/content/measure"
)

// OrderLine is what one line of an order list was understood to say.
type OrderLine struct {
	Number  int    // of the line in the list, from 1
	Written string // the line as it stands
	Count   int    // plants, at least 1
	Name    string // set as names are: "Hoya cf. callistophylla"
	// Received is the name's words as written, where they differ from Name.
	Received string
	Size     string // seedling, small, medium, large; "" where the seller's words say none of these
	SizeSold string // the seller's size words as written
	Price    *measure.Money
	// Trouble says what wasn't understood; "" where all of it was.
	Trouble string
}

// Empty lines and those that start with # are no lines of an order.
func blank(line string) bool {
	line = strings.TrimSpace(line)
	return line == "" || strings.HasPrefix(line, "#")
}

// Order reads an order list: a plant or several of one kind a line, in which a
// name of several words, a count ("2x", "x2", "2 pcs", "2"), the price of one with
// its currency ("45 USD", "$45", "kr 45", "45,-", "free") and the seller's size
// words may stand in any order. home is the currency of a bare price. Every line
// that isn't blank comes back, understood or told; what could mean two things, or
// nothing, is told.
func Order(text, home string) []OrderLine {
	var lines []OrderLine
	for n, line := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		if !blank(line) {
			o := orderLine(line, home)
			o.Number, o.Written = n+1, strings.TrimSpace(line)
			lines = append(lines, o)
		}
	}
	return lines
}

// taker takes one line apart.
type taker struct {
	OrderLine
	home   string
	name   []word
	sizes  []string // the seller's words for the size
	bare   []string // whole numbers, which may be a count or a price
	forAll bool     // a word says that the price is that of several
}

// longestLine bounds a line that is read, in bytes: no plant needs as many.
const longestLine = 1000

// tooLong tells of a line, or of a row of a table, that is none of an order.
func (t *taker) tooLong(line string) bool {
	if len(line) <= longestLine {
		return false
	}
	t.told("a line longer than a plant's can be")
	t.Count = 1
	return true
}

// orderLine reads one line.
func orderLine(line, home string) OrderLine {
	t := &taker{home: home}
	if t.tooLong(line) {
		return t.OrderLine
	}
	words, open := wordsOf(leader.ReplaceAllString(line, ""))
	if open != "" {
		t.told("a quote that isn't closed: " + open)
	}
	t.words(words)
	t.finish()
	return t.OrderLine
}

// finish makes of what was taken what the line says.
func (t *taker) finish() {
	t.numbers()
	t.size()
	t.set()
	if t.forAll && t.Count > 1 {
		t.told("is the price that of one plant or of all? write that of one")
	}
	t.Count = max(t.Count, 1)
}

// words gives each word to what it says; what says nothing known is the name's.
func (t *taker) words(words []word) {
	for len(words) > 0 {
		w := words[0]
		if w.bracket {
			if inner, _ := wordsOf(w.text); t.wholly(inner) {
				t.words(inner)
			} else {
				t.name = append(t.name, w)
			}
			words = words[1:]
			continue
		}
		n := 0
		if !w.quoted {
			for _, take := range []func([]word) int{t.takeCount, t.takeSize, t.takePrice, t.takeNoise} {
				if n = take(words); n > 0 {
					break
				}
			}
		}
		if n == 0 {
			t.name = append(t.name, w)
			n = 1
		}
		words = words[n:]
	}
}

// wholly tells whether words in brackets say something known, all of them.
func (t *taker) wholly(words []word) bool {
	try := &taker{home: t.home, name: []word{{text: "a"}, {text: "b"}}}
	try.words(words)
	return len(words) > 0 && len(try.name) == 2 && len(try.bare) == 0
}

func (t *taker) told(trouble string) {
	if t.Trouble == "" {
		t.Trouble = trouble
	}
}

func (t *taker) count(n int) {
	switch {
	case t.Count != 0:
		t.told("two counts")
	case n < 1:
		t.told("a count of none")
	default:
		t.Count = n
	}
}

func (t *taker) price(amount, currency string) {
	d, err := decimal.Parse(amount)
	switch {
	case err != nil || d.IsNeg():
		t.told("a price that can't be read: " + amount)
	case t.Price != nil && t.Price.Zero() && d.IsZero(): // a free gift
	case t.Price != nil:
		t.told("two prices")
	default:
		t.Price = &measure.Money{Amount: d, Currency: currency}
	}
}

// numbers tells a bare whole number: a count where none was told and a price
// was, or where it stands with another; a lone one is told, since it could be
// either.
func (t *taker) numbers() {
	switch {
	case len(t.bare) == 0:
	case len(t.bare) == 1 && t.bare[0] == "0" && t.Price == nil:
		t.price("0", t.home)
	case len(t.bare) == 1 && t.Price != nil && t.Count == 0:
		t.count(number(t.bare[0]))
	case len(t.bare) == 1 && t.Price == nil && t.Count != 0:
		t.price(t.bare[0], t.home)
	case len(t.bare) == 1:
		t.told("is " + t.bare[0] + " a count or a price? write " + t.bare[0] + "x, or " + t.bare[0] + ".00")
	default:
		t.told("numbers that could be counts or prices: " + strings.Join(t.bare, ", "))
	}
}

// size reads the seller's words for a size. Those that name one of ours say it,
// unless they disagree; all stand as sold, but where they are our word itself.
func (t *taker) size() {
	t.SizeSold = strings.Join(t.sizes, " ")
	for w := range strings.FieldsSeq(strings.ToLower(t.SizeSold)) {
		size := sizeWords[w]
		switch {
		case size == "" || size == t.Size:
		case t.Size == "":
			t.Size = size
		default:
			t.Size = ""
			return
		}
	}
	if t.SizeSold == t.Size {
		t.SizeSold = ""
	}
}

// set sets a name as names are: the genus large, epithets small, the hybrid sign
// for a lone x, cultivars in single quotes as they were written. In a name whose
// epithets are written small, a large word is meant large.
func (t *taker) set() {
	if len(t.name) == 0 {
		t.told("no name")
		return
	}
	care := slices.ContainsFunc(t.name[1:], func(w word) bool { return epithet.MatchString(w.text) && !w.quoted && !w.bracket })
	var set, written []string
	genus := -1
	for i, w := range t.name {
		written = append(written, w.written)
		switch low := strings.ToLower(w.text); {
		case w.quoted:
			set = append(set, "'"+w.text+"'")
		case w.bracket:
			set = append(set, w.written)
		case low == "x" || low == "×":
			set = append(set, "×")
		case odd.MatchString(w.text) && !collector.MatchString(w.text):
			t.told("what is " + w.text + "?")
			set = append(set, w.text)
		case genus < 0:
			genus = i
			set = append(set, large(w.text))
		case low == "cf" || low == "aff" || low == "sp" || low == "spp" || low == "ssp" || low == "subsp" || low == "var":
			set = append(set, low+".")
		case care || initials.MatchString(w.text) && !initials.MatchString(t.name[genus].text) || collector.MatchString(w.text):
			set = append(set, w.text)
		default:
			set = append(set, low)
		}
	}
	t.Name = strings.Join(set, " ")
	if as := strings.Join(written, " "); as != t.Name {
		t.Received = as
	}
	switch last := set[len(set)-1]; {
	case last == "×":
		t.told("a name that ends in ×")
	case len(set) == 1:
		t.told("a name of one word: which species, or sp.?")
	}
}
