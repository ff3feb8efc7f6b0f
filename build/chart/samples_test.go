package chart

// All data here are invented: no plant, place or season of this kind exists.

import (
	"fmt"
	"math"
	"math/rand/v2"
)

func wholeSoil() SoilLine {
	type s struct {
		d, l, r int
		lm, rm  bool
	}
	S := []s{{0, 214, 22, true, true}, {1, 118, 11, true, true}, {4, 118, 11, false, false}, {7, 118, 10, false, true}, {9, 96, 10, true, false}, {12, 96, 9, false, true}, {16, 96, 11, false, true}, {20, 74, 16, true, true}, {24, 74, 23, false, false}, {28, 74, 32, false, true}, {31, 78, 39, true, false}, {35, 86, 52, true, true}, {37, 91, 57, false, false}, {40, 97, 63, true, true}, {42, 97, 63, false, false}, {44, 92, 61, true, true}, {47, 93, 64, false, false}, {51, 98, 71, false, true}, {54, 105, 79, true, true}, {58, 116, 89, false, false}, {62, 125, 98, true, true}, {66, 134, 106, false, true}, {70, 140, 112, true, false}, {73, 147, 117, false, true}, {77, 156, 123, true, false}, {80, 162, 127, false, true}, {84, 171, 131, true, true}}
	o := SoilLine{Head: Head{ID: "rl", Title: "Root to leaf, b26-03"}, End: End{84, AliveLastSeen}}
	for _, x := range S {
		l := Look{Day: x.d, Leaf: Estimated, AreaCm2: float64(x.l), Falls: x.d == 1 || x.d == 9 || x.d == 20}
		if x.lm {
			l.Leaf = Measured
		}
		if x.rm {
			l.Roots, l.Length, l.LengthCm = Measured, RootLength, float64(x.r)
		}
		o.Looks = append(o.Looks, l)
	}
	o.Events = []Event{{1, LeavesCut, "3 leaves cut", "−96 cm²"}, {1, RootsCut, "half the roots cut", "−11 cm"}, {9, LeafDropped, "a leaf dropped", "−22 cm²"}, {16, FirstNewRoot, "", ""}, {20, SectionCut, "two sections cut", "−22 cm²"}, {31, FirstNewLeaf, "", ""}, {40, MoveDrier, "×6.2", "+0.82 kPa"}, {44, MoveWetter, "back in the bin", ""}, {54, MoveDrier, "×3.4", "+0.38 kPa"}, {66, MoveDrier, "×2.2", "+0.65 kPa"}, {80, Established, "", ""}}
	o.Stays = []Stay{{0, 1, Soak, "tub"}, {1, 40, Bin, "clear tote"}, {40, 44, StepDown, "cabinet, upper"}, {44, 54, Bin, "clear tote"}, {54, 66, StepDown, "cabinet, lower"}, {66, 84, Room, "window shelf"}}
	r := rand.New(rand.NewPCG(1, 2))
	for d := 0; d < 84; d++ {
		if d > 30 && d < 34 {
			continue
		}
		b := map[Stage]float64{Soak: .12, Bin: .16, StepDown: .7, Room: 1.19}[stageOn(o.Stays, d)]
		o.DeficitKPa = append(o.DeficitKPa, DayValue{d, b * (1 + .3*(r.Float64()-.5))})
	}
	return o
}
func sparseSoil() SoilLine {
	o := SoilLine{Head: Head{ID: "sp", Title: "sparse"}, End: End{63, Lost}}
	for i, d := range []int{0, 3, 7, 10, 14, 21, 28, 35, 42, 49, 56} {
		l := Look{Day: d, Counted: true, Leaves: 7 - i/2}
		if d < 30 {
			l.Graded, l.Grade = true, min(5, i/2)
		}
		o.Looks = append(o.Looks, l)
	}
	o.Events = []Event{{7, FirstNewRoot, "", ""}, {28, MoveDrier, "×6.2", "+0.82 kPa"}}
	o.Stays = []Stay{{0, 28, Bin, "clear tote"}, {28, 63, StepDown, "cabinet"}}
	return o
}
func threeSoil() SoilLine {
	o := SoilLine{Head: Head{ID: "t3", Title: "three"}, End: End{63, PassedOn}}
	o.Looks = []Look{{Day: 0, Leaf: Measured, AreaCm2: 60, Roots: Measured, Length: LongestRoot, LengthCm: 4}, {Day: 9, Leaf: Estimated, AreaCm2: 44, Falls: true}, {Day: 28, Leaf: Measured, AreaCm2: 50, Roots: Measured, Length: RootLength, LengthCm: 30}, {Day: 63, Leaf: Measured, AreaCm2: 81.26, Roots: Estimated, Length: RootLength, LengthCm: 55}}
	o.Stays = []Stay{{0, 63, Bin, "tote"}}
	return o
}
func sixtySoil() SoilLine {
	o := wholeSoil()
	o.ID = "s60"
	for i := 0; i < 60; i++ {
		o.Events = append(o.Events, Event{30, Mark(1 + i%8), fmt.Sprintf("thing no. %d with a rather long name", i), "a note"})
	}
	return o
}
func longSoil() SoilLine {
	o := SoilLine{Head: Head{ID: "lng", Title: "long"}, End: End{200, AliveLastSeen}}
	for d := 0; d <= 200; d += 5 {
		o.Looks = append(o.Looks, Look{Day: d, Leaf: Measured, AreaCm2: 30 + float64(d)*3, Roots: Measured, Length: RootLength, LengthCm: 10 + float64(d)*2.5 + 20*math.Sin(float64(d))})
	}
	for d := 0; d < 200; d++ {
		o.DeficitKPa = append(o.DeficitKPa, DayValue{d, .2 + float64(d)/60})
	}
	for d := 10; d < 200; d += 30 {
		o.Events = append(o.Events, Event{d, MoveDrier, "×2.2", "+0.65 kPa"}, Event{d + 8, MoveWetter, "back in the bin", ""}, Event{d + 14, FirstNewLeaf, "new leaf", ""})
	}
	for d := 0; d < 200; d += 20 {
		o.Stays = append(o.Stays, Stay{d, d + 20, Stage(1 + d/20%4), "a place with a long name indeed"})
	}
	return o
}
func escSoil() SoilLine {
	return SoilLine{Head: Head{ID: "e\"<&", Title: `<b>&"x"</b>`}, Looks: []Look{{Day: 0, Leaf: Measured, AreaCm2: 3}, {Day: 0, Leaf: Measured, AreaCm2: 2, Falls: true}}, Events: []Event{{0, LeavesCut, `<script>alert("a&b")</script> a very long word that goes on and on and on and on and on and on until it cannot fit any plot at all, not even one of 640 px`, "]]>"}}, Stays: []Stay{{0, 2, Bin, "<&>"}}}
}
func lostSoil() SoilLine {
	return SoilLine{Head: Head{ID: "lost", Title: "lost", Days: 84}, Looks: []Look{{Day: 0, Leaf: Measured, AreaCm2: 92, Roots: Measured, Length: RootLength, LengthCm: 12}, {Day: 1, Leaf: Measured, AreaCm2: 61, Falls: true, Roots: Measured, Length: RootLength, LengthCm: 6}, {Day: 7, Leaf: Measured, AreaCm2: 30, Falls: true}, {Day: 9, Leaf: Measured, AreaCm2: 22, Roots: Estimated, Length: RootLength, LengthCm: 1}}, Events: []Event{{1, LeavesCut, "2 leaves cut", "−31 cm²"}}, End: End{9, Lost}, Stays: []Stay{{0, 1, Soak, "tub"}, {1, 9, Bin, "clear tote"}}}
}
func staySoil() SoilLine {
	o := wholeSoil()
	o.ID = "st"
	o.Stays = nil
	for d := 0; d < 84; d += 3 {
		o.Stays = append(o.Stays, Stay{d, d + 3, Stage(1 + d%4), "cabinet, upper shelf on the left"})
	}
	return o
}

