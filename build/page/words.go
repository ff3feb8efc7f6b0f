package page

import (
	"math"
	"strconv"

	"wardian/content"
	"wardian/content/measure"
)

// kpa writes a deficit as a sensor can tell it.
func kpa(p measure.Pressure) string {
	if p < 0.1 {
		return "< 0.1 kPa"
	}
	return strconv.FormatFloat(float64(p), 'f', 2, 64) + " kPa"
}

// kpaWords is kpa in a sentence.
func kpaWords(p measure.Pressure) string {
	if p < 0.1 {
		return "less than 0.1 kPa"
	}
	return kpa(p)
}

// area writes a leaf area; below 10 cm² with one decimal.
func area(a measure.Area) string { return digits(float64(a)) + " cm²" }

// areaWords is a leaf area in a sentence: "about 147 cm² of leaf".
func areaWords(a measure.Area, estimated bool) string {
	if estimated {
		return "about " + area(a) + " of leaf"
	}
	return area(a) + " of leaf"
}

// length writes a length in the diary's unit.
func (s *site) length(l measure.Length) string {
	if s.Diary.Settings.Units.Inches {
		return digits(l.Inches()) + " in"
	}
	return digits(float64(l)) + " cm"
}

// temperature writes a temperature in the diary's unit.
func (s *site) temperature(t measure.Temperature) string {
	if s.Diary.Settings.Units.Fahrenheit {
		return strconv.Itoa(int(math.Round(t.Fahrenheit()))) + " °F"
	}
	return strconv.FormatFloat(math.Round(float64(t)*10)/10, 'f', -1, 64) + " °C"
}

// digits writes a quantity with as many digits as a ruler gives: whole from 10
// on, one decimal below.
func digits(x float64) string {
	if math.Abs(x) >= 10 {
		return strconv.FormatFloat(math.Round(x), 'f', -1, 64)
	}
	return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64)
}

// tilde marks an estimate.
func tilde(estimate bool) string {
	if estimate {
		return "~"
	}
	return ""
}

// span writes a day that may be half known as the grower wrote it, or in words
// where it is known in full.
func span(s measure.Span) string {
	switch {
	case !s.Known():
		return ""
	case s.Half() || s.About:
		return s.Written
	}
	return s.First.InWords()
}

// dayWord is a day of an import: "day 12".
func dayWord(day int) string { return "day " + strconv.Itoa(day) }

// stageWords tells what a stage is like.
var stageWords = map[content.Stage]string{
	content.Soak: "in water", content.Bin: "near saturation", content.StepDown: "in between", content.Room: "room air",
}

// gradeWords are the root grades (common practice, no source).
var gradeWords = [...]string{"none", "stubs", "few short", "several", "many", "fills the pot"}

func itoa(n int) string { return strconv.Itoa(n) }
