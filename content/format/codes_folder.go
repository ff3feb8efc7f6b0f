package format

// folderCodes are the findings about the diary's folder and its files as such.
var folderCodes = []Code{
	{Name: "no-diary", Title: "the folder has no diary.yaml",
		About: "diary.yaml stands in the diary's own folder and says what the diary is called. Without it the folder isn't taken for a diary.",
		Wrong: "-- diary.yml --\nname: North Sill\ntime-zone: Europe/Oslo\ncurrency: NOK\n",
		Right: "-- diary.yaml --\nname: North Sill\ntime-zone: Europe/Oslo\ncurrency: NOK\n"},
	{Name: "unknown-folder", Title: "a folder whose name is nearly one of the diary's", Warning: true,
		About: "Only certain folders are read. One whose name is nearly theirs is probably meant to be one.",
		Wrong: "-- checkins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimen: b26-01\nturgor: firm\n---\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimen: b26-01\nturgor: firm\n---\n"},
	{Name: "passed-over", Title: "a file or folder that isn't read", Warning: true,
		About: "Entries are Markdown files, ending in .md; only check-ins and photos have sub-folders. What is something else is passed over, and said so.",
		Wrong: "-- check-ins/2026-04-06.txt --\ndate: 2026-04-06\nspecimen: b26-01\n",
		Right: "-- check-ins/2026-04-06.md --\n---\ndate: 2026-04-06\nspecimen: b26-01\nturgor: firm\n---\n"},
	{Name: "link-out", Title: "a symbolic link that isn't followed",
		About: "A link in a diary may lead to a file inside the diary. One that leads out of it, to a folder or to nowhere isn't followed: what is published stands in the diary's own folder."},
	{Name: "id-case", Title: "two names that differ by the case of their letters alone",
		About: "On some disks they are one file, and one of the two would be lost when the diary is copied there."},
	{Name: "not-an-id", Title: "a name that can't be an ID",
		About: "An ID is the name of a file without .md, or of a section: lower-case letters, digits and hyphens, so that it can stand in an address.",
		Wrong: "-- places/Clear_Tote.md --\n---\nstage: bin\n---\n",
		Right: "-- places/clear-tote.md --\n---\nstage: bin\n---\n"},
	{Name: "reserved-id", Title: "a word that can't be an ID",
		About: "all, same, index and short mean something where an ID stands.",
		Wrong: "-- places/index.md --\n---\nstage: bin\n---\n",
		Right: "-- places/shelf.md --\n---\nstage: bin\n---\n"},
}
