package page

import (
	"strconv"
	"strings"

	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
)

// got is what a look measured and did, in one line: "5 leaves, 171 cm² of leaf ·
// roots grade 4, 131 cm · firm". What the entry's title says alone is not said
// again.
func (s *site) got(l *content.Look, pt *cohort.Point, title string) string {
	var parts []string
	add := func(words string) {
		if words != "" && words != title {
			parts = append(parts, words)
		}
	}
	add(s.leafWords(l, pt))
	add(s.rootWords(l, pt))
	if l.Turgor != "" {
		add(string(l.Turgor))
	}
	if l.Facts.Resting {
		add("resting")
	}
	if l.Rot != "" {
		add(map[string]string{"none": "no rot"}[l.Rot])
		if l.Rot != "none" {
			add("rot: " + l.Rot)
		}
	}
	if l.Pests != "" {
		if l.Pests == "none" {
			add("no pests")
		} else {
			add("pests: " + l.Pests)
		}
	}
	if l.Medium != "" {
		add("in " + l.Medium)
	}
	if l.Soak != nil {
		add(tilde(l.Soak.Estimate) + digits(float64(l.Soak.Value)) + " h in water")
	}
	if len(l.Did) > 0 {
		add(said.List(l.Did))
	}
	for _, m := range s.Cohort.Part(l.Timeline.Specimen.ID).Moves {
		if m.Look == l {
			add(airWords(m))
		}
	}
	if l.At != nil && l.To == nil {
		add(l.At.Name)
	}
	if l.Entry.By != "" {
		add("seen by " + l.Entry.By)
	}
	return strings.Join(parts, " · ")
}

func (s *site) leafWords(l *content.Look, pt *cohort.Point) string {
	f := l.Facts.Leaves
	if f == nil || pt == nil {
		return ""
	}
	var words []string
	if f.Count != nil {
		words = append(words, tilde(f.Count.Estimate)+said.Noun(f.Count.Value, "leaf", "leaves"))
	}
	if pt.Leaves.Said && pt.Leaves.Known() && pt.Leaves.Area > 0 {
		words = append(words, areaWords(pt.Leaves.Area, pt.Leaves.Estimated))
	}
	if f.Dropped > 0 && f.Count == nil {
		words = append(words, said.Noun(f.Dropped, "leaf dropped", "leaves dropped"))
	}
	if f.New {
		words = append(words, "a new leaf")
	}
	return strings.Join(words, ", ")
}

func (s *site) rootWords(l *content.Look, pt *cohort.Point) string {
	f := l.Facts.Roots
	if f == nil || pt == nil {
		return ""
	}
	var words []string
	if f.Grade != nil {
		words = append(words, "roots "+gradeWord(*f.Grade))
	}
	if length := s.lengthWords(pt); length != "" {
		words = append(words, length)
	}
	if f.New {
		words = append(words, "a new root")
	}
	return strings.Join(words, ", ")
}

// lengthWords is a look's root length with what it is a length of; "" where it
// gave none.
func (s *site) lengthWords(pt *cohort.Point) string {
	length := tilde(pt.Roots.Estimated) + s.length(pt.Roots.Length)
	switch pt.RootsOf() {
	case "all roots":
		return length + " of root"
	case "count times mean":
		return length + " of root by count and mean"
	case "longest root":
		return "longest root " + length
	}
	return ""
}

// gradeWord is a root grade with its word.
func gradeWord(grade int) string {
	if grade < 0 || grade >= len(gradeWords) {
		return ""
	}
	return "grade " + strconv.Itoa(grade) + " (" + gradeWords[grade] + ")"
}

// airWords tells of a move's air: "deficit 0.16 → 0.98 kPa (+0.82 kPa)".
func airWords(m cohort.Move) string {
	if !m.Known() {
		return ""
	}
	words := "deficit " + kpa(m.Before.Deficit) + " → " + kpa(m.After.Deficit) + " (" + differenceWords(m) + ")"
	if m.Typical() {
		words += ", by the places’ typical figures"
	}
	return words
}
