package content

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

func day(t testing.TB, text string) measure.Day {
	t.Helper()
	d, trouble := measure.ParseDay(text)
	require.Nil(t, trouble)
	return d
}

// loaded reads a diary that must have no finding.
func loaded(t testing.TB, more map[string]string) *Diary {
	t.Helper()
	d, report, err := Load(inMemory(t, more), Options{Today: faultsToday})
	require.NoError(t, err)
	require.Empty(t, long(report.Findings()))
	return d
}

func TestSettings(t *testing.T) {
	d := loaded(t, map[string]string{"diary.yaml": `name: North Sill
grower: M.
about: small imports
address: https://example.org/sill
time-zone: Europe/Oslo
currency: NOK
units: {length: in, temperature: F}
contact: https://example.org/letters/
licence: CC-BY-4.0
publish: {costs: yes, times: true, hold-back: 2 weeks}
thresholds: {landmark: 5 days, horizon: 84, seen-within: 0 days}
rules: {chilling: no, stuck: yes}
private: {note: never}
`})
	s := d.Settings
	assert.Equal(t, "North Sill", s.Name)
	assert.Equal(t, "M.", s.Grower)
	assert.Equal(t, "https://example.org/sill/", s.Address)
	assert.Equal(t, "Europe/Oslo", s.Zone.String())
	assert.Equal(t, measure.Units{Inches: true, Fahrenheit: true}, s.Units)
	assert.True(t, s.PublishCosts)
	assert.True(t, s.PublishTimes)
	assert.Equal(t, 14, s.HoldBack)
	assert.Equal(t, []int{5, 84, 21, 0}, []int{s.Landmark, s.Horizon, s.NoRootBy, s.SeenWithin})
	assert.Equal(t, []string{"chilling"}, s.RulesOff)
	bare := loaded(t, nil).Settings
	assert.Equal(t, []int{3, 42, 21, -1, 0}, []int{bare.Landmark, bare.Horizon, bare.NoRootBy, bare.SeenWithin, bare.HoldBack})
}

func TestImport(t *testing.T) {
	d := loaded(t, map[string]string{"imports/2026-spring-b.md": `---
season: 2026 spring
origin: Taiwan
ordered: 2026-02
dispatched: 2026-03-02
arrived: 2026-03-09..2026-03-11
received: 3
short: {Begonia amphioxus: 1}
phytosanitary: yes
permits: CITES II
packing: [heat pack, "damp moss, much"]
box: ~11 C
costs: {freight: 120 USD, discount: -10.30 USD, customs: 38, shared-by: price}
rates: {USD: 10.52}
refunds: [{date: 2026-03-20, amount: 14 USD, for: short}]
quarantine-until: 2027-04-06
private: {exporter: "the real name"}
amended: {2026-05-02: later, 2026-04-20: "sooner"}
---
A word.
`})
	i := d.Import("2026-spring-b")
	require.NotNil(t, i)
	assert.Equal(t, "2026-02", i.Ordered.Written)
	assert.True(t, i.Arrived.Half())
	assert.Equal(t, day(t, "2026-03-09"), i.Day0())
	assert.Equal(t, measure.At(i.Day0()), i.Unpacked, "the default is the arrival")
	assert.Equal(t, 3, i.Received)
	assert.Equal(t, []ShortPlant{{"Begonia amphioxus", 1}}, i.Short)
	assert.Equal(t, []string{"CITES II"}, i.Permits)
	assert.Equal(t, []string{"heat pack", "damp moss, much"}, i.Packing)
	assert.Equal(t, &measure.Figure[measure.Temperature]{Value: 11, Estimate: true}, i.Box)
	assert.Equal(t, "price", i.SharedBy)
	require.Len(t, i.Costs, 3)
	assert.Equal(t, Cost{"discount", measure.Money{Amount: decimal.MustParse("-10.30"), Currency: "USD"}}, i.Costs[1])
	assert.Equal(t, "NOK", i.Costs[2].Amount.Currency)
	assert.Equal(t, []Rate{{"USD", decimal.MustParse("10.52")}}, i.Rates)
	require.Len(t, i.Refunds, 1)
	assert.Equal(t, "short", i.Refunds[0].For)
	assert.Equal(t, -1, loaded(t, nil).Imports[0].Received)
	require.Len(t, i.Amended, 2)
	assert.Equal(t, "sooner", i.Amended[0].Words, "amendments stand by date")
	assert.NotNil(t, i.Words)
}

