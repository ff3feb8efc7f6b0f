package content

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/rogpeppe/go-internal/txtar"

	"wardian/content/format"
	"wardian/content/patience"
)

// loadWithin reads the sound diary with one file laid over it, and fails where
// that takes longer than a second for each 64 KiB (standards A14), or says
// something that no help text explains.
func loadWithin(t *testing.T, files fstest.MapFS, name, text string) {
	over := fstest.MapFS{name: &fstest.MapFile{Data: []byte(text)}}
	for n, f := range files {
		if n != name {
			over[n] = f
		}
	}
	start := time.Now()
	d, report, err := Load(over, Options{Today: faultsToday})
	took := time.Since(start)
	if err != nil {
		t.Fatal(err)
	}
	if d == nil {
		t.Fatal("no diary")
	}
	for _, f := range report.Findings() {
		if !format.Explained(f.Code) || f.Message == "" || f.File == "" || f.Span.Start.Line < 1 {
			t.Fatalf("%+v", f)
		}
		_, _, _ = f.Long(), f.Line(), f.JSON()
	}
	if took > patience.For(len(text)) {
		t.Fatalf("%d bytes took %v", len(text), took)
	}
}

// FuzzEntry reads any text as a check-in.
func FuzzEntry(f *testing.F) {
	files := inMemory(f, nil)
	for _, name := range faultFiles(f) {
		a, err := txtar.ParseFile(name)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range a.Files {
			if strings.HasPrefix(file.Name, "check-ins/") && len(file.Data) < 4096 {
				f.Add(string(expand(f, file.Data)))
			}
		}
	}
	examples, err := filepath.Glob("example/diary/check-ins/2026/*.md")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range examples {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data))
	}
	f.Fuzz(func(t *testing.T, text string) { loadWithin(t, files, "check-ins/a.md", text) })
}

// FuzzValue puts any text behind any key of any kind of file.
func FuzzValue(f *testing.F) {
	files := inMemory(f, nil)
	type place struct {
		file *format.File
		key  string
	}
	var places []place
	for _, file := range format.Files() {
		for _, k := range file.Keys {
			places = append(places, place{file, k.Name + ": %s"})
			for _, sub := range k.Value.Keys {
				places = append(places, place{file, k.Name + ": {" + sub.Name + ": %s}"})
			}
		}
	}
	for i, p := range places {
		f.Add(uint8(i), "x")
		if k := format.Find(p.file.Keys, strings.TrimSuffix(p.key, ": %s")); k != nil {
			f.Add(uint8(i), k.Example)
		}
	}
	for _, text := range []string{"~4 cm", "2026-04-06 18:30", "1e99", "-0", "99999999999999999999", "12x8 cm", "25 C 98%", "[rot, cold]", "{a: b}", "&a *a", "\"x", "\u202e", "½", "0x1F", "45.00 EUR"} {
		for i := 0; i < len(places); i += 7 {
			f.Add(uint8(i), text)
		}
	}
	f.Fuzz(func(t *testing.T, n uint8, text string) {
		p := places[int(n)%len(places)]
		lines := fmt.Sprintf(p.key, text)
		for _, k := range p.file.Keys {
			if k.Required && !strings.HasPrefix(lines, k.Name+":") {
				lines = k.Name + ": " + k.Example + "\n" + lines
			}
		}
		path, data := fileFor(p.file.Name, lines)
		loadWithin(t, files, path, data)
	})
}

// large is a diary of many check-ins, half of them rounds.
func large(entries int) fstest.MapFS {
	files := fstest.MapFS{}
	add := func(name, text string) { files[name] = &fstest.MapFile{Data: []byte(text)} }
	add("diary.yaml", "name: North Sill\ntime-zone: Europe/Oslo\ncurrency: NOK\n")
	add("places/tote.md", "---\nstage: bin\n---\n")
	add("places/cabinet.md", "---\nstage: step-down\n---\n")
	add("imports/one.md", "---\nseason: 2020 spring\narrived: 2020-03-09\n---\n")
	const plants = 400
	for i := range plants {
		add(fmt.Sprintf("specimens/p-%03d.md", i), "---\nname: Hoya lacunosa\nimport: one\nprice: 45\nsize: small\n---\nA small one.\n")
	}
	words := strings.Repeat("It stands where it stood, a little paler, and the moss is damp. ", 18)
	day := faultsToday - 1900
	for i := range entries {
		when := day.Time().AddDate(0, 0, i%1900).Format("2006-01-02") + fmt.Sprintf(" %02d:%02d", i/1900%24, i%60)
		p := i % plants
		if i%2 == 0 {
			add(fmt.Sprintf("check-ins/%05d.md", i), fmt.Sprintf("---\ndate: %s\nspecimen: p-%03d\nturgor: firm\nroots: {grade: 2, longest: 4 cm}\nleaves: {count: 2, sizes: [12x8 cm, 10x7 cm]}\nnote: \"smells of moss\"\n---\n%s\n", when, p, words))
			continue
		}
		add(fmt.Sprintf("check-ins/%05d.md", i), fmt.Sprintf("---\ndate: %s\nplace: tote\nreading: 25.5 C 98%%\nspecimens:\n  p-%03d: firm\n  p-%03d: limp; pale\n  p-%03d: leaves 3 13x6 12x6, roots 1 longest 2, soft\n  p-%03d: firm, new leaf\n---\n%s\n", when, p, (p+1)%plants, (p+2)%plants, (p+3)%plants, words))
	}
	return files
}

// Reading and judging ten thousand check-ins of 1.5 kB, from memory.
func BenchmarkLoad(b *testing.B) {
	for _, n := range []int{1000, 10_000} {
		files := large(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, report, err := Load(files, Options{Today: faultsToday})
				if err != nil || report.Errors() > 0 {
					b.Fatal(err, long(report.Findings())[:1000])
				}
			}
		})
	}
}
