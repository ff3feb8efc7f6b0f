package said

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"wardian/build/cohort"
)

// small numbers in words, as a letter would write them.
var small = [...]string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
	"thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"}

// InWords writes a count as prose does: in letters up to twenty, "none" for 0.
func InWords(n int) string {
	if n >= 0 && n < len(small) {
		return small[n]
	}
	return strconv.Itoa(n)
}

// Upper makes the first letter of a sentence large.
func Upper(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}

// Lower makes the first letter small, for a title that goes on in a sentence.
func Lower(s string) string {
	for i, r := range s {
		return strings.ToLower(string(r)) + s[i+len(string(r)):]
	}
	return s
}

// Noun is a count with its noun: "1 line", "9 lines".
func Noun(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// NounInWords is Noun with the count in letters.
func NounInWords(n int, one, many string) string {
	switch n {
	case 0:
		return "no " + many
	case 1:
		return "one " + one
	}
	return InWords(n) + " " + many
}

// Of is a count out of its whole: "9 of 14".
func Of(k, n int) string { return fmt.Sprintf("%d of %d", k, n) }

// Percent writes a share without decimals: no number of plants here bears any.
func Percent(share float64) string { return strconv.Itoa(hundredths(share)) + "%" }

// Limits writes an interval of shares: "34 to 83%".
func Limits(lower, upper float64) string {
	return fmt.Sprintf("%d to %d%%", hundredths(lower), hundredths(upper))
}

// MethodOfLimits names how the limits of a row's share were made: Wilson's where
// every state is known, and where the curve has none of its own; else log-log.
func MethodOfLimits(r cohort.Row) string {
	if r.Kind == cohort.Estimated && r.HasLimits {
		return "log-log"
	}
	return "Wilson"
}

func hundredths(share float64) int { return int(math.Round(100 * share)) }

// List joins words: "a, b and c".
func List(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