func TestSpecimenAndPlace(t *testing.T) {
	d := loaded(t, map[string]string{"specimens/b26-01.md": `---
name: Hoya callistophylla
import: 2026-spring-b
price: 45
size: small
leaf-shape: cordate
leaf-length: sinus to tip
leaf-factor: 0.91
received-as: Hoya sp.
renamed: 2026-06-01
local-price: 9 USD
traits: {stem: long, habit: climber}
---
`})
	s := d.Specimen("b26-01")
	assert.Same(t, d.Imports[0], s.Import)
	assert.False(t, s.LeafWhole)
	assert.Equal(t, 0.91, *s.Factor)
	assert.Equal(t, []Trait{{"habit", "climber"}, {"stem", "long"}}, s.Traits)
	assert.Equal(t, "Hoya sp.", s.NameOn(day(t, "2026-05-31")))
	assert.Equal(t, "Hoya callistophylla", s.NameOn(day(t, "2026-06-01")))
	assert.True(t, d.Specimen("b26-02").LeafWhole)
	assert.False(t, d.Specimen("b26-02").Renamed.Known())
	p := d.Place("tote")
	assert.Equal(t, Bin, p.Stage)
	assert.Equal(t, 2, p.CheckEvery)
	assert.Equal(t, &measure.Figure[measure.Humidity]{Value: 98}, p.Humidity)
	assert.Equal(t, StepDown, d.Place("cabinet").Stage)
}

// A plant's line as a map and in words gives the same record as a check-in of
// its own does.
func TestOneRecordInThreeForms(t *testing.T) {
	own := loaded(t, map[string]string{"check-ins/a.md": `---
date: 2026-04-06
specimen: b26-01
to: cabinet
turgor: soft
roots: {grade: 1, longest: 2 cm}
leaves: {count: 3, sizes: [13x6 cm, 12x6]}
rot: stem
note: smells sour
---
`}).Entries[0]
	mapped := loaded(t, map[string]string{"check-ins/a.md": `---
date: 2026-04-06
specimens:
  b26-01: {to: cabinet, turgor: soft, roots: {grade: 1, longest: 2}, leaves: {count: 3, sizes: [13x6, 12x6]}, rot: stem, note: smells sour}
---
`}).Entries[0]
	words := loaded(t, map[string]string{"check-ins/a.md": `---
date: 2026-04-06
specimens:
  b26-01: to cabinet, soft, roots 1 longest 2, leaves 3 13x6 12x6, rot stem; smells sour
---
`}).Entries[0]
	clean := func(e *Entry) Facts {
		require.Len(t, e.Named, 1)
		f := e.Named[0].Facts
		require.NotNil(t, f.To)
		f.To = nil // another diary's
		return f
	}
	assert.False(t, own.Round)
	assert.True(t, mapped.Round)
	assert.Equal(t, clean(own), clean(mapped))
	assert.Equal(t, clean(own), clean(words))
}

