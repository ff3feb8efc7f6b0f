package cohort

import (
	"slices"
	"strings"

	"wardian/content"
	"wardian/content/source"
)

// Why tells why lines may not be grouped by a word.
type Why int

const (
	// NoSuchWord: nobody knows the word; Nearest offers one.
	NoSuchWord Why = iota
	// KnownLater: the fact comes to be known only while a plant lives, so that
	// whoever has it must have lived that long.
	KnownLater
	// IsTheOutcome: the word is what is compared.
	IsTheOutcome
)

// Refusal says why lines may not be grouped by a word.
type Refusal struct {
	Word    string
	Why     Why
	Nearest string // of NoSuchWord: a word that was perhaps meant; "" where none is near
	Example Guarantee
}

// Guarantee is the counted example of a refusal: Had of Of lines came to have it,
// half of these not before day Half, and Early lines were lost up to that day
// without it, which could only ever be in the other group.
type Guarantee struct {
	Of, Had    int
	Half       int // day; 0 where none had it
	Lost       int // lines lost without it, on whatever day
	Early      int
	EarliestOn int // the first day on which a line had it
}

// laterWords are facts that come to be known while a plant lives, and the first
// day on which a line has them; Never where it hasn't.
var laterWords = map[string]func(*Line) int{
	"new-root":    func(l *Line) int { return l.Milestones.FirstRoot },
	"new-leaf":    func(l *Line) int { return l.Milestones.FirstLeaf },
	"left-bin":    func(l *Line) int { return l.Milestones.LeftBin },
	"recovered":   func(l *Line) int { return l.Milestones.Recovered },
	"established": func(l *Line) int { return l.Milestones.Established },
	"pests": firstLook(func(l *content.Look) bool {
		return l.PestsNow != "" && l.PestsNow != "none"
	}),
	"resting": firstLook(func(l *content.Look) bool { return l.AtRest }),
	"treated": firstLook(func(l *content.Look) bool { return slices.Contains(l.Did, "treated") }),
	"potted":  firstLook(func(l *content.Look) bool { return slices.Contains(l.Did, "potted") }),
	"dropped": firstLook(func(l *content.Look) bool { return l.Facts.Leaves != nil && l.Facts.Leaves.Dropped > 0 }),
	"sections": func(l *Line) int {
		day := Never
		for _, p := range l.Sections() {
			earliest(&day, p.Begins)
		}
		return day
	},
	"place": firstMove, "stage": firstMove,
}

var alsoCalledLater = map[string]string{
	"first-root": "new-root", "first-new-root": "new-root", "rooted": "new-root",
	"first-leaf": "new-leaf", "first-new-leaf": "new-leaf", "left-the-bin": "left-bin",
	"moved": "place", "cut-into": "sections", "leaves-dropped": "dropped",
}

// outcomeWords are what a comparison compares.
var outcomeWords = []string{"outcome", "fate", "lost", "cause", "alive", "passed-on"}

// firstLook is the first day on which a look at any part of a line shows
// something.
func firstLook(shows func(*content.Look) bool) func(*Line) int {
	return func(l *Line) int {
		day := Never
		for _, p := range l.Parts {
			if i := slices.IndexFunc(p.Looks, shows); i >= 0 {
				earliest(&day, p.Looks[i].Day)
			}
		}
		return day
	}
}

func firstMove(l *Line) int {
	day := Never
	for _, p := range l.Parts {
		for _, m := range p.Moves {
			earliest(&day, m.Day)
		}
	}
	return day
}

// Refuse says why the scope's lines may not be grouped by a word, with an example
// counted among them. It is for words that Grouping doesn't give.
func (c *Cohort) Refuse(s Scope, word string) Refusal {
	r := Refusal{Word: word}
	bare := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), " ", "-")
	if other, ok := alsoCalledLater[bare]; ok {
		bare = other
	}
	if slices.Contains(outcomeWords, bare) {
		r.Why = IsTheOutcome
		return r
	}
	first, ok := laterWords[bare]
	if !ok {
		var words []string
		for _, g := range c.Groupings() {
			words = append(words, g.Word)
		}
		r.Nearest = source.Nearest(bare, words)
		return r
	}
	r.Why, r.Example = KnownLater, guarantee(s.Lines, first)
	return r
}

func guarantee(lines []*Line, first func(*Line) int) Guarantee {
	g := Guarantee{Of: len(lines)}
	var days []int
	for _, l := range lines {
		if day := first(l); day != Never {
			days = append(days, max(day, 0))
		} else if l.Fate == Lost {
			g.Lost++
		}
	}
	g.Had = len(days)
	if g.Had == 0 {
		return g
	}
	slices.Sort(days)
	g.EarliestOn, g.Half = days[0], days[(len(days)-1)/2]
	for _, l := range lines {
		if l.Fate == Lost && l.Day <= g.Half && first(l) == Never {
			g.Early++
		}
	}
	return g
}
