package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"wardian/content"
	"wardian/content/measure"
)

// small numbers in words, as a letter would write them.
var small = [...]string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
	"thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"}

// inWords writes a count as prose does: in letters up to twenty.
func inWords(n int) string {
	if n >= 0 && n < len(small) {
		return small[n]
	}
	return strconv.Itoa(n)
}

// upper makes the first letter of a sentence large.
func upper(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}

// noun is a count with its noun: "1 line", "9 lines".
func noun(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// nounInWords is noun with the count in letters.
func nounInWords(n int, one, many string) string {
	if n == 1 {
		return "one " + one
	}
	return inWords(n) + " " + many
}

// ofCount is a count out of its whole: "9 of 14".
func ofCount(k, n int) string { return fmt.Sprintf("%d of %d", k, n) }

// percent writes a share without decimals: no number of plants here bears any.
func percent(share float64) string { return strconv.Itoa(int(math.Round(share*100))) + "%" }

// limits writes an interval of shares: "34 to 83%".
func limits(lower, upper float64) string {
	return fmt.Sprintf("%d to %d%%", int(math.Round(lower*100)), int(math.Round(upper*100)))
}

// list joins words: "a, b and c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

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

// lowerFirst makes the first letter small, for a title that goes on in a
// sentence.
func lowerFirst(s string) string {
	for i, r := range s {
		return strings.ToLower(string(r)) + s[i+len(string(r)):]
	}
	return s
}
