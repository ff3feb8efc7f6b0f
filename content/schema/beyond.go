package schema

// Beyond gives the codes of findings that no schema can make, each with the
// reason. A test reads every small diary both ways: what has a finding of any
// other code in its front matter, a schema refuses; what has none, it accepts.
func Beyond() map[string]string {
	out := map[string]string{}
	for reason, codes := range beyond {
		for _, code := range codes {
			out[code] = reason
		}
	}
	return out
}

// The reasons why a schema can't know.
const (
	NotYAML    = "YAML itself can't be read there, or has eaten the words before a schema sees them"
	OtherFiles = "it takes the diary's other files, their order in time or today to know"
	WholeFile  = "it is about the file, not about its keys"
	Prose      = "it stands in the words below the front matter"
	PlainWords = "it stands in a plant's line of plain words, which a schema takes as it stands"
	TwoFigures = "two figures or days of one file don't agree"
)

var beyond = map[string][]string{
	NotYAML: {"file-too-long", "not-utf8", "control-character", "no-front-matter", "front-matter-open", "front-matter-line", "other-front-matter",
		"hyphens-inside", "second-document", "not-yaml", "not-a-map", "too-deep", "indentation", "line-without-key", "duplicate-key",
		"hash-eats-words", "decimal-comma", "comma-in-words", "key-without-value", "colon-without-space", "colon-in-words", "opening-mark",
		"yaml-reference", "quote-closes-early", "quote-open", "bracket-open", "tab", "list-without-brackets"},
	WholeFile: {"no-diary", "link-out", "id-case", "not-an-id", "reserved-id", "unknown-template", "broken-template"},
	OtherFiles: {"unknown-id", "unknown-season", "unknown-link", "missing-photo", "no-log", "no-currency", "no-rate", "day-in-future", "days-out-of-order",
		"before-arrival", "place-for-to", "medium-in-soak", "unfinished-named", "after-loss", "no-loss-to-take-back", "after-passing-on",
		"after-dividing", "cut-after-loss", "before-cut", "cut-twice", "cut-exists", "not-there", "refund-for-whom", "round-of-nobody",
		"logger-not-text", "logger-column", "logger-days",
		"no-list", "list-not-text", "list-column", "list-without", "list-twice", "list-exists", "lost-and-left"},
	Prose:      {"body-too-long", "too-tangled", "heading-twice", "heading-of-nobody"},
	PlainWords: {"unknown-phrase", "words-after-phrase", "phrase-unfinished", "empty-phrase", "phrase-twice", "same-beside-more", "comma-in-number"},
	TwoFigures: {"later-than-entry", "more-sizes-than-leaves", "resting-in-leaf", "lost-and-living", "named-twice"},
}
