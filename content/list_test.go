package content

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

const listImport = `---
season: 2024 spring
arrived: 2024-04
received: 8
list: {file: lists/2024-spring.csv, id: no, name: plant, size: size, price: paid, alive: last seen, lost: lost, left: sold, cause: why, words: notes}
looked-every: 7 days
---
`

const listTable = "no;plant;size;paid;last seen;lost;sold;why;notes\n" +
	"b24-01;Hoya obovata;Small;45,00;2024-06-01;;;;grew well\n" +
	"b24-02;Begonia 'So';M/L;;;2024-05;;rot?;\n" +
	"b24-03;Hoya kerrii;;;;yes;;;\n" +
	"b24-04;Hoya carnosa;;;;;2024-05-20;;to I.\n" +
	"b24-05;Hoya lacunosa;;;;;;;\n" +
	"b24-06;Macodes petola;;;2024-05-01;2024-05-10;;cold;\n" +
	"b24-07;Hoya lyi;;;2024-05;;;;\n" +
	"b24-08;Hoya bella;;;;;2024-05;;\n"

func listDiary(t testing.TB, more map[string]string) *Diary {
	t.Helper()
	files := map[string]string{"imports/2024-spring.md": listImport, "lists/2024-spring.csv": listTable}
	for name, text := range more {
		files[name] = text
	}
	d, report, err := Load(inMemory(t, files), Options{Today: faultsToday})
	require.NoError(t, err)
	require.Empty(t, long(report.Findings()))
	return d
}

// stated writes what a row says.
func stated(l *Listed) string {
	one := func(s Stated) string {
		switch {
		case !s.Said:
			return "-"
		case !s.Day.Known():
			return "yes"
		}
		return s.Day.Written
	}
	return fmt.Sprintf("%s %s %s %v %q", one(l.Alive), one(l.Lost), one(l.Left), l.Cause.Words, l.Words)
}

func dayOf(t testing.TB, text string) measure.Day {
	t.Helper()
	d, trouble := measure.ParseDay(text)
	require.Nil(t, trouble)
	return d
}

func TestEachRowOfAListIsASpecimen(t *testing.T) {
	d := listDiary(t, nil)
	i := d.Import("2024-spring")
	require.NotNil(t, i.List)
	assert.Equal(t, 7, i.LookedEvery)
	assert.Zero(t, d.Import("2026-spring-b").LookedEvery)
	var got []string
	for _, s := range d.Specimens {
		if s.Import == i {
			require.NotNil(t, s.Listed)
			got = append(got, fmt.Sprintf("%s|%s|%s|%s|%s", s.ID, s.Name, s.Size, s.SizeSold, stated(s.Listed)))
			assert.Equal(t, s, d.Specimen(s.ID))
		}
	}
	assert.Equal(t, []string{
		`b24-01|Hoya obovata|small||2024-06-01 - - [] "grew well"`,
		`b24-02|Begonia 'So'||M/L|- 2024-05 - [rot] ""`,
		`b24-03|Hoya kerrii|||- yes - [] ""`,
		`b24-04|Hoya carnosa|||- - 2024-05-20 [] "to I."`,
		`b24-05|Hoya lacunosa|||- - - [] ""`,
		`b24-06|Macodes petola|||2024-05-01 2024-05-10 - [cold] ""`,
		`b24-07|Hoya lyi|||2024-05 - - [] ""`,
		`b24-08|Hoya bella|||- - 2024-05 [] ""`,
	}, got)
	assert.Equal(t, "45.00 NOK", d.Specimen("b24-01").Price.String())
	assert.True(t, d.Specimen("b24-02").Listed.Cause.Doubt)
	for id, undated := range map[string]bool{"b24-01": false, "b24-02": false, "b24-03": true, "b24-04": false, "b24-05": true} {
		assert.Equal(t, undated, d.Specimen(id).Listed.Undated(), id)
	}
	timeline := d.Timelines(measure.NoDay).Of(d.Specimen("b24-02"))
	require.NotNil(t, timeline)
	assert.Empty(t, timeline.Looks, "a list has no looks")
}

// Check-ins go on with a specimen from a list, up to the end that the list tells
// of, and take its loss back.
func TestCheckInsGoOnWithASpecimenFromAList(t *testing.T) {
	d := listDiary(t, map[string]string{
		"check-ins/a.md":  "---\ndate: 2024-05-05\nplace: sill\nspecimens: {b24-01: firm, b24-02: soft, b24-05: same}\n---\nSee [one](specimens/b24-05).\n",
		"check-ins/aa.md": "---\ndate: 2024-05-31\nspecimen: b24-02\nturgor: limp\n---\n", // on the loss's last day it may live
		"check-ins/b.md":  "---\ndate: 2024-07-01\nplace: sill\nothers: same\n---\n",
		"check-ins/c.md":  "---\ndate: 2024-07-02\nspecimens: {b24-06: alive after all, b24-03: alive after all}\n---\n",
		"check-ins/e.md":  "---\ndate: 2024-08-01\nspecimen: b24-03\noutcome: lost\n---\n",
		"check-ins/d.md":  "---\ndate: 2024-07-03\nspecimen: b24-01\ncut-into: {b24-01: base, b24-01a: top}\n---\n",
	})
	all := d.Timelines(measure.NoDay)
	of := func(id string) *Timeline { return all.Of(d.Specimen(id)) }
	assert.Len(t, of("b24-01").Looks, 3)
	assert.Len(t, of("b24-02").Looks, 2, "lost by the end of May: others: same doesn't speak for it in July")
	assert.Nil(t, of("b24-02").Place())
	assert.Len(t, of("b24-05").Looks, 2)
	assert.Equal(t, dayOf(t, "2024-07-02"), of("b24-06").ListedBack.When.Day)
	assert.NotNil(t, of("b24-03").ListedBack, "a loss without a day is taken back, too")
	section := d.Specimen("b24-01a")
	require.NotNil(t, section)
	assert.Nil(t, section.Listed, "a section has no row")
	assert.Equal(t, "Hoya obovata", section.Name)
	assert.Nil(t, d.Timelines(dayOf(t, "2024-07-01")).Of(d.Specimen("b24-06")).ListedBack, "it works from its own day on")
}

