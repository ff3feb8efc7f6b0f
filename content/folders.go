package content

// Folders are the folders of a diary that are read as the diary itself.
func Folders() []string {
	return append(append([]string(nil), readFolders...), "style")
}
