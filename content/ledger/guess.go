package ledger

import (
	"slices"
	"strings"
)

// What a column of a person's sheet tells, guessed from its heading. Three things
// more than a list can hold are sought: the day on which the plants came, the
// season, and a status, which says alive, lost or sold in one column.

// Arrived, Season and Status are roles of a sheet's columns beside those of a list.
const (
	Arrived Role = roles + iota
	Season
	Status
	sheetRoles
)

// headings are the words by which columns are headed, for each role: English and
// Norwegian (common practice, no source). A heading is such a word alone, or
// holds one; the earlier role has the first choice, and a word alone goes before
// a word held.
var headings = []struct {
	role  Role
	words []string
}{
	{Lost, []string{"lost", "died", "dead", "death", "lost on", "died on", "date lost", "date of death", "død", "tapt"}},
	{Left, []string{"sold", "left", "gone", "given away", "passed on", "swapped", "traded", "away", "solgt", "gitt bort"}},
	{Alive, []string{"last seen", "alive", "seen", "last check", "last checked", "last alive", "still alive", "alive on", "sist sett", "lever"}},
	{Arrived, []string{"arrived", "arrival", "came", "received", "date received", "kom", "ankom", "mottatt"}},
	{Season, []string{"season", "import", "parcel", "box", "order", "shipment", "sesong"}},
	{Status, []string{"status", "state", "fate", "outcome", "tilstand"}},
	{Cause, []string{"cause", "why", "reason", "cause of death", "cause of loss", "of what", "årsak"}},
	{Price, []string{"price", "paid", "cost", "kr", "nok", "eur", "usd", "pris"}},
	{Size, []string{"size", "størrelse"}},
	{Name, []string{"name", "plant", "species", "what", "navn", "plante", "art"}},
	{ID, []string{"id", "no", "no.", "nr", "nr.", "number", "#", "label", "tag"}},
	{Words, []string{"notes", "note", "remarks", "remark", "comments", "comment", "merknad", "notat"}},
}

// guessColumns gives the column of each role, -1 where none looks like it.
func guessColumns(row []string) (column [sheetRoles]int) {
	for i := range column {
		column[i] = -1
	}
	used := make([]bool, len(row))
	take := func(matches func(heading, word string) bool) {
		for _, h := range headings {
			for _, word := range h.words {
				for i, heading := range row {
					if column[h.role] < 0 && !used[i] && matches(strings.ToLower(heading), word) {
						column[h.role], used[i] = i, true
					}
				}
			}
		}
	}
	take(func(heading, word string) bool { return strings.TrimRight(heading, "?: ") == word })
	take(func(heading, word string) bool {
		return slices.Contains(strings.FieldsFunc(heading, func(r rune) bool { return strings.ContainsRune(" /,;:()?", r) }), word)
	})
	return column
}

// roleWords tell a person what a column was taken for.
func (r Role) words() string {
	switch r {
	case Arrived:
		return "the day on which it came"
	case Season:
		return "the season"
	case Status:
		return "the status"
	case Alive:
		return "last seen alive"
	case Lost:
		return "lost"
	case Left:
		return "sold or given away"
	case Words:
		return "public remarks"
	}
	return "the " + map[Role]string{ID: "ID", Name: "name", Size: "size", Price: "price", Cause: "cause of loss"}[r]
}
