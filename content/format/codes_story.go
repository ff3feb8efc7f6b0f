package format

// storyCodes are the findings made by following the entries in order of time,
// across files.
var storyCodes = append(append([]Code{
	{Name: "days-out-of-order", Title: "two days that can't be in this order",
		About: "A parcel is ordered, dispatched, arrives and is unpacked; a plant is seen well before it is found lost; an entry is amended after its own date. One of the two days is a slip. A day half known is held to the last day it can have been.",
		Wrong: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-01\noutcome: lost\nlast-good: 2026-03-01\n"),
		Right: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-01\noutcome: lost\nlast-good: 2026-04-01\n")},
	{Name: "before-arrival", Title: "a check-in of a plant that hadn't come yet",
		About: "Days count from the import's arrival, and nothing was seen before it. Either the check-in's date is a slip, often in the year, or the import's.",
		Wrong: entry("2025-04-06", "date: 2025-04-06\nspecimen: b26-01\nturgor: firm\n"),
		Right: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-01\nturgor: firm\n")},
	{Name: "order-unsaid", Warning: true, Title: "two check-ins of one plant on one day, without times",
		About: "They are read in the order of their files' names, which may not be the order in which things happened. A time of day with the date settles it.",
		Wrong: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-01\nturgor: limp\n") +
			entry("2026-04-06-b", "date: 2026-04-06\nspecimen: b26-01\nturgor: firm\n"),
		Right: entry("2026-04-06", "date: 2026-04-06 08:00\nspecimen: b26-01\nturgor: limp\n") +
			entry("2026-04-06-b", "date: 2026-04-06 18:30\nspecimen: b26-01\nturgor: firm\n")},
	{Name: "place-for-to", Title: "a plant is looked at where it doesn't stand",
		About: "place says where a plant is looked at; the first one says where it stands. After that only a move, to:, brings it elsewhere. So either a move is missing, or the place is a slip.",
		Wrong: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-01\nplace: tote\nturgor: firm\n") +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-01\nplace: cabinet\nturgor: firm\n"),
		Right: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-01\nplace: tote\nturgor: firm\n") +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-01\nto: cabinet\nturgor: firm\n")},
	{Name: "already-there", Warning: true, Title: "a move to where the plant stands already",
		About: "Either an earlier move was forgotten, or this one is one too many.",
		Wrong: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-01\nplace: tote\nturgor: firm\n") +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-01\nto: tote\nturgor: firm\n"),
		Right: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-01\nplace: tote\nturgor: firm\n") +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-01\nturgor: firm\n")},
	{Name: "from-nowhere", Warning: true, Title: "a move of a plant of which nobody said where it stood",
		About: "What the air asked of it before the move can't be told, nor whether it left the bin. place: in its first check-in says where it stood.",
		Wrong: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\nturgor: firm\n") +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nto: cabinet\n"),
		Right: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\nplace: tote\nturgor: firm\n") +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nto: cabinet\n")},
	{Name: "medium-in-soak", Title: "a medium other than water in a soak",
		About: "At a place whose stage is soak the roots are in water. The medium is said when the plant comes out.",
		Wrong: tub + entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nto: tub\nmedium: sphagnum moss\n"),
		Right: tub + entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nto: tub\n")},
	{Name: "soak-against-moves", Warning: true, Title: "the hours of a soak differ from the moves in and out",
		About: "Where both moves have their times, these count, and soak: isn't needed. One of them may be a slip.",
		Wrong: tub + entry("2026-04-05", "date: 2026-04-05 18:00\nspecimen: b26-02\nto: tub\n") +
			entry("2026-04-06", "date: 2026-04-06 18:00\nspecimen: b26-02\nto: tote\nsoak: 6 h\n"),
		Right: tub + entry("2026-04-05", "date: 2026-04-05 18:00\nspecimen: b26-02\nto: tub\n") +
			entry("2026-04-06", "date: 2026-04-06 18:00\nspecimen: b26-02\nto: tote\n")},
	{Name: "new-on-arrival", Warning: true, Title: "something new on the day of arrival",
		About: "new means new since the last look, and on that day there was none. It counts as no milestone.",
		Wrong: entry("2026-03-09", "date: 2026-03-09\nspecimen: b26-02\nroots: {grade: 1, new: yes}\n"),
		Right: entry("2026-03-09", "date: 2026-03-09\nspecimen: b26-02\nroots: {grade: 1}\n")},
	{Name: "roots-unannounced", Warning: true, Title: "roots where there were none, and no look that first saw one",
		About: "The first new root is dated by new: yes alone, so that a grade written again isn't taken for a milestone.",
		Wrong: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\nroots: {grade: 0}\n") +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nroots: {grade: 1}\n"),
		Right: entry("2026-04-05", "date: 2026-04-05\nspecimen: b26-02\nroots: {grade: 0}\n") +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nroots: {grade: 1, new: yes}\n")},
	{Name: "resting-in-leaf", Title: "resting, and leaves",
		About: "resting is for a plant without a leaf that lives on, as a rhizome or a corm.",
		Wrong: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nresting: yes\nleaves: {count: 1}\n"),
		Right: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nleaves: {count: 1}\n")},
	{Name: "arrival-twice", Warning: true, Title: "a second record of arrival",
		About: "One check-in is the record of arrival: what groups known at day 0 are made from. The first counts.",
		Wrong: entry("2026-03-10", "date: 2026-03-10\nspecimen: b26-02\narrival: yes\nturgor: limp\n") +
			entry("2026-03-11", "date: 2026-03-11\nspecimen: b26-02\narrival: yes\nturgor: soft\n"),
		Right: entry("2026-03-10", "date: 2026-03-10\nspecimen: b26-02\narrival: yes\nturgor: limp\n") +
			entry("2026-03-11", "date: 2026-03-11\nspecimen: b26-02\nturgor: soft\n")},
	{Name: "arrival-too-late", Warning: true, Title: "a record of arrival made long after unpacking",
		About: "What is found more than three days after unpacking has already been changed by the new home, and isn't counted as known on arrival.",
		Wrong: entry("2026-03-20", "date: 2026-03-20\nspecimen: b26-02\narrival: yes\nturgor: limp\n"),
		Right: entry("2026-03-10", "date: 2026-03-10\nspecimen: b26-02\narrival: yes\nturgor: limp\n")},
	{Name: "no-arrival", Warning: true, Title: "a record of arrival of a section",
		About: "A section was cut here and didn't arrive. Its line's record is its parent's.",
		Wrong: entry("2026-03-10", "date: 2026-03-10\nspecimen: b26-02\ncut-into: {b26-02: base, b26-02a: top}\n") +
			entry("2026-03-11", "date: 2026-03-11\nspecimen: b26-02a\narrival: yes\nturgor: soft\n"),
		Right: entry("2026-03-10", "date: 2026-03-10\nspecimen: b26-02\ncut-into: {b26-02: base, b26-02a: top}\n") +
			entry("2026-03-11", "date: 2026-03-11\nspecimen: b26-02a\nturgor: soft\n")},
	{Name: "last-good-alone", Warning: true, Title: "last-good without a loss",
		About: "last-good narrows the days in which a loss can lie. On a check-in that saw the plant alive it says nothing.",
		Wrong: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nturgor: firm\nlast-good: 2026-04-02\n"),
		Right: entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\noutcome: lost\nlast-good: 2026-04-02\n")},
	{Name: "unfinished-named", Title: "something finished names something unfinished",
		About: "It would be shown with a hole in it: a plant that moved nowhere, a drawing of nothing. Finish the one, or mark the other as unfinished too.",
		Wrong: "-- places/shelf.md --\n---\nname: A new shelf\nstage: room\nunfinished: yes\n---\n" +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nto: shelf\n"),
		Right: "-- places/shelf.md --\n---\nname: A new shelf\nstage: room\n---\n" +
			entry("2026-04-06", "date: 2026-04-06\nspecimen: b26-02\nto: shelf\n")},
}, lifeCodes...), roundCodes...)

// entry is a file under check-ins/ with the keys given.
func entry(name, keys string) string {
	return "-- check-ins/" + name + ".md --\n---\n" + keys + "---\n"
}

const tub = "-- places/tub.md --\n---\nname: Washing-up tub\nstage: soak\n---\n"