// kmSteps is a plain product limit with Greenwood variance and log-log limits,
// so that the sample curves have the shape of real ones; (day, 1 = lost).
func kmSteps(obs [][2]int) []Step {
	var out []Step
	S, v := 1.0, 0.0
	for d := 0; d <= 400; d++ {
		r, l, c := 0, 0, 0
		for _, o := range obs {
			if o[0] >= d {
				r++
			}
			if o[0] == d {
				if o[1] == 1 {
					l++
				} else {
					c++
				}
			}
		}
		if l+c == 0 {
			continue
		}
		if l > 0 {
			S *= 1 - float64(l)/float64(r)
			if r > l {
				v += float64(l) / float64(r) / float64(r-l)
			}
		}
		s := Step{Day: d, AtRisk: r, Lost: l, Left: c, Share: S}
		if S > 0 && S < 1 {
			se := math.Sqrt(v) / math.Abs(math.Log(S))
			s.HasLimits, s.Lower, s.Upper = true, math.Pow(S, math.Exp(1.96*se)), math.Pow(S, math.Exp(-1.96*se))
		}
		out = append(out, s)
	}
	return out
}

var ob = [][2]int{{84, 0}, {9, 1}, {84, 0}, {45, 0}, {23, 1}, {84, 0}, {12, 1}, {34, 1}, {84, 0}, {5, 1}, {84, 0}, {77, 0}, {51, 1}, {84, 0}}
var s25 = [][2]int{{3, 1}, {6, 1}, {6, 1}, {10, 1}, {13, 1}, {19, 1}, {24, 1}, {31, 1}, {47, 1}, {60, 0}, {84, 0}, {84, 0}, {84, 0}, {84, 0}, {84, 0}, {84, 0}}
var a25 = [][2]int{{4, 1}, {8, 1}, {11, 1}, {15, 1}, {15, 1}, {26, 1}, {40, 1}, {58, 1}, {52, 0}, {70, 0}, {84, 0}, {84, 0}, {84, 0}, {84, 0}, {84, 0}}

