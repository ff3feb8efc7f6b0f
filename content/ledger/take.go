package ledger

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"wardian/content/format"
	"wardian/content/measure"
	"wardian/content/source"
)

// fill reads a row's cells into a diary's writing.
func (t *taking) fill(row *Taken, r sheetRow, arrived measure.Span) {
	row.Cells[ID] = t.cell(r, ID)
	if row.Cells[Name] = t.cell(r, Name); row.Cells[Name] == "" {
		row.Cells[Name] = "not named"
		row.Not = append(row.Not, fmt.Sprintf("the name (column %q): nothing is written", t.headings[t.column[Name]]))
	}
	row.Cells[Words] = t.cell(r, Words)
	t.size(row, t.cell(r, Size))
	t.price(row, t.cell(r, Price))
	t.cause(row, t.cell(r, Cause)) // before the days, behind which another may stand
	var days [3]measure.Span
	for n, role := range []Role{Alive, Lost, Left} {
		days[n] = t.day(row, role, t.cell(r, role), arrived)
	}
	t.status(row, t.cell(r, Status), arrived, &days)
	alive, lost, left := days[0], days[1], days[2]
	if row.Cells[Lost] != "" && row.Cells[Left] != "" {
		for _, role := range []Role{Lost, Left} {
			row.untold(role)
			t.not(row, role, t.cell(r, role), "it can't be lost and have left")
			row.Cells[role] = ""
		}
	}
	for n, end := range []measure.Span{lost, left} {
		role := []Role{Lost, Left}[n]
		if row.Cells[Alive] != "" && row.Cells[role] != "" && alive.Known() && end.Known() && end.Last < alive.First {
			row.untold(Alive)
			t.not(row, Alive, t.cell(r, Alive), "it lies after the day on which it was "+map[Role]string{Lost: "lost", Left: "given away"}[role])
			row.Cells[Alive] = ""
		}
	}
	if row.Cells[Cause] != "" && row.Cells[Lost] == "" {
		t.not(row, Cause, row.Cells[Cause], "no loss is understood")
		row.Cells[Cause] = ""
	}
}

// yesWords say that a thing happened and not when, noWords that it didn't.
var (
	yesWords = map[Role][]string{
		Alive: {"yes", "y", "x", "ja", "true", "✓", "ok", "alive", "still alive", "lever"},
		Lost:  {"yes", "y", "x", "ja", "true", "✓", "lost", "dead", "died", "død"},
		Left:  {"yes", "y", "x", "ja", "true", "✓", "sold", "left", "gone", "given away", "passed on", "solgt"},
	}
	noWords = []string{"no", "n", "nei", "false", "-", "–", "—", "none", "n/a", "not yet"}
)

// day reads a cell of days.
func (t *taking) day(row *Taken, role Role, written string, arrived measure.Span) measure.Span {
	low := strings.ToLower(written)
	switch {
	case written == "":
		return measure.NoSpan
	case slices.Contains(noWords, low):
		row.Told = append(row.Told, fmt.Sprintf("%s: %s is no", role.words(), quote(written)))
		return measure.NoSpan
	case role == Lost && (low == "doa" || low == "dead on arrival"):
		row.Cells[Lost] = "yes"
		if arrived.Known() && !arrived.Half() {
			row.Cells[Lost] = arrived.First.String()
		}
		row.Told = append(row.Told, fmt.Sprintf("lost: %s is %s", quote(written), row.Cells[Lost]))
		return measure.NoSpan
	}
	if rest, ok := afterYes(written, yesWords[role]); ok {
		row.Cells[role] = "yes"
		if written != "yes" {
			row.Told = append(row.Told, fmt.Sprintf("%s: %s is yes, on a day that isn't known", role.words(), quote(written)))
		}
		t.remark(row, role, rest)
		return measure.NoSpan
	}
	w, why, ok := ReadWhen(written, arrived, t.order)
	switch {
	case !ok:
		t.not(row, role, written, why)
	case t.options.Today.Known() && w.Day.First > t.options.Today:
		t.not(row, role, written, w.Day.Written+" lies in the future")
	case arrived.Known() && w.Day.Last < arrived.First:
		t.not(row, role, written, w.Day.Written+" is before it came")
	default:
		row.Cells[role] = w.Day.Written
		row.told(role, written, w)
		t.remark(row, role, w.Rest)
		return w.Day
	}
	return measure.NoSpan
}

// afterYes finds a word for yes that a cell is, or opens with before a comma, a
// semicolon or a bracket, and gives what stands behind it.
func afterYes(written string, words []string) (rest string, ok bool) {
	for _, w := range words {
		if len(written) >= len(w) && strings.EqualFold(written[:len(w)], w) {
			if rest = written[len(w):]; rest == "" || strings.ContainsAny(strings.TrimLeft(rest, " ")[:1], ",;:(") {
				return rest, true
			}
		}
	}
	return "", false
}

