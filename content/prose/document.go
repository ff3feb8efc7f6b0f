// Package prose reads the Markdown below a diary file's front matter.
package prose

// Document is the body of one file.
type Document struct{}

// Section is a part of a document: the words under one heading.
type Section struct{}

// Plate is a fenced block that calls a drawing into an update.
type Plate struct{}
