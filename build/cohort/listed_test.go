package cohort

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

// tabled is a diary of one import kept as a list: keys of the import, then rows
// "ID: alive, lost, left".
func tabled(keys, rows, more string) string {
	var table strings.Builder
	table.WriteString("id;name;alive;lost;left;cause;price\n")
	for row := range strings.Lines(strings.TrimSpace(rows)) {
		id, cells, _ := strings.Cut(strings.TrimSpace(row), ":")
		three := append(strings.Split(cells, ","), "", "", "", "", "")
		fmt.Fprintf(&table, "%s;Hoya obovata;%s;%s;%s;%s;%s\n", id, three[0], three[1], three[2], three[3], three[4])
	}
	return home + "== imports/old.md\n---\nseason: 2024 spring\n" + keys +
		"\nlist: {file: lists/old.csv, id: id, name: name, alive: alive, lost: lost, left: left, cause: cause, price: price}\n---\n== lists/old.csv\n" + table.String() + more
}

func dayOf(t *testing.T, s string) measure.Day {
	t.Helper()
	d, trouble := measure.ParseDay(s)
	require.Nil(t, trouble)
	return d
}

// Each case is worked by hand from the rules: the import arrived on 2024-04-10
// but where it says otherwise, and days count from there.
func TestHowARowOfAListEnds(t *testing.T) {
	const sure = "arrived: 2024-04-10"
	for name, c := range map[string]struct {
		keys, row string
		fate      Fate
		day       int
		after     int // L of a lost row
	}{
		// 1 May is day 21, 31 May day 51.
		"alive, then lost":                              {sure, "2024-05-01, 2024-05-31", Lost, 51, 21},
		"alive half known counts by its first day":      {sure, "2024-05, 2024-06-10", Lost, 61, 21},
		"lost half known counts by its last day":        {sure, "2024-04-20, 2024-05", Lost, 51, 10},
		"both in one month":                             {sure, "2024-05, 2024-05", Lost, 51, 21},
		"alive and lost on one day":                     {sure, "2024-05-01, 2024-05-01", Lost, 21, 20},
		"lost, and nobody looked before":                {sure, ", 2024-05-31", Lost, 51, -1},
		"about a day is the day":                        {sure, "~2024-05-01, ~2024-05-31", Lost, 51, 21},
		"nobody looked before, and every week somebody": {sure + "\nlooked-every: 7 days", ", 2024-05-31", Lost, 51, 44},
		"the week counts from the loss's first day":     {sure + "\nlooked-every: 7 days", ", 2024-05", Lost, 51, 14},
		"the week reaches back to before arrival":       {sure + "\nlooked-every: 14 days", ", 2024-04-15", Lost, 5, -1},
		"a look before the loss goes before the week":   {sure + "\nlooked-every: 7 days", "2024-04-20, 2024-05-31", Lost, 51, 10},
		"lost on the day of arrival":                    {sure, ", 2024-04-10", Lost, 0, -1},
		"a month that begins before arrival":            {sure, "2024-04, 2024-04", Lost, 20, 0},
		"left":                                          {sure, ",, 2024-05-01", PassedOn, 21, Never},
		"left in a month":                               {sure, ",, 2024-05", PassedOn, 21, Never},
		"alive, then left on a day not known":           {sure, "2024-05-01,, yes", PassedOn, 21, Never},
		"alive later in the month in which it left":     {sure, "2024-05-20,, 2024-05", PassedOn, 40, Never},
		// The diary's other rows make 30 June (day 81) the as-of day.
		"alive alone leaves there":          {sure, "2024-05-01", NotSeen, 21, Never},
		"alive within a week of the as-of":  {sure, "2024-06-23", Open, 81, Never},
		"alive eight days before the as-of": {sure, "2024-06-22", NotSeen, 73, Never},
		// A half-known arrival counts from its first possible day.
		"arrived in a month":      {"arrived: 2024-04", "2024-05-01, 2024-05-31", Lost, 60, 30},
		"arrived and lost then":   {"arrived: 2024-04", ", 2024-04", Lost, 29, -1},
		"arrived within ten days": {"arrived: 2024-04-10..2024-04-20", "2024-04-15", NotSeen, 5, Never},
	} {
		t.Run(name, func(t *testing.T) {
			d := readDiary(t, tabled(c.keys, "x-1: "+c.row+"\nx-2: 2024-06-30", ""))
			cohort := At(d, measure.NoDay)
			assert.Equal(t, dayOf(t, "2024-06-30"), cohort.AsOf)
			l := cohort.Line("x-1")
			assert.Equal(t, c.fate.String(), l.Fate.String())
			assert.Equal(t, c.day, l.Day, "day")
			assert.Equal(t, c.after, l.After, "after")
			assert.True(t, l.FromList() && !l.Told() && !l.Undated)
			assert.Empty(t, l.Looks)
		})
	}
}

