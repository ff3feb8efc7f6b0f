package cohort

import (
	"strings"
	"testing"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/forecast"
	"wardian/content"
	"wardian/content/measure"
)

// threeBoxes are three imports that can be learned from on day 42 and four that
// can't; everything in them is invented.
//
//	a: 9 of 12 alive on day 42, nobody unknown
//	b: 5 of 14
//	c: of 6 one isn't seen after day 5 and two are found lost on day 10. By hand:
//	   S = 1 − 2/5 = 3/5; Greenwood's variance S²·2/(5·3) = 6/125, so that
//	   n* = (6/25)/(6/125) = 5 and y* = 3.
var threeBoxes = "import a 2026-01-01 {season: 2026 winter|exporter: exporter B}\n" +
	many("a-in", 9, "name: Hoya obovata", "0 firm; 50 firm") +
	many("a-out", 3, "name: Hoya callistophylla|size: small", "0 firm; 20 lost rot") +
	"import b 2026-01-05 {season: 2026 winter}\n" +
	many("b-in", 5, "name: Macodes petola", "0 firm; 50 firm") +
	many("b-out", 9, "name: Macodes petola", "0 firm; 30 lost cold?") +
	"import c 2026-01-10 {season: 2026 winter}\n" +
	"c-1 {name: Hoya obovata}: 5 firm\n" +
	many("c-out", 2, "name: Hoya × obovata", "0 firm; 10 lost") +
	many("c-in", 3, "name: Davallia repens", "0 firm; 50 firm") +
	"import empty 2026-01-11\n" +
	"import gone 2026-01-12\n" +
	many("gone", 2, "", "0 firm; 30 passed on") +
	"import late 2026-01-13 {followed-from: 2026-02-01}\n" +
	many("late", 2, "name: Hoya obovata", "20 firm; 50 firm") +
	"import young 2026-03-02\n" +
	many("young", 4, "", "0 firm; 9 lost rot") +
	"asof 20\n" // 22 March: a is at day 80, young at day 20

func reasons(unfit []UnfitImport) map[string]Unfit {
	out := map[string]Unfit{}
	for _, u := range unfit {
		out[u.Import.ID] = u.Why
	}
	return out
}

func TestWhichImportsAreLearnedFrom(t *testing.T) {
	c := kept(t, threeBoxes)
	fit, unfit := c.Past(42)
	require.Len(t, fit, 3)
	for n, want := range []PastImport{
		{Counts: forecast.Import{Alive: 9, Lines: 12}, Counted: true},
		{Counts: forecast.Import{Alive: 5, Lines: 14}, Counted: true},
		{Counts: forecast.Import{Alive: 3, Lines: 5}},
	} {
		assert.Equal(t, string(rune('a'+n)), fit[n].Import.ID)
		assert.InDelta(t, want.Counts.Alive, fit[n].Counts.Alive, 1e-12)
		assert.InDelta(t, want.Counts.Lines, fit[n].Counts.Lines, 1e-12)
		assert.Equal(t, want.Counted, fit[n].Counted)
	}
	assert.Equal(t, map[string]Unfit{"empty": Unfollowed, "gone": Unfollowed, "late": BeganLate, "nearby": Nearby, "young": Young}, reasons(unfit))
}

// On the very day on which it has been followed so long, an import can be learned
// from; a day before it can't.
func TestAnImportIsOldEnoughOnTheHorizonsDay(t *testing.T) {
	c := kept(t, threeBoxes)
	_, unfit := c.Past(20)
	assert.NotContains(t, reasons(unfit), "young")
	_, unfit = c.Past(21)
	assert.Equal(t, Young, reasons(unfit)["young"])
	fit, unfit := c.Past(81)
	assert.Empty(t, fit, "all that is left is younger")
	assert.Equal(t, Young, reasons(unfit)["a"])
}

// A half-known arrival counts from its first possible day, and a row without a
// day stands outside and is counted.
func TestRowsOfAListAreLearnedFrom(t *testing.T) {
	c := At(readDiary(t, tabled("arrived: 2024-04-10..2024-04-20", "o-1: 2024-05-30\no-2: , 2024-04-30\no-3: , yes\n", "")), measure.NoDay)
	fit, _ := c.Past(50)
	require.Len(t, fit, 1)
	assert.Equal(t, PastImport{Import: c.Diary.Import("old"), Counts: forecast.Import{Alive: 1, Lines: 2}, Counted: true, Undated: 1}, fit[0])
}

func order(lines ...content.Planned) *content.Order { return &content.Order{Lines: lines} }