// What a list says of later days is unknown on an earlier one, and so is what it
// says of no day.
func TestAnEarlierDayKnowsNothingLaterOfAList(t *testing.T) {
	d := listDiary(t, nil)
	for _, c := range []struct{ until, id, want string }{
		{"2024-05-31", "b24-01", `- - - [] "grew well"`},
		{"2024-06-01", "b24-01", `2024-06-01 - - [] "grew well"`},
		{"2024-05-30", "b24-02", `- - - [] ""`},
		{"2024-05-31", "b24-02", `- 2024-05 - [rot] ""`},
		{"2026-01-01", "b24-03", `- - - [] ""`},
		{"2024-05-19", "b24-04", `- - - [] "to I."`},
		{"2024-05-20", "b24-04", `- - 2024-05-20 [] "to I."`},
		{"2024-04-30", "b24-07", `- - - [] ""`},
		{"2024-05-01", "b24-07", `2024-05 - - [] ""`}, // a life counts from its first possible day
		{"2024-05-30", "b24-08", `- - - [] ""`},       // it may still be there
		{"2024-05-31", "b24-08", `- - 2024-05 [] ""`},
		{"2024-05-09", "b24-06", `2024-05-01 - - [] ""`},
	} {
		got := d.Timelines(dayOf(t, c.until)).Of(d.Specimen(c.id))
		assert.Equal(t, c.want, stated(got.Listed), "%s on %s", c.id, c.until)
	}
}

// Nothing younger than the hold-back goes out of a list, nor a remark that may
// speak of it.
func TestWhatOfAListMayBeShown(t *testing.T) {
	d := listDiary(t, nil)
	show := func(on string, hold int) *Diary {
		d.Settings.HoldBack = hold
		return d.Shown(ShowOptions{On: dayOf(t, on)})
	}
	all := show("2026-01-01", 0)
	assert.Equal(t, `2024-06-01 - - [] "grew well"`, stated(all.Specimen("b24-01").Listed))
	assert.Equal(t, `- yes - [] ""`, stated(all.Specimen("b24-03").Listed))

	some := show("2024-05-31", 14) // up to 17 May
	assert.Equal(t, `- - - [] ""`, stated(some.Specimen("b24-01").Listed))
	assert.Equal(t, `- - - [] ""`, stated(some.Specimen("b24-02").Listed), "the end of May is younger")
	assert.Equal(t, `- - - [] ""`, stated(some.Specimen("b24-04").Listed))
	assert.Equal(t, `2024-05-01 2024-05-10 - [cold] ""`, stated(some.Specimen("b24-06").Listed))
	require.NotNil(t, d.Specimen("b24-01").Listed.Alive.Day)
	assert.Equal(t, `2024-06-01 - - [] "grew well"`, stated(d.Specimen("b24-01").Listed), "the diary itself is unchanged")

	none := show("2024-05-10", 20) // up to 20 April: the import may have come later
	assert.Nil(t, none.Import("2024-spring"))
	assert.Nil(t, none.Specimen("b24-01"))
}

func TestAnUnfinishedImportHidesItsRows(t *testing.T) {
	d := listDiary(t, map[string]string{"imports/2024-spring.md": "---\nunfinished: yes\n" + listImport[4:]})
	assert.Nil(t, d.Shown(ShowOptions{On: faultsToday}).Specimen("b24-01"))
	assert.NotNil(t, d.Shown(ShowOptions{On: faultsToday, Unfinished: true}).Specimen("b24-01"))
}

// IDs are found whatever their files' names sort like: "spring-b.md" comes before
// "spring.md".
func TestIDsThatBeginAlike(t *testing.T) {
	d := listDiary(t, map[string]string{
		"imports/2024-spring-b.md": "---\nseason: 2024 spring\narrived: 2024-05-01\n---\n",
		"specimens/b26-01-b.md":    "---\nname: Hoya obovata\nimport: 2024-spring-b\n---\n",
		"places/sill-b.md":         "---\nstage: room\n---\n",
	})
	for _, id := range []string{"2024-spring", "2024-spring-b"} {
		assert.NotNil(t, d.Import(id), id)
	}
	assert.NotNil(t, d.Specimen("b26-01"))
	assert.NotNil(t, d.Place("sill"))
	assert.NotNil(t, d.Place("sill-b"))
}

// FuzzList reads any text as the table of an import.
func FuzzList(f *testing.F) {
	files := inMemory(f, map[string]string{"imports/2024-spring.md": listImport})
	f.Add(listTable)
	for _, s := range []string{"no;plant\nb24-01;\"A\n", "no;plant;lost;sold\nall;A;yes;yes\n", "no,plant\nb26-01,A\nb26-01,A\n", "no;plant;last seen;lost\nx;A;2024-05;2024-04-01\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) { loadWithin(t, files, "lists/2024-spring.csv", text) })
}
