package content

import (
	"fmt"
	"slices"
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/ledger"
	"wardian/content/measure"
	"wardian/content/source"
)

// maxList is the longest list that is read, in bytes: some ten thousand rows.
const maxList = 4 << 20

// list reads what an import says of its table; nil where it says nothing, or not
// which columns are the ID's and the name's.
func (c *record) list() *List {
	r := c.under("list")
	if r == nil {
		return nil
	}
	l := &List{Path: r.text("file"), at: r.spanOf("file")}
	for _, role := range ledger.Roles() {
		l.columns[role], l.spans[role] = r.line(role.String()), r.spanOf(role.String())
	}
	if l.Path == "" || l.columns[ledger.ID] == "" || l.columns[ledger.Name] == "" {
		return nil
	}
	return l
}

// readLists reads the tables that imports name. It comes after the specimens'
// files, whose IDs a row can't have.
func (l *loader) readLists() error {
	files, err := l.files("lists", true)
	if err != nil {
		return err
	}
	used, amiss := map[string]bool{}, l.listAmiss
	first := map[string]*Specimen{}
	for _, s := range l.diary.Specimens {
		first[s.ID] = s
	}
	for _, i := range l.diary.Imports {
		if i.List == nil {
			continue
		}
		if !slices.Contains(files, i.List.Path) {
			amiss = true
			l.noList(i, files)
			continue
		}
		used[i.List.Path] = true
		data, err := l.read(i.List.Path, maxList)
		if err != nil {
			return err
		}
		if data != nil {
			l.readList(i, source.New(i.List.Path, data), first)
		}
	}
	for _, f := range files {
		if !used[f] && !amiss && strings.HasSuffix(strings.ToLower(f), ".csv") {
			l.fault("list-unnamed", f, "no import names this file", "list: {file: ...} in a file under imports/", "name it there, or move it elsewhere")
		}
	}
	return nil
}

func (l *loader) noList(i *Import, files []string) {
	hint := nearest(i.List.Path, files)
	if under := "lists/" + i.List.Path; hint == "" && slices.Contains(files, under) {
		hint = "write " + under
	}
	if hint == "" {
		hint = "put the table under lists/"
	}
	l.report.Add(i.File, header.Fault("no-list", i.List.at, "no file is called "+quoted(i.List.Path), "a path from the diary's folder on, such as lists/2024-spring.csv", hint))
}

// readList makes a specimen of each row of an import's table.
func (l *loader) readList(i *Import, f *source.File, first map[string]*Specimen) {
	t := ledger.Read(f, i.List.columns, ledger.Options{Currency: l.diary.Settings.Currency, Today: l.today}, l.report)
	for _, role := range t.Missing {
		hint := nearest(i.List.columns[role], t.Headings)
		if hint == "" {
			hint = "leave it out, or name it as it is headed in " + f.Path
		}
		expected := "one of " + strings.Join(t.Headings, ", ")
		if len(t.Headings) == 0 || len(expected) > 300 {
			expected = "a heading on the first line of " + f.Path
		}
		l.report.Add(i.File, header.Fault("list-column", i.List.spans[role], "no column of "+f.Path+" is headed "+quoted(i.List.columns[role]), expected, hint))
	}
	for n := range t.Rows {
		if s := l.listed(i, f, &t.Rows[n], first); s != nil {
			first[s.ID] = s
			l.diary.Specimens = append(l.diary.Specimens, s)
		}
	}
	i.rows = len(t.Rows)
}

// freeListed gives an ID that no row has borne so far, made from another.
func freeListed(id string, taken map[string]*Specimen) string {
	for n := 2; ; n++ {
		if free := fmt.Sprintf("%s-%d", id, n); taken[free] == nil {
			return free
		}
	}
}

