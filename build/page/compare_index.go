package page

import (
	"fmt"
	"strings"

	"wardian/build/address"
	"wardian/build/cohort"
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
		upper(nounInWords(len(all.Lines), "line", "lines")), nounInWords(len(all.Imports), "import", "imports"), v.s.horizon(), cohort.LandmarkDays[0])
	for _, r := range compared {
		d.Words = append(d.Words, comparedWord{
			way:   way{Words: groupTitle(r.By), Href: v.Href(address.Comparison(r.By.Word))},
			Level: levelWords(r.By), Groups: groupCounts(r), Shows: shows(r),
		})
	}
	for _, w := range laterKnown {
		d.Refused = append(d.Refused, refusedWord{w.words, refusalSays(v.s.Cohort.Refuse(all, w.word))})
	}
	d.Refused = append(d.Refused, refusedWord{"What became of it", refusalSays(v.s.Cohort.Refuse(all, "outcome"))})
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
		words := g.Name + ": " + noun(g.N, "line", "lines")
		if g.Ripe {
			words = g.Name + ": " + ofCount(g.Alive, g.N)
		}
		names = append(names, words)
	}
	if len(names) > 4 {
		return noun(len(names), "group", "groups")
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
	words := lowerFirst(strings.TrimSuffix(noPSays(r), "."))
	if told < 2 {
		return "counts; " + words
	}
	return "curves and counts; " + words
}

// refusalSays gives the reason why nothing is compared by a word, with the example
// counted among the plants at hand.
func refusalSays(r cohort.Refusal) string {
	if r.Why == cohort.IsTheOutcome {
		return "It is what is compared."
	}
	e := r.Example
	if e.Had == 0 {
		return fmt.Sprintf("It comes to be known only while a plant lives. None of the %s has it yet.", noun(e.Of, "line", "lines"))
	}
	words := fmt.Sprintf("It comes to be known only while a plant lives, so whoever has it must have lived so long. %s of the %s came to have it, half of these by day %d; %s %s lost up to that day without it, and could only ever stand in the other group.",
		upper(inWords(e.Had)), noun(e.Of, "line", "lines"), e.Half, inWords(e.Early), wasWere(e.Early))
	if e.Early == 0 {
		words = fmt.Sprintf("It comes to be known only while a plant lives, so whoever has it must have lived so long. %s of the %s came to have it, the first on day %d.", upper(inWords(e.Had)), noun(e.Of, "line", "lines"), e.EarliestOn)
	}
	return words
}
