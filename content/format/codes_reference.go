package format

// referenceCodes are the findings about what one file says of another.
var referenceCodes = []Code{
	{Name: "unknown-id", Title: "an ID that nothing bears",
		About: "An ID is the name of a file under specimens, imports or places, or of a section that a cut made.",
		Wrong: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimen: b26-O1\nturgor: firm\n---\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimen: b26-01\nturgor: firm\n---\n"},
	{Name: "unknown-season", Title: "a season that no import is of",
		About: "A season's words are shown with the imports of that season, so the two are written alike.",
		Wrong: "-- seasons/spring.md --\n---\nseason: 2026 sprng\n---\nIt was cold.\n",
		Right: "-- seasons/spring.md --\n---\nseason: 2026 spring\n---\nIt was cold.\n"},
	{Name: "unknown-link", Title: "a link that leads nowhere in the diary",
		About: "A link between entries is a diary path: specimens/ID, imports/ID, places/ID, updates/WORDS, check-ins/..., with .md or without, from the diary's folder on.",
		Wrong: checkIn("turgor: firm") + "See [the other one](specimen/b26-02).\n", Right: checkIn("turgor: firm") + "See [the other one](specimens/b26-02).\n"},
	{Name: "missing-photo", Title: "a picture that isn't there",
		About: "photos: names pictures by their paths below photos/.",
		Wrong: checkIn("photos: [2026-04-06/b26-1.jpg]"), Right: checkIn("photos: [2026-04-06/b26-01.jpg]")},
	{Name: "not-a-picture", Title: "a file that isn't a picture",
		About: "JPEG, PNG, WebP and HEIC are read.",
		Wrong: checkIn("photos: [2026-04-06/b26-01.mov]"), Right: checkIn("photos: [2026-04-06/b26-01.jpg]")},
}
