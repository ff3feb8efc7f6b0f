package chart

import (
	"encoding/binary"
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"
)

// feed turns bytes into odd numbers and words.
type feed struct{ b []byte }

func (f *feed) byte() byte {
	if len(f.b) == 0 {
		return 0
	}
	v := f.b[0]
	f.b = f.b[1:]
	return v
}

func (f *feed) num() float64 {
	switch k := f.byte(); k {
	case 250:
		return math.NaN()
	case 251:
		return math.Inf(1)
	case 252:
		return math.Inf(-1)
	case 253:
		var raw [8]byte
		for i := range raw {
			raw[i] = f.byte()
		}
		return math.Float64frombits(binary.LittleEndian.Uint64(raw[:]))
	default:
		return float64(k) * float64(f.byte()) / 100
	}
}

func (f *feed) day() int {
	switch k := f.byte(); k {
	case 255:
		return math.MaxInt
	case 254:
		return math.MinInt
	case 253:
		return -int(f.byte())
	case 252:
		return int(f.byte()) << 7
	default:
		return int(k)
	}
}

func (f *feed) words() string {
	n := int(f.byte()) % 40
	n = min(n, len(f.b))
	s := string(f.b[:n])
	f.b = f.b[n:]
	return s
}

func (f *feed) stays() (out []Stay) {
	for range f.byte() % 9 {
		out = append(out, Stay{f.day(), f.day(), Stage(int8(f.byte())), f.words()})
	}
	return out
}

func (f *feed) events() (out []Event) {
	for range f.byte() % 30 {
		out = append(out, Event{f.day(), Mark(int8(f.byte()) % 20), f.words(), f.words()})
	}
	return out
}

func (f *feed) placeDays() (out []PlaceDay) {
	for range f.byte() % 20 {
		out = append(out, PlaceDay{f.day(), f.num(), f.byte()%2 == 0, f.num(), f.num()})
	}
	return out
}

func (f *feed) end() End { return End{f.day(), Mark(int8(f.byte()) % 20)} }

func (f *feed) head() Head { return Head{f.words(), f.words(), f.words(), f.day()} }

func (f *feed) looks() (out []Look) {
	for range f.byte() % 20 {
		k := f.byte()
		out = append(out, Look{f.day(), Known(k % 4), f.num(), k%5 == 0, Known(k / 4 % 4), Numerator(k / 16 % 5), f.num(), k%2 == 0, f.day(), k%3 == 0, f.day()})
	}
	return out
}

// FuzzDraw: whatever comes in, the drawing is well-formed markup with numbers
// that are numbers, the same each time.
func FuzzDraw(f *testing.F) {
	f.Add([]byte("a diary of plants"))
	f.Add([]byte{0, 1, 2, 3, 250, 251, 252, 253, 254, 255, 3, 60, 60, 38, 62, 1, 2, 3})
	f.Add([]byte(strings.Repeat("\x05\x10\x20<&\"'>\xff\xfe\x00", 40)))
	f.Fuzz(func(t *testing.T, b []byte) {
		draw := func() HTML {
			f := &feed{b}
			var d Drawing
			var h HTML
			switch f.byte() % 8 {
			case 0:
				d = SoilLine{Head: f.head(), Looks: f.looks(), Events: f.events(), End: f.end(), Stays: f.stays(), DeficitKPa: []DayValue{{f.day(), f.num()}, {f.day(), f.num()}}}.Draw()
			case 1:
				var ts Thumbs
				ts.Days, ts.PxPerCm2, ts.ScaleCm2 = f.day(), f.num(), f.num()
				for range f.byte() % 4 {
					ts.Cells = append(ts.Cells, Thumb{f.words(), f.looks(), f.end()})
				}
				r := ts.Draw()
				h = r.HowTo
				for _, c := range r.Cells {
					h += c
				}
			case 2:
				r := RowChart{f.day(), []Row{{f.words(), f.words(), f.byte()%2 == 0, f.day(), f.stays(), f.events(), f.end(), f.words()}}}.Draw()
				h = r.Top + r.Bottom + r.Bars[0] + r.Key
			case 3, 4:
				var cs Curves
				cs.Head, cs.HeightPx = f.head(), f.day()
				for range f.byte() % 9 {
					c := Curve{Name: f.words(), N: f.day(), From: f.day(), EndWords: f.words(), EndLimits: f.words()}
					n := int(f.byte())
					for range f.byte() % 9 {
						lost, left := int(f.byte()%4), int(f.byte()%4)
						c.Steps = append(c.Steps, Step{f.day(), n, lost, left, f.num() / 10, f.byte()%2 == 0, f.num() / 10, f.num() / 10})
						n -= lost + left
					}
					cs.Groups = append(cs.Groups, c)
				}
				d = cs.Draw()
				if len(cs.Groups) > 0 {
					one := cs.Groups[0].Draw()
					h = one.HTML + one.Key
				}
			case 5:
				d = PlacePlot{Head: f.head(), First: Date{f.day(), f.day(), f.day()}, Stage: Stage(int8(f.byte())), DeficitKPa: f.placeDays(), TemperatureC: f.placeDays(), HumidityPct: f.placeDays(), Notes: f.events(), Stood: []Stood{{f.words(), f.words(), f.day(), f.day(), Mark(f.byte())}}}.Draw()
			case 6:
				l := Line{Head: f.head()}
				for range f.byte() % 6 {
					l.Parts = append(l.Parts, Part{f.words(), f.words(), f.day(), f.day(), f.stays(), f.events(), f.end()})
				}
				d = l.Draw()
				h = Whisker(Interval{f.num(), f.num(), f.num()}) + Pips(f.day()%100) + Icon(Mark(f.day()))
			case 7:
				ms := Milestones{Head: f.head()}
				for range f.byte() % 5 {
					m := Milestone{Name: f.words(), Words: f.words(), From: f.day()}
					n := int(f.byte())
					for range f.byte() % 9 {
						reached, lost, left := int(f.byte()%4), int(f.byte()%4), int(f.byte()%4)
						m.Steps = append(m.Steps, Reaching{Day: f.day(), Waiting: n, Reached: reached, Lost: lost, Left: left,
							Share: f.num() / 10, HasLimits: f.byte()%2 == 0, Lower: f.num() / 10, Upper: f.num() / 10, LostShare: f.num() / 10})
						n -= reached + lost + left
					}
					ms.Rows = append(ms.Rows, m)
				}
				d = ms.Draw()
			}
			return d.HTML + d.Key + h
		}
		h := draw()
		if h != draw() {
			t.Fatal("another drawing the second time")
		}
		dec := xml.NewDecoder(strings.NewReader("<x>" + string(h) + "</x>"))
		for {
			tok, err := dec.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			if e, ok := tok.(xml.StartElement); ok {
				for _, a := range e.Attr {
					if a.Name.Local != "class" && (strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf")) && e.Name.Local != "svg" {
						t.Fatal(a)
					}
				}
			}
		}
	})
}