// listed makes a specimen of a row; nil where its ID can't be one.
func (l *loader) listed(i *Import, f *source.File, row *ledger.Row, first map[string]*Specimen) *Specimen {
	cell := func(role ledger.Role) ledger.Cell { return row.Cells[role] }
	id, name := cell(ledger.ID), cell(ledger.Name)
	fault := func(code string, at source.Span, message, expected, hint string, related ...source.Related) {
		finding := header.Fault(code, at, message, expected, hint)
		finding.Related = related
		l.report.Add(f, finding)
	}
	if id.Text == "" {
		fault("list-without", id.Span, "this row has no ID", "an ID of its own in every row", "write an ID that no other plant has, such as "+freeListed(i.ID, first))
		return nil
	}
	if code, message, mend := idTrouble(id.Text); code != "" {
		hint := "give it another ID"
		if mend != "" {
			hint = "write " + mend
		}
		fault(code, id.Span, message, "lower-case letters, digits and hyphens", hint)
		l.refused["specimen/"+id.Text] = true
		return nil
	}
	if had := first[id.Text]; had != nil {
		related := source.Related{File: had.File.Path, Start: had.Head.Start, Message: "the other stands here"}
		if had.Listed != nil {
			fault("list-twice", id.Span, "the ID "+id.Text+" stands twice in lists", "an ID of its own in every row", "write another for one of the two, such as "+freeListed(id.Text, first), related)
		} else {
			fault("list-exists", id.Span, id.Text+" is a specimen with a file of its own", "a row or a file, not both", "take this row out, or give it another ID", related)
		}
		return nil
	}
	if name.Text == "" {
		fault("list-without", name.Span, id.Text+" has no name", "a name in every row", "write the plant's name, such as Hoya carnosa")
	}
	s := &Specimen{ID: id.Text, Name: name.Text, Import: i, Price: row.Price, LeafWhole: true, Renamed: noDay, CutOn: noMoment,
		Page: Page{File: f, Head: id.Span, Spans: Spans{{"name", name.Span}, {"import", id.Span}, {"price", cell(ledger.Price).Span}}}}
	s.Size, s.SizeSold = l.sizeListed(cell(ledger.Size), fault)
	if m := s.Price; m != nil && m.Currency == "" && !m.Zero() {
		if !l.noMoney {
			l.noMoney = true
			fault("no-currency", cell(ledger.Price).Span, "an amount without a currency, in a diary that names none", "a currency behind the amount, or currency: in diary.yaml",
				nameCurrency)
		}
		s.Price = nil
	}
	s.Listed = &Listed{Alive: row.Alive, Lost: row.Lost, Left: row.Left, Words: cell(ledger.Words).Text, Line: row.Line(),
		alive: cell(ledger.Alive).Span, lost: cell(ledger.Lost).Span, left: cell(ledger.Left).Span}
	if cause := cell(ledger.Cause); cause.Text != "" {
		c, trouble := ParseCause(cause.Text)
		switch {
		case trouble != nil:
			at := cause.Span
			at.Start.Column, at.End.Column = cause.Span.Start.Column+trouble.Start, cause.Span.Start.Column+trouble.End
			fault("not-a-cause", at, trouble.Message, trouble.Expected, trouble.Hint)
		case !s.Listed.Lost.Said:
			fault("key-elsewhere", cause.Span, "a cause without a loss", "a cause only where a loss is written", "write when it was lost, or yes, or leave the cause out")
		}
		s.Listed.Cause = c
	}
	l.judgeRow(s, i, fault)
	return s
}

// sizeListed reads a size: one of the listed words, or the seller's own. A
// misspelt word of ours is told rather than taken for the seller's.
func (l *loader) sizeListed(c ledger.Cell, fault func(code string, at source.Span, message, expected, hint string, related ...source.Related)) (size, sold string) {
	words := format.Find(format.Specimen.Keys, "size").Value.WordList()
	low := strings.ToLower(c.Text)
	switch {
	case c.Text == "":
	case slices.Contains(words, low):
		return low, ""
	default:
		near := source.Nearest(low, words)
		if near == "" {
			return "", c.Text
		}
		fault("unknown-word", c.Span, quoted(c.Text)+" isn't a size", strings.Join(words, ", ")+", or the seller's words", "nearest: "+near)
	}
	return "", ""
}

// judgeRow tells of days that can't be, in one row.
func (l *loader) judgeRow(s *Specimen, i *Import, fault func(code string, at source.Span, message, expected, hint string, related ...source.Related)) {
	row := s.Listed
	if row.Lost.Said && row.Left.Said {
		fault("lost-and-left", row.left, s.ID+" is lost and left", "one of the two", "leave one of the two out")
		row.Left = nothingStated
	}
	for _, day := range []struct {
		said *Stated
		at   source.Span
		word string
	}{{&row.Alive, row.alive, "seen alive"}, {&row.Lost, row.lost, "lost"}, {&row.Left, row.left, "left"}} {
		if before(day.said.Day, i.Arrived) {
			fault("days-out-of-order", day.at, fmt.Sprintf("%s on %s, before it arrived", day.word, day.said.Day.Written), "a day from "+i.Day0().String()+" on", "look at both days")
			*day.said = nothingStated
		}
	}
	for _, end := range []struct {
		day  measure.Span
		word string
	}{{row.Lost.Day, "it was lost"}, {row.Left.Day, "it left"}} {
		if before(end.day, row.Alive.Day) {
			fault("days-out-of-order", row.alive, fmt.Sprintf("seen alive on %s, after %s", row.Alive.Day.Written, end.word), "a day up to "+end.day.Last.String(), "look at both days")
			row.Alive = nothingStated
			return
		}
	}
}

// CanBeID says whether a word can be the ID of a specimen, an import or a place.
func CanBeID(id string) bool {
	code, _, _ := idTrouble(id)
	return code == ""
}
