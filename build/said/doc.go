// Package said puts figures into English: counts with their nouns, and what may be
// said of a comparison, in the same words on a page and in a terminal.
//
// A comparison is told in a fixed order: counts on one denominator, alive and lost;
// the difference with its limits; how often chance alone spreads losses so
// unevenly, from the same number that p is; what it can't say. No sentence names a
// reason for a difference, since plants weren't dealt out by lot. Where there is no
// p the reason stands in its place.
//
// The order is that of Gigerenzer 2011 (BMJ 343:d6386) and of Spiegelhalter's
// advice to give counts of a stated whole, alive and lost alike (both from memory).
// The figures are those of build/cohort and build/survival; nothing is computed
// here beyond rounding.
package said
