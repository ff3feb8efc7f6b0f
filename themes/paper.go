package themes

import (
	"embed"
	"io/fs"
)

// What is printed has templates and a style of its own, below paper, so that the
// site's pages neither load nor parse them.

//go:embed paper
var onPaper embed.FS

// Paper are the templates of what is printed: sheet.html and labels.html.
func Paper() fs.FS {
	sub, err := fs.Sub(onPaper, "paper")
	if err != nil {
		panic("themes: " + err.Error()) // embedded: can't be missing
	}
	return sub
}

// PaperStyle is the style of what is printed: the site's ground rules and fonts,
// and on them black on white, whatever screen it is looked at on.
func PaperStyle() []byte {
	ground, err := files.ReadFile("base.css")
	if err == nil {
		var sheet []byte
		sheet, err = onPaper.ReadFile("paper/paper.css")
		ground = append(ground, sheet...)
	}
	if err != nil {
		panic("themes: " + err.Error()) // embedded: can't be missing
	}
	return ground
}