func importCurve() Curve {
	return Curve{Head: Head{ID: "km", Title: "Lines alive"}, Steps: kmSteps(ob), EndWords: "8 of 14 alive, 56%", EndLimits: "95% limits 27 to 78%"}
}
func threeSeasons() Curves {
	return Curves{Head: Head{ID: "se", Title: "Lines alive, by season"}, Groups: []Curve{{Name: "2026 spring", Steps: kmSteps(ob), EndWords: "6 of 14 lost, 56%"}, {Name: "2025 autumn", Steps: kmSteps(a25), EndWords: "8 of 15 lost, 46%"}, {Name: "2025 spring", Steps: kmSteps(s25), EndWords: "9 of 16 lost, 44%"}}}
}
func allLost() Curve {
	return Curve{Head: Head{ID: "al", Title: "x", Days: 84}, Steps: kmSteps([][2]int{{3, 1}, {4, 1}, {9, 1}, {10, 1}}), EndWords: "0 of 4 alive, 0%", EndLimits: "95% limits 0 to 49%"}
}
func noneLost() Curve {
	return Curve{Head: Head{ID: "nl", Title: "x"}, Steps: kmSteps([][2]int{{30, 0}, {30, 0}, {31, 0}}), EndWords: "3 of 3 alive", EndLimits: "95% limits 44 to 100%"}
}
func manyLines() Curve {
	r := rand.New(rand.NewPCG(3, 2))
	var o [][2]int
	for i := 0; i < 1200; i++ {
		o = append(o, [2]int{r.IntN(180), r.IntN(2)})
	}
	return Curve{Head: Head{ID: "ml", Title: "x"}, Steps: kmSteps(o), EndWords: "few of 1200", EndLimits: "95% limits 0 to 9%"}
}
func six() Curves {
	c := Curves{Head: Head{ID: "six", Title: "x"}}
	for i := 0; i < 7; i++ {
		var o [][2]int
		for k := 0; k < 14; k++ {
			o = append(o, [2]int{(k*7 + i*3) % 90, k % 2})
		}
		n := fmt.Sprintf("season %d", i)
		if i == 2 {
			n = "a season with a very long label, the second half of it only"
		}
		c.Groups = append(c.Groups, Curve{Name: n, Steps: kmSteps(o), EndWords: "6 of 14 lost"})
	}
	return c
}

