package chart

import (
	"fmt"
	"html"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is written is read back from the markup and set at a width, by a way of
// its own, to see what touches what.

// written is a line of words as it stands at a width of the plot.
type written struct {
	words          string
	x0, x1, y0, y1 float64
}

var textTag = regexp.MustCompile(`<text x="([0-9.]+)%?"(?: dx="(-?[0-9.]+)")? y="(-?[0-9.]+)"(?: text-anchor="(\w+)")?(?: class="([^"]*)")?>(.*?)</text>`)
var tag = regexp.MustCompile(`<[^>]*>`)

// shownAt is what container queries decide: the plot is 52 px narrower than its
// container below 640 px and 78 px from there on.
func shownAt(classes string, plot float64) bool {
	wide, broad := plot >= 562, plot >= 946
	for _, c := range strings.Fields(classes) {
		if c == "wide" && !wide || c == "broad" && !broad || c == "narrow" && wide {
			return false
		}
	}
	return true
}

func wordsAt(h HTML, plot float64) []written {
	var out []written
	for _, m := range textTag.FindAllStringSubmatch(string(h), -1) {
		if !shownAt(m[5], plot) {
			continue
		}
		num := func(s string) float64 {
			v, _ := strconv.ParseFloat(s, 64)
			return v
		}
		s := html.UnescapeString(tag.ReplaceAllString(m[6], ""))
		w := .56 * 13 * float64(len([]rune(s)))
		x := num(m[1])/100*plot + num(m[2])
		switch m[4] {
		case "middle":
			x -= w / 2
		case "end":
			x -= w
		}
		out = append(out, written{s, x, x + w, num(m[3]) - 9, num(m[3]) + 2})
	}
	return out
}

// widths of the plot: phones of 320 px up to a page of 70 rem.
var plotWidths = []float64{236, 276, 380, 500, 561, 562, 640, 700, 800, 945, 946, 1042}

func assertNothingTouches(t *testing.T, name string, h HTML) int {
	t.Helper()
	n := 0
	for _, plot := range plotWidths {
		ws := wordsAt(h, plot)
		n += len(ws)
		for i, a := range ws {
			for _, b := range ws[i+1:] {
				if a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
					t.Errorf("%s, plot of %g px: %q at %.0f–%.0f,%.0f touches %q at %.0f–%.0f,%.0f", name, plot, a.words, a.x0, a.x1, a.y1, b.words, b.x0, b.x1, b.y1)
				}
			}
		}
	}
	return n
}

// assertOnPage: padding and gutter are 54 px left and 30 right at 320 px.
func assertOnPage(t *testing.T, name string, h HTML) {
	t.Helper()
	for _, plot := range plotWidths {
		for _, w := range wordsAt(h, plot) {
			room := 30.0
			if plot >= 562 {
				room = 50 + 104 // a plot with names has 138 px
			}
			if w.x0 < -54 || w.x1 > plot+room {
				t.Errorf("%s, plot of %g px: %q leaves the page: %.0f to %.0f", name, plot, w.words, w.x0, w.x1)
			}
		}
	}
}

func TestSampleWordsDontTouch(t *testing.T) {
	for name, h := range everything() {
		if strings.Contains(name, "key") || strings.HasPrefix(name, "thumb") || name == "how to" || name == "water" || name == "pips" {
			continue
		}
		assertNothingTouches(t, name, h)
		assertOnPage(t, name, h)
	}
}

