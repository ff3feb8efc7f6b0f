package chart

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each chart's table holds every drawn number: what is read back from the
// table's words draws the same bytes.

// same says where two drawings part, and doesn't print them whole.
func same(t *testing.T, want, got HTML, name string) {
	t.Helper()
	if want == got {
		return
	}
	i := 0
	for i < min(len(want), len(got)) && want[i] == got[i] {
		i++
	}
	around := func(h HTML) HTML { return h[max(0, i-60):min(len(h), i+60)] }
	t.Errorf("%s: drawings part at byte %d:\n want …%s…\n got  …%s…", name, i, around(want), around(got))
}

// cells reads a table by the names of its columns; "" where a column isn't.
type cells struct {
	t   *testing.T
	tab Table
}

func tableOf(t *testing.T, ts []Table, column string) cells {
	t.Helper()
	for _, tab := range ts {
		for _, c := range tab.Columns {
			if c.Name == column {
				return cells{t, tab}
			}
		}
	}
	return cells{t, Table{}}
}

func (c cells) get(row int, column string) string {
	for i, k := range c.tab.Columns {
		if k.Name == column {
			return c.tab.Rows[row][i]
		}
	}
	return ""
}

func (c cells) num(row int, column string) float64 {
	s := strings.TrimSuffix(c.get(row, column), "%")
	if s == "< 0.1" {
		return .05
	}
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(c.t, err, column)
	if strings.HasSuffix(c.get(row, column), "%") {
		v /= 100
	}
	return v
}

func (c cells) day(row int, column string) int { return int(c.num(row, column)) }

func markOf(t *testing.T, word string) Mark {
	for m := NoMark; m <= lastMark; m++ {
		if m.Word() == word {
			return m
		}
	}
	t.Fatalf("no mark %q", word)
	return NoMark
}

func stageOf(word string) Stage {
	for s := Soak; s <= Room; s++ {
		if s.Word() == word {
			return s
		}
	}
	return NoStage
}

func (c cells) look(row int) Look {
	l := Look{Day: c.day(row, "day")}
	known := map[string]Known{"measured": Measured, "estimated": Estimated}
	if s := c.get(row, "area is"); s != "" {
		l.Falls = strings.HasSuffix(s, ", fell that day")
		l.Leaf, l.AreaCm2 = known[strings.TrimSuffix(s, ", fell that day")], c.num(row, "leaf area, cm²")
	}
	if s := c.get(row, "and is"); s != "" {
		l.Roots, l.LengthCm = known[s], c.num(row, "roots, cm")
		for n := RootLength; n <= LongestRoot; n++ {
			if n.Word() == c.get(row, "which is") {
				l.Length = n
			}
		}
	}
	if c.get(row, "leaves") != "" {
		l.Counted, l.Leaves = true, c.day(row, "leaves")
	}
	if c.get(row, "root grade") != "" {
		l.Graded, l.Grade = true, c.day(row, "root grade")
	}
	return l
}

func soilFrom(t *testing.T, h Head, ts []Table) SoilLine {
	s := SoilLine{Head: h}
	looks := tableOf(t, ts, "area is")
	if len(looks.tab.Rows) == 0 {
		looks = tableOf(t, ts, "leaves")
	}
	for i := range looks.tab.Rows {
		s.Looks = append(s.Looks, looks.look(i))
	}
	marks := tableOf(t, ts, "mark")
	for i := range marks.tab.Rows {
		m := markOf(t, marks.get(i, "mark"))
		if marks.get(i, "words") == "last seen" {
			s.End = End{marks.day(i, "day"), m}
			continue
		}
		s.Events = append(s.Events, Event{marks.day(i, "day"), m, marks.get(i, "words"), marks.get(i, "note")})
	}
	stays := tableOf(t, ts, "stage")
	for i := range stays.tab.Rows {
		s.Stays = append(s.Stays, Stay{stays.day(i, "from day"), stays.day(i, "to day"), stageOf(stays.get(i, "stage")), stays.get(i, "place")})
	}
	deficit := tableOf(t, ts, "deficit, kPa")
	for i := range deficit.tab.Rows {
		s.DeficitKPa = append(s.DeficitKPa, DayValue{deficit.day(i, "day"), deficit.num(i, "deficit, kPa")})
	}
	return s
}

