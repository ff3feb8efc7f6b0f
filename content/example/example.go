// Package example holds the example diary: three imports in three seasons, kept
// by a grower who doesn't exist, in a north-facing flat in Bergen. Everything
// in it is invented and says so: grower, exporters, plants' fates, figures,
// logger files and pictures. The pictures are drawn from the check-ins' own
// figures by the program in drawing/.
package example

import (
	"embed"
	"io/fs"
)

//go:embed all:diary
var files embed.FS

// Files gives the example diary, its diary.yaml at the top.
func Files() fs.FS {
	sub, err := fs.Sub(files, "diary")
	if err != nil {
		panic("content/example: the embedded diary has no folder named diary: " + err.Error()) // only if the embed line above is changed
	}
	return sub
}
