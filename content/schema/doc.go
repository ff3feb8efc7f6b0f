// Package schema writes JSON Schemas (draft 2020-12) of a diary's files, made
// from the tables of content/format: one for each kind of file, each key with
// its description and its example.
//
// A schema judges a file's front matter as an editor's YAML reader hands it on:
// 45 is a number there, yes is a word, 2026-04-06 is a word. The diary's own
// reading takes every scalar as the text that was written; Instance turns the
// one into the other.
//
// What a schema can't know, it lets pass: it never refuses what reading accepts.
// It knows one file alone (no ID of another, no order in time, no picture on the
// disk, no today), no words below the front matter, none of YAML's traps (the
// editor's YAML reader has eaten those words before), and it takes a plant's
// line in plain words as it stands. Lengths and spans of time are held to their
// form, not to their range. Beyond names every code that it can't find.
//
// Source: JSON Schema, draft 2020-12 (json-schema.org); YAML 1.2.2, chapter
// 10.3, "Core schema".
package schema
