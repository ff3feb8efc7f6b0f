package format

// Kind is a kind of value.
type Kind int

// The kinds of value. A "figure" may carry a tilde, which marks an estimate.
const (
	Text        Kind = iota // words on one line or several
	Choice                  // one word of a closed list
	YesNo                   // yes or no
	ID                      // the ID of a specimen, an import or a place
	Day                     // a day known in full: 2026-04-06
	Moment                  // a day, with the time of day where it is known: 2026-04-06 18:30
	HalfDay                 // a day that may be known by half: 2024-05, 2024-05-10..2024-05-20
	Whole                   // a whole number, without a tilde
	Count                   // a figure: a whole number
	Grade                   // a grade of roots, 0 to 5
	Number                  // a number above nought: a rate, a factor
	Length                  // a figure in cm or in
	Size                    // a figure: a leaf's length and width, 12x8 cm
	Temperature             // a figure in C or F
	Humidity                // a figure: relative humidity in per cent
	Share                   // a figure: a part of a whole, 50%
	Hours                   // a figure: a span of time, 24 h
	Days                    // whole days: 3 days
	Money                   // an amount, with its currency where that isn't the diary's
	Climate                 // a temperature and a humidity measured together: 25.5 C 98%
	TimeZone                // a name of the IANA time zone database: Europe/Oslo
	Currency                // an ISO 4217 code: NOK
	Web                     // an address on the web: https://example.org/sill/
	Cause                   // why a plant was lost: one listed word, two, or "other ..."
	Photo                   // a path below photos/, or a map with file, alt and taken
	Plant                   // a plant's line in a round: plain words, or a map
	List                    // several values
	Map                     // a map with keys of its own
	Table                   // a map with free keys
	Anything                // whatever stands there isn't looked at
)

// expected says in words what a value of each kind looks like, to stand after
// "expected".
var expected = [...]string{
	Text:        "words",
	Choice:      "one of the listed words",
	YesNo:       "yes or no",
	ID:          "an ID: lower-case letters, digits and hyphens",
	Day:         "a day such as 2026-04-06",
	Moment:      "a day such as 2026-04-06, or 2026-04-06 18:30",
	HalfDay:     "a day such as 2024-05-10, or what is known of it: 2024-05, 2024, 2024-05-10..2024-05-20, ~2024-05-10",
	Whole:       "a whole number such as 14",
	Count:       "a whole number such as 3",
	Grade:       "a grade from 0 to 5 such as 2",
	Number:      "a number such as 10.52",
	Length:      "a length such as 4 cm",
	Size:        "a leaf's length and width such as 12x8 cm",
	Temperature: "a temperature such as 24 C",
	Humidity:    "a humidity such as 98%",
	Share:       "a share such as 50%",
	Hours:       "a span of time such as 24 h",
	Days:        "whole days such as 3 days",
	Money:       "an amount such as 45.00 or 45.00 EUR",
	Climate:     "a temperature and a humidity such as 25.5 C 98%",
	TimeZone:    "a time zone such as Europe/Oslo",
	Currency:    "three capital letters such as NOK",
	Web:         "an address such as https://example.org/sill/",
	Cause:       "a cause such as rot, [rot, cold] or other words",
	Photo:       "a path below photos/, or {file: ..., alt: ...}",
	Plant:       "plain words, or a map of keys",
	List:        "a list such as [one, two]",
	Map:         "a map such as {key: value}",
	Table:       "a map such as {key: value}",
	Anything:    "anything",
}

// Expected says what a value of the kind looks like: "a length such as 4 cm".
func (k Kind) Expected() string { return expected[k] }

// Scalar says whether values of the kind are written as one piece of text.
func (k Kind) Scalar() bool {
	switch k {
	case List, Map, Table, Photo, Plant, Cause, Anything:
		return false
	}
	return true
}
