package ledger

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"

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
// name of several words, a count ("2x", "x2", "2"), a price with its currency
// ("45 USD", "$45", "€ 12.50", "free") and the seller's size words may stand in
// any order. home is the currency of a bare price. Every line that isn't blank
// comes back, understood or told.
func Order(text, home string) []OrderLine {
	var lines []OrderLine
	for n, line := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		if !blank(line) {
			lines = append(lines, orderLine(n+1, line, home))
		}
	}
	return lines
}

var (
	leader     = regexp.MustCompile(`^\s*(?:[-*•]|\d{1,3}[.)])\s+`)
	countWord  = regexp.MustCompile(`^(?:(\d{1,3})\s*[x×]|[x×](\d{1,3}))$`)
	wholeWord  = regexp.MustCompile(`^\d{1,3}$`)
	amountWord = regexp.MustCompile(`^-?\d{1,7}(?:[.,]\d{1,2})?$`)
	codeWord   = regexp.MustCompile(`^[A-Z]{3}$`)
	glued      = regexp.MustCompile(`^(\d{1,7}(?:[.,]\d{1,2})?)([A-Z]{3}|[$€£¥])$|^([A-Z]{3}|[$€£¥])(\d{1,7}(?:[.,]\d{1,2})?)$`)
	lengthWord = regexp.MustCompile(`^\d{1,3}(?:[-–]\d{1,3})?(?:cm|in|"|mm)$`)
	signs      = map[string]string{"$": "USD", "€": "EUR", "£": "GBP", "¥": "JPY"}
	knownCodes = "AUD BRL CAD CHF CNY COP CZK DKK EUR GBP HKD IDR INR JPY KRW MYR NOK NZD PEN PHP PLN SEK SGD THB TWD USD VND ZAR"
)

// sizeWords are the words by which sellers tell sizes, and the size they stand
// for; "" where they tell none (common practice, no source).
var sizeWords = map[string]string{
	"seedling": "seedling", "seedlings": "seedling", "plug": "seedling", "plugs": "seedling",
	"xs": "small", "s": "small", "small": "small", "mini": "small", "starter": "small", "juvenile": "small",
	"m": "medium", "medium": "medium", "l": "large", "large": "large", "xl": "large", "mature": "large", "adult": "large",
	"s/m": "", "m/l": "", "l/xl": "", "xs/s": "", "cutting": "", "cuttings": "", "rooted": "", "unrooted": "", "division": "", "jumbo": "large",
}

// orderLine reads one line.
func orderLine(number int, line, home string) OrderLine {
	o := OrderLine{Number: number, Written: strings.TrimSpace(line), Count: 0}
	rest := leader.ReplaceAllString(line, "")
	words := strings.FieldsFunc(rest, func(r rune) bool { return unicode.IsSpace(r) || r == ';' || r == '|' })
	for i, w := range words {
		words[i] = strings.TrimRight(w, ",:")
	}
	var name, sizes []string
	var bare []string // whole numbers, which may be a count or a price
	quoted := false
	for i := 0; i < len(words); i++ {
		w := words[i]
		next := ""
		if i+1 < len(words) {
			next = words[i+1]
		}
		switch {
		case w == "":
		case quoted || opensQuote(w):
			name = append(name, w)
			quoted = !closesQuote(w)
		case countWord.MatchString(w):
			m := countWord.FindStringSubmatch(w)
			o.count(m[1] + m[2])
		case wholeWord.MatchString(w) && (next == "x" || next == "×") && len(name) == 0:
			o.count(w)
			i++
		case glued.MatchString(w):
			m := glued.FindStringSubmatch(w)
			o.price(m[1]+m[4], m[2]+m[3])
		case amountWord.MatchString(w) && isCurrency(next):
			o.price(w, next)
			i++
		case isCurrency(w) && amountWord.MatchString(next):
			o.price(next, w)
			i++
		case strings.EqualFold(w, "free") || strings.EqualFold(w, "gift"):
			o.price("0", home)
		case strings.EqualFold(w, "pcs") || strings.EqualFold(w, "plants") || strings.EqualFold(w, "plant") || strings.EqualFold(w, "each") || w == "-" || w == "–" || w == "@":
		case wholeWord.MatchString(w):
			bare = append(bare, w)
		case amountWord.MatchString(w):
			o.price(w, home)
		case lengthWord.MatchString(w):
			sizes = append(sizes, w)
		case isSize(w) && len(name) != 1: // a lone word before it is a genus, whose epithet may be one
			sizes = append(sizes, w)
		default:
			name = append(name, w)
		}
	}
	o.numbers(bare, home)
	o.sizes(sizes)
	o.name(name)
	if o.Count == 0 {
		o.Count = 1
	}
	return o
}