// The figures are those of a program of its own in Python 3: the sum over the same
// 64 × 64 midpoints with math.lgamma, one term at a time, and for the inverse the
// smallest order tried whose chance reaches 0.8.
func TestAnOrderIsForecast(t *testing.T) {
	c := kept(t, threeBoxes)
	o := c.Forecast(order(content.Planned{Name: "Hoya obovata", Count: 5}, content.Planned{Name: "Begonia amphioxus", Count: 7}), 42)
	require.True(t, o.Known)
	assert.Equal(t, 12, o.Planned)
	assert.InDelta(t, 6.580436946603819, o.Expected, 1e-9)
	assert.Equal(t, forecast.Range{Low: 3, High: 10}, o.Range)
	assert.Equal(t, forecast.Range{Low: 1, High: 12}, o.Wide)
	assert.Empty(t, o.Caveat)
	n, ok := o.Needed(3)
	assert.True(t, ok)
	assert.Equal(t, 8, n)
	_, ok = o.Needed(MostPlanned)
	assert.False(t, ok, "more than is forecast")
	_, ok = o.Needed(0)
	assert.False(t, ok)
}

func TestOneImportHasItsCaveat(t *testing.T) {
	text, _, _ := strings.Cut(threeBoxes, "import b")
	o := kept(t, text+"asof 80\n").Forecast(order(content.Planned{Name: "Hoya obovata", Count: 6}), 42)
	require.True(t, o.Known)
	assert.Equal(t, forecast.OneImport, o.Caveat)
	assert.InDelta(t, 3.9697803734798343, o.Expected, 1e-9)
	assert.Equal(t, forecast.Range{Low: 1, High: 6}, o.Range)
}

// Without an import to learn from it refuses, and offers the day on which there is
// one.
func TestWithoutAnImportItRefuses(t *testing.T) {
	c := kept(t, threeBoxes)
	o := c.Forecast(order(content.Planned{Name: "Hoya obovata", Count: 6}), 200)
	assert.False(t, o.Known)
	assert.Equal(t, forecast.NoImport, o.Refusal)
	assert.Equal(t, 50, o.Nearest, "nobody in a was seen alive later")
	fit, _ := c.Past(50)
	assert.Len(t, fit, 3)
	fit, _ = c.Past(51)
	assert.Empty(t, fit)
	assert.Zero(t, o.Expected)
	assert.False(t, o.Cost.Each)
	_, ok := o.Needed(1)
	assert.False(t, ok)
	assert.NotEmpty(t, o.Earlier, "what became of earlier ones stands all the same")

	nobody := At(readDiary(t, "\n== diary.yaml\nname: A test\ntime-zone: UTC\n"), measure.NoDay).Forecast(order(content.Planned{Name: "Hoya obovata", Count: 1}), 42)
	assert.False(t, nobody.Known)
	assert.Zero(t, nobody.Nearest)
	assert.Empty(t, nobody.Fit)
	assert.Panics(t, func() { c.Forecast(order(), 42) })
}

func kroner(t testing.TB, amount, currency string) *measure.Money {
	d, err := decimal.Parse(amount)
	require.NoError(t, err)
	return &measure.Money{Amount: d, Currency: currency}
}

// By hand, each amount converted once: what a line comes to stands beside it, and
// the sum below.
func TestWhatAnOrderCosts(t *testing.T) {
	c := kept(t, threeBoxes)
	o := order(
		content.Planned{Name: "Hoya obovata", Count: 2, Price: kroner(t, "45", "USD")},      //  946.80
		content.Planned{Name: "Macodes petola", Count: 3, Price: kroner(t, "18.50", "USD")}, //  583.86
		content.Planned{Name: "Begonia amphioxus", Count: 1, Price: kroner(t, "0", "NOK")})  //    0
	o.Rates = []content.Rate{{Currency: "USD", PerOne: kroner(t, "10.52", "").Amount}}
	o.Costs = []content.Cost{
		{Words: "freight", Amount: *kroner(t, "120", "USD")},      // 1262.40
		{Words: "phytosanitary", Amount: *kroner(t, "45", "USD")}, //  473.40
		{Words: "customs", Amount: *kroner(t, "48.30", "NOK")},    //   48.30
		{Words: "discount", Amount: *kroner(t, "-10.30", "NOK")}}  //  −10.30
	out := c.Forecast(o, 42)
	require.True(t, out.Cost.Known && out.Cost.Each)
	assert.Equal(t, "3304.46 NOK", out.Cost.Landed.String())
	// Six plants: 3.29021847330187 expected, 1 to 5 (the same program).
	assert.Equal(t, forecast.Range{Low: 1, High: 5}, out.Range)
	assert.Equal(t, "1004.33 NOK", out.Cost.Expected.String(), "3304.46 / 3.29021847330187 = 1004.3284…")
	assert.Equal(t, "660.89 NOK", out.Cost.Low.String(), "3304.46 / 5 = 660.892")
	assert.Equal(t, "3304.46 NOK", out.Cost.High.String())

	o.Lines[1].Price = nil
	short := c.Forecast(o, 42).Cost
	assert.Equal(t, OrderCost{Unpriced: 3, Landed: short.Landed}, short, "a price that nobody wrote isn't 0")
	o.Rates = nil
	assert.False(t, c.Forecast(o, 42).Cost.Known)
	refunded := order(content.Planned{Name: "Hoya obovata", Count: 1, Price: kroner(t, "1", "NOK")})
	refunded.Costs = []content.Cost{{Words: "discount", Amount: *kroner(t, "-2", "NOK")}}
	assert.False(t, c.Forecast(refunded, 42).Cost.Known)
	free := c.Forecast(order(content.Planned{Name: "Hoya obovata", Count: 1, Price: kroner(t, "0", "NOK")}), 42)
	assert.Equal(t, forecast.Range{Low: 0, High: 1}, free.Range)
	assert.Equal(t, []bool{true, true, false}, []bool{free.Cost.Each, free.Cost.HasLow, free.Cost.HasHigh}, "the range ends in none survived")
	assert.Equal(t, "0.00 NOK", free.Cost.Low.String())
}