// remark takes words behind a day: where they are a listed cause of loss, or open
// with one before a comma, a semicolon or a bracket, that is one, if the sheet has
// none under cause; others are kept.
func (t *taking) remark(row *Taken, role Role, words string) {
	words = strings.Trim(words, " ,;:()")
	if role == Lost && row.Cells[Cause] == "" {
		cause, rest := words, ""
		if i := strings.IndexAny(words, ",;("); i >= 0 {
			cause, rest = words[:i], strings.Trim(words[i:], " ,;:()")
		}
		if slices.Contains(format.Causes, strings.ToLower(strings.TrimRight(cause, "? "))) {
			row.Cells[Cause] = strings.ToLower(strings.TrimSpace(cause))
			row.Told = append(row.Told, "the cause of loss: "+quote(strings.TrimSpace(cause))+" behind the day")
			words = rest
		}
	}
	if words == "" {
		return
	}
	row.keep(role, words)
	row.Told = append(row.Told, fmt.Sprintf("%s: the words %s are kept as written", role.words(), quote(words)))
}

// cause reads a cause: one of the listed words, two of them, or other words.
func (t *taking) cause(row *Taken, written string) {
	if written == "" {
		return
	}
	low := strings.ToLower(written)
	bare := strings.TrimSpace(strings.TrimRight(low, "? "))
	all := true
	for part := range strings.SplitSeq(bare, " and ") {
		all = all && slices.Contains(format.Causes, strings.TrimSpace(part))
	}
	if all && strings.Count(bare, " and ") < 2 {
		row.Cells[Cause] = low
		return
	}
	row.Cells[Cause] = "other " + strings.TrimPrefix(written, "other ")
	if strings.Contains(written, " and ") || strings.TrimSpace(strings.TrimPrefix(written, "other")) == "" {
		row.Cells[Cause] = ""
		t.not(row, Cause, written, "")
		return
	}
	row.Told = append(row.Told, "the cause of loss: "+quote(written)+" is "+row.Cells[Cause])
}

// size reads a size: words that look like one of ours misspelt aren't taken for
// the seller's.
func (t *taking) size(row *Taken, written string) {
	words := []string{"seedling", "small", "medium", "large"}
	low := strings.ToLower(written)
	switch near := source.Nearest(low, words); {
	case written == "" || slices.Contains(words, low):
		row.Cells[Size] = low
	case near != "":
		t.not(row, Size, written, "nearest: "+near)
	default:
		row.Cells[Size] = written
		row.Told = append(row.Told, "the size: "+quote(written)+" are the seller's words")
	}
}

var (
	free       = []string{"free", "gift", "gratis", "gave", "0"}
	crowns     = regexp.MustCompile(`(?i)(?:,-|\.-|\bkr\.?)`)
	moneySigns = map[string]string{"€": "EUR", "£": "GBP"}
	thousands  = regexp.MustCompile(`^([0-9]{1,3})[ .]([0-9]{3}),([0-9]{2})$`)
)

// price reads an amount: with a decimal comma, a sign of money, kr or ,- for the
// diary's own crowns. A bare amount is in the diary's currency.
func (t *taking) price(row *Taken, written string) {
	if written == "" {
		return
	}
	if slices.Contains(free, strings.ToLower(written)) {
		row.Cells[Price] = "0"
		return
	}
	text := written
	if crown := crowns.FindString(text); crown != "" {
		if !slices.Contains(crownCodes, t.options.Currency) {
			t.not(row, Price, written, "the diary's money isn't crowns")
			return
		}
		text = strings.TrimSpace(crowns.ReplaceAllString(text, ""))
	}
	for sign, code := range moneySigns {
		if rest, ok := strings.CutPrefix(text, sign); ok {
			text = strings.TrimSpace(rest) + " " + code
		} else if rest, ok := strings.CutSuffix(text, sign); ok {
			text = strings.TrimSpace(rest) + " " + code
		}
	}
	text = thousands.ReplaceAllString(text, "$1$2.$3")
	text = decimalComma.ReplaceAllString(text, "$1.$2$3")
	m, trouble := measure.ParseMoney(text, t.options.Currency)
	if trouble != nil && trouble.Hint != "" { // only one thing can have been meant
		text = trouble.Hint
		m, trouble = measure.ParseMoney(text, t.options.Currency)
	}
	switch {
	case trouble != nil:
		t.not(row, Price, written, "")
	case m.Amount.IsNeg():
		t.not(row, Price, written, "a price isn't below 0")
	case m.Currency == "" && !m.Zero():
		t.not(row, Price, written, "in which currency? the diary names none")
	case m.Currency != t.options.Currency && !m.Zero():
		t.not(row, Price, written, "the import would need a rate for "+m.Currency)
	default:
		row.Cells[Price] = text
		if text != written {
			row.Told = append(row.Told, "the price: "+quote(written)+" is "+m.String())
		}
	}
}