// randomSoil is any diary: crowded or empty, short words or long.
func randomSoil(r *rand.Rand) SoilLine {
	last := 1 + r.IntN(200)
	s := SoilLine{Head: Head{ID: "r", Title: "random"}}
	leaf, root := r.Float64()*400, r.Float64()*60
	for d := 0; d <= last; d += 1 + r.IntN(20) {
		l := Look{Day: d, Leaf: Known(r.IntN(3)), AreaCm2: leaf, Falls: r.IntN(4) == 0, Roots: Known(r.IntN(3)), Length: Numerator(1 + r.IntN(3)), LengthCm: root,
			Counted: r.IntN(2) == 0, Leaves: r.IntN(12), Graded: r.IntN(2) == 0, Grade: r.IntN(6)}
		if r.IntN(3) > 0 {
			l.Length = RootLength
		}
		s.Looks = append(s.Looks, l)
		leaf *= .7 + r.Float64()*.7
		root = root*(.8+r.Float64()*.5) + 1
	}
	if r.IntN(4) == 0 { // grades and counts only
		for i := range s.Looks {
			s.Looks[i].Leaf, s.Looks[i].Roots = Unknown, Unknown
		}
	}
	words := []string{"", "×6.2", "3 leaves cut", "half the roots cut", "back in the bin", "a much longer remark on what was done to it that day"}
	for range r.IntN(40) {
		s.Events = append(s.Events, Event{r.IntN(last + 1), Mark(1 + r.IntN(int(Established))), words[r.IntN(len(words))], words[r.IntN(len(words)-1)]})
	}
	for d := 0; d < last; {
		to := d + 1 + r.IntN(40)
		s.Stays = append(s.Stays, Stay{d, to, Stage(r.IntN(5)), words[r.IntN(len(words))]})
		d = to
	}
	for d := range last {
		if r.IntN(5) > 0 {
			s.DeficitKPa = append(s.DeficitKPa, DayValue{d, r.Float64() * 3})
		}
	}
	s.End = End{last, []Mark{NoMark, Lost, PassedOn, AliveLastSeen, Divided}[r.IntN(5)]}
	return s
}

func TestRandomLabelsDontTouch(t *testing.T) {
	seeds := 150
	if racing {
		seeds = 15
	}
	n := 0
	for seed := range uint64(seeds) {
		s := randomSoil(rand.New(rand.NewPCG(seed, 26)))
		d := s.Draw()
		name := fmt.Sprint("seed ", seed)
		n += assertNothingTouches(t, name, d.HTML)
		assertOnPage(t, name, d.HTML)
		if t.Failed() {
			return
		}
	}
	require.Greater(t, n, 25000*seeds/150, "the samples hold too few words")
}

// Every mark has its word: on the drawing from a width on, in the key below it.
func TestEveryMarkHasItsWord(t *testing.T) {
	for seed := range uint64(100) {
		s := randomSoil(rand.New(rand.NewPCG(seed, 7)))
		d := s.Draw()
		for _, e := range cleanEvents(s.Events) {
			w := fmt.Sprintf("day %d: %s", e.Day, e.Words)
			require.Contains(t, string(d.Key), w, "seed %d", seed)
		}
		// what the key drops from a width on is written on the drawing there
		for _, m := range regexp.MustCompile(`<li class="(narrow|unbroad)">.*?<span>day \d+: ([^<(]*?)(?: \([^<]*)?</span>`).FindAllStringSubmatch(string(d.Key), -1) {
			class := map[string]string{"narrow": "wide", "unbroad": "broad"}[m[1]]
			if strings.Contains(m[2], ", ") || strings.HasPrefix(m[0], "<li") && strings.Contains(m[0], `class="s`) {
				continue // a place: stage and name are written apart
			}
			require.Regexp(t, `<text[^>]*class="b hal `+class+`"[^>]*>`+regexp.QuoteMeta(m[2])+`</text>`, string(d.HTML), "seed %d", seed)
		}
	}
}

func TestRandomMarksDontTouch(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 3))
		days := float64(NiceDays(1 + r.IntN(200)))
		var ss []sign
		for range 1 + r.IntN(60) {
			ss = append(ss, sign{day: float64(r.IntN(int(days) + 1)), mark: Mark(1 + r.IntN(int(Established)))})
		}
		ss = append(ss, sign{day: days, off: endPx, mark: Lost})
		placeSigns(ss, days)
		assert.Zero(t, ss[len(ss)-1].narrow, "the end is always drawn")
		assert.Zero(t, ss[len(ss)-1].wide, "the end is always drawn")
		for px, row := range map[float64]func(sign) int{narrowPx: func(s sign) int { return s.narrow }, widePx: func(s sign) int { return s.wide }} {
			for i, a := range ss {
				for _, b := range ss[i+1:] {
					sa, sb := glyphs[a.mark].side, glyphs[b.mark].side
					same := row(a) == row(b) && (sa == sb || sa == on || sb == on)
					gap := (a.day-b.day)/days*px + a.off - b.off
					if row(a) >= 0 && same && gap > -12 && gap < 12 {
						t.Errorf("seed %d at %g px: %s on day %g and %s on day %g lie in one row", seed, px, a.mark.Word(), a.day, b.mark.Word(), b.day)
					}
				}
			}
		}
	}
}
