// Package source holds a diary's files as they were read, and what was found
// wrong in them. A File keeps its bytes and knows where each line starts, so
// that any byte offset becomes a line and a column; a Finding is a fault at a
// place, told so that the grower can mend it; a Report collects findings and
// sorts them by place.
//
// Lines and columns start at 1 and count characters (Unicode code points), not
// bytes. The package knows nothing of what a file means.
package source