// stacked is a plain Aalen-Johansen estimate, so that the samples have the shape of
// real ones; (day, 1 = reached, 2 = lost). Limits stand half a tenth off.
func stacked(from int, obs ...[2]int) []Reaching {
	var out []Reaching
	all, got, lost := 1.0, 0.0, 0.0
	for d := from; d <= 400; d++ {
		r := Reaching{Day: d}
		for _, o := range obs {
			day := max(o[0], from)
			if day >= d {
				r.Waiting++
			}
			if day == d {
				switch o[1] {
				case 1:
					r.Reached++
				case 2:
					r.Lost++
				default:
					r.Left++
				}
			}
		}
		if r.Reached+r.Lost+r.Left == 0 {
			continue
		}
		n := float64(r.Waiting)
		got, lost = got+all*float64(r.Reached)/n, lost+all*float64(r.Lost)/n
		all *= float64(r.Waiting-r.Reached-r.Lost) / n
		r.Share, r.LostShare = got, lost
		if got > 0 && got < 1 {
			r.HasLimits, r.Lower, r.Upper = true, got/2, got+(1-got)/2
		}
		out = append(out, r)
	}
	return out
}

func sampleMilestones() Milestones {
	root := [][2]int{{12, 1}, {12, 1}, {9, 2}, {16, 1}, {28, 2}, {33, 1}, {84, 0}, {60, 0}, {28, 1}, {7, 2}, {84, 0}}
	return Milestones{Head: Head{ID: "ms", Title: "Milestones", Days: 84}, Rows: []Milestone{
		{Name: "first new root", Words: "5 of 11 by day 42", Others: "3 lost first, 3 waiting, and a good many words that need a line of their own", Steps: stacked(0, root...)},
		{Name: "first new leaf of those that came with none and were cut hard", Steps: stacked(3, root[2:]...), From: 3},
		{Name: "nobody lost", Words: "2 of 3", Steps: stacked(0, [2]int{20, 1}, [2]int{30, 1}, [2]int{40, 0})},
		{Name: "all lost", Steps: stacked(0, [2]int{0, 2}, [2]int{5, 2}, [2]int{9, 2})},
		{Name: "thirds", Steps: stacked(0, [2]int{5, 1}, [2]int{9, 2}, [2]int{9, 0})},
		{Name: "nobody asked"},
	}}
}
func sampleRows() RowChart {
	return RowChart{Days: 84, Rows: []Row{
		{Number: "b26-01", Name: "Hoya callistophylla", Stays: []Stay{{0, 1, Soak, ""}, {1, 36, Bin, ""}, {36, 57, StepDown, ""}, {57, 84, Room, ""}}, Events: []Event{{14, FirstNewRoot, "", ""}, {37, FirstNewLeaf, "", ""}, {70, Established, "", ""}}, End: End{84, AliveLastSeen}, Outcome: "established day 70"},
		{Number: "b26-02", Name: "Hoya finlaysonii", Stays: []Stay{{0, 1, Soak, ""}, {1, 9, Bin, ""}}, End: End{9, Lost}, Outcome: "lost day 9, rot"},
		{Number: "b26-03", Name: "Hoya cf. callistophylla", Stays: []Stay{{0, 1, Soak, ""}, {1, 40, Bin, ""}, {40, 44, StepDown, ""}, {44, 54, Bin, ""}, {54, 66, StepDown, ""}, {66, 84, Room, ""}}, Events: []Event{{16, FirstNewRoot, "", ""}, {31, FirstNewLeaf, "", ""}, {80, Established, "", ""}}, End: End{84, AliveLastSeen}, Outcome: "established day 80"},
		{Number: "", Name: "its top piece, cut day 20", Section: true, Born: 20, Stays: []Stay{{20, 58, Bin, ""}, {58, 84, StepDown, ""}}, Events: []Event{{41, FirstNewRoot, "", ""}}, End: End{84, AliveLastSeen}, Outcome: "alive day 84"},
		{Number: "b26-04", Name: "Hoya caudata", Stays: []Stay{{0, 1, Soak, ""}, {1, 33, Bin, ""}, {33, 45, StepDown, ""}}, End: End{45, PassedOn}, Outcome: "passed on day 45"},
		{Number: "b26-05", Name: "Hoya nobody", Outcome: "not looked at"},
		{Number: "b26-06", Name: "Begonia est on last day", Stays: []Stay{{0, 84, Bin, ""}}, Events: []Event{{84, Established, "", ""}, {2, FirstNewRoot, "", ""}, {3, FirstNewRoot, "x", ""}}, End: End{84, AliveLastSeen}, Outcome: "established day 84"},
	}}
}
func sampleThumbs() Thumbs {
	t := Thumbs{Days: 84}
	mk := func(n string, e End, leaf, root [][2]float64) {
		var ls []Look
		for _, l := range leaf {
			ls = append(ls, Look{Day: int(l[0]), Leaf: Measured, AreaCm2: l[1], Falls: int(l[0]) == 1})
		}
		for _, l := range root {
			ls = append(ls, Look{Day: int(l[0]), Roots: Measured, Length: RootLength, LengthCm: l[1]})
		}
		t.Cells = append(t.Cells, Thumb{n, ls, e})
	}
	mk("b26-01", End{84, AliveLastSeen}, [][2]float64{{0, 168}, {1, 120}, {14, 118}, {28, 118}, {37, 126}, {50, 150}, {63, 181}, {84, 232}}, [][2]float64{{0, 30}, {1, 24}, {14, 27}, {28, 64}, {42, 104}, {57, 140}, {84, 196}})
	mk("b26-02", End{9, Lost}, [][2]float64{{0, 92}, {1, 61}, {6, 61}, {7, 30}, {9, 22}}, [][2]float64{{0, 12}, {1, 6}, {5, 4}, {9, 1}})
	mk("b26-04", End{45, PassedOn}, [][2]float64{{0, 66}, {1, 66}, {30, 70}, {45, 92}}, [][2]float64{{0, 26}, {1, 22}, {11, 26}, {30, 66}, {45, 98}})
	mk("b26-05", End{23, Lost}, [][2]float64{{0, 74}}, nil)
	for i := 0; i < 10; i++ {
		mk(fmt.Sprint("c", i), End{84, AliveLastSeen}, [][2]float64{{0, 48}, {12, 40}, {26, 36}, {49, 39}, {66, 52}, {84, 68}}, [][2]float64{{0, 16}, {14, 10}, {26, 12}, {49, 30}, {66, 48}, {84, 60}})
	}
	return t
}
func sampleTree() Line {
	r := sampleRows().Rows
	return Line{Head: Head{ID: "ln", Title: "The line of b26-03", Days: 84}, Parts: []Part{
		{Number: "b26-03", Words: "established day 80, still watched", Parent: -1, Stays: r[2].Stays, Events: []Event{{20, SectionCut, "", ""}, {16, FirstNewRoot, "", ""}, {80, Established, "", ""}}, End: End{84, AliveLastSeen}},
		{Number: "b26-03-top", Words: "alive day 84", Parent: 0, Born: 20, Stays: r[3].Stays, Events: r[3].Events, End: End{84, AliveLastSeen}},
		{Number: "b26-03-mid", Words: "lost day 38, rot", Parent: 0, Born: 20, Stays: []Stay{{20, 38, Bin, ""}}, End: End{38, Lost}}}}
}
func deepTree() Line {
	l := Line{Head: Head{ID: "dp", Title: "deep"}}
	for i := 0; i < 6; i++ {
		l.Parts = append(l.Parts, Part{Number: fmt.Sprint("b26-03-top-base-offset-", i), Words: "alive day 84 and with quite a number of words that don't fit", Parent: i - 1, Born: i * 15, Stays: []Stay{{i * 15, 90, Bin, ""}}, End: End{90, AliveLastSeen}})
	}
	return l
}
func samplePlace(n int) PlacePlot {
	p := PlacePlot{Head: Head{ID: fmt.Sprint("pl", n), Title: "Clear tote"}, First: Date{2026, 3, 9}, Stage: Bin, Notes: []Event{{n / 2, PlaceNote, "power cut", "13 h"}}}
	for d := 0; d < n; d++ {
		if d%17 == 11 || d%17 == 12 {
			continue
		}
		x := math.Sin(float64(d) / 5)
		p.DeficitKPa = append(p.DeficitKPa, PlaceDay{Day: d, Mean: .16 + .1*x})
		p.TemperatureC = append(p.TemperatureC, PlaceDay{Day: d, Mean: 24 + 2*x, HasRange: true, Lowest: 22 + 2*x, Highest: 27 + x})
		p.HumidityPct = append(p.HumidityPct, PlaceDay{Day: d, Mean: 94 + 3*x, HasRange: true, Lowest: 88, Highest: 99})
	}
	p.Stood = []Stood{{"b26-01", "Hoya callistophylla", 0, n / 2, NoMark}, {"b26-02", "Hoya finlaysonii with a very long name that goes on and on and never ends at all & so <on>", n / 3, n, Lost}}
	return p
}