func TestSoilLineFromItsTable(t *testing.T) {
	for name, s := range map[string]SoilLine{"whole": wholeSoil(), "grades": sparseSoil(), "kinds": threeSoil(), "long": longSoil(), "lost": lostSoil(), "sixty": sixtySoil()} {
		d := s.Draw()
		again := soilFrom(t, s.Head, d.Tables).Draw()
		same(t, d.HTML+d.Key, again.HTML+again.Key, name)
		assert.Equal(t, d.Tables, again.Tables, name)
		require.Contains(t, string(d.HTML), "<svg", name)
	}
	// and the table does hold what is drawn: another number, another path
	d := wholeSoil().Draw()
	d.Tables[0].Rows[3][1] = "119"
	assert.NotEqual(t, d.HTML, soilFrom(t, wholeSoil().Head, d.Tables).Draw().HTML)
}

func curveFrom(t *testing.T, c Curve, tab Table, group string) Curve {
	c.Steps, c.N = nil, 0
	k := cells{t, tab}
	for i := range tab.Rows {
		if group != "" && k.get(i, "group") != group {
			continue
		}
		s := Step{Day: k.day(i, "day"), AtRisk: k.day(i, "under watch"), Lost: k.day(i, "lost"), Left: k.day(i, "left alive"), Share: k.num(i, "share")}
		if k.get(i, "lower limit") != "" {
			s.HasLimits, s.Lower, s.Upper = true, k.num(i, "lower limit"), k.num(i, "upper limit")
		}
		c.Steps = append(c.Steps, s)
	}
	return c
}

func TestCurveFromItsTable(t *testing.T) {
	for name, c := range map[string]Curve{"import": importCurve(), "all lost": allLost(), "none lost": noneLost(), "1200 lines": manyLines()} {
		d := c.Draw()
		require.Len(t, d.Tables, 1, name)
		same(t, d.HTML, curveFrom(t, c, d.Tables[0], "").Draw().HTML, name)
	}
	cs := threeSeasons()
	d := cs.Draw()
	for i, g := range cs.Groups {
		cs.Groups[i] = curveFrom(t, g, d.Tables[0], g.Name)
	}
	same(t, d.HTML+d.Key, cs.Draw().HTML+cs.Draw().Key, "seasons")
}

func TestMilestonesFromTheirTable(t *testing.T) {
	m := sampleMilestones()
	d := m.Draw()
	require.Len(t, d.Tables, 1)
	k := cells{t, d.Tables[0]}
	again := Milestones{Head: m.Head, Rows: append([]Milestone(nil), m.Rows...)}
	at := map[string]int{}
	for i := range again.Rows {
		again.Rows[i].Steps = nil
		at[again.Rows[i].Name] = i
	}
	for i := range k.tab.Rows {
		r := Reaching{Day: k.day(i, "day"), Waiting: k.day(i, "waiting before"), Reached: k.day(i, "reached it"), Lost: k.day(i, "lost"), Left: k.day(i, "left alive"),
			Share: k.num(i, "share reached"), LostShare: k.num(i, "share lost")}
		if k.get(i, "lower limit") != "" {
			r.HasLimits, r.Lower, r.Upper = true, k.num(i, "lower limit"), k.num(i, "upper limit")
		}
		row := &again.Rows[at[k.get(i, "of")]]
		row.Steps = append(row.Steps, r)
	}
	got := again.Draw()
	same(t, d.HTML+d.Key, got.HTML+got.Key, "milestones")
	assert.Equal(t, d.Tables, got.Tables)
}

// The shares of every row of the table add up to 100, to the last digit printed.
func TestSharesOfMilestonesAddUp(t *testing.T) {
	d := sampleMilestones().Draw()
	k := cells{t, d.Tables[0]}
	require.Greater(t, len(k.tab.Rows), 15)
	for i := range k.tab.Rows {
		assert.InDelta(t, 1, k.num(i, "share reached")+k.num(i, "share waiting")+k.num(i, "share lost"), 1e-12, "%v", k.tab.Rows[i])
	}
	assert.Equal(t, []string{"nobody to count: nobody asked"}, d.Notes)
}

// Of three lines one reached it on day 5, one was lost on day 9 and one left on it:
// 1/3 and, of the 2/3 left, a half: 1/3 (Aalen-Johansen by hand). The strip runs
// from 26 (100%) to 106 px: 33 % is at 79.6, and 67 % from above ends at 52.4.
func TestStripStandsAtItsShares(t *testing.T) {
	m := sampleMilestones()
	m.Rows = m.Rows[4:5]
	d := string(m.Draw().HTML)
	assert.Contains(t, d, `<path class="band" d="M0 106H5V79.6H9V106Z"/>`)
	assert.Contains(t, d, `<path class="gone" d="M0 26H9V52.4H9V26Z"/>`)
}

var stayCell = regexp.MustCompile(`^(.+) (\d+)–(\d+)$`)

