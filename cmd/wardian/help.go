package main

import (
	"embed"
)

//go:embed help/*.txt
var helpFiles embed.FS

// helpText is the checked text of a command's help.
func helpText(command string) string {
	text, err := helpFiles.ReadFile("help/" + command + ".txt")
	if err != nil {
		panic("wardian: no help for " + command) // embedded: a command without help is a slip of ours
	}
	return string(text)
}
