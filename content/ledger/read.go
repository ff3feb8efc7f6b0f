package ledger

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"wardian/content/format"
	"wardian/content/measure"
	"wardian/content/source"
)

// Cell is one cell of a row, with the spaces at its ends taken off.
type Cell struct {
	Text string
	Span source.Span
}

// Fact is something that happened to a plant, or didn't: Said without a known
// day is a "yes".
type Fact struct {
	Said bool
	Day  measure.Span // NoSpan where no day is known
}

// Row is one plant of a list. A cell that can't be read is told in the report
// and counts here as an empty one.
type Row struct {
	Cells [roles]Cell
	Price *measure.Money // nil where none is written
	Alive Fact           // last seen alive
	Lost  Fact
	Left  Fact // sold or given away
}

// Line is the line of the file on which the row begins.
func (r *Row) Line() int { return r.Cells[ID].Span.Start.Line }

// Table is a list as it was read.
type Table struct {
	Headings []string
	At       source.Span // of the line of headings
	Missing  []Role      // named columns that the table doesn't have
	Rows     []Row       // none where the columns of ID or name are missing
}

// Options tell how the cells of a list are read.
type Options struct {
	Currency string      // that of an amount without one; "" where the diary names none
	Today    measure.Day // days after it lie in the future; NoDay: none does
}

// mostFindings bounds what a table is told: a wrong column is wrong in every row.
const mostFindings = 50

// Read reads a list. Findings about its cells go to the report, with their
// lines and columns; columns that aren't there are given back, since it is the
// import that names them. A row in which no named cell holds anything is passed
// over.
func Read(f *source.File, want Columns, o Options, report *source.Report) Table {
	if source.NotText(f.Bytes) || !utf8.Valid(f.Bytes) {
		report.Add(f, fault("list-not-text", f.SpanOf(0, 0), "this file isn't UTF-8", "a CSV in UTF-8", "open it in a spreadsheet and save it as CSV, UTF-8"))
		return Table{}
	}
	l := layoutOf(f, func(headings []string) (n int) {
		for _, name := range want {
			if source.Column(headings, name) >= 0 {
				n++
			}
		}
		return n
	})
	r := &reader{file: f, report: report, options: o}
	t := Table{Headings: l.headings, At: l.line}
	for role, name := range want {
		r.column[role] = source.Column(l.headings, name)
		if name != "" && r.column[role] < 0 {
			t.Missing = append(t.Missing, Role(role))
		}
	}
	if r.column[ID] < 0 || r.column[Name] < 0 {
		return t
	}
	first, last, lastAt := true, []string(nil), -1
	f.EachRow(l.start, l.comma, func(cut source.TableRow) {
		if first {
			first = false
			return
		}
		last, lastAt = cut.Cells, f.Offset(r.place(cut, len(cut.Cells)-1, "").Start)
		if row, ok := r.row(cut); ok {
			t.Rows = append(t.Rows, row)
		}
	})
	if len(last) > 0 && strings.ContainsAny(last[len(last)-1], "\n") && !bytes.HasSuffix(bytes.TrimSpace(f.Bytes), []byte{'"'}) {
		r.fault(fault("quote-open", f.SpanOf(max(lastAt-1, 0), lastAt), "a quote opens here and is never closed", "a quote at the end of the cell", "take the quote out, or close it"))
	}
	return t
}

// reader reads the rows of one list.
type reader struct {
	file    *source.File
	report  *source.Report
	options Options
	column  [roles]int // -1 where the import names none, or one that isn't there
	told    int
}

// place is where a text stands that a cell of a row holds.
func (r *reader) place(cut source.TableRow, i int, text string) source.Span {
	line, from := cut.At(i)
	text, _, _ = strings.Cut(text, "\n")
	return r.file.Part(line, from, text)
}

