//go:build unix

package build_test

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// BenchmarkFullBuild measures a build of everything into a fresh folder, as the
// command makes it: reading and judging the diary, making every page, writing
// the site, and noting what was built. Beside it stands the floor, which is
// plainRead and plainWrite of the same bytes on both processors; and a floor in
// which the reading is ours. All are times on the processor, user's and system's
// together, since the clock on the wall tells of other programs too; that of the
// whole build is told beside. Each is the lowest of the rounds (-benchtime 3x
// makes three).
//
//	floor        read, decode, convert, write with the plain libraries
//	own-floor    content.Load and plainWrite
//	build        all of a build, charts taken off
//	charts       what is taken off: a soil line a plant, each import's curve, small
//	             drawings and bars, and the milestones of each import and season,
//	             at the cost of one drawn alone. The drawings of places, of
//	             comparisons and of all seasons are charts too, and stay in.
//	ratio        build to floor: the median of the rounds, in each of which both were
//	             taken within seconds of each other, since a machine's speed changes
//	again        a second build with nothing changed, and its share of the first
//	             before charts are taken off
//	MB           the most that the heap held while building
func BenchmarkFullBuild(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			dir := b.TempDir()
			require.NoError(b, os.CopyFS(dir, generated(n)))
			today, _ := measure.Date(2030, 1, 1) // later than all that was generated
			workers := runtime.GOMAXPROCS(0)
			least := map[string]time.Duration{}
			keep := func(name string, took spent) {
				if was, ok := least[name]; !ok || took.cpu < was {
					least[name], least[name+"-wall"] = took.cpu, took.wall
				}
			}
			// Set aside once: what is used again must be wiped, which no command does.
			defer build.Room()()
			peak := uint64(0)
			var ratios []float64
			for b.Loop() {
				charts := chartsOf(n)
				keep("charts", spent{cpu: charts})
				to := filepath.Join(b.TempDir(), "site")
				took, most := work(func() {
					d, report, err := content.LoadFolder(dir, content.Options{Today: today, Workers: workers})
					require.NoError(b, err)
					_, ok, err := build.Run(context.Background(), d, os.DirFS(dir), report, build.Options{To: to, Folder: dir, On: today})
					require.NoError(b, err)
					require.True(b, ok)
				})
				keep("build", took)
				built := took.cpu
				peak = max(peak, most-build.Spare)

				site := standingIn(b, to)
				took, _ = work(func() {
					_, ok := build.Unchanged(os.DirFS(dir), build.Options{To: to, Folder: dir, On: today}, time.Time{})
					require.True(b, ok, "nothing is to be written")
				})
				keep("again", took)
				fresh := filepath.Join(b.TempDir(), "site")
				took, _ = work(func() {
					require.NoError(b, plainRead(dir, workers))
					require.NoError(b, plainWrite(fresh, site, workers))
				})
				keep("floor", took)
				ratios = append(ratios, float64(built-charts)/float64(took.cpu))
				fresh = filepath.Join(b.TempDir(), "site")
				took, _ = work(func() {
					_, _, err := content.LoadFolder(dir, content.Options{Today: today, Workers: workers})
					require.NoError(b, err)
					require.NoError(b, plainWrite(fresh, site, workers))
				})
				keep("own-floor", took)
			}
			ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
			b.ReportMetric(ms(least["floor"]), "floor-ms")
			b.ReportMetric(ms(least["own-floor"]), "own-floor-ms")
			b.ReportMetric(ms(least["build"]-least["charts"]), "build-ms")
			b.ReportMetric(ms(least["charts"]), "charts-ms")
			slices.Sort(ratios)
			b.ReportMetric(ratios[len(ratios)/2], "ratio")
			b.ReportMetric(ms(least["build-wall"]), "build-wall-ms")
			b.ReportMetric(ms(least["again"]), "again-ms")
			b.ReportMetric(float64(least["again"])/float64(least["build"]), "again-share")
			b.ReportMetric(float64(peak>>20), "MB")
		})
	}
}

// spent is what some work took of the processors, and by the clock.
type spent struct{ cpu, wall time.Duration }

// work does some work on a clean heap and tells what it took, and the most bytes
// that the heap held meanwhile.
func work(do func()) (took spent, most uint64) {
	runtime.GC()
	stop, stopped := make(chan bool), make(chan bool)
	go func() {
		defer close(stopped)
		for tick := time.NewTicker(20 * time.Millisecond); ; {
			var m runtime.MemStats
			select {
			case <-stop:
				tick.Stop()
				return
			case <-tick.C:
				runtime.ReadMemStats(&m)
				most = max(most, m.HeapInuse)
			}
		}
	}()
	began, cpu := time.Now(), onProcessors()
	do()
	took = spent{onProcessors() - cpu, time.Since(began)}
	close(stop)
	<-stopped
	return took, most
}

