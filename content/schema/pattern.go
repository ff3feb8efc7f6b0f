package schema

import (
	"fmt"
	"slices"
	"strings"

	"wardian/content/format"
	"wardian/content/measure"
)

// The forms of scalars, as regular expressions that ECMAScript (which JSON
// Schema names) and Go read alike: no look-around, no classes of Unicode.

const (
	// space is white space, the no-break spaces among it that \s means to
	// ECMAScript and not to Go.
	space  = "[\\s\u00a0\u202f]*"
	spaces = "[\\s\u00a0\u202f]+"

	number  = `[0-9]+(?:\.[0-9]+)?`
	nonzero = `(?:[0-9]*[1-9][0-9]*(?:\.[0-9]+)?|[0-9]+\.[0-9]*[1-9][0-9]*)`
	percent = `0*(?:100(?:\.0+)?|[0-9]{1,2}(?:\.[0-9]+)?)`
	digits  = `[0-9]+`
	counted = `0*(?:100000|[0-9]{1,5})` // up to measure.MostCount
	minus   = `-?`
	tilde   = "(?:~" + space + ")?"

	idForm = `[a-z0-9][a-z0-9-]*`
)

// day is any day that the calendar has between measure.FirstYear and LastYear.
var day = func() string {
	var leap []string
	for year := measure.FirstYear; year <= measure.LastYear; year++ {
		if year%4 == 0 && year%100 != 0 || year%400 == 0 {
			leap = append(leap, fmt.Sprint(year))
		}
	}
	return `(?:` + year + `-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|02-(?:0[1-9]|1[0-9]|2[0-8]))` +
		`|(?:` + strings.Join(leap, "|") + `)-02-29)`
}()

const (
	year  = `(?:19[0-9]{2}|2[01][0-9]{2}|2200)`
	month = year + `-(?:0[1-9]|1[0-2])`
	clock = `(?:[01]?[0-9]|2[0-3]):[0-5][0-9]`
)

// unit is a choice of units in any case, with the white space before it.
func unit(names ...string) string {
	var out []string
	for _, n := range names {
		out = append(out, anyCase(n))
	}
	return "(?:" + space + "(?:" + strings.Join(out, "|") + "))"
}

// anyCase spells a word so that its letters match in either case.
func anyCase(word string) string {
	var b strings.Builder
	for _, r := range word {
		lower, upper := strings.ToLower(string(r)), strings.ToUpper(string(r))
		switch {
		case lower != upper:
			b.WriteString("[" + lower + upper + "]")
		case strings.ContainsRune(`.+*?()|[]{}^$\`, r):
			b.WriteString(`\` + string(r))
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

var (
	lengthUnit  = unit("inches", "inch", "in", "cm", "mm", "m", `"`, "″")
	degree      = unit("°C", "°F", "C", "F", "℃", "℉")
	humidUnit   = "(?:" + unit("%RH", "%") + unit("RH") + "?)?"
	hourUnit    = unit("hours", "hour", "h", "days", "day", "d", "minutes", "minute", "min", "weeks", "week")
	dayUnit     = unit("days", "day", "d", "weeks", "week")
	currency    = "[A-Z]{3}"
	instant     = day + "(?:(?:" + space + "T|" + spaces + ")" + clock + ")?"
	half        = "(?:" + day + "|" + month + "|" + year + ")"
	onePicture  = `.*\S.*\.(?:` + anyOf("jpg", "jpeg", "png", "webp", "heic") + ")"
	oldZone     = "UTC|GMT|CET|EET|WET|MET|EST|MST|HST|UCT|Zulu|Universal|Greenwich|CST6CDT|EST5EDT|MST7MDT|PST8PDT|Cuba|Egypt|Eire|GB|GB-Eire|GMT0|GMT-0|GMT\\+0|Hongkong|Iceland|Iran|Israel|Jamaica|Japan|Kwajalein|Libya|NZ|NZ-CHAT|Navajo|PRC|Poland|Portugal|ROC|ROK|Singapore|Turkey|W-SU|Factory"
	causeByWord = "(?:" + strings.Join(format.Causes, "|") + `|other` + spaces + `.*[^ ?].*)` + space + `\??`
)

func anyOf(words ...string) string {
	out := slices.Clone(words)
	for i := range out {
		out[i] = anyCase(out[i])
	}
	return strings.Join(out, "|")
}

// form is what a scalar of one kind may be: a text of a form and, where YAML
// takes it for one, a number within bounds, or a truth.
type form struct {
	pattern     string
	number      string // "number", "integer", or "" where a bare number won't do
	least, most any    // of the number; nil where there is none
	above       any    // the number is more than this
	truth       bool
}

// forms are the forms of all kinds that are scalars of a form.
var forms = map[format.Kind]form{
	format.Text:        {pattern: `\S`, number: "number", truth: true},
	format.YesNo:       {pattern: anyOf("yes", "no", "true", "false"), truth: true},
	format.ID:          {pattern: idForm, number: "integer", least: 0},
	format.Day:         {pattern: day},
	format.Moment:      {pattern: instant},
	format.HalfDay:     {pattern: tilde + day + "|" + half + "(?:" + space + `\.\.` + space + half + ")?", number: "integer", least: measure.FirstYear, most: measure.LastYear},
	format.Whole:       {pattern: counted, number: "integer", least: 0, most: measure.MostCount},
	format.Count:       {pattern: tilde + counted, number: "integer", least: 0, most: measure.MostCount},
	format.Grade:       {pattern: "0*[0-5]", number: "integer", least: 0, most: 5},
	format.Number:      {pattern: nonzero, number: "number", above: 0, most: measure.LargestRate},
	format.Length:      {pattern: tilde + nonzero + lengthUnit + "?", number: "number", above: 0, most: float64(measure.LongestLength)},
	format.Size:        {pattern: tilde + nonzero + lengthUnit + "?" + space + "[xX×]" + space + nonzero + lengthUnit + "?"},
	format.Temperature: {pattern: tilde + minus + number + degree + "?", number: "number", least: float64(measure.ColdestTemperature), most: measure.HottestTemperature.Fahrenheit()},
	format.Humidity:    {pattern: tilde + percent + humidUnit, number: "number", least: 0, most: 100},
	format.Share:       {pattern: tilde + percent + space + "%"},
	format.Hours:       {pattern: tilde + number + hourUnit + "?", number: "number", least: 0, most: float64(measure.LongestHours)},
	format.Days:        {pattern: digits + dayUnit + "?", number: "integer", least: 0, most: measure.MostDays},
	format.Money:       {pattern: minus + `[0-9]+(?:\.[0-9]{1,3})?(?:` + space + currency + ")?", number: "number", least: -measure.LargestAmount, most: measure.LargestAmount},
	format.Climate:     {pattern: tilde + minus + number + "(?:" + degree + space + "|" + spaces + ")" + tilde + percent + humidUnit},
	format.TimeZone:    {pattern: "(?:" + oldZone + `)|[A-Za-z_]+(?:/[A-Za-z0-9_+-]+)+`},
	format.Currency:    {pattern: currency},
	format.Web:         {pattern: anyCase("http") + "[sS]?" + `://[^ "<>/?#]+[^ "<>]*`},
}
