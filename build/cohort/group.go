package cohort

import (
	"cmp"
	"slices"
	"strings"

	"wardian/content"
)

// Lines may be grouped only by what was known before their fates could tell:
// facts of the day of arrival, or records up to a landmark day, counted among
// the lines that reached it (landmark.go). Whoever groups by what was seen later,
// such as a new root, compares plants that had to live that long with plants that
// hadn't, and finds a difference where there is none: guarantee time (Anderson,
// Cain and Gelber 1983, J Clin Oncol 1:710-719; Giobbie-Hurder, Gelber and Regan
// 2013, J Clin Oncol 31:2963-2969, from memory). Such words are refused, with a
// counted example (refusal.go).

// Level says of what a grouping word is a fact: of the parcel, or of each plant.
type Level int

const (
	OfImport Level = iota
	OfSpecimen
)

func (l Level) String() string { return [...]string{"import", "specimen"}[l] }

// NotRecorded is the group of the lines of which the diary doesn't say.
const NotRecorded = "not recorded"

// localGroup is the group of imports bought nearby, under words that are facts
// of a parcel: they never made the journey.
const localGroup = "local"

// Grouping is a word by which lines may be grouped.
type Grouping struct {
	Word     string // as it is typed: "root-grade"
	Level    Level
	Landmark bool // groups are formed from records up to the landmark day
	Ordered  bool // the groups stand in an order that the test follows: size, root grade

	bands []string // groups in order; nil: by first arrival (season) or by their bytes
	of    func(l *Line, landmark int) string
	ratio bool // root-to-leaf: the groups depend on all lines compared
}

// The bands of measures, one list a word.
var (
	sizeBands    = []string{"seedling", "small", "medium", "large"}
	gradeBands   = []string{"0", "1", "2", "3", "4", "5"}
	turgorBands  = []string{string(content.Firm), string(content.Soft), string(content.Limp)}
	leafBands    = []string{"0", "1–2", "3–5", "6+"}
	transitBands = []string{"≤ 4", "5–7", "8+"}
	cutBands     = []string{"0 %", "1–33 %", "34–66 %", "67–100 %"}
	// measures gives no bands for hours of soaking; a short bath, overnight and
	// longer are common practice, no source.
	soakBands   = []string{"none", "up to 6 h", "over 6 to 24 h", "over 24 h"}
	ratioBands  = []string{"below the median", "from the median"}
	rotBands    = []string{"none", "roots", "stem", "growing point"}
	yesNoBands  = []string{"yes", "no"}
	warmthBands = []string{"cool", "warm"}
)

// groupings are the words that every diary has, in the order of pages: facts of
// the parcel, facts of the plant on arrival, treatment by the landmark.
var groupings = []Grouping{
	{Word: "season", Level: OfImport, of: parcelled(func(i *content.Import) string { return i.Season })},
	{Word: "exporter", Level: OfImport, of: parcelled(func(i *content.Import) string { return i.Exporter })},
	{Word: "origin", Level: OfImport, of: parcelled(func(i *content.Import) string { return i.Origin })},
	{Word: "transit", Level: OfImport, bands: transitBands, of: parcelled(transitBand)},
	{Word: "packing", Level: OfImport, of: parcelled(packingOf)},
	{Word: "genus", Level: OfSpecimen, of: onArrival(func(l *Line) string { return genusOf(l.Specimen.Name) })},
	{Word: "climate", Level: OfSpecimen, bands: warmthBands, of: onArrival(func(l *Line) string { return l.Specimen.Climate })},
	{Word: "size", Level: OfSpecimen, Ordered: true, bands: sizeBands, of: onArrival(func(l *Line) string { return l.Specimen.Size })},
	{Word: "root-grade", Level: OfSpecimen, Ordered: true, bands: gradeBands, of: onArrival(gradeOnArrival)},
	{Word: "turgor", Level: OfSpecimen, bands: turgorBands, of: onArrival(turgorOnArrival)},
	{Word: "leaves", Level: OfSpecimen, bands: leafBands, of: onArrival(leavesOnArrival)},
	{Word: "root-to-leaf", Level: OfSpecimen, bands: ratioBands, ratio: true},
	{Word: "medium", Level: OfSpecimen, Landmark: true, of: firstMedium},
	{Word: "leaves-cut", Level: OfSpecimen, Landmark: true, bands: cutBands, of: leavesCutBand},
	{Word: "roots-cut", Level: OfSpecimen, Landmark: true, bands: cutBands, of: rootsCutBand},
	{Word: "soak", Level: OfSpecimen, Landmark: true, bands: soakBands, of: soakBand},
	{Word: "bottom-heat", Level: OfSpecimen, Landmark: true, bands: yesNoBands, of: bottomHeatAt},
	{Word: "turgor-at-landmark", Level: OfSpecimen, Landmark: true, bands: turgorBands, of: turgorAt},
	{Word: "rot-at-landmark", Level: OfSpecimen, Landmark: true, bands: rotBands, of: rotAt},
}

