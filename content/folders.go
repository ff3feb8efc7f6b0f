package content

import "slices"

// Folders are the folders of a diary that are read as the diary itself.
func Folders() []string {
	return slices.Clone(readFolders)
}