func TestRoundMergesWhatHoldsForAll(t *testing.T) {
	d := loaded(t, map[string]string{"check-ins/a.md": `---
date: 2026-04-06 18:30
place: tote
reading: 25.5 C 98%
by: I.
did: [soaked]
medium: perlite
leaves: {new: yes, dropped: 1}
photos: [2026-04-06/b26-01.jpg]
specimens:
  b26-01: {did: [treated], medium: bark mix, leaves: {count: 2}}
  b26-02: firm
  b26-03:
others: not seen
---
For all.

## b26-02
For one.
`})
	e := d.Entries[0]
	assert.Equal(t, 18*60+30, e.When.Minute)
	assert.Equal(t, "check-ins/a", e.Path)
	assert.Equal(t, &Climate{25.5, 98}, e.Reading)
	assert.Equal(t, OthersNotSeen, e.Others)
	require.Len(t, e.Named, 3)
	one, two, none := e.Named[0], e.Named[1], e.Named[2]
	assert.Equal(t, []string{"treated", "soaked"}, one.Did, "lists are added to its own")
	assert.Equal(t, "bark mix", one.Medium, "its own word goes first")
	assert.Equal(t, 2, one.Leaves.Count.Value)
	assert.True(t, one.Leaves.New)
	assert.Equal(t, 1, one.Leaves.Dropped)
	assert.Equal(t, "perlite", two.Medium)
	assert.Equal(t, Firm, two.Turgor)
	assert.Empty(t, two.Photos, "photos beside specimens are the round's own")
	assert.Len(t, e.Photos, 1)
	assert.True(t, none.Empty)
	assert.NotNil(t, e.WordsOf["b26-02"])
	assert.NotNil(t, e.Opening)
	assert.Equal(t, 12, two.Spans.Of("turgor", none.Span).Start.Line)
}

func TestEmptyLinesNameNobody(t *testing.T) {
	for _, line := range []string{"b26-01:", "b26-01: ~", "b26-01: {}", `b26-01: ""`, "b26-01: {turgor: , note: }"} {
		d := loaded(t, map[string]string{"check-ins/a.md": "---\ndate: 2026-04-06\nspecimens:\n  b26-02: firm\n  " + line + "\n---\n"})
		require.Len(t, d.Entries[0].Named, 2, line)
		assert.True(t, d.Entries[0].Named[1].Empty, line)
	}
}

func TestSectionsNeedNoFile(t *testing.T) {
	d := loaded(t, map[string]string{
		"check-ins/a.md":        "---\ndate: 2026-04-06\nspecimen: b26-01\ncut-into: {b26-01: base, b26-01a: top}\n---\n",
		"check-ins/b.md":        "---\ndate: 2026-04-10\nspecimen: b26-01a\ncut-into: {b26-01b: top, b26-01c: middle}\n---\n",
		"specimens/b26-01c.md":  "---\nleaf-shape: ovate\n---\nA word of its own, see [its sister](specimens/b26-01b).\n",
		"check-ins/2026/c.md":   "---\ndate: 2026-04-12\nspecimen: b26-01c\nturgor: firm\n---\n",
		"check-ins/.scratch.md": "not read",
	})
	a, c := d.Specimen("b26-01a"), d.Specimen("b26-01c")
	require.NotNil(t, a)
	require.NotNil(t, c)
	assert.Nil(t, a.File)
	assert.NotNil(t, c.File)
	assert.Equal(t, "Hoya callistophylla", c.Name)
	assert.Same(t, d.Imports[0], c.Import)
	assert.Same(t, a, c.Parent)
	assert.Same(t, d.Specimen("b26-01"), c.Root())
	assert.Equal(t, "middle", c.Position)
	assert.Equal(t, day(t, "2026-04-10"), c.CutOn.Day)
	assert.Same(t, d.Entries[1], c.CutBy)
	assert.Len(t, d.Specimens, 6)
}

// Two diaries whose cuts lead in a circle end, and are told.
func TestCutsInACircle(t *testing.T) {
	_, report, err := Load(inMemory(t, map[string]string{
		"check-ins/a.md": "---\ndate: 2026-04-06\nspecimen: b26-09a\ncut-into: {b26-09b: top}\n---\n",
		"check-ins/b.md": "---\ndate: 2026-04-07\nspecimen: b26-09b\ncut-into: {b26-09a: top}\n---\n",
	}), Options{})
	require.NoError(t, err)
	assert.NotZero(t, report.Errors())
}

