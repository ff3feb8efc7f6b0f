package page

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// toldBox is a small diary with its figures, for the sentences about it.
type toldBox struct {
	t *testing.T
	v view
}

// box is an import of so many hoyas, p-1 to p-n, that arrived on 9 March 2026; a
// round is "DAY: lines", the day of the import and, parted by strokes, plants' lines,
// "all" for all of them, "others" for those not named, "arrival" for the record of it.
func box(t *testing.T, plants int, rounds ...string) toldBox {
	t.Helper()
	files := fstest.MapFS{
		"diary.yaml":    {Data: []byte("name: A sill\ntime-zone: UTC\ncurrency: EUR\n")},
		"places/bin.md": {Data: []byte("---\nname: The bin\nstage: bin\n---\n")}, "places/shelf.md": {Data: []byte("---\nname: The shelf\nstage: room\n---\n")},
		"imports/box.md": {Data: []byte("---\nseason: 2026 spring\norigin: Taiwan\nexporter: exporter A & sons\ndispatched: 2026-03-08\narrived: 2026-03-09\nshort: {Begonia amphioxus: 1}\n---\n")},
	}
	for n := 1; n <= plants; n++ {
		files["specimens/p-"+itoa(n)+".md"] = &fstest.MapFile{Data: []byte("---\nname: Hoya siariae\nimport: box\n---\n")}
	}
	day0, _ := measure.Date(2026, 3, 9)
	for _, r := range rounds {
		day, told, _ := strings.Cut(r, ": ")
		n, err := strconv.Atoi(day)
		require.NoError(t, err)
		keys, lines := "", ""
		for _, line := range strings.Split(told, " / ") {
			switch line {
			case "arrival":
				keys += "arrival: yes\n"
			case "others":
				keys += "others: same\n"
			case "all":
				for i := 1; i <= plants; i++ {
					lines += "  p-" + itoa(i) + ": same\n"
				}
			default:
				lines += "  " + line + "\n"
			}
		}
		date := (day0 + measure.Day(n)).String()
		files["check-ins/"+date+".md"] = &fstest.MapFile{Data: []byte("---\ndate: " + date + "\nplace: bin\n" + keys + "specimens:\n" + lines + "---\n")}
	}
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	d = d.Shown(content.ShowOptions{On: measure.NoDay})
	return toldBox{t, view{s: &site{Inputs: Inputs{Diary: d, Cohort: cohort.At(d, measure.NoDay)}}, Path: "imports/box.html"}}
}

func (s toldBox) scope() cohort.Scope { return s.v.s.Cohort.Import(s.im()) }
func (s toldBox) im() *content.Import { return s.v.s.Diary.Imports[0] }

func (s toldBox) plant(n int) string {
	return string(s.v.specimenSays(s.v.s.Cohort.Part("p-" + itoa(n))))
}

// An import in its summary sentence: nothing, none, one, some and all of it lost,
// passed on, not seen, established.
func TestAnImportInASentence(t *testing.T) {
	for name, c := range map[string]struct {
		plants int
		rounds []string
		want   string
	}{
		"no plant":        {0, nil, "No plant of it was written down yet."},
		"never looked at": {2, nil, "None of the two plants was looked at yet."},
		"one alive":       {1, []string{"0: all", "40: others"}, "The one plant is not known to be lost. One is alive on day 40."},
		"all alive":       {3, []string{"0: all", "40: others"}, "None of the three plants is known to be lost. Three are alive on day 40."},
		"one lost":        {1, []string{"0: all", "9: p-1: lost rot"}, "The one plant is lost."},
		"both lost":       {2, []string{"0: all", "9: p-1: lost rot / p-2: lost cold"}, "Both plants are lost."},
		"all lost":        {3, []string{"0: all", "9: p-1: lost rot / p-2: lost cold / p-3: lost"}, "All three are lost."},
		"early and late": {4, []string{"0: all", "9: p-1: lost rot / others", "60: p-2: lost rot / others"},
			"Two of the four are lost, one of them in the first five weeks. Two are alive on day 60."},
		"every end": {5, []string{"0: all", "9: p-1: lost rot / p-2: passed on / p-3: established / others", "60: p-3: same / p-4: same"},
			"One of the five is lost. One was passed on. One was last seen alive on day 9 and not since. Two are alive on day 60, one of them established."},
	} {
		s := box(t, c.plants, c.rounds...)
		assert.Equal(t, c.want, importSays(s.scope(), s.im()), name)
	}
}