func listed(t *testing.T, k cells, row int) (stays []Stay, evs []Event, e End) {
	for _, s := range strings.Split(k.get(row, "places, by day"), ", ") {
		if m := stayCell.FindStringSubmatch(s); m != nil {
			from, _ := strconv.Atoi(m[2])
			to, _ := strconv.Atoi(m[3])
			stays = append(stays, Stay{From: from, To: to, Stage: stageOf(m[1])})
		}
	}
	cut := func(s string) (Mark, int) {
		i := strings.LastIndexByte(s, ' ')
		d, err := strconv.Atoi(s[i+1:])
		require.NoError(t, err)
		return markOf(t, s[:i]), d
	}
	for _, s := range strings.Split(k.get(row, "marks, by day"), ", ") {
		if s != "" {
			m, d := cut(s)
			evs = append(evs, Event{Day: d, Mark: m})
		}
	}
	if s := k.get(row, "last seen"); s != "" {
		e.Mark, e.Day = cut(s)
	}
	return stays, evs, e
}

func TestRowsFromTheirTable(t *testing.T) {
	c := sampleRows()
	d := c.Draw()
	k := tableOf(t, d.Tables, "places, by day")
	again := RowChart{Days: c.Days}
	for i := range k.tab.Rows {
		r := Row{Number: k.get(i, "number"), Name: k.get(i, "name"), Section: c.Rows[i].Section, Born: k.day(i, "from day"), Outcome: k.get(i, "outcome")}
		r.Stays, r.Events, r.End = listed(t, k, i)
		again.Rows = append(again.Rows, r)
	}
	assert.Equal(t, d, again.Draw())
}

func TestTreeFromItsTable(t *testing.T) {
	l := sampleTree()
	d := l.Draw()
	k := tableOf(t, d.Tables, "cut from")
	again := Line{Head: l.Head}
	index := map[string]int{"": -1}
	for i := range k.tab.Rows {
		p := Part{Number: k.get(i, "number"), Words: k.get(i, "outcome"), Parent: index[k.get(i, "cut from")], Born: k.day(i, "on day")}
		p.Stays, p.Events, p.End = listed(t, k, i)
		index[p.Number] = i
		again.Parts = append(again.Parts, p)
	}
	assert.Equal(t, d, again.Draw())
}

func TestThumbsFromTheirTable(t *testing.T) {
	c := sampleThumbs()
	d := c.Draw()
	k := tableOf(t, d.Tables, "number")
	looks := map[string][]Look{}
	for i := range k.tab.Rows {
		looks[k.get(i, "number")] = append(looks[k.get(i, "number")], k.look(i))
	}
	again := Thumbs{Days: c.Days}
	for _, cell := range c.Cells {
		again.Cells = append(again.Cells, Thumb{Number: cell.Number, Looks: looks[cell.Number], End: cell.End})
	}
	assert.Equal(t, d, again.Draw())
}

func TestPlaceFromItsTables(t *testing.T) {
	for _, days := range []int{3, 84, 400} {
		p := samplePlace(days)
		d := p.Draw()
		cal := newCalendar(p.First, 0)
		day := func(iso string) int {
			for n := 0; n <= 1000; n++ {
				if cal.iso(n) == iso {
					return n
				}
			}
			t.Fatal("no day ", iso)
			return 0
		}
		again := PlacePlot{Head: p.Head, First: p.First, Stage: p.Stage}
		k := tableOf(t, d.Tables, "deficit, kPa")
		for i := range k.tab.Rows {
			n := day(k.get(i, "day"))
			if k.get(i, "deficit, kPa") != "" {
				again.DeficitKPa = append(again.DeficitKPa, PlaceDay{Day: n, Mean: k.num(i, "deficit, kPa")})
			}
			for unit, ds := range map[string]*[]PlaceDay{"°C": &again.TemperatureC, "% RH": &again.HumidityPct} {
				if k.get(i, "mean "+unit) != "" {
					*ds = append(*ds, PlaceDay{Day: n, Mean: k.num(i, "mean "+unit), HasRange: true, Lowest: k.num(i, "lowest "+unit), Highest: k.num(i, "highest "+unit)})
				}
			}
		}
		k = tableOf(t, d.Tables, "from")
		for i := range k.tab.Rows {
			again.Stood = append(again.Stood, Stood{k.get(i, "number"), k.get(i, "name"), day(k.get(i, "from")), day(k.get(i, "to")), markOf(t, k.get(i, "left as"))})
		}
		k = tableOf(t, d.Tables, "mark")
		for i := range k.tab.Rows {
			again.Notes = append(again.Notes, Event{day(k.get(i, "day")), markOf(t, k.get(i, "mark")), k.get(i, "words"), k.get(i, "note")})
		}
		got := again.Draw()
		same(t, d.HTML, got.HTML, strconv.Itoa(days))
		assert.Equal(t, d.Tables, got.Tables, days)
	}
}
