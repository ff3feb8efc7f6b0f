package format

// Folder is a folder of a diary that holds no kind of file with keys.
type Folder struct {
	Path  string
	About string // plain sentences
}

// Folders are those folders, in the order in which help lists them.
var Folders = []Folder{
	{"readings/*.csv", "What a logger wrote at a place; the place's file names it, and which columns hold what."},
	{"lists/*.csv", "Seasons that were kept as a table; an import names the table, and which columns hold what. A row is a plant."},
	{"photos/**", "Pictures, as the camera wrote them. One whose path holds a day and an ID, such as photos/2026-04-06/b26-03.jpg, belongs to that entry without a mention."},
	{"style/", "Optional: templates and style sheets of your own, laid over the built-in ones; wardian help style tells of them."},
	{"shown/", "The built site. It is never read, and may be deleted."},
	{".wardian/", "What was kept from the last build, so that the next is quick. It may be deleted."},
}
