// Package search finds words in what a diary says: the prose of every file,
// remarks, what was done, pests, causes, events, media, what pictures show,
// letters' titles and amendments. Each find names its file and place, its day,
// the plants it speaks of and the sentence in which the words stand, newest
// first.
//
// Words are compared without their case and without marks on letters, and one
// that is looked for is found at the beginning of a longer one: springtail finds
// Springtails, o finds ø. All that is looked for must stand in one sentence.
//
// What stands under private: is never read into a diary, so it can't be found.
// What is unfinished or held back is: the search is the grower's own.
//
// The package refuses to rank: the newest find comes first, whatever it says.
// Folding follows Unicode's canonical decomposition (UAX 15) with the marks
// left out; the letters that it doesn't decompose (ø, æ, ß ...) have a table of
// our own, common practice, no source.
package search