// A plant in its summary: how its watch ended or stands, what it carries, and
// nothing that no look saw.
func TestAPlantInASentence(t *testing.T) {
	for name, c := range map[string]struct {
		rounds []string
		want   string
	}{
		"never looked at": {nil, "Not looked at yet: nothing is known of it but its name."},
		"alive":           {[]string{"0: all", "9: others"}, "Alive on day 9."},
		"dead on arrival": {[]string{"0: p-1: lost cold"}, "Dead on arrival, found on day 0, cold."},
		"lost":            {[]string{"0: all", "9: p-1: lost rot?"}, "Lost: found dead on day 9, perhaps rot. It was last seen alive on day 0."},
		"lost, and nobody knows why": {[]string{"0: all", "9: p-1: lost unknown"},
			"Lost: found dead on day 9, cause unknown. It was last seen alive on day 0."},
		"passed on":              {[]string{"0: p-1: leaves 1 10x5", "9: p-1: passed on"}, "Passed on alive on day 9, and followed no further. On day 0 it carried 35 cm² of leaf."},
		"established":            {[]string{"0: all", "9: p-1: established", "12: others"}, "Established on day 9 and alive on day 12."},
		"established on the day": {[]string{"0: all", "9: p-1: established"}, "Established on day 9."},
		"resting":                {[]string{"0: all", "9: p-1: resting"}, "Alive on day 9, resting without a leaf."},
		"leaf and root, then and now": {[]string{"0: arrival / p-1: leaves 1 10x5, roots 1 longest 2", "9: p-1: leaves 2 10x5 10x5, roots 2 longest 4"},
			"Alive on day 9. It carries 69 cm² of leaf with a longest root of 4 cm; it came with 35 cm² of leaf with a longest root of 2 cm."},
		"a root of an earlier day": {[]string{"0: p-1: leaves 1 10x5, roots 1 longest 2", "9: p-1: leaves 2 10x5 10x5"},
			"Alive on day 9. It carries 69 cm² of leaf with a longest root of 2 cm (day 0)."},
		"no leaf left":      {[]string{"0: p-1: leaves 1 10x5", "9: p-1: leaves 0"}, "Alive on day 9. It carries no leaf."},
		"alive after all":   {[]string{"0: all", "9: p-1: lost rot", "20: p-1: alive after all"}, "Alive on day 20. On day 9 it was called lost; that was taken back."},
		"cut up, one left":  {[]string{"0: all", "9: p-1: {cut-into: {p-1a: top, p-1b: base}}", "20: p-1a: same / p-1b: lost rot"}, `Cut up whole on day 9. Of what was cut from it, <a href="../specimens/p-1a.html">p-1a</a> is alive.`},
		"cut up, none left": {[]string{"0: all", "9: p-1: {cut-into: {p-1a: top, p-1b: base}}", "20: p-1a: lost rot / p-1b: lost rot"}, "Cut up whole on day 9. Nothing that was cut from it is followed any more."},
	} {
		assert.Equal(t, c.want, box(t, 1, c.rounds...).plant(1), name)
	}
}

// What so few can bear: nothing of one or four, and the limits of more.
func TestWhatTheNumbersCanBear(t *testing.T) {
	assert.Empty(t, bears(box(t, 0).scope()))
	assert.Equal(t, "It is day 3: too early for a share. What stands here is what was seen so far.", bears(box(t, 9, "0: all", "3: others").scope()))
	assert.Equal(t, "One plant is too few for a share. What stands here is what was seen.", bears(box(t, 1, "0: all", "8: others").scope()))
	assert.Equal(t, "Four plants are too few for a share. What stands here is what was seen.", bears(box(t, 4, "0: all", "8: others").scope()))
	assert.Contains(t, bears(box(t, 5, "0: all", "6: p-1: lost rot / others", "8: others").scope()),
		"Of five plants four are alive on day 7. The limits, from 38 to 96 in a hundred,", "Wilson's limits of 4 of 5 (R's prop.test without correction gives 0.376 and 0.964)")
}

// Under a curve: who was followed to what end, adding up to all of them.
func TestTheFlowUnderACurveAddsUp(t *testing.T) {
	s := box(t, 5, "0: p-1: same / p-2: same / p-3: same / p-4: same", "9: p-1: lost rot / p-2: passed on / p-3: same", "60: p-3: same")
	says := strings.Join(curveSays(s.scope()), " ")
	assert.Contains(t, says, "Five received, four looked at: one lost, one passed on, one not seen since and one under watch. Watched for a median of 9 days: half of the lines that long or longer.")
	assert.Empty(t, curveSays(box(t, 0).scope()))
	all := strings.Join(curveSays(box(t, 2, "0: all", "9: p-1: lost rot / p-2: lost rot").scope()), " ")
	assert.Equal(t, "Half were lost by day 9. Two received, two looked at: two lost. Watched for a median of 9 days: half of the lines that long or longer.", all, "after the last loss no other can come")
	assert.Equal(t, "Not seen since day 0: p-4. Never looked at: p-5.", missed(s.scope(), s.im()))
}

func TestTheFactsOfAnImport(t *testing.T) {
	s := box(t, 3, "0: all", "9: p-1: new root, to shelf / others", "45: p-2: new root / others")
	facts := importFacts(s.scope())
	require.Len(t, facts, 3)
	assert.Equal(t, fact{"Alive at day 42", "2 of 3", "between 2 and 3 of 3; 95% limits 34 to 100%"}, facts[0])
	assert.Equal(t, fact{"First new root", "2 of 3", "one by day 42"}, facts[1])
	assert.Equal(t, "Left the bin", facts[2].Term)
	assert.Empty(t, importFacts(box(t, 0).scope()))
	early := importFacts(box(t, 2, "0: all").scope())
	assert.Equal(t, fact{"First new root", "0 of 2", ""}, early[1], "nothing is said of days that haven't come")
}

