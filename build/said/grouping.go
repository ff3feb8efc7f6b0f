package said

import (
	"fmt"
	"strconv"
	"strings"

	"wardian/build/cohort"
)

// titles name the words by which lines are grouped.
var titles = map[string]string{
	"season": "Season", "exporter": "Exporter", "origin": "Origin", "transit": "Days on the way", "packing": "Packing",
	"genus": "Genus", "climate": "Cool or warm", "size": "Size on arrival", "root-grade": "Root grade on arrival", "turgor": "Turgor on arrival",
	"leaves": "Leaves on arrival", "root-to-leaf": "Root to leaf on arrival", "medium": "First medium", "leaves-cut": "Share of leaves cut",
	"roots-cut": "Share of roots cut", "soak": "Hours in water", "bottom-heat": "Bottom heat", "turgor-at-landmark": "Turgor by the landmark", "rot-at-landmark": "Rot by the landmark",
}

// Grouping is what a word groups by, as a title: "Days on the way". A trait of the
// grower's own is named by its own word.
func Grouping(by cohort.Grouping) string {
	if title, ok := titles[by.Word]; ok {
		return title
	}
	return Upper(strings.ReplaceAll(strings.TrimPrefix(by.Word, "traits."), "-", " "))
}

// Group names a group so that it can stand in a sentence without its word: "grade 2"
// where the file says 2, "8+ days" for 8+.
func Group(by cohort.Grouping, name string) string {
	if name == cohort.NotRecorded {
		return name
	}
	none := map[string]string{"leaves": "no leaves", "leaves-cut": "no leaf cut", "roots-cut": "no root cut", "soak": "not soaked", "bottom-heat": "no bottom heat", "rot-at-landmark": "no rot"}
	switch by.Word + " " + name {
	case "leaves 0", "leaves-cut 0 %", "roots-cut 0 %", "soak none", "bottom-heat no", "rot-at-landmark none":
		return none[by.Word]
	case "bottom-heat yes":
		return "bottom heat"
	}
	switch by.Word {
	case "root-grade":
		return "grade " + name
	case "leaves":
		return name + " leaves"
	case "transit":
		return name + " days"
	case "leaves-cut":
		return name + " of leaves cut"
	case "roots-cut":
		return name + " of roots cut"
	case "soak":
		return name + " in water"
	case "rot-at-landmark":
		return "rot: " + name
	}
	return name
}

// Lead says who is compared, and on what day it all ends.
func Lead(r cohort.Comparison) string {
	words := fmt.Sprintf("%s of %s, side by side, followed to day %d and no further.", Upper(NounInWords(len(r.Scope.Lines), "line", "lines")), NounInWords(len(r.Scope.Imports), "import", "imports"), r.Horizon)
	if r.By.Level == cohort.OfImport {
		words += " This is one fact a parcel, not one a plant."
	}
	return words
}

// Formed says how the groups are formed and who stands in none.
func Formed(r cohort.Comparison) []string {
	var says []string
	switch m := r.Landmark; {
	case m != nil:
		says = append(says, byLandmark(*m)...)
	case r.By.Level == cohort.OfImport:
		says = append(says, "Known of the parcel when it came.")
	default:
		says = append(says, "Known of each plant on arrival.")
	}
	if s := r.Split; s != nil {
		says = append(says, fmt.Sprintf("Parted at the median, %s cm of root for each cm² of leaf, of %s.", strconv.FormatFloat(s.Median, 'g', 2, 64), Noun(s.Of, "line", "lines")))
		if s.Others > 0 {
			says = append(says, fmt.Sprintf("%s another kind of root length and can’t be set beside these.", Upper(NounInWords(s.Others, "line has", "lines have"))))
		}
	}
	if n := r.FollowedLate; n > 0 {
		says = append(says, fmt.Sprintf("%s left out: the diary of their import began late and knows survivors only.", Upper(NounInWords(n, "line is", "lines are"))))
	}
	if n := r.Undated; n > 0 {
		says = append(says, fmt.Sprintf("%s left out: no day is known of them.", Upper(NounInWords(n, "plant is", "plants are"))))
	}
	return says
}

func byLandmark(m cohort.Landmark) []string {
	says := []string{fmt.Sprintf("Groups as of day %d, from what was written down by then; the axis still counts from arrival, and the curves start on day %d. %s in.", m.Day, m.Day, Upper(NounInWords(m.In, "line stands", "lines stand")))}
	var out []string
	for _, p := range []struct {
		n     int
		words string
	}{{m.Lost, "lost by then"}, {m.OnArrival, "found dead on unpacking, later than that"}, {m.Unseen, "not seen since before it"}, {m.Listed, "from a list, which tells of no treatment"}} {
		if p.n > 0 {
			out = append(out, InWords(p.n)+" "+p.words)
		}
	}
	if len(out) > 0 {
		says = append(says, "Left out: "+List(out)+".")
	}
	if m.Between > 0 {
		says = append(says, fmt.Sprintf("%s last seen before day %d and found lost after it.", Upper(InWords(m.Between)), m.Day))
	}
	return says
}