// alsoCalled are other ways to write a word.
var alsoCalled = map[string]string{
	"days-in-transit": "transit", "roots": "root-grade", "roots-on-arrival": "root-grade",
	"turgor-on-arrival": "turgor", "leaves-on-arrival": "leaves", "root-to-leaf-on-arrival": "root-to-leaf",
	"first-medium": "medium", "soak-hours": "soak", "rot": "rot-at-landmark",
}

// traitPrefix marks a grower's own word that is also one of ours.
const traitPrefix = "traits."

// Groupings are all words by which a diary's lines may be grouped: those that
// every diary has, then the words under traits, by their bytes.
func (c *Cohort) Groupings() []Grouping {
	out := slices.Clone(groupings)
	seen := map[string]bool{}
	var words []string
	for _, l := range c.Lines {
		for _, t := range l.Specimen.Traits {
			if !seen[t.Word] {
				seen[t.Word] = true
				words = append(words, t.Word)
			}
		}
	}
	slices.Sort(words)
	for _, w := range words {
		out = append(out, traitGrouping(w))
	}
	return out
}

func traitGrouping(word string) Grouping {
	g := Grouping{Word: word, Level: OfSpecimen, of: onArrival(func(l *Line) string {
		for _, t := range l.Specimen.Traits {
			if t.Word == word {
				return strings.TrimSpace(t.Value)
			}
		}
		return ""
	})}
	if _, taken := standing(word); taken {
		g.Word = traitPrefix + word
	}
	return g
}

// standing gives the grouping that every diary has under a word.
func standing(word string) (Grouping, bool) {
	word = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), " ", "-")
	if other, ok := alsoCalled[word]; ok {
		word = other
	}
	i := slices.IndexFunc(groupings, func(g Grouping) bool { return g.Word == word })
	if i < 0 {
		return Grouping{}, false
	}
	return groupings[i], true
}

// Grouping gives the grouping under a word; ok is false for a word by which
// lines may not be grouped (see Refuse) or that nobody knows.
func (c *Cohort) Grouping(word string) (g Grouping, ok bool) {
	if g, ok = standing(word); ok {
		return g, true
	}
	for _, g := range c.Groupings()[len(groupings):] {
		if g.Word == word || traitPrefix+g.Word == word {
			return g, true
		}
	}
	return Grouping{}, false
}

// sorted puts the names of groups in order: by band, seasons by their first
// arrival, others by their bytes; "local" and "not recorded" last.
func (g Grouping) sorted(names []string, lines map[string][]*Line) {
	rank := func(name string) int {
		switch name {
		case NotRecorded:
			return 1 << 30
		case localGroup:
			return 1<<30 - 1
		}
		if g.bands != nil {
			return slices.Index(g.bands, name)
		}
		if g.Word != "season" {
			return 0
		}
		first := 1<<30 - 2
		for _, l := range lines[name] {
			first = min(first, int(l.Import().Day0()))
		}
		return first
	}
	slices.SortFunc(names, func(a, b string) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a, b)) })
}