// row reads one row; ok is false where nothing stands in it.
func (r *reader) row(cut source.TableRow) (row Row, ok bool) {
	for role := range row.Cells {
		i := r.column[role]
		cell := &row.Cells[role]
		if i >= 0 && i < len(cut.Cells) {
			cell.Text = strings.TrimSpace(cut.Cells[i])
		}
		ok = ok || cell.Text != ""
		cell.Span = r.place(cut, max(i, 0), cell.Text)
		if i < 0 {
			cell.Span.End = cell.Span.Start
		}
		cell.Text = strings.Join(strings.Fields(plain(cell.Text)), " ")
	}
	if !ok {
		return row, false
	}
	row.Price = r.price(&row.Cells[Price])
	row.Alive, row.Lost, row.Left = r.fact(&row.Cells[Alive]), r.fact(&row.Cells[Lost]), r.fact(&row.Cells[Left])
	return row, true
}

// plain takes off the apostrophe that keeps a spreadsheet from reading a text as
// a formula, and what steers a terminal.
func plain(text string) string {
	if len(text) > 1 && text[0] == '\'' && strings.ContainsRune("=+-@", rune(text[1])) {
		text = text[1:]
	}
	return strings.Map(func(c rune) rune {
		if c < ' ' && c != '\n' && c != '\t' || c == 0x7f {
			return ' '
		}
		return c
	}, text)
}

// decimalComma is an amount with a decimal comma, which needs no other reading.
var decimalComma = regexp.MustCompile(`^(-?[0-9]+),([0-9]{1,2})( *[A-Z]{3})?$`)

func (r *reader) price(c *Cell) *measure.Money {
	if c.Text == "" {
		return nil
	}
	m, trouble := measure.ParseMoney(decimalComma.ReplaceAllString(c.Text, "$1.$2$3"), r.options.Currency)
	if trouble != nil {
		r.trouble("not-an-amount", c, trouble)
		return nil
	}
	return &m
}

// fact reads a day, a day half known, yes or no. "no" says nothing: that a plant
// wasn't lost is told by the day on which it was seen.
func (r *reader) fact(c *Cell) Fact {
	none := Fact{Day: measure.NoSpan}
	if c.Text == "" {
		return none
	}
	if yes, trouble := measure.ParseYesNo(strings.ToLower(c.Text)); trouble == nil {
		return Fact{Said: yes, Day: measure.NoSpan}
	}
	span, trouble := measure.ParseSpan(c.Text)
	if trouble != nil {
		trouble.Expected = format.HalfDay.Expected() + ", or yes"
		if trouble.Hint == "" {
			trouble.Hint = "write it like 2024-05-10, or what is known of it, or yes"
		}
		r.trouble("not-a-day", c, trouble)
		return none
	}
	if today := r.options.Today; today.Known() && span.First > today {
		r.fault(fault("day-in-future", c.Span, fmt.Sprintf("%s lies in the future", span.First), "a day up to "+today.String(), "look at the year, the month and the day"))
		return none
	}
	return Fact{Said: true, Day: span}
}

// trouble reports a cell that couldn't be read.
func (r *reader) trouble(code string, c *Cell, t *measure.Trouble) {
	at := c.Span
	if n := utf8.RuneCountInString(c.Text); at.End.Line == at.Start.Line && at.End.Column-at.Start.Column == n {
		at.Start.Column, at.End.Column = c.Span.Start.Column+t.Start, c.Span.Start.Column+max(t.End, t.Start)
	}
	hint := t.Hint
	if hint == "" {
		hint = "write it like 45.00"
	} else if !strings.HasPrefix(hint, "write ") {
		hint = "write " + hint
	}
	r.fault(fault(code, at, t.Message, t.Expected, hint))
}

func (r *reader) fault(f source.Finding) {
	r.told++
	if r.told == mostFindings {
		f.Message += "; more cells like those above are left out untold"
	}
	if r.told <= mostFindings {
		r.report.Add(r.file, f)
	}
}

func fault(code string, at source.Span, message, expected, hint string) source.Finding {
	severity := source.Error
	if format.CodeOf(code).Warning {
		severity = source.Warning
	}
	return source.Finding{Span: at, Severity: severity, Code: code, Message: message, Expected: expected, Hint: hint}
}

// quote shows what was written, shortened.
func quote(s string) string {
	if utf8.RuneCountInString(s) > 40 {
		s = string([]rune(s)[:40]) + "…"
	}
	return strconv.Quote(s)
}