// onProcessors is the time that this program has had on the processors.
func onProcessors() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// standingIn reads a built site.
func standingIn(b *testing.B, dir string) map[string][]byte {
	site := map[string][]byte{}
	require.NoError(b, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		site[strings.TrimPrefix(path, dir)] = data
		return err
	}))
	return site
}

// chartsOf is the processors' time that the charts of a generated diary take, as
// far as there is one for each plant or each import.
func chartsOf(checkIns int) (all time.Duration) {
	for _, k := range chartKinds() {
		all += time.Duration(checkIns/looksEach/k.plants) * each(k.draw)
	}
	return all
}

// each is what one drawing takes.
func each(draw func()) time.Duration {
	const times = 100
	draw()
	began := onProcessors()
	for range times {
		draw()
	}
	return (onProcessors() - began) / times
}

// BenchmarkChartsOfABuild draws one of each kind that BenchmarkFullBuild takes
// off.
func BenchmarkChartsOfABuild(b *testing.B) {
	for _, k := range chartKinds() {
		b.Run(k.name, func(b *testing.B) {
			for b.Loop() {
				k.draw()
			}
		})
	}
}

// chartKind is a kind of chart that a generated diary's site has one of for so
// many plants.
type chartKind struct {
	name   string
	plants int
	draw   func()
}

// chartKinds are charts of plants of a generated diary, whose every season has one
// import.
func chartKinds() []chartKind {
	soil := chart.SoilLine{Head: chart.Head{ID: "soil-line", Title: "Root to leaf, g0-00", Days: 84}, End: chart.End{Day: 57, Mark: chart.AliveLastSeen}}
	for look := range 20 {
		soil.Looks = append(soil.Looks, chart.Look{
			Day: look * 3, Leaf: chart.Estimated, AreaCm2: 41.4 * float64(3+look/4), Counted: true, Leaves: 3 + look/4, Graded: true, Grade: min(5, look/4),
		})
	}
	soil.Stays = []chart.Stay{{From: 0, To: 36, Stage: chart.Bin, Place: "The bin"}, {From: 36, To: 58, Stage: chart.Room, Place: "The shelf"}}
	soil.Events = []chart.Event{{Day: 36, Mark: chart.MoveDrier, Words: "×24", Note: "+1.2 kPa"}}
	for day := range 58 {
		soil.DeficitKPa = append(soil.DeficitKPa, chart.DayValue{Day: day, Value: 0.06})
	}
	small, bars := chart.Thumbs{Days: 84}, chart.RowChart{Days: 84}
	for plant := range plantsEach {
		number := fmt.Sprintf("g0-%02d", plant)
		small.Cells = append(small.Cells, chart.Thumb{Number: number, Looks: soil.Looks, End: soil.End})
		bars.Rows = append(bars.Rows, chart.Row{Number: number, Name: "Hoya siariae", Stays: soil.Stays, Events: soil.Events, End: soil.End, Outcome: "alive day 57"})
	}
	// A third is lost at the last look; all have rooted by then, and none is
	// established.
	curve := chart.Curve{Head: chart.Head{ID: "survival", Title: "Lines alive", Days: 84}, N: plantsEach, EndWords: "13 of 20 alive, or 65%", EndLimits: "95% limits 40 to 82%",
		Steps: []chart.Step{{Day: 57, AtRisk: plantsEach, Lost: 7, Left: 13, Share: 0.65, HasLimits: true, Lower: 0.4, Upper: 0.82}}}
	strips := chart.Milestones{Head: chart.Head{ID: "milestones", Title: "Milestones", Days: 84}}
	for _, m := range cohort.AllMilestones {
		strips.Rows = append(strips.Rows, chart.Milestone{Name: m.String(), Words: "20 of 20 by day 42", Steps: []chart.Reaching{
			{Day: 12, Waiting: plantsEach, Reached: 13, Share: 0.65, HasLimits: true, Lower: 0.4, Upper: 0.82},
			{Day: 57, Waiting: 7, Lost: 7, Share: 0.65, HasLimits: true, Lower: 0.4, Upper: 0.82, LostShare: 0.35},
		}})
	}
	return []chartKind{
		{"soil line", 1, func() { soil.Draw() }},
		{"small", plantsEach, func() { small.Draw() }},
		{"bars", plantsEach, func() { bars.Draw() }},
		{"curve", plantsEach, func() { curve.Draw() }},
		{"milestones of an import", plantsEach, func() { strips.Draw() }},
		{"milestones of a season", plantsEach, func() { strips.Draw() }},
	}
}
