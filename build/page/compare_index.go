package page

import (
	"fmt"
	"strings"

	"wardian/build/address"
	"wardian/build/cohort"
	"wardian/build/said"
)

// comparisonsData fills the list of all words.
type comparisonsData struct {
	Lead    string
	Words   []comparedWord
	Refused []refusedWord
}

// comparedWord is one word with what its page shows.
type comparedWord struct {
	way
	Level, Groups, Shows string
}

// refusedWord is a word by which nothing is compared, with the reason.
type refusedWord struct{ Word, Why string }

// laterKnown are words that readers ask for and that are known too late.
var laterKnown = []struct{ word, words string }{
	{"new-root", "A new root"}, {"new-leaf", "A new leaf"}, {"left-bin", "Left the bin"}, {"recovered", "More leaf than it came with"}, {"established", "Established"},
	{"sections", "Cut into sections"}, {"dropped", "A leaf dropped"}, {"potted", "Potted"}, {"place", "The place where it stood"}, {"pests", "Pests seen"},
}

func (v view) comparisons(compared []cohort.Comparison) comparisonsData {
	all := v.s.Cohort.All()
	d := comparisonsData{Lead: "Nothing has arrived yet that could be compared."}
	if len(all.Lines) == 0 {
		return d
	}
	d.Lead = fmt.Sprintf("%s of %s, each followed to day %d and no further. Groups are formed only by what was known before any plant’s end could tell: on arrival, or by day %d among the plants that lived so long.",
		said.Upper(said.NounInWords(len(all.Lines), "line", "lines")), said.NounInWords(len(all.Imports), "import", "imports"), v.s.horizon(), cohort.LandmarkDays[0])
	for _, r := range compared {
		d.Words = append(d.Words, comparedWord{
			way:   way{Words: said.Grouping(r.By), Href: v.Href(address.Comparison(r.By.Word))},
			Level: levelWords(r.By), Groups: groupCounts(r), Shows: shows(r),
		})
	}
	for _, w := range laterKnown {
		d.Refused = append(d.Refused, refusedWord{w.words, said.Example(v.s.Cohort.Refuse(all, w.word))})
	}
	d.Refused = append(d.Refused, refusedWord{"What became of it", said.Refusal(v.s.Cohort.Refuse(all, "outcome"))})
	return d
}

// levelWords says of what a word is a fact.
func levelWords(by cohort.Grouping) string {
	switch {
	case by.Level == cohort.OfImport:
		return "of the parcel"
	case by.Landmark:
		return fmt.Sprintf("of each plant, by day %d", cohort.LandmarkDays[0])
	}
	return "of each plant, on arrival"
}

// groupCounts lists a comparison's groups, or how many they are.
func groupCounts(r cohort.Comparison) string {
	var names []string
	for _, g := range r.Groups {
		words := said.Group(r.By, g.Name) + ": " + said.Noun(g.N, "line", "lines")
		if g.Ripe {
			words = said.Group(r.By, g.Name) + ": " + said.Of(g.Alive, g.N)
		}
		names = append(names, words)
	}
	if len(names) > 4 {
		return said.Noun(len(names), "group", "groups")
	}
	return strings.Join(names, "; ")
}

// shows says in a few words what a comparison's page can tell.
func shows(r cohort.Comparison) string {
	told := 0
	for _, g := range r.Groups {
		if g.State == cohort.Told {
			told++
		}
	}
	if r.Test.Reason == cohort.Tested {
		return "curves, counts and how often chance alone would spread losses so"
	}
	words := said.Lower(strings.TrimSuffix(said.NoP(r), "."))
	if told < 2 {
		return "counts; " + words
	}
	return "curves and counts; " + words
}
