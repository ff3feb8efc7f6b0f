package content

import (
	"math"
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

var (
	tote    = &Place{ID: "tote", Stage: Bin}
	cabinet = &Place{ID: "cabinet", Stage: StepDown}
)

// env knows two places.
func env(u measure.Units) WordsEnv {
	return WordsEnv{Units: u, Place: func(id string) (*Place, string) {
		for _, p := range []*Place{tote, cabinet} {
			if p.ID == id {
				return p, ""
			}
		}
		return nil, source.Nearest(id, []string{"tote", "cabinet"})
	}}
}

var metric, imperial measure.Units = measure.Units{}, measure.Units{Inches: true, Fahrenheit: true}

func fig[T any](v T) *measure.Figure[T]   { return &measure.Figure[T]{Value: v} }
func about[T any](v T) *measure.Figure[T] { return &measure.Figure[T]{Value: v, Estimate: true} }

func leafSize(l, w float64) measure.Figure[measure.Size] {
	return measure.Figure[measure.Size]{Value: measure.Size{Length: measure.Length(l), Width: measure.Length(w)}}
}

func grade(n int) *int { return &n }

// facts starts from a record that says nothing.
func facts(say func(*Facts)) Facts {
	f := nothingSaid()
	say(&f)
	return f
}

// phraseCases has every phrase of the design, and each way of writing it.
var phraseCases = []struct {
	text string
	want Facts
}{
	{"same", facts(func(f *Facts) { f.Same = true })},
	{"same; nothing new", facts(func(f *Facts) { f.Same, f.Note = true, "nothing new" })},
	{"firm", facts(func(f *Facts) { f.Turgor = Firm })},
	{"soft", facts(func(f *Facts) { f.Turgor = Soft })},
	{"limp", facts(func(f *Facts) { f.Turgor = Limp })},
	{"resting", facts(func(f *Facts) { f.Resting = true })},
	{"new root", facts(func(f *Facts) { f.Roots = &Roots{New: true} })},
	{"new leaf", facts(func(f *Facts) { f.Leaves = &Leaves{New: true} })},
	{"new leaves", facts(func(f *Facts) { f.Leaves = &Leaves{New: true} })},
	{"leaves 3", facts(func(f *Facts) { f.Leaves = &Leaves{Count: fig(3)} })},
	{"leaf 1", facts(func(f *Facts) { f.Leaves = &Leaves{Count: fig(1)} })},
	{"leaves 0", facts(func(f *Facts) { f.Leaves = &Leaves{Count: fig(0)} })},
	{"leaves ~40", facts(func(f *Facts) { f.Leaves = &Leaves{Count: about(40)} })},
	{"leaves 3 13x6 12x6", facts(func(f *Facts) {
		f.Leaves = &Leaves{Count: fig(3), Sizes: []measure.Figure[measure.Size]{leafSize(13, 6), leafSize(12, 6)}}
	})},
	{"leaves 3 13x6cm 12 x 6 cm ~ 11×5", facts(func(f *Facts) {
		third := leafSize(11, 5)
		third.Estimate = true
		f.Leaves = &Leaves{Count: fig(3), Sizes: []measure.Figure[measure.Size]{leafSize(13, 6), leafSize(12, 6), third}}
	})},
	{"leaves 1 5x2 in", facts(func(f *Facts) {
		f.Leaves = &Leaves{Count: fig(1), Sizes: []measure.Figure[measure.Size]{leafSize(12.7, 5.08)}}
	})},
	{"dropped 1", facts(func(f *Facts) { f.Leaves = &Leaves{Dropped: 1} })},
	{"dropped 0", facts(func(f *Facts) { f.Leaves = &Leaves{} })},
	{"cut 3 leaves", facts(func(f *Facts) { f.Leaves = &Leaves{Cut: 3} })},
	{"cut 1 leaf", facts(func(f *Facts) { f.Leaves = &Leaves{Cut: 1} })},
	{"cut 50% roots", facts(func(f *Facts) { f.Roots = &Roots{Cut: fig(measure.Share(0.5))} })},
	{"cut ~7 % roots", facts(func(f *Facts) { f.Roots = &Roots{Cut: about(measure.Share(0.07))} })},
	{"roots 2", facts(func(f *Facts) { f.Roots = &Roots{Grade: grade(2)} })},
	{"roots 2 longest 4 cm mean ~2 count 5 length 14cm", facts(func(f *Facts) {
		f.Roots = &Roots{Grade: grade(2), Longest: fig(measure.Length(4)), Mean: about(measure.Length(2)),
			Count: fig(5), Length: fig(measure.Length(14))}
	})},
	{"rot roots", facts(func(f *Facts) { f.Rot = "roots" })},
	{"rot stem", facts(func(f *Facts) { f.Rot = "stem" })},
	{"rot growing  point", facts(func(f *Facts) { f.Rot = "growing point" })},
	{"no rot", facts(func(f *Facts) { f.Rot = "none" })},
	{"pests thrips on two leaves", facts(func(f *Facts) { f.Pests = "thrips on two leaves" })},
	{"no pests", facts(func(f *Facts) { f.Pests = "none" })},
	{"to cabinet", facts(func(f *Facts) { f.To = cabinet })},
	{"medium sphagnum moss", facts(func(f *Facts) { f.Medium = "sphagnum moss" })},
	{"lost", facts(func(f *Facts) { f.Outcome = Lost })},
	{"lost rot", facts(func(f *Facts) { f.Outcome, f.Cause = Lost, Cause{Words: []string{"rot"}} })},
	{"lost rot?", facts(func(f *Facts) { f.Outcome, f.Cause = Lost, Cause{Words: []string{"rot"}, Doubt: true} })},
	{"lost dried out and cold ?", facts(func(f *Facts) {
		f.Outcome, f.Cause = Lost, Cause{Words: []string{"dried out", "cold"}, Doubt: true}
	})},
	{"lost rot? and pests", facts(func(f *Facts) {
		f.Outcome, f.Cause = Lost, Cause{Words: []string{"rot", "pests"}, Doubt: true}
	})},
	{"lost heat", facts(func(f *Facts) { f.Outcome, f.Cause = Lost, Cause{Words: []string{"heat"}} })},
	{"lost unknown", facts(func(f *Facts) { f.Outcome, f.Cause = Lost, Cause{Words: []string{"unknown"}} })},
	{"lost other the cat and the shelf", facts(func(f *Facts) {
		f.Outcome, f.Cause = Lost, Cause{Words: []string{"other the cat and the shelf"}}
	})},
	{"lost cold and other the cat?", facts(func(f *Facts) {
		f.Outcome, f.Cause = Lost, Cause{Words: []string{"cold", "other the cat"}, Doubt: true}
	})},
	{"established", facts(func(f *Facts) { f.Outcome = Established })},
	{"passed on", facts(func(f *Facts) { f.Outcome = PassedOn })},
	{"alive after all", facts(func(f *Facts) { f.Outcome = AliveAfterAll })},
	{"; smells sour, but holds; see below", facts(func(f *Facts) { f.Note = "smells sour, but holds; see below" })},
	{" limp ,rot stem;smells sour ", facts(func(f *Facts) { f.Turgor, f.Rot, f.Note = Limp, "stem", "smells sour" })},
	{"leaves 3 13x6 12x6, roots 1 longest 2, soft", facts(func(f *Facts) {
		f.Leaves = &Leaves{Count: fig(3), Sizes: []measure.Figure[measure.Size]{leafSize(13, 6), leafSize(12, 6)}}
		f.Roots, f.Turgor = &Roots{Grade: grade(1), Longest: fig(measure.Length(2))}, Soft
	})},
	{"new leaf, leaves 2, cut 1 leaf, dropped 2, new root, roots 3, cut 20% roots", facts(func(f *Facts) {
		f.Leaves = &Leaves{New: true, Count: fig(2), Cut: 1, Dropped: 2}
		f.Roots = &Roots{New: true, Grade: grade(3), Cut: fig(measure.Share(0.2))}
	})},
	{"", nothingSaid()},
	{" ;  ", nothingSaid()},
}

func TestEveryPhraseIsRead(t *testing.T) {
	for _, c := range phraseCases {
		got, marks, troubles := ParseWords(c.text, env(metric))
		require.Empty(t, troubles, c.text)
		assert.Equal(t, c.want, got, c.text)
		for _, m := range marks {
			assert.Less(t, m.Start, m.End, "%q: the mark of %s is empty", c.text, m.Key)
		}
	}
}

func TestPhrasesOfTheTable(t *testing.T) {
	said := map[string]bool{}
	for _, p := range format.Phrases {
		got, marks, troubles := ParseWords(p.Example, env(metric))
		require.Empty(t, troubles, p.Example)
		assert.NotEqual(t, nothingSaid(), got, "%q says nothing", p.Example)
		require.NotEmpty(t, marks)
		assert.Equal(t, p.Key, marks[0].Key, p.Example)
		for _, lead := range p.Leads {
			said[lead] = true
		}
	}
	for _, c := range phraseCases {
		for _, phrase := range strings.Split(strings.Split(c.text, ";")[0], ",") {
			for lead := range said {
				if strings.HasPrefix(strings.TrimSpace(phrase), lead) {
					delete(said, lead)
				}
			}
		}
	}
	assert.Empty(t, said, "phrases without a case above")
}

func TestRotHasOneListOfPlaces(t *testing.T) {
	assert.Equal(t, append([]string{"none"}, format.RotWhere...), format.Find(format.Seen, "rot").Value.WordList())
}

func TestWordsThereAndBack(t *testing.T) {
	for _, u := range []measure.Units{metric, imperial} {
		for _, c := range phraseCases {
			record, _, _ := ParseWords(c.text, env(u))
			line, err := record.Words(u)
			if strings.Trim(c.text, " ;") == "" {
				require.Error(t, err)
				continue
			}
			require.NoError(t, err, c.text)
			again, _, troubles := ParseWords(line, env(u))
			require.Empty(t, troubles, line)
			assert.Equal(t, record, again, "%q was written as %q", c.text, line)
		}
	}
}

func TestWhatWordsCannotSay(t *testing.T) {
	for what, say := range map[string]func(*Facts){
		"how long it was soaked":              func(f *Facts) { f.Soak = fig(measure.Hours(24)) },
		"what was done":                       func(f *Facts) { f.Did = []string{"potted"} },
		"which sections":                      func(f *Facts) { f.CutInto = []Piece{{ID: "b26-03a", Position: "top"}} },
		"record of arrival":                   func(f *Facts) { f.Arrival = true },
		"in quarantine":                       func(f *Facts) { f.QuarantineUntil = 20000 },
		"last seen well":                      func(f *Facts) { f.LastGood = 20000 },
		"which photos":                        func(f *Facts) { f.Photos = []Photo{{Path: "photos/a.jpg"}} },
		`medium "moss, bark"`:                 func(f *Facts) { f.Medium = "moss, bark" },
		`pests "thrips; many"`:                func(f *Facts) { f.Pests = "thrips; many" },
		`pests "no"`:                          func(f *Facts) { f.Pests = "no" },
		`rot at "leaf"`:                       func(f *Facts) { f.Rot = "leaf" },
		"longest 4 without a grade":           func(f *Facts) { f.Roots = &Roots{Longest: fig(measure.Length(4))} },
		"roots of which nothing is told":      func(f *Facts) { f.Roots = &Roots{} },
		"sizes of leaves without their":       func(f *Facts) { f.Leaves = &Leaves{Sizes: []measure.Figure[measure.Size]{leafSize(3, 2)}} },
		"the count -1":                        func(f *Facts) { f.Leaves = &Leaves{Count: fig(-1)} },
		"the grade 6":                         func(f *Facts) { f.Roots = &Roots{Grade: grade(6)} },
		"the length NaN":                      func(f *Facts) { f.Roots = &Roots{Grade: grade(1), Mean: fig(measure.Length(math.NaN()))} },
		"the share 1.5":                       func(f *Facts) { f.Roots = &Roots{Cut: fig(measure.Share(1.5))} },
		"same beside firm":                    func(f *Facts) { f.Same, f.Turgor = true, Firm },
		"a cause without a loss":              func(f *Facts) { f.Cause = Cause{Words: []string{"rot"}} },
		"a doubt about no cause":              func(f *Facts) { f.Outcome, f.Cause = Lost, Cause{Doubt: true} },
		`the cause "other eaten?"`:            func(f *Facts) { f.Outcome, f.Cause = Lost, Cause{Words: []string{"other eaten?"}} },
		`the cause "rot, cold, heat"`:         func(f *Facts) { f.Outcome, f.Cause = Lost, Cause{Words: []string{"rot", "cold", "heat"}} },
		"remark with white space at its ends": func(f *Facts) { f.Note = " sour" },
		"names nobody":                        func(f *Facts) {},
	} {
		line, err := facts(say).Words(metric)
		require.Error(t, err, "it was written as %q", line)
		assert.ErrorContains(t, err, what)
	}
}

func TestMarksOfWords(t *testing.T) {
	text := "lost rot?, ~, leaves 3 13x6  12x6, roots 2 longest 4 cm, rot growing point; sour"
	_, marks, _ := ParseWords(text, env(metric))
	at := map[string]string{}
	for _, m := range marks {
		at[m.Key] = string([]rune(text)[m.Start:m.End])
	}
	assert.Equal(t, map[string]string{"outcome": "lost", "cause": "rot?", "leaves.count": "3", "leaves.sizes": "13x6  12x6",
		"roots.grade": "2", "roots.longest": "4 cm", "rot": "growing point", "note": "sour"}, at)
}

func FuzzWords(f *testing.F) {
	for _, c := range phraseCases {
		f.Add(c.text)
	}
	for _, c := range troubleCases {
		f.Add(c.text)
	}
	f.Add(strings.Repeat("1,", 3000))
	f.Fuzz(func(t *testing.T, text string) {
		start := time.Now()
		for _, u := range []measure.Units{metric, imperial} {
			got, marks, troubles := ParseWords(text, env(u))
			chars := len([]rune(text))
			for _, m := range marks {
				require.True(t, 0 <= m.Start && m.Start < m.End && m.End <= chars)
			}
			for _, trouble := range troubles {
				require.True(t, 0 <= trouble.Start && trouble.Start < trouble.End && trouble.End <= chars)
			}
			if len(troubles) > 0 || equalFacts(got, nothingSaid()) {
				continue
			}
			line, err := got.Words(u)
			require.NoError(t, err, "what was read from %q can't be written", text)
			again, _, troubles := ParseWords(line, env(u))
			require.Empty(t, troubles, line)
			require.Equal(t, got, again, line)
		}
		if len(text) <= 64<<10 {
			require.Less(t, time.Since(start), 2*patience.For(0), "two readings of at most 64 KiB")
		}
	})
}

// A line as long as a file may be takes no longer than its length: the shapes
// that would tempt a reader to look at a thing again and again.
func TestLongLinesAreReadInTime(t *testing.T) {
	if racing {
		t.Skip("lines are read one by one, by the clock: it is done without the race detector")
	}
	for _, unit := range []string{"1,", "1, ", ",", "firm, ", "frim, ", "a ", "~", "~ ", "x ", "leaves 3,", "1x1 ", "lost rot and ", "and ", "other ",
		"longest 1 ", "longst ", "roots 1 ", "same,", ";", "\u00a0", "中, "} {
		for _, opening := range []string{"", "leaves 9 ", "roots 2 ", "lost ", "to ", "firm "} {
			line := opening + strings.Repeat(unit, (64<<10)/len(unit))
			took := patience.For(0)
			for try := 0; try < 3 && took >= patience.For(0); try++ { // the machine does other things too
				start := time.Now()
				ParseWords(line, env(metric))
				took = time.Since(start)
			}
			assert.Less(t, took, patience.For(0), "%q and 64 KiB of %q", opening, unit)
		}
	}
}
