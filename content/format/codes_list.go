package format

// listed is an import kept as a list, with its table.
func listed(keys, csv string) string {
	return "-- imports/2024-spring.md --\n---\nseason: 2024 spring\narrived: 2024-04-08\n" + keys + "---\n-- lists/2024-spring.csv --\n" + csv
}

const listKeys = "list:\n  file: lists/2024-spring.csv\n  id: id\n  name: name\n  alive: last seen\n  lost: lost\n  left: sold\n"

const listHead = "id;name;last seen;lost;sold\n"

// listCodes are the findings about lists.
var listCodes = []Code{
	{Name: "no-list", Title: "a list that isn't there",
		About: "An import that is kept as a list names its table by its path from the diary's folder on.",
		Wrong: "-- imports/2024-spring.md --\n---\nseason: 2024 spring\narrived: 2024-04-08\n" + listKeys + "---\n",
		Right: listed(listKeys, listHead+"b24-01;Hoya obovata;2024-06-01;;\n")},
	{Name: "list-unnamed", Title: "a list that no import names", Warning: true,
		About: "A list is read for the import that names it. One that none names is passed over.",
		Wrong: listed(listKeys, listHead+"b24-01;Hoya obovata;2024-06-01;;\n") + "-- lists/2023.csv --\n" + listHead,
		Right: listed(listKeys, listHead+"b24-01;Hoya obovata;2024-06-01;;\n")},
	{Name: "list-not-text", Title: "a list that isn't UTF-8",
		About: "Some programs save in an encoding of their own. Open it in a spreadsheet and save it as CSV, UTF-8."},
	{Name: "list-column", Title: "a column that the list doesn't have",
		About: "An import names the columns of its list as they are headed in the file. Only the columns that are named are read.",
		Wrong: listed(listKeys, "id;name;seen last;lost;sold\nb24-01;Hoya obovata;2024-06-01;;\n"),
		Right: listed(listKeys, listHead+"b24-01;Hoya obovata;2024-06-01;;\n")},
	{Name: "list-without", Title: "a row without an ID or a name",
		About: "Each row of a list is a specimen: it needs an ID of its own, so that a row added later renames nobody, and a name.",
		Wrong: listed(listKeys, listHead+";Hoya obovata;2024-06-01;;\n"),
		Right: listed(listKeys, listHead+"b24-01;Hoya obovata;2024-06-01;;\n")},
	{Name: "list-twice", Title: "an ID that stands twice in lists",
		About: "An ID is given once and never means another plant.",
		Wrong: listed(listKeys, listHead+"b24-01;Hoya obovata;2024-06-01;;\nb24-01;Hoya kerrii;2024-06-01;;\n"),
		Right: listed(listKeys, listHead+"b24-01;Hoya obovata;2024-06-01;;\nb24-02;Hoya kerrii;2024-06-01;;\n")},
	{Name: "list-exists", Title: "a row with the ID of a specimen that has a file",
		About: "A plant is kept as a row of a list or as a file under specimens/, not as both. Check-ins may go on with a plant from a list without a file.",
		Wrong: listed(listKeys, listHead+"b26-01;Hoya obovata;2024-06-01;;\n"),
		Right: listed(listKeys, listHead+"b24-01;Hoya obovata;2024-06-01;;\n")},
	{Name: "lost-and-left", Title: "a row that is lost and left",
		About: "A plant that was sold or given away is followed no further. If it was lost here, it didn't leave.",
		Wrong: listed(listKeys, listHead+"b24-01;Hoya obovata;;2024-06-01;2024-06-01\n"),
		Right: listed(listKeys, listHead+"b24-01;Hoya obovata;;;2024-06-01\n")},
}