// A look by a check-in stands beside the list's: whichever is later before the
// loss is the last that saw it alive.
func TestCheckInsGoOnWithARow(t *testing.T) {
	d := readDiary(t, tabled("arrived: 2024-04-10\nlooked-every: 7 days", `
x-1: 2024-04-20, 2024-06-10,,rot?
x-2: 2024-05-20
x-3: 2024-05-20
x-4: , 2024-05-20
x-5:
x-6: , 2024-06-10
x-7: , yes
x-8: , yes`,
		checkIn("2024-05-01", "place: bin\nspecimens:\n  x-1: firm\n  x-2: firm\n  x-5: firm\n  x-7: firm")+
			checkIn("2024-06-10", "specimens:\n  x-3: lost cold\n  x-4: alive after all\n  x-8: alive after all")+
			checkIn("2024-06-12", "specimens:\n  x-2: same")))
	c := At(d, measure.NoDay)
	for id, want := range map[string]string{
		"x-1": "lost 61 (21 61] rot",  // the check-in of 1 May, day 21, is later than the list's day 10
		"x-2": "alive 63",             // 12 June, the as-of day
		"x-3": "lost 61 (40 61] cold", // the list's 20 May, day 40, came before the check-in's loss
		"x-4": "alive 63",             // taken back two days before the as-of day
		"x-5": "not seen since 21",    // enters by its check-in alone
		"x-6": "lost 61 (54 61] ",     // nobody looked before: seven days
		"x-8": "alive 63",             // a loss without a day, taken back
	} {
		l := c.Line(id)
		got := fmt.Sprintf("%s %d", l.Fate, l.Day)
		if l.Fate == Lost {
			got += fmt.Sprintf(" (%d %d] %s", l.After, l.Day, CauseWords(l.Cause))
		}
		assert.Equal(t, want, got, id)
		assert.False(t, l.Undated, id)
	}
	assert.True(t, c.Line("x-1").Cause.Doubt)
	assert.True(t, c.Line("x-7").Undated, "a loss without a day keeps the row out, whatever else is dated")
	assert.True(t, c.Line("x-1").Told())
	assert.False(t, c.Line("x-6").Told())

	// On 5 June nothing of the losses of the 10th is known.
	then := At(d, dayOf(t, "2024-06-05"))
	assert.Equal(t, dayOf(t, "2024-05-20"), then.AsOf)
	assert.Equal(t, "alive", then.Line("x-2").Fate.String())
	assert.Equal(t, "not seen since", then.Line("x-1").Fate.String())
	assert.Equal(t, Lost, then.Line("x-4").Fate, "alive after all works from its own day on")
	assert.Equal(t, 0, then.Line("x-6").Day, "not looked at: it leaves on day 0")
	assert.False(t, then.Line("x-6").Undated)
	assert.True(t, then.Line("x-8").Undated, "nobody knows that its loss will be taken back")
	assert.Equal(t, NotSeen, then.Line("x-8").Fate)
}

