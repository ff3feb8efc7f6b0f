package ledger

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
	"wardian/content/measure"
	"wardian/content/patience"
	"wardian/content/source"
)

var usual = Columns{ID: "id", Name: "name", Size: "size", Price: "price", Alive: "last seen", Lost: "lost", Left: "sold", Cause: "cause", Words: "notes"}

func day(t testing.TB, text string) measure.Day {
	t.Helper()
	d, trouble := measure.ParseDay(text)
	require.Nil(t, trouble)
	return d
}

// told writes a fact as "yes", as its two ends, or as nothing.
func told(f Fact) string {
	switch {
	case !f.Said:
		return "-"
	case !f.Day.Known():
		return "yes"
	case f.Day.Half():
		return f.Day.First.String() + ".." + f.Day.Last.String()
	case f.Day.About:
		return "~" + f.Day.First.String()
	}
	return f.Day.First.String()
}

func read(t testing.TB, text string, want Columns) (list []string, findings []source.Finding, table Table) {
	t.Helper()
	var report source.Report
	table = Read(source.New("lists/a.csv", []byte(text)), want, Options{Currency: "NOK", Today: day(t, "2026-01-01")}, &report)
	for i := range table.Rows {
		r := &table.Rows[i]
		price := "-"
		if r.Price != nil {
			price = r.Price.String()
		}
		list = append(list, fmt.Sprintf("%d %s|%s|%s|%s|%s|%s|%s|%s|%s", r.Line(), r.Cells[ID].Text, r.Cells[Name].Text, r.Cells[Size].Text, price,
			told(r.Alive), told(r.Lost), told(r.Left), r.Cells[Cause].Text, r.Cells[Words].Text))
	}
	return list, report.Findings(), table
}

func TestRead(t *testing.T) {
	two := []string{
		"2 b24-01|Hoya obovata|small|45.00 NOK|2024-06-01|-|-||grew; a little",
		"3 b24-02|Begonia 'So'|M/L|12.50 EUR|-|2024-05-01..2024-05-31|-|rot?|",
	}
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"semicolons and a decimal comma", "id;name;size;price;last seen;lost;sold;cause;notes\nb24-01;Hoya obovata;small;45,00;2024-06-01;;;;\"grew; a little\"\nb24-02;Begonia 'So';M/L;12,5 EUR;;2024-05;;rot?;\n", two},
		{"commas", "id,name,size,price,last seen,lost,sold,cause,notes\nb24-01,Hoya obovata,small,\"45,00\",2024-06-01,,,,grew; a little\nb24-02,Begonia 'So',M/L,12.5 EUR,,2024-05,,rot?,\n", two},
		{"tabs, a mark and CRLF", "\xef\xbb\xbfid\tname\tsize\tprice\tlast seen\tlost\tsold\tcause\tnotes\r\nb24-01\tHoya obovata\tsmall\t45\t2024-06-01\t\t\t\tgrew; a little\r\nb24-02\tBegonia 'So'\tM/L\t12.50 EUR\t\t2024-05\t\trot?\t\r\n", two},
		{"other order, columns of no concern", "who;notes;cause;sold;lost;last seen;price;size;name;id\nI.;\"grew; a little\";;;;2024-06-01;45;small;Hoya obovata;b24-01\nM.;;rot?;;2024-05;;12,5 EUR;M/L;Begonia 'So';b24-02\n", two},
		{"headings in other letters", "ID; Name;SIZE;Price;Last  Seen;Lost;Sold;Cause;Notes\nb24-01;Hoya obovata;small;45;2024-06-01;;;;grew, a little\n",
			[]string{"2 b24-01|Hoya obovata|small|45.00 NOK|2024-06-01|-|-||grew, a little"}},
		{"yes, no and half known", "id;name;lost;sold;last seen\na;A;yes;;2024\nb;B;no;;~2024-05-10\nc;C;;true;2024-05-10..2024-05-20\nd;D;;;YES\n", []string{
			"2 a|A||-|2024-01-01..2024-12-31|yes|-||", "3 b|B||-|~2024-05-10|-|-||", "4 c|C||-|2024-05-10..2024-05-20|-|yes||", "5 d|D||-|yes|-|-||"}},
		{"empty and short rows", "id;name;lost\n\n;;\na;A\nb;B;yes;more\n", []string{"4 a|A||-|-|-|-||", "5 b|B||-|-|yes|-||"}},
		{"a defused formula", "id;name;notes\na;'=1+1;'-10\n", []string{"2 a|=1+1||-|-|-|-||-10"}},
		{"a remark over two lines", "id;name;notes\na;A;\"one\ntwo\"\nb;B;three\n", []string{"2 a|A||-|-|-|-||one two", "4 b|B||-|-|-|-||three"}},
		{"headings alone", "id;name;lost", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			want := usual
			got, findings, table := read(t, c.text, want)
			assert.Equal(t, c.want, got)
			assert.Empty(t, findings)
			for _, role := range table.Missing {
				assert.Negative(t, source.Column(table.Headings, want[role]))
			}
		})
	}
}

