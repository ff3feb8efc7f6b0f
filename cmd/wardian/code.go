package main

import (
	"strings"

	"wardian/content/format"
)

// codeTopic explains one kind of finding, with a file that has the fault and the
// same file mended.
func codeTopic(c *format.Code) string {
	var p page
	severity := "error: no site is built while it stands"
	if c.Warning {
		severity = "warning: the site is built all the same"
	}
	p.words(0, c.Name+": "+c.Title)
	p.words(0, c.About)
	p.words(0, "It is of kind "+severity+".")
	if c.Wrong == "" {
		p.words(0, "A page can't show its fault: no letters of it can be printed, or too many.")
	} else {
		p.words(0, "With the fault:")
		p.files(c.Wrong)
		p.words(0, "Mended:")
		p.files(c.Right)
	}
	p.words(0, "Next: wardian proof tells every finding of a diary with its place.")
	return p.text()
}

// files writes the files of an archive, each under its path.
func (p *page) files(archive string) {
	for line := range strings.Lines(archive) {
		line = strings.TrimRight(line, "\n")
		if name, ok := strings.CutPrefix(line, "-- "); ok && strings.HasSuffix(name, " --") {
			p.line("  " + strings.TrimSuffix(name, " --"))
			continue
		}
		p.line("    " + line)
	}
	p.line("")
}

// codesTopic lists the codes.
func codesTopic() string {
	var p page
	p.words(0, "What proof and build can find, by code. Those with a star are warnings.")
	for _, c := range format.Codes() {
		mark := "  "
		if c.Warning {
			mark = " *"
		}
		p.line(mark + " " + c.Name)
		p.hanging(7, c.Title)
	}
	p.line("")
	p.words(0, "Next: wardian help CODE, such as wardian help "+format.Codes()[0].Name+", explains one and shows how to mend it.")
	return p.text()
}
