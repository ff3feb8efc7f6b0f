package format

// line is a round in which one plant's line says something.
func line(words string) string {
	return "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimens:\n  b26-01: " + words + "\n---\n"
}

// wordCodes are the findings made in a plant's line of plain words. Figures,
// IDs and words of a list have the codes that they have elsewhere.
var wordCodes = []Code{
	{Name: "unknown-phrase", Title: "a phrase that isn't one of the closed list",
		About: "A plant's line is made of phrases with commas between: firm, new root, leaves 3, to cabinet. Anything else is a remark, which stands at the end after a semicolon, or a map of keys in braces.",
		Wrong: line("frim, smells sour"), Right: line("firm; smells sour")},
	{Name: "words-after-phrase", Title: "words behind a phrase that is complete",
		About: "Each phrase ends at a comma. Two phrases need one between them; a remark needs a semicolon before it.",
		Wrong: line("limp rot stem"), Right: line("limp, rot stem")},
	{Name: "phrase-unfinished", Title: "a phrase lacks the words that belong to it",
		About: "Some phrases say nothing alone: leaves needs how many, roots its grade first, rot where it is, to the place.",
		Wrong: line("rot"), Right: line("rot stem")},
	{Name: "empty-phrase", Title: "a comma with no phrase beside it",
		About: "Something was left out, or one comma is too many.",
		Wrong: line("firm,, new root"), Right: line("firm, new root")},
	{Name: "phrase-twice", Title: "a line says one thing twice",
		About: "A plant is firm or soft, and has one number of leaves. The second phrase isn't read.",
		Wrong: line("firm, soft"), Right: line("soft")},
	{Name: "same-beside-more", Title: "same stands beside another phrase",
		About: "same means that there is nothing to add, so it stands alone, or before a remark.",
		Wrong: line("same, new root"), Right: line("new root")},
	{Name: "comma-in-number", Title: "a comma inside a figure",
		About: "A line is cut at its commas first, so decimals have a point, and the sizes of leaves have spaces between them.",
		Wrong: line("roots 1 longest 1,5"), Right: line("roots 1 longest 1.5")},
}