// Where every import lost all, the range of a small order is none at both ends.
func TestNoneSurvivedAtBothEnds(t *testing.T) {
	var text string
	for _, box := range []string{"a", "b", "c", "d"} {
		text += "import " + box + " 2026-01-01\n" + many(box, 20, "", "0 firm; 9 lost rot")
	}
	o := kept(t, text+"asof 60\n").Forecast(order(content.Planned{Name: "Hoya obovata", Count: 1, Price: kroner(t, "10", "NOK")}), 42)
	require.True(t, o.Known && o.Cost.Each)
	assert.Equal(t, forecast.Range{}, o.Range)
	assert.False(t, o.Cost.HasLow || o.Cost.HasHigh)
}

func earlierWords(e Earlier) string {
	words := []string{e.By, e.Word}
	for _, row := range e.Lost {
		words = append(words, row.Cause+strings.Repeat("|", len(row.Lines))+strings.Repeat("?", row.Doubted))
	}
	return strings.Join(words, " ")
}

func TestWhatBecameOfEarlierOnes(t *testing.T) {
	c := kept(t, threeBoxes)
	o := order(
		content.Planned{Name: "hoya  Obovata", Count: 1, Size: "small"}, content.Planned{Name: "Hoya x obovata", Count: 1},
		content.Planned{Name: "Macodes petola", Count: 2}, content.Planned{Name: "Hoya sp.", Count: 1}, content.Planned{Name: "Begonia amphioxus", Count: 1})
	o.Exporter = "exporter B"
	got := c.Forecast(o, 42).Earlier
	want := []struct {
		words                        string
		n, alive, lost, notSeen, way int
	}{
		{"species hoya  Obovata", 10, 0, 0, 10, 2}, // last seen on day 50 or before, and long ago
		{"species Hoya x obovata unknown||", 2, 0, 2, 0, 0},
		{"species Macodes petola cold|||||||||?????????", 14, 0, 9, 5, 0},
		{"species Begonia amphioxus", 0, 0, 0, 0, 0},
		{"genus Hoya rot||||||| unknown||", 21, 0, 9, 10, 3},
		{"genus Macodes cold|||||||||?????????", 14, 0, 9, 5, 0},
		{"genus Begonia", 0, 0, 0, 0, 0},
		{"size small rot|||", 3, 0, 3, 0, 0},
		{"exporter exporter B rot|||", 12, 0, 3, 9, 0},
	}
	require.Len(t, got, len(want))
	for n, w := range want {
		e := got[n]
		assert.Equal(t, w.words, earlierWords(e))
		assert.Equal(t, []int{w.n, w.alive, w.lost, w.notSeen, w.way}, []int{e.N, e.Alive, e.Shares.Lost, e.Unknown, e.Apart}, w.words)
		assert.Equal(t, e.N, e.Alive+e.Shares.Lost+e.PassedOn+e.Unknown)
	}
	assert.Equal(t, 2, got[4].PassedOn)
}

func TestNamesOfOneSpecies(t *testing.T) {
	for name, want := range map[string]bool{"Hoya obovata": true, "Begonia 'Fog Lamp'": true, "Hoya": false, "Hoya sp.": false, "Hoya  SP": false, "": false, "Hoya cf. obovata": true} {
		assert.Equal(t, want, named(name), name)
	}
	assert.Equal(t, plainName("Hoya × carnosa"), plainName("hoya X  Carnosa"))
}