func opensQuote(w string) bool { return strings.HasPrefix(w, "'") || strings.HasPrefix(w, "‘") }
func closesQuote(w string) bool {
	return len(w) > 1 && (strings.HasSuffix(w, "'") || strings.HasSuffix(w, "’"))
}

func isCurrency(w string) bool {
	return signs[w] != "" || codeWord.MatchString(w) && strings.Contains(" "+knownCodes+" ", " "+w+" ")
}

func isSize(w string) bool {
	_, ok := sizeWords[strings.ToLower(strings.Trim(w, "()"))]
	return ok
}

func (o *OrderLine) told(trouble string) {
	if o.Trouble == "" {
		o.Trouble = trouble
	}
}

func (o *OrderLine) count(digits string) {
	n, _ := strconv.Atoi(digits)
	switch {
	case o.Count != 0:
		o.told("two counts")
	case n < 1:
		o.told("a count of none")
	default:
		o.Count = n
	}
}

func (o *OrderLine) price(amount, currency string) {
	if o.Price != nil {
		o.told("two prices")
		return
	}
	if code := signs[currency]; code != "" {
		currency = code
	}
	d, err := decimal.Parse(strings.ReplaceAll(amount, ",", "."))
	if err != nil || d.IsNeg() {
		o.told("a price that can't be read: " + amount)
		return
	}
	o.Price = &measure.Money{Amount: d, Currency: currency}
}

// numbers tells a bare whole number: a count where none was told and a price
// was, or where it stands with another; a lone one is told, since it could be
// either.
func (o *OrderLine) numbers(bare []string, home string) {
	switch {
	case len(bare) == 0:
	case len(bare) == 1 && o.Price != nil && o.Count == 0:
		o.count(bare[0])
	case len(bare) == 1 && o.Price == nil && o.Count != 0:
		o.price(bare[0], home)
	case len(bare) == 1:
		o.told("is " + bare[0] + " a count or a price? write " + bare[0] + "x, or " + bare[0] + ".00")
	default:
		o.told("numbers that could be counts or prices: " + strings.Join(bare, ", "))
	}
}

func (o *OrderLine) sizes(words []string) {
	o.SizeSold = strings.Join(words, " ")
	for _, w := range words {
		size := sizeWords[strings.ToLower(strings.Trim(w, "()"))]
		switch {
		case size == "" || size == o.Size:
		case o.Size == "":
			o.Size = size
		default:
			o.Size = "" // the words disagree; they stand as sold
			return
		}
	}
	if o.SizeSold == o.Size {
		o.SizeSold = ""
	}
}

// name sets a name as names are: the genus large, epithets small, the hybrid
// sign for a lone x, cultivars in single quotes as they were written.
func (o *OrderLine) name(words []string) {
	if len(words) == 0 {
		o.told("no name")
		return
	}
	set := make([]string, len(words))
	quoted := false
	for i, w := range words {
		set[i] = w
		switch {
		case quoted || opensQuote(w):
			quoted = !closesQuote(w)
		case i == 0:
			set[i] = large(w)
		case strings.EqualFold(w, "x"):
			set[i] = "×"
		case strings.EqualFold(w, "cf") || strings.EqualFold(w, "aff") || strings.EqualFold(w, "sp"):
			set[i] = strings.ToLower(w) + "."
		case strings.HasPrefix(w, `"`) || strings.ContainsAny(w, "0123456789"):
		default:
			set[i] = strings.ToLower(w)
		}
	}
	o.Name = strings.Join(set, " ")
	if written := strings.Join(words, " "); written != o.Name {
		o.Received = written
	}
	if len(words) == 1 {
		o.told("a name of one word: which species, or sp.?")
	}
}

func large(w string) string {
	r := []rune(strings.ToLower(w))
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}
