// Package ledger reads tables that a person kept: past seasons that live in a
// spreadsheet, one row a plant.
//
// Read takes a table whose columns an import names, whatever they are headed,
// with semicolons, commas or tabs between the cells, a decimal comma or point,
// a byte-order mark, quotes and CRLF, into rows. Its days are the diary's own
// (2024-05-10) or half known (2024-05, 2024-05-10..2024-05-20, ~2024-05-10), and
// a loss, a leaving or a life without a day is "yes". What can't be read is a
// finding with line and column, and that cell says nothing.
//
// Sheet is for a table as people keep it, before it is a diary's: it guesses
// what the columns mean, reads days as people write them (14.10.2023, nov 23,
// 28.10, ca 10.5.) and tells of every row what it understood and what not, so
// that a grower can look at each before anything is written.
//
// The package refuses to invent. A day that can't be read stays words, a plant
// of which nobody wrote anything is neither alive nor lost, and a row is never
// left out. It knows no diary: whether an ID is taken or a day can be is judged
// in content.
package ledger
