package cohort

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"wardian/build/growth"
	"wardian/content"
)

// What was known on day 0: of the parcel, of the plant, and from its record of
// arrival. Each function gives a group's name, or "" where the diary doesn't say.

// parcelled makes a group of a fact of the parcel. An import bought nearby is a
// group of its own.
func parcelled(of func(*content.Import) string) func(*Line, int) string {
	return func(l *Line, _ int) string {
		if l.Import().Local {
			return localGroup
		}
		return of(l.Import())
	}
}

func onArrival(of func(*Line) string) func(*Line, int) string {
	return func(l *Line, _ int) string { return of(l) }
}

// transitBand is the days from dispatch to arrival: at most 4, 5 to 7, 8 and
// more. Where one of them is half known, it is said only if all days it can have
// been fall into one band.
func transitBand(i *content.Import) string {
	if !i.Dispatched.Known() || !i.Arrived.Known() {
		return ""
	}
	fewest := transitBandOf(int(i.Arrived.First - i.Dispatched.Last))
	if fewest != transitBandOf(int(i.Arrived.Last-i.Dispatched.First)) {
		return ""
	}
	return fewest
}

func transitBandOf(days int) string {
	switch {
	case days <= 4:
		return transitBands[0]
	case days <= 7:
		return transitBands[1]
	}
	return transitBands[2]
}

// packingOf is everything that a parcel was packed in: two parcels are of one
// group only if they were packed alike.
func packingOf(i *content.Import) string {
	words := slices.Clone(i.Packing)
	slices.Sort(words)
	return strings.Join(slices.Compact(words), ", ")
}

// genusOf is the first word of a botanical name, with the cross of a hybrid
// genus; "" where the name opens with no genus ("unnamed jewel orchid").
func genusOf(name string) string {
	words := strings.Fields(name)
	cross := ""
	if len(words) > 1 && words[0] == "×" {
		cross, words = "×", words[1:]
	}
	if len(words) == 0 {
		return ""
	}
	bare := strings.TrimPrefix(words[0], "×")
	if first, _ := utf8.DecodeRuneInString(bare); !unicode.IsUpper(first) {
		return ""
	}
	return cross + words[0]
}

func gradeOnArrival(l *Line) string {
	if record := l.Arrival(); record != nil && record.Facts.Roots != nil && record.Facts.Roots.Grade != nil {
		return strconv.Itoa(*record.Facts.Roots.Grade)
	}
	return ""
}

func turgorOnArrival(l *Line) string {
	if record := l.Arrival(); record != nil {
		return string(record.Turgor)
	}
	return ""
}

// leavesOnArrival is the number of leaves counted on the record of arrival.
func leavesOnArrival(l *Line) string {
	record := l.Arrival()
	if record == nil || record.Facts.Leaves == nil || record.Facts.Leaves.Count == nil {
		return ""
	}
	switch n := record.Facts.Leaves.Count.Value; {
	case n == 0:
		return leafBands[0]
	case n <= 2:
		return leafBands[1]
	case n <= 5:
		return leafBands[2]
	}
	return leafBands[3]
}

// Split is the median root-to-leaf ratio that parts the lines in two.
type Split struct {
	Median float64     // cm of root per cm² of leaf, of the lines compared
	Kind   growth.Kind // what the roots' length is a length of
	Of     int         // lines with such a ratio
	Others int         // lines with a ratio of another kind of length: not compared
}

// ratioGroups parts lines at the median of their root-to-leaf ratios on arrival.
// Lengths of one kind only are compared: the kind that most lines have, of two as
// common the better.
func ratioGroups(lines []*Line) (names []string, split *Split) {
	ratios := make([]growth.Ratio, len(lines))
	byKind := map[growth.Kind][]float64{}
	for n, l := range lines {
		record := l.Arrival()
		for _, p := range l.Points {
			if p.Look == record && p.Ratio.Known {
				ratios[n] = p.Ratio
				byKind[p.Ratio.Kind] = append(byKind[p.Ratio.Kind], p.Ratio.Value)
			}
		}
	}
	split = &Split{}
	for _, kind := range []growth.Kind{growth.AllRoots, growth.CountTimes, growth.LongestAlone} {
		if n := len(byKind[kind]); n > split.Of {
			split.Kind, split.Of = kind, n
		}
	}
	names = make([]string, len(lines))
	if split.Of == 0 {
		return names, nil
	}
	values := byKind[split.Kind]
	slices.Sort(values)
	split.Median = (values[(len(values)-1)/2] + values[len(values)/2]) / 2
	for n, r := range ratios {
		switch {
		case !r.Known:
		case r.Kind != split.Kind:
			split.Others++
		case r.Value < split.Median:
			names[n] = ratioBands[0]
		default:
			names[n] = ratioBands[1]
		}
	}
	return names, split
}
