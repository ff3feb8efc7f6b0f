package build_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// Of a generated diary: the plants of an import, and the looks at a plant.
const plantsEach, looksEach = 20, 20

// generated is a diary of so many check-ins of 1.5 kB, one for each plant every
// third day, with twenty plants an import. It is made for benchmarks: what it
// says is regular where a grower's would not be.
func generated(checkIns int) fstest.MapFS {
	files := fstest.MapFS{}
	put := func(path, text string) { files[path] = &fstest.MapFile{Data: []byte(text)} }
	put("diary.yaml", "name: Generated\ntime-zone: UTC\ncurrency: EUR\naddress: https://example.org/generated/\n")
	put("places/bin.md", "---\nname: The bin\nstage: bin\nhumidity: 98%\ntemperature: 24 C\n---\n")
	put("places/shelf.md", "---\nname: The shelf\nstage: room\nhumidity: 50%\ntemperature: 21 C\n---\n")
	words := strings.Repeat("A leaf turned towards the lamp, and the moss was damp to the second knuckle. ", 16)
	day0, _ := measure.Date(2001, 1, 1)
	plants := checkIns / looksEach
	for n := range plants {
		box, id := n/plantsEach, fmt.Sprintf("g%d-%02d", n/plantsEach, n%plantsEach)
		arrived := day0 + measure.Day(box*20)
		if n%plantsEach == 0 {
			put(fmt.Sprintf("imports/box-%d.md", box), fmt.Sprintf("---\nseason: box %d\narrived: %s\nreceived: %d\ncosts: {freight: 40}\n---\n", box, arrived, plantsEach))
		}
		put("specimens/"+id+".md", fmt.Sprintf("---\nname: Hoya siariae\nimport: box-%d\nprice: 12\n---\n", box))
		for look := range looksEach {
			day := arrived + measure.Day(look*3)
			roots := fmt.Sprintf("grade: %d", min(5, look/4))
			if look == 4 {
				roots += ", new: yes"
			}
			keys := fmt.Sprintf("date: %s 18:%02d\nspecimen: %s\nleaves: {count: %d, sizes: [12x%d cm]}\nroots: {%s}\nturgor: firm\n", day, n%60, id, 3+look/4, 5+look%3, roots)
			switch {
			case look == 0:
				keys += "place: bin\narrival: yes\n"
			case look == 12:
				keys += "to: shelf\n"
			case look == looksEach-1 && n%3 == 0:
				keys += "outcome: lost\ncause: rot\n"
			}
			put(fmt.Sprintf("check-ins/%s/%s-%02d.md", id, day, look), "---\n"+keys+"---\n"+words+"\n")
		}
	}
	return files
}

var sizes = []int{1_000, 10_000}

func loadGenerated(b *testing.B, files fstest.MapFS) *content.Diary {
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(b, err)
	require.Zero(b, report.Errors(), "%v", report.Findings())
	return d
}

func BenchmarkLoad(b *testing.B) {
	for _, n := range sizes {
		files := generated(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				loadGenerated(b, files)
			}
		})
	}
}

func BenchmarkCohort(b *testing.B) {
	for _, n := range sizes {
		d := loadGenerated(b, generated(n))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				cohort.At(d, measure.NoDay)
			}
		})
	}
}

// BenchmarkEveryPage plans a site and makes all its files, on one processor.
func BenchmarkEveryPage(b *testing.B) {
	for _, n := range sizes {
		d := loadGenerated(b, generated(n))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				pieces, err := build.Plan(d, nil)
				require.NoError(b, err)
				for _, p := range pieces {
					_, err := p.Make()
					require.NoError(b, err)
				}
			}
		})
	}
}