func TestEntriesStandInOrder(t *testing.T) {
	line := func(when string) string { return "---\ndate: " + when + "\nplace: tote\nnote: x\n---\n" }
	d := loaded(t, map[string]string{
		"check-ins/d.md": line("2026-04-06"), "check-ins/a.md": line("2026-04-06 18:30"), "check-ins/c.md": line("2026-04-06 07:00"),
		"check-ins/b/z.md": line("2026-04-05"), "check-ins/b.md": line("2026-04-06"),
	})
	var paths []string
	for _, e := range d.Entries {
		paths = append(paths, e.Path)
	}
	assert.Equal(t, []string{"check-ins/b/z", "check-ins/b", "check-ins/d", "check-ins/c", "check-ins/a"}, paths)
}

// Folders that hold what was built, or nothing of the diary's, are never read.
func TestFoldersThatAreNotRead(t *testing.T) {
	d := loaded(t, map[string]string{
		"shown/check-ins/a.md": "---\ndate: never\n---\n", ".wardian/check-ins/a.md": "x", "notes/a.md": "x",
	})
	assert.Empty(t, d.Entries)
}

// What stands under private is in no part of the diary but the file's bytes.
func TestPrivateIsNotKept(t *testing.T) {
	d := loaded(t, map[string]string{"specimens/b26-01.md": "---\nname: Hoya callistophylla\nimport: 2026-spring-b\nprivate: {seller: canary}\n---\n"})
	s := d.Specimen("b26-01")
	for _, k := range s.Spans {
		if k.Key != "private" {
			assert.NotContains(t, k.Key, "seller")
		}
	}
	assert.Empty(t, s.Traits)
}

// failing is a disk on which one file can't be read.
type failing struct {
	fs.FS
	name string
}

func (f failing) Open(name string) (fs.File, error) {
	if name == f.name {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return f.FS.Open(name)
}

func (f failing) Lstat(name string) (fs.FileInfo, error)     { return fs.Lstat(f.FS, name) }
func (f failing) ReadLink(name string) (string, error)       { return fs.ReadLink(f.FS, name) }
func (f failing) ReadDir(name string) ([]fs.DirEntry, error) { return fs.ReadDir(f.FS, name) }

func TestAFailingDiskIsAnError(t *testing.T) {
	files := inMemory(t, map[string]string{"check-ins/a.md": "---\ndate: 2026-04-06\nplace: tote\n---\n"})
	for _, name := range []string{"diary.yaml", "places/tote.md", "check-ins/a.md"} {
		_, _, err := Load(failing{files, name}, Options{})
		require.ErrorIs(t, err, fs.ErrPermission, name)
		assert.ErrorContains(t, err, name)
	}
	_, _, err := LoadFolder(filepath.Join(t.TempDir(), "none"), Options{})
	require.ErrorIs(t, err, fs.ErrNotExist)
}

// The same diary gives the same findings and the same order, however many read
// it.
func TestWorkersDontShow(t *testing.T) {
	files := fstest.MapFS{}
	for name, f := range inMemory(t, nil) {
		files[name] = f
	}
	for i := range 60 {
		name := string(rune('a'+i%26)) + string(rune('a'+i/26))
		files["check-ins/"+name+".md"] = &fstest.MapFile{Data: []byte("---\ndate: 2026-04-06\nspecimen: b26-0" + string(rune('1'+i%5)) + "\nturgr: firm\n---\n")}
	}
	read := func(n int) string {
		_, report, err := Load(files, Options{Workers: n, Today: faultsToday})
		require.NoError(t, err)
		return long(report.Findings())
	}
	one := read(1)
	require.NotEmpty(t, one)
	for range 5 {
		assert.Equal(t, one, read(2))
		assert.Equal(t, one, read(7))
	}
}

func TestLinksInsideTheDiaryAreFollowed(t *testing.T) {
	dir := t.TempDir()
	for name, f := range inMemory(t, nil) {
		at := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(at), 0o755))
		require.NoError(t, os.WriteFile(at, f.Data, 0o644))
	}
	require.NoError(t, os.Symlink("tote.md", filepath.Join(dir, "places", "shelf.md")))
	d, report, err := LoadFolder(dir, Options{Today: faultsToday})
	require.NoError(t, err)
	require.Empty(t, long(report.Findings()))
	assert.NotNil(t, d.Place("shelf"))
}
