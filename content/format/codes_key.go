package format

// keyCodes are the findings about keys: which are there, and beside which others.
var keyCodes = []Code{
	{Name: "unknown-key", Title: "a key that this kind of file doesn't have",
		About: "A key that isn't known would be ignored in silence, and what stands behind it lost. What is for your own eyes goes under private.",
		Wrong: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimen: b26-01\nturgr: firm\n---\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimen: b26-01\nturgor: firm\n---\n"},
	{Name: "missing-key", Title: "a key that must be there and isn't",
		About: "Without it the file can't be placed: a check-in without its date stands in no order, a specimen without its import has no day 0.",
		Wrong: "-- check-ins/2026-04-06.md --\n---\nspecimen: b26-01\nturgor: firm\n---\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimen: b26-01\nturgor: firm\n---\n"},
	{Name: "key-elsewhere", Title: "keys that don't belong beside each other",
		About: "An entry tells of one specimen, of several, or of a place alone; each has keys of its own. A cause needs its loss, and since needs its event.",
		Wrong: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nplace: tote\nturgor: firm\n---\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nplace: tote\nspecimen: b26-01\nturgor: firm\n---\n"},
	{Name: "empty-others", Title: "others: with nothing behind it",
		About: "It decides whether every plant at the place that isn't named was looked at. same: all of them were, and there is nothing to add. not seen: they stand there, and weren't looked at.",
		Wrong: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nplace: tote\nspecimens:\n  b26-01: firm\nothers:\n---\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nplace: tote\nspecimens:\n  b26-01: firm\nothers: not seen\n---\n"},
	{Name: "others-without-place", Title: "others or not-seen without a place",
		About: "The others are those at one place, so the round has to name it.",
		Wrong: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimens:\n  b26-01: firm\nothers: not seen\n---\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nplace: tote\nspecimens:\n  b26-01: firm\nothers: not seen\n---\n"},
	{Name: "heading-twice", Title: "two headings for one plant",
		About: "The words under \"## ID\" are that plant's. Put both parts under one heading.",
		Wrong: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimens:\n  b26-01: firm\n---\n## b26-01\nFirm.\n\n## b26-01\nVery.\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimens:\n  b26-01: firm\n---\n## b26-01\nFirm.\n\nVery.\n"},
}
