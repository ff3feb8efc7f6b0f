// Package paper makes what is printed: round sheets, for hands that are wet, and
// plant labels. Each is one HTML page with its style in it, black on white, ready
// for a browser's print: it loads nothing, and its lengths are real ones.
//
// A round sheet is half of a page, A5 or half Letter, so that two lie on a sheet
// of A4 or Letter, to be cut or folded. It has five rows, a plant each, in the
// order in which the plants stand, which is the order of the scaffold into which
// the sheet is typed up: number, name, day, what was known last, boxes and short
// lines for the closed phrases that most rounds need, and a line for the others
// and for remarks. No box is ticked beforehand: what wasn't looked at stays
// white.
//
// A label has the plant's number, its name, when it came and, where the diary says
// at which address its site will stand, the address of the plant's page as a QR
// code (ISO/IEC 18004:2015). The address follows from the number alone, so that a
// label stays right.
//
// The package refuses to guess: without an address it prints no code, and a plant
// of which no figure is known has none.
package paper
