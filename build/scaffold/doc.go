// Package scaffold writes the boring part of new diary files: what a box brought,
// a round with a line for every plant, a letter with what changed since the last
// one. It makes texts of a diary as of a day and touches no disk.
//
// Nothing in a scaffold claims a look that wasn't taken. A plant's line is left
// empty, which the diary reads as if it weren't there; what was known of it last
// stands beside it as a comment, which the diary doesn't read at all; and what a
// round says of the others is a question that proof asks until it is answered.
// A letter is marked unfinished.
//
// Figures are written in the diary's units and in the closed phrases of a
// plant's line, so that a line is begun by moving the comment's sign. The package
// refuses to judge: it neither says which plant to look at nor what to write.
package scaffold