// What can't be read says nothing, and is told with the line and column where it
// stands.
func TestWhatCannotBeReadIsToldWhereItStands(t *testing.T) {
	for _, c := range []struct{ cell, code, under string }{
		{"14.10.2023", "not-a-day", "14.10.2023"},
		{"before christmas", "not-a-day", "before"},
		{"2024-02-30", "not-a-day", "30"},
		{"2099-01-01", "day-in-future", "2099-01-01"},
		{"  2024-13 ", "not-a-day", "13"},
		{"\"2024-13\"", "not-a-day", "13"},
	} {
		text := "id;name;lost\nblåbær;B;yes\na;A;" + c.cell + "\n"
		got, findings, _ := read(t, text, Columns{ID: "id", Name: "name", Lost: "lost"})
		assert.Equal(t, "3 a|A||-|-|-|-||", got[1], c.cell)
		require.Len(t, findings, 1, c.cell)
		f := source.New("lists/a.csv", []byte(text))
		at := findings[0].Span
		assert.Equal(t, c.code, findings[0].Code)
		assert.Equal(t, 3, at.Start.Line)
		assert.Equal(t, c.under, string(f.Bytes[f.Offset(at.Start):f.Offset(at.End)]), c.cell)
	}
	_, findings, _ := read(t, "id;name;price\na;A;45 kr\nb;B;1.250,00\n", Columns{ID: "id", Name: "name", Price: "price"})
	require.Len(t, findings, 2)
	assert.Equal(t, "write 1250.00", findings[1].Hint)
}

func TestAWrongColumnIsNotToldForEver(t *testing.T) {
	var b strings.Builder
	b.WriteString("id;name;lost\n")
	for i := range 400 {
		fmt.Fprintf(&b, "a-%d;A;rot\n", i)
	}
	got, findings, _ := read(t, b.String(), Columns{ID: "id", Name: "name", Lost: "lost"})
	assert.Len(t, got, 400)
	require.Len(t, findings, mostFindings)
	assert.Contains(t, findings[mostFindings-1].Message, "left out untold")
}

func TestColumnsThatAreNotThere(t *testing.T) {
	got, findings, table := read(t, "id;name;seen\na;A;2024\n", Columns{ID: "id", Name: "name", Alive: "last seen", Lost: "lost"})
	assert.Equal(t, []Role{Alive, Lost}, table.Missing)
	assert.Equal(t, []string{"2 a|A||-|-|-|-||"}, got)
	assert.Empty(t, findings)
	got, _, table = read(t, "nr;name\na;A\n", Columns{ID: "id", Name: "name"})
	assert.Equal(t, []Role{ID}, table.Missing)
	assert.Empty(t, got, "without its IDs a table has no rows")
}

// Any text ends in time, and tells nothing that no help explains (standards:
// 1 s for 64 KiB).
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"id;name;lost\na;A;2024-05\n", "id,name,lost\n\"a\",\"A \"\" b\",yes\n", "\xef\xbb\xbfid\tname\tlost\r\na\tA\t~2024-05-10\r\n", "id;name;lost\na;\"A;yes\n", "\xff\xfei\x00d\x00",
		"id;name;lost\na;A;2024-05-10..2024-05-01\n", "id;name;price\na;A;1.250,00\n", strings.Repeat(";", 3000) + "\n" + strings.Repeat("\"", 501),
	} {
		f.Add(s)
	}
	files, _ := filepath.Glob("../../testdata/lists/*.csv")
	for _, name := range files {
		data, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(string(data))
	}
	f.Fuzz(func(t *testing.T, text string) {
		var report source.Report
		file := source.New("lists/a.csv", []byte(text))
		start := time.Now()
		table := Read(file, usual, Options{Today: 20000}, &report)
		took := time.Since(start)
		for _, found := range report.Findings() {
			if !format.Explained(found.Code) || found.Message == "" || found.Expected == "" || found.Hint == "" || found.Span.Start.Line < 1 || found.Span.Start.Line > file.Lines() {
				t.Fatalf("%+v", found)
			}
			_, _, _ = found.Long(), found.Line(), found.JSON()
		}
		for i := range table.Rows {
			r := &table.Rows[i]
			for _, fact := range []Fact{r.Alive, r.Lost, r.Left} {
				if fact.Day.Known() && (!fact.Said || fact.Day.Last < fact.Day.First) {
					t.Fatalf("%+v", r)
				}
			}
		}
		if took > patience.For(len(text)) {
			t.Fatalf("%d bytes took %v", len(text), took)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var s strings.Builder
	s.WriteString("id;name;size;price;last seen;lost;sold;cause;notes\n")
	for i := range 1000 {
		fmt.Fprintf(&s, "b24-%04d;Hoya obovata;small;45,00;2024-06-01;2024-07;;rot;a remark of some words\n", i)
	}
	f := source.New("lists/a.csv", []byte(s.String()))
	b.SetBytes(int64(s.Len()))
	for b.Loop() {
		var report source.Report
		if t := Read(f, usual, Options{Currency: "NOK", Today: measure.NoDay}, &report); len(t.Rows) != 1000 || report.Errors() > 0 {
			b.Fatal(report.Findings()[0])
		}
	}
}