// Eleven rows: five without a day, which stand in the shares by their word and
// in nothing else.
func TestRowsWithoutADayStandInSharesAlone(t *testing.T) {
	d := readDiary(t, tabled("arrived: 2024-04-10\nreceived: 11\ncosts: {freight: 110}", `
x-01: 2024-07-03,,,,10
x-02: 2024-07-03,,,,10
x-03: , 2024-05-01,,rot,10
x-04: 2024-04-20, 2024-05-11,,rot,10
x-05: ,, 2024-05-01,,10
x-06: 2024-05-01,,,,10
x-07: yes,,,,10
x-08: , yes,,cold,10
x-09: ,, yes,,10
x-10: ,,,,10
x-11: 2024-05-01, yes,,,10`, ""))
	c := At(d, measure.NoDay)
	s := c.Season("2024 spring")
	require.Len(t, s.Lines, 6)
	require.Len(t, s.Undated, 5)
	assert.Equal(t, Shares{N: 11, Alive: 3, Lost: 4, PassedOn: 2, Unknown: 2, Undated: 5}, s.Shares())
	assert.Len(t, s.Everyone(), 11)
	assert.Equal(t, []string{"x-07", "x-08"}, []string{s.Everyone()[6].Specimen.ID, s.Everyone()[7].Specimen.ID})

	// The curve holds the six: lost on day 21 (of 6) and day 31 (of 3: one left
	// on day 21, one was last seen then). 5/6 · 2/3 = 10/18.
	steps := s.Curve().FromDayZero()
	require.NotEmpty(t, steps)
	assert.Equal(t, 6, steps[0].AtRisk)
	assert.InDelta(t, 10.0/18, s.Curve().At(84).Share, 1e-12)
	row := s.At(28)
	assert.Equal(t, [5]int{6, 3, 1, 1, 1}, [5]int{row.N, row.Alive, row.Lost, row.PassedOn, row.NotSeen})
	assert.Equal(t, []string{"rot"}, []string{s.Causes()[0].Cause})
	assert.Len(t, s.Causes(), 1, "a loss without a day is no row of a table")

	// 220 landed. On day 28 three are known alive and seven more may be: two of
	// the six and the five without a day. 220/10 to 220/3, to the cent.
	each, ok := c.EachSurvivor(d.Import("old"), 28)
	require.True(t, ok)
	assert.Equal(t, "22.00 NOK to 73.33 NOK", each.Low.String()+" to "+each.High.String())

	// In an update words without a day may have come later.
	assert.Equal(t, Shares{N: 11, Alive: 2, Lost: 2, PassedOn: 1, Unknown: 6, Undated: 5}, At(d, dayOf(t, "2024-07-05")).Season("2024 spring").Shares())
}

// The as-of day is the latest of looks and of rows: a half-known day by its
// first, a half-known loss by its last.
func TestTheAsOfDayOfAList(t *testing.T) {
	for rows, want := range map[string]string{
		"x-1: 2024-06":               "2024-06-01",
		"x-1: , 2024-06":             "2024-06-30",
		"x-1: ,, 2024-06":            "2024-06-01",
		"x-1: 2024-05-01, 2024-05":   "2024-05-31",
		"x-1: 2024":                  "2024-04-10", // no day counts below the arrival
		"x-1: 2024-05-01\nx-2: ,yes": "2024-05-01",
		"x-1: , yes":                 "",
	} {
		assert.Equal(t, want, At(readDiary(t, tabled("arrived: 2024-04-10", rows, "")), measure.NoDay).AsOf.String(), rows)
	}
	d := readDiary(t, tabled("arrived: 2024-04-10", "x-1: 2024-06-10, 2024-07\nx-2: 2024-05-05", ""))
	assert.Equal(t, "2024-06-10", At(d, dayOf(t, "2024-07-30")).AsOf.String(), "the loss may still lie ahead")
	assert.Equal(t, "2024-05-05", At(d, dayOf(t, "2024-06-09")).AsOf.String())
	assert.False(t, At(d, dayOf(t, "2024-05-04")).AsOf.Known())
}

// A row is dead on arrival where it was lost by the day of unpacking, for sure.
func TestARowDeadOnArrival(t *testing.T) {
	d := readDiary(t, tabled("arrived: 2024-04-10\nunpacked: 2024-04-11", "x-1: , 2024-04-11\nx-2: , 2024-04\nx-3: , yes", ""))
	c := At(d, measure.NoDay)
	assert.True(t, c.Line("x-1").OnArrival)
	assert.False(t, c.Line("x-2").OnArrival, "found by the end of the month")
	assert.False(t, c.Line("x-3").OnArrival)
}
