package ledger

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"wardian/content/measure"
	"wardian/content/source"
)

// Sheet is a table as a person kept it, taken in: what it is thought to say, in
// a diary's own writing, and what was made of each row.
type Sheet struct {
	Columns []Guess
	Parcels []*Parcel // in order of their first rows
	Rows    int       // taken in; each stands in one parcel
}

// Guess is what a column was taken for; "" where it is only kept.
type Guess struct{ Heading, As string }

// Parcel is what came together: the rows of one season and one day of arrival.
type Parcel struct {
	Season  string
	Arrived measure.Span // NoSpan where nobody said
	Rows    []*Taken
	Kept    []string // headings of the columns that are kept beside those of a list
}

// Taken is one row of a sheet in a diary's own writing. Every cell of the sheet
// is understood, told of under Not, or kept.
type Taken struct {
	Line  int
	Cells [roles]string // as a list holds them; the ID is given later where the sheet has none
	Kept  []string      // cells of other columns
	As    []string      // "lost: 28.10" where it wasn't understood, and remarks in date columns: kept in a column of its own
	Told  []string      // what was understood, in words
	Not   []string      // what wasn't
}

// SheetOptions tell what a sheet doesn't say itself.
type SheetOptions struct {
	Currency string       // the diary's
	Today    measure.Day  // later days can't be
	Season   string       // of rows that say none
	Arrived  measure.Span // of rows that say none; NoSpan
}

// TakeIn reads a sheet. An error says in plain words why nothing of it can be
// read; what can't be read in a row stands there.
func TakeIn(f *source.File, o SheetOptions) (*Sheet, error) {
	if source.NotText(f.Bytes) || !utf8.Valid(f.Bytes) {
		return nil, fmt.Errorf("%s isn't UTF-8: open it in a spreadsheet and save it as CSV, UTF-8", f.Path)
	}
	l := layoutOf(f, func(headings []string) (n int) {
		for _, c := range guessColumns(headings) {
			if c >= 0 {
				n++
			}
		}
		return n
	})
	t := &taking{options: o, column: guessColumns(l.headings), headings: l.headings}
	if t.column[Name] < 0 {
		return nil, fmt.Errorf("no column of %s is headed name, plant or species: %s", f.Path, quote(strings.Join(l.headings, ", ")))
	}
	first := true
	f.EachRow(l.start, l.comma, func(cut source.TableRow) {
		if first {
			first = false
			return
		}
		line, _ := cut.At(0)
		cells := make([]string, len(cut.Cells))
		empty := true
		for i, c := range cut.Cells {
			cells[i] = strings.Join(strings.Fields(plain(c)), " ")
			empty = empty && cells[i] == ""
		}
		if !empty {
			t.rows = append(t.rows, sheetRow{line, cells})
		}
	})
	return t.sheet(), nil
}

// sheetRow is a row as it stands.
type sheetRow struct {
	line  int
	cells []string
}

// taking is the taking in of one sheet.
type taking struct {
	options  SheetOptions
	column   [sheetRoles]int
	headings []string
	rows     []sheetRow
	order    slashOrder
}

// cell is what stands under a role; "" where nothing does.
func (t *taking) cell(r sheetRow, role Role) string {
	if i := t.column[role]; i >= 0 && i < len(r.cells) {
		return r.cells[i]
	}
	return ""
}

func (t *taking) sheet() *Sheet {
	s := &Sheet{Rows: len(t.rows)}
	as := make([]string, len(t.headings))
	for role, i := range t.column {
		if i >= 0 {
			as[i] = Role(role).words()
		}
	}
	var kept []int
	var keptHeadings []string
	for i, h := range t.headings {
		s.Columns = append(s.Columns, Guess{h, as[i]})
		if as[i] == "" && h != "" {
			kept, keptHeadings = append(kept, i), append(keptHeadings, h)
		}
	}
	var days []string
	for _, r := range t.rows {
		for _, role := range []Role{Alive, Lost, Left, Arrived} {
			days = append(days, t.cell(r, role))
		}
	}
	t.order = orderOf(days)
	season, arrived := t.options.Season, t.options.Arrived
	for _, r := range t.rows {
		row := &Taken{Line: r.line}
		p := t.parcelOf(s, row, r, &season, &arrived)
		p.Kept = keptHeadings
		t.fill(row, r, p.Arrived)
		for _, i := range kept {
			c := ""
			if i < len(r.cells) {
				c = r.cells[i]
			}
			row.Kept = append(row.Kept, c)
		}
		p.Rows = append(p.Rows, row)
	}
	return s
}

// parcelOf gives the parcel of a row. Where a cell of season or arrival is empty,
// as in sheets that write it once, the one above holds.
func (t *taking) parcelOf(s *Sheet, row *Taken, r sheetRow, season *string, arrived *measure.Span) *Parcel {
	said := t.cell(r, Season)
	if said != "" && said != *season {
		*season = said
		*arrived = t.options.Arrived // another season's day isn't this one's
	}
	if c := t.cell(r, Arrived); c != "" {
		w, why, ok := ReadWhen(c, measure.NoSpan, t.order)
		switch {
		case ok && t.options.Today.Known() && w.Day.First > t.options.Today:
			t.not(row, Arrived, c, "it lies in the future")
		case ok:
			*arrived = w.Day
			row.told(Arrived, c, w)
			if said == "" && t.column[Season] < 0 && t.options.Season == "" {
				*season = SeasonOf(w.Day.First)
			}
		default:
			t.not(row, Arrived, c, why)
		}
	}
	if *season == "" && arrived.Known() {
		*season = SeasonOf(arrived.First)
	}
	var last *Parcel
	for _, p := range s.Parcels {
		if p.Season == *season {
			if p.Arrived == *arrived {
				return p
			}
			last = p
		}
	}
	if last != nil && !arrived.Known() { // the day wasn't understood, or stands once for all
		*arrived = last.Arrived
		return last
	}
	if last != nil && !last.Arrived.Known() {
		last.Arrived = *arrived
		return last
	}
	p := &Parcel{Season: *season, Arrived: *arrived}
	s.Parcels = append(s.Parcels, p)
	return p
}

// SeasonOf names the half of the year in which a day lies, as most growers call
// it: "2026 spring" up to June, then autumn.
func SeasonOf(d measure.Day) string {
	t := d.Time()
	if t.Month() <= 6 {
		return fmt.Sprintf("%d spring", t.Year())
	}
	return fmt.Sprintf("%d autumn", t.Year())
}

// told notes what a cell was taken to say; nothing where it is written so.
func (row *Taken) told(role Role, written string, w When) {
	if w.Day.Written == written {
		return
	}
	says := fmt.Sprintf("%s: %s is %s", role.words(), quote(written), w.Day.Written)
	if w.Why != "" {
		says += ", " + w.Why
	}
	row.Told = append(row.Told, says)
}

// untold takes back what was told of a cell.
func (row *Taken) untold(role Role) {
	row.Told = slices.DeleteFunc(row.Told, func(says string) bool { return strings.HasPrefix(says, role.words()+": ") })
}

// not notes a cell that wasn't understood under its column, and keeps it as it was
// written.
func (t *taking) not(row *Taken, role Role, written, why string) {
	says := role.words()
	if i := t.column[role]; i >= 0 {
		says += fmt.Sprintf(" (column %q)", t.headings[i])
	}
	says += ": " + quote(written)
	if why != "" {
		says += ", " + why
	}
	row.Not = append(row.Not, says)
	row.keep(role, written)
}

// keep keeps words of a cell that a list has no place for.
func (row *Taken) keep(role Role, written string) {
	row.As = append(row.As, role.words()+": "+written)
}
