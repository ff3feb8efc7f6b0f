// Package address says where each thing lives on the site. Nobody else joins a
// path.
//
// A site path starts at the site's folder, has forward slashes and no leading
// one: "specimens/b26-03.html". One file a page, flat in the folder of its kind,
// so that a link works under any address and from a folder opened as file://.
// A specimen's path follows from its ID alone and never changes.
//
// Every name is made of lower-case letters, digits, hyphens, full stops and, where
// ours had to differ from a grower's, low lines: none that a file system folds,
// reserves or refuses.
//
// The package refuses to know what stands on a page.
package address

import "strings"

// Front is the site's first page.
func Front() string { return "index.html" }

// Specimens lists all specimens.
func Specimens() string { return "specimens/index.html" }

// Specimen is a specimen's or a section's page, newest entry first.
func Specimen(id string) string { return "specimens/" + name(id) + ".html" }

// SpecimenOldest is the same page with the oldest entry first. No ID holds a
// full stop, so it can't be another specimen's page.
func SpecimenOldest(id string) string { return "specimens/" + name(id) + ".oldest.html" }

// Imports lists all imports.
func Imports() string { return "imports/index.html" }

// Import is an import's page.
func Import(id string) string { return "imports/" + name(id) + ".html" }

// Places lists all places.
func Places() string { return "places/index.html" }

// Place is a place's page.
func Place(id string) string { return "places/" + name(id) + ".html" }

// Updates lists all letters to readers.
func Updates() string { return "updates/index.html" }

// Update is a letter's page. slug is the name of its file without ".md".
func Update(slug string) string { return "updates/" + name(slug) + ".html" }

// Seasons is the page of all seasons.
func Seasons() string { return "seasons/index.html" }

// Season is the page of one season's reckoning.
func Season(season string) string {
	return "seasons/" + labelled(season, strings.ReplaceAll(season, " ", "-"), strings.Contains(season, "-")) + ".html"
}

// Comparisons lists all words by which plants may be compared.
func Comparisons() string { return "compare/index.html" }

// Comparison is the page of the plants compared by one word ("root-grade").
func Comparison(word string) string { return "compare/" + labelled(word, word, false) + ".html" }

// Amendments is the page of everything that was set right.
func Amendments() string { return "amendments/index.html" }

// Method is the page of definitions and sources.
func Method() string { return "method/index.html" }

// Data is the page that tells of the open data.
func Data() string { return "data/index.html" }

// OpenData is one file of the open data, by its name ("specimens.csv").
func OpenData(file string) string { return "open-data/" + file }

// Atom is the feed of updates in Atom's format.
func Atom() string { return "feeds/updates.atom" }

// JSONFeed is the same feed in JSON Feed's format.
func JSONFeed() string { return "feeds/updates.json" }

// Icon is the emblem beside a page's name in a browser's list of pages.
func Icon(fingerprint string) string { return "look/emblem-" + fingerprint + ".svg" }

// Style is a style sheet, named after its bytes so that it may be kept for ever.
func Style(fingerprint string) string { return "look/style-" + fingerprint + ".css" }

// Script is the small script, named after its bytes.
func Script(fingerprint string) string { return "look/script-" + fingerprint + ".js" }

// labelled makes a file name of a grower's own words: readable where that is made
// of plain characters only and stands for nothing else, otherwise what is plain of
// them, cut to a length that every file system takes, and a hash of the whole.
func labelled(whole, readable string, doubtful bool) string {
	plain := slug(readable, "", 60)
	if plain == readable && plain != "" && plain != "index" && !doubtful {
		return name(plain)
	}
	return plain + "_" + fingerprint([]byte(whole))
}

// name makes a file name of an ID. An ID is safe as it stands but for the names
// of devices, which Windows reserves with any extension (Microsoft, "Naming
// Files, Paths, and Namespaces"); a low line, which no ID holds, sets them apart.
func name(id string) string {
	switch device := strings.TrimRight(id, "0123456789"); device {
	case "con", "prn", "aux", "nul":
		if device == id {
			return id + "_"
		}
	case "com", "lpt":
		if len(id) == len(device)+1 {
			return id + "_"
		}
	}
	return id
}
