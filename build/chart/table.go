package chart

import (
	"math"
	"strconv"
	"strings"
)

// Figures in tables are printed just as finely as they are drawn.

// f1 prints one decimal at most, f2 two.
func f1(v float64) string { return strconv.FormatFloat(round(v, 10), 'f', -1, 64) }
func f2(v float64) string { return strconv.FormatFloat(round(v, 100), 'f', -1, 64) }

// underSensor is the deficit, in kPa, below which a sensor of ±3 % RH can't
// tell a value from another (±3 % at 25 °C is 0.095 kPa). Such a day prints
// "< 0.1" and is drawn at the middle, 0.05.
const underSensor = .1

func kPaWords(v float64) string {
	if v < underSensor {
		return "< 0.1"
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}

// shareDecimals is how many decimals of a per cent n lines can bear: one more
// for each power of ten from a hundred on.
func shareDecimals(n int) int {
	switch {
	case n < 100:
		return 0
	case n < 1000:
		return 1
	}
	return 2
}

// roundShare rounds a share to what pctWords prints.
func roundShare(v float64, dec int) float64 {
	p := 100 * math.Pow(10, float64(dec))
	return round(v, p)
}

func pctWords(v float64, dec int) string {
	return strconv.FormatFloat(v*100, 'f', dec, 64) + "%"
}

// dropEmpty leaves out columns (never the first) that hold nothing.
func (t Table) dropEmpty() Table {
	keep := make([]int, 0, len(t.Columns))
	for i := range t.Columns {
		full := i == 0
		for _, r := range t.Rows {
			full = full || r[i] != ""
		}
		if full {
			keep = append(keep, i)
		}
	}
	if len(keep) == len(t.Columns) {
		return t
	}
	out := Table{Caption: t.Caption}
	for _, i := range keep {
		out.Columns = append(out.Columns, t.Columns[i])
	}
	for _, r := range t.Rows {
		row := make([]string, 0, len(keep))
		for _, i := range keep {
			row = append(row, r[i])
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

var (
	text1   = func(name string) Column { return Column{Name: name} }
	numeric = func(name string) Column { return Column{Name: name, Numeric: true} }
)

func knownWord(k Known) string {
	switch k {
	case Measured:
		return "measured"
	case Estimated:
		return "estimated"
	}
	return ""
}

// lookCells are a look's cells, after room for lead cells.
func lookCells(lead int, l Look) []string {
	row := make([]string, lead+7)
	out := row[lead:]
	if l.Leaf != Unknown {
		out[0], out[1] = f1(l.AreaCm2), knownWord(l.Leaf)
		if l.Falls {
			out[1] += ", fell that day"
		}
	}
	if l.Roots != Unknown {
		out[2], out[3], out[4] = f1(l.LengthCm), l.Length.Word(), knownWord(l.Roots)
	}
	if l.Counted {
		out[5] = strconv.Itoa(l.Leaves)
	}
	if l.Graded {
		out[6] = strconv.Itoa(l.Grade)
	}
	return row
}

var lookColumns = []Column{numeric("leaf area, cm²"), text1("area is"), numeric("roots, cm"), text1("which is"), text1("and is"), numeric("leaves"), numeric("root grade")}

func looksTable(caption string, looks []Look) Table {
	t := Table{Caption: caption, Columns: append([]Column{numeric("day")}, lookColumns...), Rows: make([][]string, 0, len(looks))}
	for _, l := range looks {
		row := lookCells(1, l)
		row[0] = strconv.Itoa(l.Day)
		t.Rows = append(t.Rows, row)
	}
	return t.dropEmpty()
}

func eventsTable(evs []Event, e End) Table {
	t := Table{Caption: "Marks on the line.", Columns: []Column{numeric("day"), text1("mark"), text1("words"), text1("note")}}
	for _, v := range evs {
		t.Rows = append(t.Rows, []string{strconv.Itoa(v.Day), v.Mark.Word(), v.Words, v.Note})
	}
	if e.Mark != NoMark {
		t.Rows = append(t.Rows, []string{strconv.Itoa(e.Day), e.Mark.Word(), "last seen", ""})
	}
	return t
}

func staysTable(stays []Stay) Table {
	t := Table{Caption: "Where it stood, from a day up to but without another.", Columns: []Column{numeric("from day"), numeric("to day"), text1("stage"), text1("place")}}
	for _, s := range stays {
		t.Rows = append(t.Rows, []string{strconv.Itoa(s.From), strconv.Itoa(s.To), s.Stage.Word(), s.Place})
	}
	return t
}

func deficitTable(vs []DayValue) Table {
	t := Table{Caption: "Vapour pressure deficit where it stood, day means. “< 0.1” is less than a sensor can tell and is drawn at 0.05.", Columns: []Column{numeric("day"), numeric("deficit, kPa")}}
	cells := make([]string, 2*len(vs)) // one piece for all rows
	t.Rows = make([][]string, len(vs))
	for i, v := range vs {
		t.Rows[i] = cells[2*i : 2*i+2 : 2*i+2]
		t.Rows[i][0], t.Rows[i][1] = strconv.Itoa(v.Day), kPaWords(v.Value)
	}
	return t
}

// stayWordsList is "soak 0–1, bin 1–36" for a cell.
func stayList(stays []Stay) string {
	var b strings.Builder
	for i, s := range stays {
		if i > 0 {
			b.WriteString(", ")
		}
		w := s.Stage.Word()
		if w == "" {
			w = "stage unknown"
		}
		b.WriteString(w + " " + strconv.Itoa(s.From) + "–" + strconv.Itoa(s.To))
	}
	return b.String()
}

func eventList(evs []Event) string {
	var b strings.Builder
	for i, e := range evs {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(e.Mark.Word() + " " + strconv.Itoa(e.Day))
	}
	return b.String()
}
