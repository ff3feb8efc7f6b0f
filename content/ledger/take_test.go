package ledger

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
	"wardian/content/patience"
	"wardian/content/source"
)

func takenIn(t testing.TB, text string, o SheetOptions) *Sheet {
	t.Helper()
	if o.Currency == "" {
		o.Currency = "NOK"
	}
	if o.Arrived == (measure.Span{}) {
		o.Arrived = measure.NoSpan
	}
	o.Today = day(t, "2026-01-01")
	s, err := TakeIn(source.New("sheet.csv", []byte(text)), o)
	require.NoError(t, err)
	s.GiveIDs(func(id string) bool { return id != "all" })
	return s
}

// rowsOf writes rows as "line ID|name|size|price|alive|lost|left|cause|words".
func rowsOf(s *Sheet) (out []string) {
	for _, p := range s.Parcels {
		for _, r := range p.Rows {
			out = append(out, fmt.Sprintf("%d %s", r.Line, strings.Join(r.Cells[:], "|")))
		}
	}
	return out
}

// Each of the nineteen invented rows, read by eye.
func TestASheetOfTwoSeasons(t *testing.T) {
	data, err := os.ReadFile("../../testdata/lists/two-seasons.csv")
	require.NoError(t, err)
	s := takenIn(t, string(data), SheetOptions{})
	require.Equal(t, 19, s.Rows)
	require.Len(t, s.Parcels, 2)
	assert.Equal(t, "2023 autumn 2023-10-14", s.Parcels[0].Season+" "+s.Parcels[0].Arrived.Written)
	assert.Equal(t, "2024 spring 2024-04", s.Parcels[1].Season+" "+s.Parcels[1].Arrived.Written)
	assert.Equal(t, []string{
		"2 a23-01|Hoya callistophylla|small|45.00||2023-10-28||rot|",
		"3 a23-02|Hoya siariae|M/L|60|~2024-05-10||||new leaf every month",
		"4 a23-03|Hoya obovata|medium|35|2024-03-12||||",
		"5 a23-04|Macodes petola|seedling|12.50||2023-11|||went soft; then black",
		"6 a23-05|Begonia 'Fog Lamp'|small|30|||||",
		"7 a23-06|Begonia amphioxus||30||2023-11-03||rot|",
		"8 a23-07|Davallia repens|large|0||2023-10-14|||box was wet",
		"9 a23-08|Hoya kerrii|small|40|||2024-01-10||",
		"10 a23-09|Hoya lacunosa||40|~2024-05-10||||",
		"11 a23-10|Goodyera pubescens|small|55||yes||cold|",
		"12 s24-01|Pteris argyraea|small|20||2024-06-28||dried out|seen after it was dead?",
		"13 s24-02|Hoya bella|medium|48|2024-08-01||||",
		"14 s24-03|Hoya carnosa 'Snowdrift'|small|52|||||",
		"15 s24-04|Ludisia discolor|M|38||2024-05-20|||",
		"16 s24-05|Begonia luxurians|large|25|yes||||",
		"17 s24-06|Adiantum hispidulum|small|15||2024-06-03||dried out|",
		"18 s24-07|Hoya lyi|small|44|||yes||",
		"19 s24-08|Hoya nummularioides|small|44|||||",
		"20 s24-09|Anoectochilus roxburghii|seedling|||2024-06-12|||",
	}, rowsOf(s))
	not := map[int][]string{}
	for _, p := range s.Parcels {
		for _, r := range p.Rows {
			if len(r.Not) > 0 {
				not[r.Line] = r.Not
			}
		}
	}
	assert.Equal(t, map[int][]string{
		6:  {`lost (column "Died"): "before christmas"`},
		7:  {`the size (column "Size"): "smal", nearest: small`},
		12: {`last seen alive (column "Last seen"): "1.7.2024", it lies after the day on which it was lost`},
		14: {`lost (column "Died"): "10.5. or 12.5.", there is more than one day`, `the cause of loss (column "Why"): "rot?", no loss is understood`},
		18: {`last seen alive (column "Last seen"): "summer 24"`},
		20: {`the price (column "Paid"): "EUR 9", the import would need a rate for EUR`, `the cause of loss (column "Why"): "thrips and rot"`},
	}, not)
	// Every cell of the sheet stands in the new table, is told of, or is the same
	// in the diary's writing.
	for _, p := range s.Parcels {
		table, _ := p.Table()
		for _, r := range p.Rows {
			assert.Equal(t, 1, strings.Count(string(table), r.Cells[ID]+","), r.Cells[ID])
			for _, n := range r.Not {
				_, cell, _ := strings.Cut(n, `: "`)
				cell, _, _ = strings.Cut(cell, `"`)
				assert.Contains(t, string(table), cell, "what isn't understood is kept as written")
			}
		}
	}
}

