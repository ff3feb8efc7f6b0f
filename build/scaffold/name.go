package scaffold

import (
	"path"
	"slices"
	"strings"

	"wardian/content"
	"wardian/content/measure"
)

// layouts are the ways of naming a check-in by its date that a diary may keep
// to, the longest first.
var layouts = []string{"2006/01/2006-01-02", "2006/2006-01-02", "2006/01/02", "2006/01-02", "2006-01-02"}

// RoundPath names a new file for a round of a day: check-ins/2026-04-06.md, or
// in the diary's own folders where its last check-in lies in a folder of its
// year (check-ins/2026/04-06.md). The second round of a day has a b behind the
// date, the next a c: a letter, since two check-ins of one day without times are
// read in the order of their names, and a letter sorts behind the full stop that
// a hyphen would sort before. taken are the paths of all files that are there.
// After z there is no name left, and ok is false.
func RoundPath(d *content.Diary, on measure.Day, taken []string) (path string, ok bool) {
	return FreePath(roundStem(d, on), taken)
}

// RoundFolder is the folder in which a new round of a day goes.
func RoundFolder(d *content.Diary, on measure.Day) string { return path.Dir(roundStem(d, on)) }

func roundStem(d *content.Diary, on measure.Day) string {
	if n := len(d.Entries); n > 0 {
		last := d.Entries[n-1]
		for _, layout := range layouts {
			if strings.HasPrefix(last.Path, "check-ins/"+last.When.Day.Time().Format(layout)) {
				return "check-ins/" + on.Time().Format(layout)
			}
		}
	}
	return "check-ins/" + on.String()
}

// FreePath is the first of STEM.md, STEMb.md … STEMz.md behind which no file of
// that series stands.
func FreePath(stem string, taken []string) (path string, ok bool) {
	names := []string{stem + ".md"}
	for letter := 'b'; letter <= 'z'; letter++ {
		names = append(names, stem+string(letter)+".md")
	}
	free := 0
	for n, name := range names {
		// Some disks take 2026-04-06B.md for the same name.
		if slices.ContainsFunc(taken, func(t string) bool { return strings.EqualFold(t, name) }) {
			free = n + 1
		}
	}
	if free == len(names) {
		return "", false
	}
	return names[free], true
}
