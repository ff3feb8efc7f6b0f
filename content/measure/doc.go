// Package measure holds the small types that figures in a diary are made of:
// length, area, temperature, humidity, vapour pressure, shares, spans of time,
// days and money. Units are types, so that a swapped pair does not compile.
//
// Everything is kept in one unit: centimetres, square centimetres, degrees
// Celsius, per cent of relative humidity, kilopascals, hours. Text is read as
// it was written ("7 in", "75 F", "~14 cm"); a bare number takes the unit that
// the caller names. A text that can't be read gives a *Trouble that tells which
// characters are wrong and what was expected; nothing here panics on any text.
//
// The package refuses to know the diary, its files and its words: it reads one
// quantity at a time.
package measure

// Figure is a quantity together with whether the grower marked it as an
// estimate with a tilde ("~14 cm").
type Figure[T any] struct {
	Value    T
	Estimate bool
}

// Trouble says which characters of a text could not be read, and why. Start and
// End count characters (not bytes) from 0; End is exclusive.
type Trouble struct {
	Start, End int
	Message    string // lower case, no full stop
	Expected   string // what would have been right: "a length such as 12 cm"
	Hint       string // what to write instead, where that can be known; else empty
}

// Error gives the message and what was expected.
func (t *Trouble) Error() string {
	if t.Expected == "" {
		return t.Message
	}
	return t.Message + "; expected " + t.Expected
}
