package content

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
	"wardian/content/source"
)

func mustDay(t testing.TB, text string) measure.Day {
	t.Helper()
	var y, m, d int
	_, err := fmt.Sscanf(text, "%d-%d-%d", &y, &m, &d)
	require.NoError(t, err)
	day, ok := measure.Date(y, m, d)
	require.True(t, ok)
	return day
}

// errorsOf keeps the findings that stop a build.
func errorsOf(findings []source.Finding) (out []string) {
	for _, f := range findings {
		if f.Severity == source.Error {
			out = append(out, f.Long())
		}
	}
	return out
}

// sound reads entries over the small diary and fails on any error finding.
func sound(t testing.TB, over ...string) *Diary {
	t.Helper()
	d, findings := tell(t, over...)
	require.Empty(t, errorsOf(findings))
	return d
}

// looksOf tells a specimen's looks in short: the day of the import, where it
// stood, and how it was seen.
func looksOf(d *Diary, until measure.Day, id string) string {
	t := d.Timelines(until).Of(d.Specimen(id))
	if t == nil {
		return "not begun"
	}
	var out []string
	for _, l := range t.Looks {
		s := fmt.Sprintf("d%d", l.Day)
		if l.At != nil {
			s += " " + l.At.ID
		}
		switch {
		case l.Cutting && l.Named:
			s += " cut, named"
		case l.Cutting:
			s += " cut"
		case !l.Named:
			s += " same"
		}
		if l.AtRest {
			s += " resting"
		}
		if l.Outcome != "" {
			s += " " + string(l.Outcome)
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

func staysOf(d *Diary, id string) string {
	t := d.Timelines(measure.NoDay).Of(d.Specimen(id))
	if t == nil {
		return "not begun"
	}
	var out []string
	for _, s := range t.Stays {
		out = append(out, fmt.Sprintf("%s %s..%s", s.Place.ID, s.From, s.Until))
	}
	return strings.Join(out, ", ")
}

func TestWhereASpecimenStands(t *testing.T) {
	d := sound(t, entries(
		"date: 2026-03-09\nspecimen: b26-01\nturgor: firm", // nobody says where
		"date: 2026-03-10\nspecimen: b26-01\nplace: tote\nturgor: firm",
		"date: 2026-03-12\nspecimen: b26-01\nplace: tote\nto: cabinet",
		"date: 2026-03-14\nspecimen: b26-01\nplace: cabinet\nturgor: soft",
		"date: 2026-03-15 08:00\nspecimen: b26-01\nto: tote",
		"date: 2026-03-15 20:00\nspecimen: b26-01\noutcome: lost",
		"date: 2026-03-09\nspecimen: b26-02\nto: tote",
	))
	assert.Equal(t, "d0; d1 tote; d3 tote; d5 cabinet; d6 cabinet; d6 tote lost", looksOf(d, measure.NoDay, "b26-01"))
	assert.Equal(t, "tote 2026-03-10..2026-03-12, cabinet 2026-03-12..2026-03-15 08:00, tote 2026-03-15 08:00..2026-03-15 20:00", staysOf(d, "b26-01"))
	assert.Equal(t, "tote 2026-03-09..", staysOf(d, "b26-02"))
	all := d.Timelines(measure.NoDay)
	lost := all.Of(d.Specimen("b26-01"))
	assert.Nil(t, lost.Stays[0].Move, "the first place is no move")
	assert.Equal(t, lost.Looks[2], lost.Stays[1].Move)
	assert.Nil(t, lost.Place(), "a lost plant stands nowhere")
	assert.Equal(t, lost.Looks[5], lost.Loss)
	assert.Equal(t, "tote", all.Of(d.Specimen("b26-02")).Place().ID)
	assert.Empty(t, all.Of(d.Specimen("b26-03")).Looks)
}

const arrivalRound = "date: 2026-03-09\nplace: tote\nspecimens: {b26-01: firm, b26-02: soft, b26-03: limp}"

func TestWhomOthersSameSpeaksFor(t *testing.T) {
	d := sound(t, entries(
		arrivalRound,
		"date: 2026-03-10\nplace: tote\nspecimens:\n  b26-01: to cabinet\n  b26-02:\nothers: same",     // an empty line names nobody
		"date: 2026-03-11\nplace: tote\nothers: same\nnot-seen: [b26-03]",                              // there, not looked at
		"date: 2026-03-12\nplace: tote\nspecimens: {b26-02: lost rot}\nothers: same",                   // named
		"date: 2026-03-13\nplace: tote\nothers: same",                                                  // the lost one isn't there
		"date: 2026-03-14\nplace: cabinet\nspecimens: {b26-01: passed on}\nothers: same",               // nobody else
		"date: 2026-03-15\nplace: tote\nspecimens: {b26-03: {cut-into: {b26-03a: top}}}\nothers: same", // the piece is seen by its cut
		"date: 2026-03-16\nplace: tote\nothers: same",                                                  // the divided one isn't there
		"date: 2026-03-17\nplace: tote\nspecimens: {b26-03a: to cabinet}",                              //
		"date: 2026-03-18\nplace: cabinet\nothers: not seen",                                           //
		"date: 2026-03-19\nplace: cabinet\nevent: power cut",                                           // a place note
		"date: 2026-03-20\nplace: cabinet\nothers: same\nevent: heat",
	))
	assert.Equal(t, "d0 tote; d1 tote; d5 cabinet passed on", looksOf(d, measure.NoDay, "b26-01"))
	assert.Equal(t, "d0 tote; d1 tote same; d2 tote same; d3 tote lost", looksOf(d, measure.NoDay, "b26-02"))
	assert.Equal(t, "d0 tote; d1 tote same; d3 tote same; d4 tote same; d6 tote", looksOf(d, measure.NoDay, "b26-03"))
	assert.Equal(t, "d6 tote cut; d7 tote same; d8 tote; d11 cabinet same", looksOf(d, measure.NoDay, "b26-03a"))
	var notes []string
	for _, n := range d.Timelines(measure.NoDay).Notes {
		notes = append(notes, n.When.String()+" "+n.Event)
	}
	assert.Equal(t, []string{"2026-03-19 power cut", "2026-03-20 heat"}, notes)
}

func TestWhatARoundSaysOfAll(t *testing.T) {
	d := sound(t, entries(
		arrivalRound,
		"date: 2026-03-12\nplace: tote\nto: cabinet\nmedium: perlite\ndid: [aired]\npests: none\nlast-good: 2026-03-10\nspecimens:\n  b26-01: {did: [treated], pests: thrips}\nothers: same",
	))
	all := d.Timelines(measure.NoDay)
	named, other := all.Of(d.Specimen("b26-01")).Looks[1], all.Of(d.Specimen("b26-02")).Looks[1]
	assert.Equal(t, "cabinet", named.To.ID)
	assert.ElementsMatch(t, []string{"aired", "treated"}, named.Did, "lists are added")
	assert.Equal(t, "thrips", named.Pests, "its own word goes before the round's")
	assert.Equal(t, "perlite", named.MediumNow)
	assert.True(t, other.Same)
	assert.Nil(t, other.To, "a move holds for the named only")
	assert.Equal(t, "", other.MediumNow, "so does the medium")
	assert.Equal(t, []string{"aired"}, other.Did)
	assert.Equal(t, "none", other.PestsNow)
	assert.False(t, other.LastGood.Known(), "nor has it anything to do with a loss")
}

func TestWhatLasts(t *testing.T) {
	d := sound(t, tubFile, entries(
		arrivalRound,
		"date: 2026-03-10\nspecimen: b26-01\nresting: yes\nrot: stem\nmedium: bark",
		"date: 2026-03-12\nplace: tote\nothers: same",
		"date: 2026-03-14\nspecimen: b26-01\nleaves: {count: 0}\npests: mites",
		"date: 2026-03-15\nspecimen: b26-01\nto: tub",
		"date: 2026-03-16\nspecimen: b26-01\nto: tote\nrot: none",
		"date: 2026-03-18\nspecimen: b26-01\nleaves: {count: 1}\nmedium: perlite",
		"date: 2026-03-20\nspecimen: b26-01\nto: tub\npests: none",
		"date: 2026-03-21\nspecimen: b26-01\nto: tote\nmedium: sphagnum moss",
	))
	var got []string
	for _, l := range d.Timelines(measure.NoDay).Of(d.Specimen("b26-01")).Looks {
		got = append(got, fmt.Sprintf("d%d rest=%v rot=%s pests=%s medium=%s", l.Day, l.AtRest, l.RotNow, l.PestsNow, l.MediumNow))
	}
	assert.Equal(t, []string{
		"d0 rest=false rot= pests= medium=",
		"d1 rest=true rot=stem pests= medium=bark",
		"d3 rest=true rot=stem pests= medium=bark",
		"d5 rest=true rot=stem pests=mites medium=bark",
		"d6 rest=true rot=stem pests=mites medium=water",
		"d7 rest=true rot=none pests=mites medium=", // out of the water into nobody said what
		"d9 rest=false rot=none pests=mites medium=perlite",
		"d11 rest=false rot=none pests=none medium=water",
		"d12 rest=false rot=none pests=none medium=sphagnum moss",
	}, got)
}

// A leaf ends a rest, however it is told; a medium goes along to the next place.
func TestWhatEndsARest(t *testing.T) {
	for leaf, rest := range map[string]bool{"leaves: {count: 1}": false, "leaves: {new: yes}": false, "leaves: {sizes: [3x2]}": false,
		"leaves: {count: 0}": true, "leaves: {dropped: 1}": true, "turgor: firm": true} {
		d := sound(t, entries("date: 2026-03-10\nspecimen: b26-01\nplace: tote\nresting: yes\nmedium: bark", "date: 2026-03-12\nspecimen: b26-01\nto: cabinet\n"+leaf))
		last := d.Timelines(measure.NoDay).Of(d.Specimen("b26-01")).Looks[1]
		assert.Equal(t, rest, last.AtRest, leaf)
		assert.Equal(t, "bark", last.MediumNow)
	}
}

const tubFile = "-- places/tub.md --\n---\nname: Tub\nstage: soak\n---\n"

// Cutting: the piece begins where its parent stands after that look; its own ID
// among the pieces means that the parent lives on.
func TestSections(t *testing.T) {
	d := sound(t, entries(
		arrivalRound,
		"date: 2026-03-12\nspecimen: b26-01\nto: cabinet\ncut-into: {b26-01: base, b26-01a: top}", // a move of the line
		"date: 2026-03-14\nspecimen: b26-01a\nroots: {grade: 1, new: yes}",
		// cut again, and the piece of that cut again in the same round, named before its parent
		"date: 2026-03-20\nspecimens:\n  b26-01c: firm\n  b26-01b: {cut-into: {b26-01b: base, b26-01c: top}}\n  b26-01: {cut-into: {b26-01b: middle}}",
		"date: 2026-03-22\nplace: cabinet\nothers: same",
		"date: 2026-03-24\nspecimen: b26-02\nresting: yes\ncut-into: {b26-02a: division, b26-02b: division}",
	))
	assert.Equal(t, "d0 tote; d3 tote; d11 cabinet", looksOf(d, measure.NoDay, "b26-01"))
	assert.Equal(t, "d3 cabinet cut; d5 cabinet; d13 cabinet same", looksOf(d, measure.NoDay, "b26-01a"))
	assert.Equal(t, "d11 cabinet cut, named; d13 cabinet same", looksOf(d, measure.NoDay, "b26-01b"))
	assert.Equal(t, "d11 cabinet cut, named; d13 cabinet same", looksOf(d, measure.NoDay, "b26-01c"))
	assert.Equal(t, "d15 tote cut resting", looksOf(d, measure.NoDay, "b26-02a"), "a piece of a leafless plant has no leaf")
	all := d.Timelines(measure.NoDay)
	parent := all.Of(d.Specimen("b26-01"))
	assert.Equal(t, "2026-03-20", parent.Divided.String())
	var pieces []string
	for _, p := range parent.Pieces {
		pieces = append(pieces, p.Specimen.ID+" "+p.Begins.String())
	}
	assert.Equal(t, []string{"b26-01a 2026-03-12", "b26-01b 2026-03-20"}, pieces)
	assert.False(t, all.Of(d.Specimen("b26-01b")).Divided.Known())
	assert.Equal(t, "Hoya callistophylla", d.Specimen("b26-01c").Name)
	// Until the day before, the piece doesn't exist.
	assert.Equal(t, "not begun", looksOf(d, mustDay(t, "2026-03-11"), "b26-01a"))
	assert.Equal(t, "d0 tote", looksOf(d, mustDay(t, "2026-03-11"), "b26-01"))
	assert.Equal(t, "d3 cabinet cut", looksOf(d, mustDay(t, "2026-03-12"), "b26-01a"))
}

// A loss beside sections without the own ID means that the rest was thrown
// away: divided. A piece may be cut on the day the parent was found lost.
func TestLossBesideACut(t *testing.T) {
	d := sound(t, entries(
		arrivalRound,
		"date: 2026-03-12\nspecimen: b26-01\noutcome: lost\ncut-into: {b26-01a: top}",
		"date: 2026-03-12\nspecimen: b26-02\noutcome: lost",
		"date: 2026-03-12 20:00\nspecimen: b26-02\ncut-into: {b26-02a: top}",
		"date: 2026-04-18\nspecimen: b26-02a\nturgor: firm",
	))
	all := d.Timelines(measure.NoDay)
	divided, lost := all.Of(d.Specimen("b26-01")), all.Of(d.Specimen("b26-02"))
	assert.Nil(t, divided.Loss)
	assert.True(t, divided.Divided.Known())
	require.NotNil(t, lost.Loss)
	assert.False(t, lost.Divided.Known(), "what is lost can't be divided")
	assert.Equal(t, "d3 tote cut; d40 tote", looksOf(d, measure.NoDay, "b26-02a"))
	assert.Equal(t, "tote 2026-03-09..2026-03-12", staysOf(d, "b26-02"))
}

func TestAliveAfterAll(t *testing.T) {
	d := sound(t, entries(
		arrivalRound,
		"date: 2026-03-12\nspecimen: b26-01\noutcome: lost\ncause: rot?",
		"date: 2026-03-20\nplace: tote\nothers: same",
		"date: 2026-04-01\nspecimen: b26-01\nto: cabinet\noutcome: alive after all",
		"date: 2026-04-03\nplace: cabinet\nothers: same",
		"date: 2026-04-09\nspecimen: b26-01\noutcome: lost",
	))
	// Before its own date, the loss stands.
	before := d.Timelines(mustDay(t, "2026-03-31")).Of(d.Specimen("b26-01"))
	require.NotNil(t, before.Loss)
	assert.Empty(t, before.Withdrawn)
	assert.Nil(t, before.Loss.TakenBack)
	assert.Equal(t, "2026-03-12", before.Stays[0].Until.String())
	// From it on, there was none; the entry stays.
	after := d.Timelines(mustDay(t, "2026-04-03")).Of(d.Specimen("b26-01"))
	assert.Nil(t, after.Loss)
	require.Len(t, after.Withdrawn, 1)
	assert.Equal(t, after.Looks[1], after.Withdrawn[0])
	assert.Equal(t, after.Looks[2], after.Withdrawn[0].TakenBack)
	assert.Equal(t, "d0 tote; d3 tote lost; d23 tote alive after all; d25 cabinet same", looksOf(d, mustDay(t, "2026-04-03"), "b26-01"),
		"nobody looked at it while it was thought lost")
	all := d.Timelines(measure.NoDay).Of(d.Specimen("b26-01"))
	assert.Equal(t, all.Looks[4], all.Loss, "it can be lost again")
	assert.Equal(t, "tote 2026-03-09..2026-04-01, cabinet 2026-04-01..2026-04-09", staysOf(d, "b26-01"))
}

// Days of a half known arrival count from its first possible day.
func TestDaysOfAHalfKnownArrival(t *testing.T) {
	d := sound(t, "-- imports/2025-spring-a.md --\n---\nseason: 2025 spring\narrived: 2025-04\n---\n",
		entries("date: 2025-04-20\nspecimen: a25-01\nturgor: firm"))
	assert.Equal(t, "d19", looksOf(d, measure.NoDay, "a25-01"))
	assert.Nil(t, d.Timelines(mustDay(t, "2025-03-31")).Of(d.Specimen("a25-01")))
}

// Told up to any day, the diary is the same walk ended earlier: nothing of what
// came later changes it but photos, and "alive after all" is later.
func TestAnEarlierStateIsTheSameWalkEndedEarlier(t *testing.T) {
	d := sound(t, storyOfAll)
	whole := d.Timelines(measure.NoDay)
	var compared int
	for day := mustDay(t, "2026-03-08"); day <= mustDay(t, "2026-04-20"); day++ {
		cut := *d
		cut.Entries = nil
		for _, e := range d.Entries {
			if e.When.Day <= day {
				cut.Entries = append(cut.Entries, e)
			}
		}
		for _, p := range d.Timelines(day).List {
			q := cut.Timelines(measure.NoDay).Of(p.Specimen)
			require.Len(t, p.Looks, len(q.Looks))
			for i := range p.Looks {
				assert.Equal(t, p.Looks[i].Facts, q.Looks[i].Facts)
				assert.Equal(t, whole.Of(p.Specimen).Looks[i].Facts, p.Looks[i].Facts)
				compared++
			}
			assert.Equal(t, len(p.Stays), len(q.Stays))
			assert.Equal(t, p.Divided, q.Divided)
		}
	}
	assert.Greater(t, compared, 100)
}

var storyOfAll = entries(
	arrivalRound,
	"date: 2026-03-12\nspecimen: b26-01\noutcome: lost",
	"date: 2026-03-14\nplace: tote\nspecimens: {b26-02: {cut-into: {b26-02: base, b26-02a: top}}}\nothers: same",
	"date: 2026-03-16\nplace: tote\nothers: same\nnot-seen: [b26-03]",
	"date: 2026-03-20\nspecimen: b26-01\noutcome: alive after all",
	"date: 2026-03-24\nplace: tote\nspecimens: {b26-01: to cabinet, b26-02a: to cabinet}\nothers: same",
	"date: 2026-03-28\nplace: cabinet\nothers: same",
	"date: 2026-04-02\nplace: tote\nspecimens: {b26-02: passed on}\nothers: same",
	"date: 2026-04-10\nplace: cabinet\nothers: same\nspecimens: {b26-02a: {cut-into: {b26-02b: top, b26-02c: base}}}",
	"date: 2026-04-18\nplace: cabinet\nothers: same",
)

func TestTheWalkIsTheSameEachTime(t *testing.T) {
	d := sound(t, storyOfAll)
	first := d.Timelines(measure.NoDay)
	for range 5 {
		again := d.Timelines(measure.NoDay)
		require.Equal(t, len(first.List), len(again.List))
		for i := range first.List {
			id := first.List[i].Specimen.ID
			assert.Equal(t, id, again.List[i].Specimen.ID)
			assert.Equal(t, len(first.List[i].Looks), len(again.List[i].Looks))
		}
	}
	ids := []string{}
	for _, l := range first.List {
		ids = append(ids, l.Specimen.ID)
	}
	assert.IsIncreasing(t, ids)
}

// crowd makes a diary of n specimens at one place with a round each day, all by
// hand, for telling how the walk's work grows.
func crowd(n, rounds int) *Diary {
	day0 := measure.Day(20000)
	bin := &Place{ID: "tote", Stage: Bin}
	i := &Import{ID: "i", Arrived: measure.On(day0), Unpacked: measure.At(day0)}
	d := &Diary{Imports: []*Import{i}, Places: []*Place{bin}}
	first := &Entry{When: measure.At(day0), Place: bin, Round: true, Common: nothingSaid()}
	for k := range n {
		s := &Specimen{ID: fmt.Sprintf("p%06d", k), Import: i, CutOn: measure.NoMoment}
		d.Specimens = append(d.Specimens, s)
		first.Named = append(first.Named, &CheckIn{Entry: first, Mention: Mention{ID: s.ID}, Facts: nothingSaid()})
	}
	d.Entries = append(d.Entries, first)
	for r := range rounds {
		d.Entries = append(d.Entries, &Entry{When: measure.At(day0 + 1 + measure.Day(r)), Place: bin, Round: true, Others: OthersSame, Common: nothingSaid()})
	}
	return d
}

func BenchmarkTimelines(b *testing.B) {
	for _, n := range []int{500, 5000} {
		d := crowd(n, 40)
		b.Run(fmt.Sprint(n, " specimens, 40 rounds"), func(b *testing.B) {
			for b.Loop() {
				d.Timelines(measure.NoDay)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n*41), "ns/look")
		})
	}
}
