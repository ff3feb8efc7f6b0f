package scaffold

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"wardian/content"
	"wardian/content/ledger"
	"wardian/content/measure"
)

// Box is what is known of a parcel that has just come.
type Box struct {
	On       measure.Day
	Import   string // its ID
	Season   string
	Origin   string
	Exporter string
	Place    *content.Place // where the plants go first; nil: nobody said
	Rates    []content.Rate
	Lines    []ledger.OrderLine // all understood

	Ordered, Dispatched measure.Span // NoSpan where nobody said
	Temperature         string       // of the box on opening, as written; "" where nobody measured
	Costs               []Cost       // shared by all plants
}

// Cost is something that all plants of a box share.
type Cost struct {
	For    string
	Amount measure.Money
}

// File is a file to be written: its diary path and its text.
type File struct{ Path, Text string }

// FreeImport is the first ID of 26-a, 26-b … that no import of a diary bears.
func FreeImport(d *content.Diary, on measure.Day) (id string, ok bool) {
	for letter := 'a'; letter <= 'z'; letter++ {
		id := on.Time().Format("06") + "-" + string(letter)
		if d.Import(id) == nil {
			return id, true
		}
	}
	return "", false
}

var yearAndLetter = regexp.MustCompile(`^(\d\d)-([a-z])$`)

// SpecimenIDs are the IDs of so many plants of an import: a26-01, a26-02 … for
// 26-a, and ID-01 … for an import of another name.
func SpecimenIDs(importID string, plants int) []string {
	stem := importID
	if m := yearAndLetter.FindStringSubmatch(importID); m != nil {
		stem = m[2] + m[1]
	}
	wide := max(2, len(fmt.Sprint(plants)))
	ids := make([]string, plants)
	for n := range ids {
		ids[n] = fmt.Sprintf("%s-%0*d", stem, wide, n+1)
	}
	return ids
}

// ArrivalPlace is where plants go first, as far as a diary tells: where those of
// its last record of arrival went, else its wettest place that is no soak, since
// nobody said that they are soaked; nil where there is none.
func ArrivalPlace(d *content.Diary) *content.Place {
	for _, e := range slices.Backward(d.Entries) {
		if e.Place != nil && (e.Common.Arrival || slices.ContainsFunc(e.Named, func(c *content.CheckIn) bool { return c.Arrival })) {
			return e.Place
		}
	}
	var first *content.Place
	for _, p := range d.Places {
		if p.Stage != content.Soak && (first == nil || p.Stage < first.Stage) {
			first = p
		}
	}
	return first
}

// Arrival is everything that a box brings into a diary: the import, a file a
// plant, and last the round of arrival, in which each plant waits on a line of its
// own for what is seen. The round lies at the place that the box says, in a file
// of a name that isn't taken; ok is false where none is left (see RoundPath).
func Arrival(d *content.Diary, box Box, taken []string) (files []File, ok bool) {
	plants := 0
	for _, l := range box.Lines {
		plants += l.Count
	}
	path, ok := RoundPath(d, box.On, taken)
	if !ok {
		return nil, false
	}
	ids := SpecimenIDs(box.Import, plants)
	files = []File{{"imports/" + box.Import + ".md", importText(box, plants, d.Settings.Currency)}}
	var round strings.Builder
	fmt.Fprintf(&round, "---\ndate: %s\n", box.On)
	if box.Place != nil {
		fmt.Fprintf(&round, "place: %s\n", box.Place.ID)
	}
	round.WriteString("arrival: yes  # before any washing or cutting\nspecimens:  # such as leaves 4 7x3, roots 2 longest 3, soft; one leaf torn\n")
	next := 0
	for _, l := range box.Lines {
		for range l.Count {
			id := ids[next]
			next++
			files = append(files, File{"specimens/" + id + ".md", specimenText(l, box.Import, d.Settings.Currency)})
			fmt.Fprintf(&round, "  %s:  # %s\n", id, oneLine(l.Name))
		}
	}
	round.WriteString("---\n")
	return append(files, File{path, round.String()}), true
}

