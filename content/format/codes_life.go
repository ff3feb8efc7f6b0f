package format

const (
	foundLost = "date: 2026-04-05\nspecimen: b26-02\noutcome: lost\n"
	cutWhole  = "date: 2026-04-05\nspecimen: b26-02\ncut-into: {b26-02a: top, b26-02b: base}\n"
)

// lifeCodes are the findings about losses and cuts.
var lifeCodes = []Code{
	{Name: "after-loss", Title: "a check-in of a plant that was found lost",
		About: "After a loss nothing more can be seen of a plant, unless it proves alive after all: outcome: alive after all takes the loss back, and the page says so.",
		Wrong: entry("2026-04-05", foundLost) + entry("2026-04-08", "date: 2026-04-08\nspecimen: b26-02\nturgor: soft\n"),
		Right: entry("2026-04-05", foundLost) + entry("2026-04-08", "date: 2026-04-08\nspecimen: b26-02\nturgor: soft\noutcome: alive after all\n")},
	{Name: "no-loss-to-take-back", Title: "alive after all, without a loss before it",
		About: "alive after all takes an earlier loss back. A plant that was never found lost needs a check-in only.",
		Wrong: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\noutcome: alive after all\n"),
		Right: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nturgor: soft\n")},
	{Name: "after-passing-on", Title: "a check-in of a plant that was passed on",
		About: "Sold or given away, it is followed no further. If it stayed after all, take passed on out of the earlier check-in.",
		Wrong: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\noutcome: passed on\n") + entry("2026-04-08", "date: 2026-04-08\nspecimen: b26-02\nturgor: firm\n"),
		Right: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\noutcome: passed on\n")},
	{Name: "after-dividing", Title: "a check-in of a plant that was cut up whole",
		About: "cut-into without the plant's own ID among the pieces ends it there; its sections are followed instead. If a part lives on under the old ID, name it among the pieces.",
		Wrong: entry("2026-04-05", cutWhole) + entry("2026-04-08", "date: 2026-04-08\nspecimen: b26-02\nturgor: firm\n"),
		Right: entry("2026-04-05", cutWhole) + entry("2026-04-08", "date: 2026-04-08\nspecimen: b26-02b\nturgor: firm\n")},
	{Name: "lost-and-living", Title: "lost, and among its own pieces",
		About: "A plant's own ID in cut-into means that it lives on. It can't be lost on the same check-in.",
		Wrong: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\noutcome: lost\ncut-into: {b26-02: base, b26-02a: top}\n"),
		Right: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\noutcome: lost\ncut-into: {b26-02a: top}\n")},
	{Name: "cut-after-loss", Title: "a piece cut from a plant that was lost before",
		About: "A piece may be cut on the day its parent is found lost, not later: a living piece would show that the parent lived.",
		Wrong: entry("2026-04-05", foundLost) + entry("2026-04-08", "date: 2026-04-08\nspecimen: b26-02\ncut-into: {b26-02a: top}\n"),
		Right: entry("2026-04-05", foundLost) + entry("2026-04-05-cut", "date: 2026-04-05 20:00\nspecimen: b26-02\ncut-into: {b26-02a: top}\n")},
	{Name: "before-cut", Title: "a check-in of a section before its cut",
		About: "A section exists from the check-in that cut it. On one day, check-ins without a time come before those with one.",
		Wrong: entry("2026-04-04", "date: 2026-04-04\nspecimen: b26-02a\nturgor: firm\n") + entry("2026-04-05", cutWhole),
		Right: entry("2026-04-05", cutWhole) + entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02a\nturgor: firm\n")},
	{Name: "cut-twice", Title: "a section's ID made twice",
		About: "An ID is made once and never means another plant. A parent that lives on may be cut again, into new IDs.",
		Wrong: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\ncut-into: {b26-02: base, b26-02a: top}\n") +
			entry("2026-04-08", "date: 2026-04-08\nspecimen: b26-02\ncut-into: {b26-02: base, b26-02a: middle}\n"),
		Right: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\ncut-into: {b26-02: base, b26-02a: top}\n") +
			entry("2026-04-08", "date: 2026-04-08\nspecimen: b26-02\ncut-into: {b26-02: base, b26-02b: middle}\n")},
	{Name: "cut-exists", Title: "a section with the ID of a plant as received",
		About: "The ID has a file with an import or a price of its own, so it is a plant that came in a box. A section gets an ID of its own.",
		Wrong: "-- specimens/b26-09.md --\n---\nname: Hoya obovata\nimport: 2026-spring-b\nprice: 45\n---\n" +
			entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\ncut-into: {b26-02: base, b26-09: top}\n"),
		Right: "-- specimens/b26-09.md --\n---\nname: Hoya obovata\nimport: 2026-spring-b\nprice: 45\n---\n" +
			entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\ncut-into: {b26-02: base, b26-02a: top}\n")},
}

const twoSeen = "date: 2026-04-06\nplace: tote\nspecimens:\n  b26-01: firm\n  b26-02: soft\n"

// roundCodes are the findings about rounds, and about imports as a whole.
var roundCodes = []Code{
	{Name: "named-twice", Title: "a round names a plant as seen and as not seen",
		About: "A plant was looked at or wasn't.",
		Wrong: entry("2026-04-06", twoSeen+"not-seen: [b26-02]\n"),
		Right: entry("2026-04-06", twoSeen)},
	{Name: "round-of-nobody", Title: "a round that speaks for no plant",
		About: "All its lines are empty, or others: same where nothing stands. A round that was begun and not made is better left out.",
		Wrong: entry("2026-04-06", "date: 2026-04-06\nspecimens:\n  b26-01:\n  b26-02:\n"),
		Right: entry("2026-04-06", "date: 2026-04-06\nspecimens:\n  b26-01: same\n  b26-02:\n")},
	{Name: "not-there", Title: "not-seen names a plant that doesn't stand there",
		About: "not-seen is for plants that stood at the place and weren't looked at. One that stands elsewhere, or is gone, needs no mention.",
		Wrong: entry("2026-04-05", "date: 2026-04-05\nplace: tote\nspecimens:\n  b26-01: lost\n  b26-02: soft\n") + entry("2026-04-06", "date: 2026-04-06\nplace: tote\nothers: same\nnot-seen: [b26-01]\n"),
		Right: entry("2026-04-05", "date: 2026-04-05\nplace: tote\nspecimens:\n  b26-01: lost\n  b26-02: soft\n") + entry("2026-04-06", "date: 2026-04-06\nplace: tote\nothers: same\n")},
	{Name: "heading-of-nobody", Title: "a heading for a plant that the round doesn't speak for",
		About: "Words under ## and an ID belong to that plant's look. A plant that the round neither names with something nor speaks for with others: same had none. For a heading of another kind write ###.",
		Wrong: entry("2026-04-06", twoSeen) + "\n## b26-03\n\nA new shoot.\n",
		Right: entry("2026-04-06", twoSeen+"  b26-03: same\n") + "\n## b26-03\n\nA new shoot.\n"},
	{Name: "received-differs", Warning: true, Title: "another number of plants received than the diary follows",
		About: "Each plant in the box has a file under specimens/, the dead on arrival too; sections don't count. Shares are of the plants that have one.",
		Wrong: "-- imports/2026-spring-c.md --\n---\nseason: 2026 spring\narrived: 2026-05-01\nreceived: 2\n---\n-- specimens/c26-01.md --\n---\nname: Hoya obovata\nimport: 2026-spring-c\n---\n",
		Right: "-- imports/2026-spring-c.md --\n---\nseason: 2026 spring\narrived: 2026-05-01\nreceived: 1\n---\n-- specimens/c26-01.md --\n---\nname: Hoya obovata\nimport: 2026-spring-c\n---\n"},
	{Name: "refund-for-whom", Title: "a refund for something that isn't of this import",
		About: "for: says what the money came back for: short, the ID of a specimen of this import, or other and words.",
		Wrong: "-- imports/2026-spring-c.md --\n---\nseason: 2026 spring\narrived: 2026-05-01\nrefunds: [{date: 2026-05-20, amount: 14, for: b26-01}]\n---\n",
		Right: "-- imports/2026-spring-c.md --\n---\nseason: 2026 spring\narrived: 2026-05-01\nrefunds: [{date: 2026-05-20, amount: 14, for: other the broken box}]\n---\n"},
}
