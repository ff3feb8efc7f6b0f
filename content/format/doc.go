// Package format holds, as data, what each kind of file in a diary may contain:
// its keys, the kind of value each takes, the words allowed, defaults, examples
// and explanations; and every code a finding can have, with a failing and a
// mended example.
//
// Reading, findings, help, scaffolds and JSON Schema are made from these tables,
// so that none can drift from another: a key that isn't here can't be read, and
// a test of package content fails where a key that is here isn't read.
//
// Units: a bare number takes the diary's unit (units: in diary.yaml); an example
// always carries its own. The package refuses to read anything: it knows what a
// value should look like, and measure knows how to read it.
package format