// importText is the import's file. What nobody said and an import often holds
// waits as a comment.
func importText(box Box, plants int, home string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\nseason: %s\n", scalar(box.Season))
	if box.Origin != "" {
		fmt.Fprintf(&b, "origin: %s\n", scalar(box.Origin))
	}
	if box.Exporter != "" {
		fmt.Fprintf(&b, "exporter: %s\n", scalar(box.Exporter))
	}
	if box.Ordered.Known() {
		fmt.Fprintf(&b, "ordered: %s\n", box.Ordered.Written)
	}
	if box.Dispatched.Known() {
		fmt.Fprintf(&b, "dispatched: %s\n", box.Dispatched.Written)
	}
	fmt.Fprintf(&b, "arrived: %s\nreceived: %d\n", box.On, plants)
	if box.Temperature != "" {
		fmt.Fprintf(&b, "box: %s\n", scalar(box.Temperature))
	} else {
		b.WriteString("# box: 20 C       measured on opening\n")
	}
	if len(box.Costs) > 0 {
		var costs []string
		for _, c := range box.Costs {
			costs = append(costs, scalar(c.For)+": "+amount(c.Amount, home))
		}
		fmt.Fprintf(&b, "costs: {%s}\n", strings.Join(costs, ", "))
	} else {
		b.WriteString("# costs: {freight: 40.00}\n")
	}
	return b.String() + ratesLine(box, home) + "---\n"
}

// amount writes money, in the diary's own currency without saying so, and nothing
// as nothing, which needs no rate.
func amount(m measure.Money, home string) string {
	if m.Currency == home || m.Zero() {
		m.Currency = ""
	}
	return m.String()
}

// specimenText is a plant's file.
func specimenText(l ledger.OrderLine, importID, home string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\nname: %s\nimport: %s\n", scalar(l.Name), importID)
	if l.Received != "" {
		fmt.Fprintf(&b, "received-as: %s\n", scalar(l.Received))
	}
	if l.Price != nil {
		fmt.Fprintf(&b, "price: %s\n", amount(*l.Price, home))
	}
	if l.Size != "" {
		fmt.Fprintf(&b, "size: %s\n", l.Size)
	}
	if l.SizeSold != "" {
		fmt.Fprintf(&b, "size-as-sold: %s\n", scalar(l.SizeSold))
	}
	b.WriteString("---\n")
	return b.String()
}

// ratesLine states the rates of other money, or leaves a comment where one is
// still to be looked up: proof then asks for it.
func ratesLine(box Box, home string) string {
	rate := map[string]string{}
	for _, r := range box.Rates {
		rate[r.Currency] = r.PerOne.String()
	}
	var stated, missing []string
	seen := map[string]bool{home: true, "": true}
	var codes []string
	for _, l := range box.Lines {
		if l.Price != nil && !l.Price.Zero() { // nothing is nothing in any money
			codes = append(codes, l.Price.Currency)
		}
	}
	for _, c := range box.Costs {
		codes = append(codes, c.Amount.Currency)
	}
	for _, code := range codes {
		if seen[code] {
			continue
		}
		seen[code] = true
		if r, ok := rate[code]; ok {
			stated = append(stated, code+": "+r)
		} else {
			missing = append(missing, code)
		}
	}
	var b strings.Builder
	if len(stated) > 0 {
		fmt.Fprintf(&b, "rates: {%s}\n", strings.Join(stated, ", "))
	}
	if len(missing) > 0 {
		fmt.Fprintf(&b, "# rates: {%s: 10.50}   what the card was charged for one, in %s\n", strings.Join(missing, ": 10.50, "), home)
	}
	return b.String()
}

var plainScalar = regexp.MustCompile(`^[\p{L}\p{N}][\p{L}\p{N} .×()/-]*$`)

// scalar writes words as a value: as they stand where YAML takes them for words,
// else in quotes.
func scalar(words string) string {
	words = oneLine(words)
	if plainScalar.MatchString(words) || strings.HasSuffix(words, "'") && regexp.MustCompile(`^[\p{L}][\p{L}\p{N} .×']*$`).MatchString(words) {
		return words
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(words) + `"`
}
