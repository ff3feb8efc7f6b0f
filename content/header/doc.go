// Package header reads front matter: the YAML between two lines of three hyphens
// at the head of every Markdown file of a diary, diary.yaml itself, and the
// blocks that call plates into updates. It is the door to adrg/frontmatter and
// to YAML.
//
// Every key and value comes with its place in the file, and a scalar is the text
// that was written, never one of YAML's own types: 2026-04-06 is not a
// timestamp, no is not false, 1.10 is not 1.1. What a text means is for the
// reader that knows which key it stands under.
//
// YAML eats words in silence: after a hash, in braces at a comma, behind a star.
// Each such trap is a finding of its own that says what to write instead. Where
// a trap makes a file unreadable as YAML, the line is mended in memory and
// reading goes on, so that the rest of the file is judged in the same run; the
// value concerned is marked Faulty and says nothing.
//
// The package refuses aliases, anchors, tags and merge keys (a small file of
// nested aliases is endless to a walk that follows them), more than one
// document, and more depth or more values than a diary's file can need.
package header
