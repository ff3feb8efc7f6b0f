package format

// below is a check-in of b26-01 with words below its front matter.
func below(words string) string { return checkIn("turgor: firm") + words + "\n" }

// proseCodes are the findings about the words below the front matter.
var proseCodes = []Code{
	{Name: "body-too-long", Title: "the words below the front matter are too long",
		About: "The words of one entry may hold 64 KiB, some ten thousand words. Split the entry, or move the story into an update."},
	{Name: "too-tangled", Title: "words whose marks can't be followed",
		About: "Thousands of stars or brackets, each of which might belong to any other, would keep the program busy for minutes. No words of a person's look like that."},
	{Name: "raw-html", Title: "HTML among the words", Warning: true,
		About: "HTML isn't passed through to the site. Write Markdown, or a backslash before a < that is meant as it stands.",
		Wrong: below("It is <b>limp</b>."), Right: below("It is **limp**.")},
	{Name: "link-scheme", Title: "a link of a kind that isn't followed", Warning: true,
		About: "Links lead to diary paths, or to addresses that open with https:, http: or mailto:.",
		Wrong: below("See [this](javascript:alert)."), Right: below("See [this](https://example.org/).")},
	{Name: "link-without-words", Title: "a link without words", Warning: true,
		About: "Nobody could see it, or follow it.",
		Wrong: below("See [](specimens/b26-02)."), Right: below("See [the other](specimens/b26-02).")},
	{Name: "picture-elsewhere", Title: "a picture from elsewhere", Warning: true,
		About: "Pictures come from the diary's own photos folder: a page that fetched them elsewhere would tell others who reads it.",
		Wrong: below("![a leaf](https://example.org/leaf.jpg)"), Right: below("![a leaf](photos/2026-04-06/b26-01.jpg)")},
	{Name: "note-unused", Title: "a footnote that nothing calls", Warning: true,
		About: "A footnote is shown where [^its-mark] stands in the words.",
		Wrong: below("It is firm.\n\n[^1]: Since Monday."), Right: below("It is firm.[^1]\n\n[^1]: Since Monday.")},
	{Name: "note-unknown", Title: "a call for a footnote that isn't there", Warning: true,
		About: "A footnote is a line of its own that opens with its mark and a colon.",
		Wrong: below("It is firm.[^1]"), Right: below("It is firm.[^1]\n\n[^1]: Since Monday.")},
	{Name: "plate-inside", Title: "a plate inside a list or a quotation", Warning: true,
		About: "A plate is drawn only where its block starts at the line's beginning.",
		Wrong: "-- updates/one.md --\n---\ntitle: One\ndate: 2026-04-20\n---\n- so:\n\n  ```plate\n  show: survival\n  ```\n",
		Right: "-- updates/one.md --\n---\ntitle: One\ndate: 2026-04-20\n---\nSo:\n\n```plate\nshow: survival\n```\n"},
}
