package format

// Update is a file under updates/: a letter to readers.
var Update = File{
	Name: "update", Path: "updates/WORDS.md",
	About: "A letter to readers. Its address is the file's name; the date stands inside.",
	Keys: with([]Key{
		{Name: "title", Value: Value{Kind: Text}, Required: true, Example: "Six weeks on", About: "The letter's title."},
		{Name: "date", Value: Value{Kind: Day}, Past: true, Required: true, Example: "2026-04-20",
			About: "Its day. Nothing that happened later may be seen in it."},
		{Name: "import", Value: Value{Kind: ID, Of: "import"}, Example: "2026-spring-b", About: "The import it is about."},
	}),
}

// Season is a file under seasons/: a season's reckoning in the grower's own
// words.
var Season = File{
	Name: "season", Path: "seasons/WORDS.md",
	About: "A season's reckoning in the grower's own words.",
	Keys: with([]Key{
		{Name: "season", Value: Value{Kind: Text}, Required: true, Example: "2026 spring", About: "The season, as its imports write it."},
	}),
}

// Plate is a fenced block of an update that calls in a drawing or a table.
var Plate = File{
	Name: "plate", Path: "a ```plate block in updates/WORDS.md",
	About: "A drawing or a table called into an update, as of the update's date.",
	Keys: []Key{
		{Name: "show", Value: Value{Kind: Choice, Words: []Word{
			{"survival", "the survival curve"}, {"milestones", "first roots, first leaves, out of the bin"}, {"causes", "why plants were lost"},
			{"rows", "every specimen as a row"}, {"soil-lines", "all soil lines side by side"}, {"root-to-leaf", "one specimen's leaf and root"},
			{"place", "what it was like at a place"}, {"then-and-now", "a first and a latest picture"}, {"table", "the survival table"}}}, Required: true, Example: "survival",
			About: "What to draw."},
		{Name: "import", Value: Value{Kind: ID, Of: "import"}, Example: "2026-spring-b", About: "The import to draw."},
		{Name: "specimen", Value: Value{Kind: ID, Of: "specimen"}, Example: "b26-03", About: "The specimen to draw."},
		{Name: "place", Value: Value{Kind: ID, Of: "place"}, Example: "tote", About: "The place to draw."},
		{Name: "by", Value: Value{Kind: Text}, Example: "size", About: "What to group by, where groups make sense."},
	},
}
