package scaffold

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/ledger"
	"wardian/content/measure"
)

// Nobody said that a plant is soaked, so none goes to a soak unasked.
func TestWhereABoxGoes(t *testing.T) {
	f := files{"diary.yaml": "name: A test\ntime-zone: UTC\ncurrency: NOK\n"}
	assert.Nil(t, ArrivalPlace(sound(t, f)))
	f = f.with("places/tub.md", "---\nname: Tub\nstage: soak\n---\n")
	assert.Nil(t, ArrivalPlace(sound(t, f)))
	f = f.with("places/shelf.md", "---\nname: Shelf\nstage: room\n---\n").with("places/tote.md", "---\nname: Tote\nstage: bin\n---\n")
	assert.Equal(t, "tote", ArrivalPlace(sound(t, f)).ID, "the wettest")
	for id, place := range map[string]string{"one": "tote", "two": "shelf"} { // the second came later
		day := map[string]string{"one": "2026-03-01", "two": "2026-03-09"}[id]
		f = f.with("imports/"+id+".md", "---\nseason: 2026 spring\narrived: "+day+"\n---\n").
			with("specimens/"+id+"-1.md", "---\nname: Hoya bella\nimport: "+id+"\n---\n").
			with("check-ins/"+day+".md", "---\ndate: "+day+"\nplace: "+place+"\narrival: yes\nspecimens: {"+id+"-1: firm}\n---\n")
	}
	f = f.with("check-ins/2026-03-12.md", "---\ndate: 2026-03-12\nplace: tote\nspecimens: {one-1: firm}\n---\n")
	assert.Equal(t, "shelf", ArrivalPlace(sound(t, f)).ID, "where the last ones went")
}

// Whatever stands on a list, what is written of it is read without a finding once
// each plant was looked at, to the same words.
func TestWhatABoxBringsIsRead(t *testing.T) {
	f := box(1, "{length: cm, temperature: C}")
	d := sound(t, f)
	list := "2x Hoya callistophylla M 45 USD\nhoya \"No #3: a 'Lamp'\" 4\" pot free\nx Anoectomaria 'Ny' (Borneo, low) 1,250 NOK\nBegonia rex-cultorum, M/L, $20\n"
	lines, _ := ledger.OrderTable(list, "NOK")
	for _, l := range lines {
		require.Empty(t, l.Trouble, l.Written)
	}
	usd, trouble := measure.ParseMoney("3 USD", "NOK")
	require.Nil(t, trouble)
	ordered, trouble := measure.ParseSpan("2026-02")
	require.Nil(t, trouble)
	b := Box{On: day(t, "2026-04-06"), Import: "26-b", Season: "2026: spring, late", Origin: "- here #1", Exporter: "B's \"best\"", Place: d.Place("tote"), Lines: lines,
		Ordered: ordered, Dispatched: measure.NoSpan, Temperature: "11 C", Costs: []Cost{{"duty: all, of it", usd}}}
	files, ok := Arrival(d, b, []string{"check-ins/2026-04-06.md"})
	require.True(t, ok)
	for _, file := range files {
		text := file.Text
		if strings.HasPrefix(file.Path, "imports/") {
			require.Contains(t, text, "# rates: {USD: 10.50}", "asked for, since nobody said it")
			text = strings.Replace(text, "# rates: {USD: 10.50}", "rates: {USD: 10.50} #", 1)
		}
		if strings.HasPrefix(file.Path, "check-ins/") {
			require.Equal(t, "check-ins/2026-04-06b.md", file.Path, "a round of the same day is there")
			text = strings.ReplaceAll(text, ":  # ", ": firm # ")
			text = strings.Replace(text, "specimens: firm #", "specimens: #", 1)
		}
		f = f.with(file.Path, text)
	}
	d = sound(t, f)
	im := d.Import("26-b")
	assert.Equal(t, []string{"2026: spring, late", "- here #1", `B's "best"`}, []string{im.Season, im.Origin, im.Exporter})
	var got []string
	for _, s := range d.Specimens {
		if s.Import == im {
			got = append(got, s.ID+"|"+s.Name+"|"+s.Received+"|"+s.SizeSold+"|"+s.Price.String())
		}
	}
	assert.Equal(t, []string{
		"b26-01|Hoya callistophylla||M|45.00 USD",
		"b26-02|Hoya callistophylla||M|45.00 USD",
		`b26-03|Hoya 'No #3: a 'Lamp''|hoya "No #3: a 'Lamp'"|4" pot|0.00 NOK`,
		"b26-04|× Anoectomaria 'Ny' (Borneo, low)|x Anoectomaria 'Ny' (Borneo, low)||1250.00 NOK",
		"b26-05|Begonia rex-cultorum||M/L|20.00 USD",
	}, got)
}

// A diary's letters run from a to z.
func TestThereIsAlwaysAFreeImportOrNone(t *testing.T) {
	d := &content.Diary{}
	id, ok := FreeImport(d, day(t, "2026-04-06"))
	assert.True(t, ok)
	assert.Equal(t, "26-a", id)
	assert.Equal(t, []string{"a26-01", "a26-02"}, SpecimenIDs("26-a", 2))
	assert.Equal(t, []string{"2026-spring-b-001"}, SpecimenIDs("2026-spring-b", 100)[:1])
}
