package said

import (
	"fmt"

	"wardian/build/cohort"
)

// Refusal gives the reason why nothing is compared by a word, with the example
// counted among the plants at hand; "" for a word that nobody knows.
func Refusal(r cohort.Refusal) string {
	switch r.Why {
	case cohort.NoSuchWord:
		return ""
	case cohort.IsTheOutcome:
		return "It is what is compared."
	}
	return "It comes to be known only while a plant lives, so whoever has it must have lived so long. " + Example(r)
}

// Example is the counted example of a refusal: who came to have it and how late, and
// who was lost before they could.
func Example(r cohort.Refusal) string {
	e := r.Example
	if e.Had == 0 {
		return fmt.Sprintf("None of the %s has it yet.", Noun(e.Of, "line", "lines"))
	}
	words := fmt.Sprintf("%s of the %s came to have it, ", Upper(InWords(e.Had)), Noun(e.Of, "line", "lines"))
	if e.Early == 0 {
		return words + fmt.Sprintf("the first on day %d.", e.EarliestOn)
	}
	were := "were"
	if e.Early == 1 {
		were = "was"
	}
	return words + fmt.Sprintf("half of these by day %d; %s %s lost up to that day without it, and could only ever stand in the other group.", e.Half, InWords(e.Early), were)
}