func TestTheFactsOfAPlant(t *testing.T) {
	facts := func(rounds ...string) map[string][2]string {
		s := box(t, 1, rounds...)
		out := map[string][2]string{}
		for _, f := range s.v.specimenFacts(s.v.s.Cohort.Part("p-1")) {
			out[f.Term] = [2]string{f.Figure, f.Note}
		}
		return out
	}
	assert.Empty(t, facts(), "never looked at")
	assert.Empty(t, facts("0: p-1: lost cold"), "dead on arrival")
	f := facts("0: arrival / p-1: leaves 1 10x5, roots 1 longest 4", "9: p-1: new root", "20: p-1: leaves 3 10x5 10x5 10x5")
	assert.Equal(t, [2]string{"day 9", ""}, f["First new root"])
	assert.Equal(t, [2]string{"–", "not seen by day 20"}, f["First new leaf"])
	assert.Equal(t, [2]string{"day 20", ""}, f["More leaf than it came with"])
	assert.Equal(t, [2]string{"0.12 cm/cm²", "day 0, longest root"}, f["Root to leaf"])
	assert.Equal(t, [2]string{"–", "not counted on arrival"}, facts("0: all")["More leaf than it came with"])
}

// The labels hold what is known, escaped, and no field without a value.
func TestLabels(t *testing.T) {
	s := box(t, 2, "0: arrival / p-1: leaves 1 10x5, soft")
	fields := func(l label) map[string]string {
		out := map[string]string{}
		for _, f := range l.Fields {
			assert.NotEmpty(t, f.Says, f.Term)
			out[f.Term] = string(f.Says)
		}
		return out
	}
	im := s.v.importLabel(s.scope(), s.im())
	assert.Equal(t, "Two plants, Taiwan", string(im.Name))
	assert.Equal(t, `<i class="taxon">Hoya</i>&nbsp;2`, string(im.As))
	got := fields(im)
	assert.Equal(t, "exporter A &amp; sons", got["Exporter"])
	assert.Equal(t, "from 8 March 2026, 1 day", got["On the way"])
	assert.Equal(t, `1 <i class="taxon">Begonia</i> <i class="taxon">amphioxus</i>`, got["Not in the box"])
	assert.NotContains(t, got, "Papers")

	p := fields(s.v.specimenLabel(s.v.s.Cohort.Part("p-1")))
	assert.Equal(t, "1 leaf, 35 cm² of leaf, soft", p["As received"])
	assert.Equal(t, "Taiwan, exporter A &amp; sons", p["Origin"])
	assert.NotContains(t, fields(s.v.specimenLabel(s.v.s.Cohort.Part("p-2"))), "As received")
}

// What fell on a day on which leaves were dropped and a section was cut is told of
// neither: it is known of the day alone.
func TestAFallIsToldOnce(t *testing.T) {
	notes := func(line string) (out []string) {
		s := box(t, 1, "0: p-1: leaves 4 10x5 10x5 10x5 10x5", "9: p-1: "+line)
		for _, h := range happenings(s.v.s.Cohort.Part("p-1")) {
			out = append(out, h.Words+" "+h.Note)
		}
		return out
	}
	assert.Equal(t, []string{"1 leaf dropped −35 cm²"}, notes("leaves 3 10x5 10x5 10x5, dropped 1"))
	assert.Equal(t, []string{"1 leaf cut ", "1 leaf dropped "}, notes("{leaves: {count: 2, sizes: [10x5 cm, 10x5 cm], cut: 1, dropped: 1}}"))
}

// Words of cause have no place in what a page says by itself.
var ofCause = regexp.MustCompile(`(?i)\b(because|caused|works|proves|effect of|improved by|significant(ly)?|due to|thanks to|led to|owing to)\b`)

func TestNoSentenceSpeaksOfCause(t *testing.T) {
	s := box(t, 6, "0: all", "9: p-1: lost rot / p-2: passed on / p-3: established / others", "60: p-3: same / p-4: same")
	says := []string{importSays(s.scope(), s.im()), bears(s.scope()), missed(s.scope(), s.im()), strings.Join(curveSays(s.scope()), " "),
		strings.Join(seasonsBear(running(t).s.seasonsAt(20)), " ")}
	for _, part := range methodParts {
		for _, d := range part.List {
			says = append(says, d.Term, d.Says)
		}
	}
	_, table := tableOf(s.scope())
	says = append(says, table)
	for n := 1; n <= 6; n++ {
		says = append(says, s.plant(n))
	}
	for _, words := range says {
		assert.Empty(t, ofCause.FindString(words), words)
	}
	assert.Equal(t, "because", ofCause.FindString("lost because of rot"))
}
