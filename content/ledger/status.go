package ledger

import (
	"fmt"
	"slices"
	"strings"

	"wardian/content/measure"
)

// Many sheets say in one column what became of a plant: alive, dead, sold, with a
// day behind it or none. What the columns of days say goes before it; where the two
// can't both be, the status isn't understood.

// statusWords are the words for each end, English and Norwegian (common practice,
// no source).
var statusWords = []struct {
	role  Role
	words []string
}{
	{Alive, []string{"alive", "still alive", "living", "ok", "growing", "lever"}},
	{Lost, []string{"lost", "dead", "died", "død", "rip"}},
	{Left, []string{"sold", "given away", "gave away", "passed on", "swapped", "traded", "solgt", "gitt bort"}},
}

// status reads a cell of that column into the row's cells and days, which are
// those of alive, lost and left.
func (t *taking) status(row *Taken, written string, arrived measure.Span, days *[3]measure.Span) {
	if written == "" {
		return
	}
	for n, s := range statusWords {
		rest, ok := afterWord(written, s.words)
		if !ok {
			continue
		}
		said := row.Cells[Lost] != "" || row.Cells[Left] != ""
		switch {
		case s.role == Alive && said || s.role != Alive && said && row.Cells[s.role] == "":
			t.not(row, Status, written, "another column says otherwise")
		case row.Cells[s.role] != "": // it says the same
			if rest != "" {
				row.keep(Status, written)
				row.Told = append(row.Told, "the status: "+quote(written)+" is kept as written")
			}
		default:
			days[n] = t.end(row, s.role, written, rest, arrived)
		}
		return
	}
	t.not(row, Status, written, "")
}

// end writes what a status says into its cell: the day behind its word, else yes.
func (t *taking) end(row *Taken, role Role, written, rest string, arrived measure.Span) measure.Span {
	w, _, ok := ReadWhen(rest, arrived, t.order)
	ok = ok && rest != "" && !(t.options.Today.Known() && w.Day.First > t.options.Today) && !(arrived.Known() && w.Day.Last < arrived.First)
	if !ok {
		row.Cells[role] = "yes"
		row.Told = append(row.Told, fmt.Sprintf("the status: %s is %s, on a day that isn't known", quote(written), role))
		t.remark(row, role, rest)
		return measure.NoSpan
	}
	row.Cells[role] = w.Day.Written
	row.Told = append(row.Told, fmt.Sprintf("the status: %s is %s, %s", quote(written), role, w.Day.Written))
	t.remark(row, role, w.Rest)
	return w.Day
}

// afterWord finds a word that a cell is or opens with, the longest, and gives what
// stands behind it.
func afterWord(written string, words []string) (rest string, ok bool) {
	words = slices.SortedFunc(slices.Values(words), func(a, b string) int { return len(b) - len(a) })
	for _, w := range words {
		if len(written) < len(w) || !strings.EqualFold(written[:len(w)], w) {
			continue
		}
		if rest = written[len(w):]; rest == "" || strings.ContainsAny(rest[:1], " ,;:(") {
			return strings.Trim(rest, " ,;:()"), true
		}
	}
	return "", false
}