// What is written anew is read as a list without a finding, to the same cells.
func TestWhatIsWrittenIsRead(t *testing.T) {
	data, err := os.ReadFile("../../testdata/lists/two-seasons.csv")
	require.NoError(t, err)
	for name, text := range map[string]string{
		"two seasons": string(data),
		"formulas":    "name,came,lost,notes,who\n=SUM(A1),2024-05-01,yes,-10 degrees,+47\n'=x,,,@home,\n",
		"odd cells":   "plant;season;came;died;why;as written;name (kept)\n\"A \"\"b\"\"; c\";2024 spring: late;1.5.2024;\"28.10; x, y\";\"a; b\";q;r\n",
	} {
		t.Run(name, func(t *testing.T) {
			s := takenIn(t, text, SheetOptions{})
			for _, p := range s.Parcels {
				table, columns := p.Table()
				var want Columns
				for _, role := range columns {
					want[role] = role.String()
				}
				var report source.Report
				got := Read(source.New("lists/a.csv", table), want, Options{Currency: "NOK", Today: day(t, "2026-01-01")}, &report)
				assert.Empty(t, report.Findings())
				assert.Empty(t, got.Missing)
				require.Len(t, got.Rows, len(p.Rows))
				for n, row := range got.Rows {
					for role, cell := range row.Cells {
						assert.Equal(t, p.Rows[n].Cells[role], cell.Text, Role(role))
					}
				}
			}
		})
	}
}

func TestWhatASheetDoesNotSayItself(t *testing.T) {
	s := takenIn(t, "name,died\nA,28.10\nB,\n", SheetOptions{})
	require.Len(t, s.Parcels, 1)
	assert.Empty(t, s.Parcels[0].Season)
	assert.False(t, s.Parcels[0].Arrived.Known())
	assert.Equal(t, []string{`lost (column "died"): "28.10", the year isn't said, and no day of arrival is known to count from`}, s.Parcels[0].Rows[0].Not)

	arrived, _ := measure.ParseSpan("2023-10")
	s = takenIn(t, "name,died\nA,28.10\nB,\n", SheetOptions{Season: "2023 autumn", Arrived: arrived})
	assert.Equal(t, []string{"2 a23-01|A||||2023-10-28|||", "3 a23-02|B|||||||"}, rowsOf(s))

	// A season's own column, written once and left empty below.
	s = takenIn(t, "id;season;came;name;gone\nx-1;2023 autumn;14.10.2023;A;\n;;;B;yes\nX 1;2024 spring;5.4.2024;C;\nall;;9.5.2024;D;\n7;;;E;\n", SheetOptions{})
	require.Len(t, s.Parcels, 3, "two parcels of one season stand apart")
	assert.Equal(t, []string{"2 x-1|A|||||||", "3 a23-01|B|||||yes||", "4 s24-01|C|||||||", "5 s24-02|D|||||||", "6 s24-03|E|||||||"}, rowsOf(s))

	_, err := TakeIn(source.New("sheet.csv", []byte("a,b\n1,2\n")), SheetOptions{})
	require.ErrorContains(t, err, "is headed name")
	_, err = TakeIn(source.New("sheet.csv", []byte("name\n\xe5\n")), SheetOptions{})
	require.ErrorContains(t, err, "UTF-8")
}

// Any sheet ends in time, loses no row, and what is written of it is read
// without a finding but for what a person must name.
func FuzzTakeIn(f *testing.F) {
	data, err := os.ReadFile("../../testdata/lists/two-seasons.csv")
	require.NoError(f, err)
	f.Add(string(data))
	f.Add("name,died\nA,28.10\n")
	f.Add("plant,came,status,lost\nA,nov 23,dead 28.10; rot,\nB,,alive,yes\n")
	f.Add("plant\tseason\tsold\n\"A\nB\"\t'=\tyes, Ø (x)\n")
	f.Fuzz(func(t *testing.T, text string) {
		start := time.Now()
		s, err := TakeIn(source.New("sheet.csv", []byte(text)), SheetOptions{Currency: "NOK", Today: 20454, Arrived: measure.NoSpan})
		if err != nil {
			return
		}
		s.GiveIDs(func(id string) bool { return true })
		rows := 0
		var tables [][]byte
		var columns [][]Role
		for _, p := range s.Parcels {
			rows += len(p.Rows)
			table, c := p.Table()
			tables, columns = append(tables, table), append(columns, c)
		}
		if took := time.Since(start); took > patience.For(len(text)) {
			t.Fatalf("%d bytes took %v", len(text), took)
		}
		if rows != s.Rows {
			t.Fatalf("%d of %d rows", rows, s.Rows)
		}
		for n, table := range tables {
			var want Columns
			for _, role := range columns[n] {
				want[role] = role.String()
			}
			var report source.Report
			got := Read(source.New("lists/a.csv", table), want, Options{Currency: "NOK", Today: 20454}, &report)
			if report.Errors() > 0 || len(got.Rows) != len(s.Parcels[n].Rows) {
				t.Fatalf("%q was written as %q: %+v", text, table, report.Findings())
			}
		}
	})
}

// A listed cause behind a day is one, with a remark behind it or none; the column's
// own goes before it.
func TestACauseBehindADay(t *testing.T) {
	for _, c := range [][3]string{ // lost, cause, "cause|as written"
		{"28.10.2023 rot", "", "rot|"},
		{"28.10.2023 Rot?", "", "rot?|"},
		{"28.10.2023; rot; smelled sour", "", "rot|lost: smelled sour"},
		{"28.10.2023 (rot, I think)", "", "rot|lost: I think"},
		{"28.10.2023 rot", "cold", "cold|lost: rot"},
		{"28.10.2023 rotten", "", "|lost: rotten"},
		{"yes, dried out", "", "dried out|"},
		{"28.10.2023", "the cat", "other the cat|"},
	} {
		s := takenIn(t, "name;came;lost;cause\nA;2023-10-01;"+`"`+c[0]+`"`+";"+c[1]+"\n", SheetOptions{})
		row := s.Parcels[0].Rows[0]
		assert.Equal(t, c[2], row.Cells[Cause]+"|"+strings.Join(row.As, "; "), c[0])
		assert.Empty(t, row.Not, c[0])
	}
}

// One column for what became of a plant, beside columns of days or without them.
func TestAStatus(t *testing.T) {
	for _, c := range []struct{ status, died, want, not string }{ // want: alive|lost|left|cause|as written
		{"Alive", "", "yes||||", ""},
		{"ok", "", "yes||||", ""},
		{"dead", "", "|yes|||", ""},
		{"Dead 28.10", "", "|2023-10-28|||", ""},
		{"died (nov 23), rot", "", "|2023-11||rot|", ""},
		{"sold, to a friend", "", "||yes||sold or given away: to a friend", ""},
		{"dead", "28.10.2023", "|2023-10-28|||", ""},
		{"dead; rot?", "", "|yes||rot?|", ""},
		{"dead since christmas", "", "|yes|||lost: since christmas", ""},
		{"dead 1.1.2099", "", "|yes|||lost: 1.1.2099", ""},
		{"alive", "28.10.2023", "|2023-10-28|||the status: alive", `the status (column "Status"): "alive", another column says otherwise`},
		{"sold", "yes", "|yes|||the status: sold", `the status (column "Status"): "sold", another column says otherwise`},
		{"so-so", "", "||||the status: so-so", `the status (column "Status"): "so-so"`},
		{"", "", "||||", ""},
	} {
		s := takenIn(t, "name;came;Status;died\nA;2023-10-01;"+`"`+c.status+`"`+";"+c.died+"\n", SheetOptions{})
		row := s.Parcels[0].Rows[0]
		got := []string{row.Cells[Alive], row.Cells[Lost], row.Cells[Left], row.Cells[Cause], strings.Join(row.As, "; ")}
		assert.Equal(t, c.want, strings.Join(got, "|"), c.status)
		assert.Equal(t, c.not, strings.Join(row.Not, "; "), c.status)
	}
}
