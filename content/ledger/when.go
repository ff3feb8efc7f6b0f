package ledger

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"wardian/content/measure"
)

// People write days in a spreadsheet as they speak of them: 14.10.2023, 28.10,
// nov 23, ca 10.5. This file reads those that can mean one thing only, into the
// diary's own writing, and refuses the rest: "before christmas" stays words.
// 3/4/2024 means two days, and is read only where another cell of the sheet shows
// in which order its days are written. A day without a year is the first such
// day from the arrival on.

// When is a day as a person wrote it, read.
type When struct {
	Day  measure.Span // Written is the diary's own writing
	Rest string       // words behind the day
	Why  string       // what was taken for granted: "the first 28 October from the arrival on"; may be ""
}

// slashOrder is in which order a sheet writes 3/4/2024.
type slashOrder int

const (
	slashesUnknown slashOrder = iota
	dayFirst
	monthFirst
)

// months are the names of months by their first three letters, in English and in
// the Scandinavian languages and German where they differ.
var months = map[string]int{
	"jan": 1, "feb": 2, "mar": 3, "mär": 3, "apr": 4, "may": 5, "mai": 5, "maj": 5, "jun": 6, "jul": 7,
	"aug": 8, "sep": 9, "oct": 10, "okt": 10, "nov": 11, "dec": 12, "des": 12, "dez": 12,
}

// monthWords are the words that begin like months and are.
var monthWords = regexp.MustCompile(`^(jan(uary|uar)?|feb(ruary|ruar)?|mar(ch|s)?|märz|apr(il)?|may|mai|maj|june?|juni|july?|juli|aug(ust)?|sept?(ember)?|o[ck]t(ober)?|nov(ember)?|de[csz](ember)?)$`)

var monthAlone = regexp.MustCompile(`^(?P<name>[a-zæøåäö]{3,})\.?`)

// forms are the ways to write a day that are understood, the longest first; a
// name says what each group is.
var forms = []*regexp.Regexp{
	regexp.MustCompile(`^(?P<year>[0-9]{4})-(?P<month>[0-9]{1,2})-(?P<day>[0-9]{1,2})` + clock),
	regexp.MustCompile(`^(?P<year>[0-9]{4})[-/.](?P<month>[0-9]{1,2})`),
	regexp.MustCompile(`^(?P<day>[0-9]{1,2})\. ?(?P<month>[0-9]{1,2})\. ?(?P<year>[0-9]{4}|[0-9]{2})\.?` + clock),
	regexp.MustCompile(`^(?P<day>[0-9]{1,2})\. ?(?P<month>[0-9]{1,2})\.?`),
	regexp.MustCompile(`^(?P<a>[0-9]{1,2})[/-](?P<b>[0-9]{1,2})[/-](?P<year>[0-9]{4}|[0-9]{2})` + clock),
	regexp.MustCompile(`^(?P<a>[0-9]{1,2})/(?P<b>[0-9]{1,2})`),
	regexp.MustCompile(`^(?P<day>[0-9]{1,2})(?:st|nd|rd|th|\.)?[ -]?(?P<name>[a-zæøåäö]{3,})\.?,? ?-?'?(?P<year>[0-9]{4}|[0-9]{2})`),
	regexp.MustCompile(`^(?P<day>[0-9]{1,2})(?:st|nd|rd|th|\.)?[ -]?(?P<name>[a-zæøåäö]{3,})\.?`),
	regexp.MustCompile(`^(?P<name>[a-zæøåäö]{3,})\.? (?P<day>[0-9]{1,2})(?:st|nd|rd|th)?,? (?P<year>[0-9]{4})`),
	regexp.MustCompile(`^(?P<name>[a-zæøåäö]{3,})\.? ?-?'?(?P<year>[0-9]{4}|[0-9]{2})`),
	monthAlone,
	regexp.MustCompile(`^(?P<year>[0-9]{4})`),
}

// clock is the time of day that a spreadsheet writes behind a day in full.
const clock = `(?:[ t](?P<clock>[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?))?`

// midnight is what it writes where nobody gave a time.
var midnight = regexp.MustCompile(`^0?0:00(?::00)?$`)

// about marks a day that was only about so.
var about = regexp.MustCompile(`^(?:ca\.?|c\.|circa|about|around|approx\.?|roughly|omkring|rundt|~) ?`)

// behind is what may follow a day: nothing, or words with something between; no
// number, which may belong to it.
var behind = regexp.MustCompile(`^(?:$|\?|[;,:()–—]|-(?:[^0-9]|$)| [^0-9])`)

// behindMonth is what may follow a month alone: "may be rot" is no day in May.
var behindMonth = regexp.MustCompile(`^ ?(?:$|\?|[;,:(])`)

// anotherDay is a second day among the words behind one.
var anotherDay = regexp.MustCompile(`[0-9]{1,2}[./-][0-9]`)

// units behind a number say that it is no day.
var units = regexp.MustCompile(`^ ?(?:cm|mm|m|in|g|kg|kr|%|°|leaves|leaf)\b`)

// ReadWhen reads a day as people write it. arrival is the day from which a day
// without a year counts (NoSpan: none is understood); order tells how the sheet
// writes 3/4. ok is false where the words can't be read as one day; why then
// says why, where more can be said than that they are no day.
func ReadWhen(text string, arrival measure.Span, order slashOrder) (w When, why string, ok bool) {
	low := strings.ToLower(strings.Join(strings.Fields(text), " "))
	written := strings.Join(strings.Fields(text), " ")
	if len(low) != len(written) {
		written = low // letters whose small form is longer: the words behind lose their capitals
	}
	if span, trouble := measure.ParseSpan(low); trouble == nil {
		return When{Day: span}, "", true
	}
	unsure := about.FindString(low)
	low, written = low[len(unsure):], written[len(unsure):]
	for _, form := range forms {
		m := form.FindStringSubmatch(low)
		if m == nil {
			continue
		}
		rest := low[len(m[0]):]
		if !behind.MatchString(rest) || units.MatchString(rest) || form == monthAlone && !behindMonth.MatchString(rest) {
			continue
		}
		nought := false // a written 0, which is no day, month or year
		part := func(name string) int {
			i := form.SubexpIndex(name)
			if i < 0 {
				return 0
			}
			n, _ := strconv.Atoi(m[i])
			nought = nought || n == 0 && !(name == "year" && len(m[i]) == 2)
			return n
		}
		d := written3{year: part("year"), month: part("month"), day: part("day")}
		if i := form.SubexpIndex("name"); i >= 0 {
			if !monthWords.MatchString(m[i]) {
				continue
			}
			d.month = months[string([]rune(m[i])[:3])]
		}
		if form.SubexpIndex("a") >= 0 {
			a, b := part("a"), part("b")
			switch {
			case a > 12 || order == dayFirst && b <= 12:
				d.day, d.month = a, b
			case b > 12 || order == monthFirst:
				d.month, d.day = a, b
			default:
				return w, "it can be the day first or the month first", false
			}
		}
		if nought {
			return w, "there is no day, month or year 0", false
		}
		if i := form.SubexpIndex("year"); i >= 0 && len(m[i]) == 2 {
			d.year += 2000
			if arrival.Known() && form.SubexpIndex("day") < 0 && (d.year < arrival.First.Time().Year() || d.year > arrival.First.Time().Year()+20) {
				return w, fmt.Sprintf("%s may be a day of the month or a year", m[i]), false
			}
		}
		w.Rest = strings.Trim(written[len(m[0]):], " ;,:()–—-")
		if strings.HasPrefix(rest, "?") {
			unsure, w.Rest = "?", strings.TrimLeft(w.Rest, "? ;,:()–—-")
		}
		if i := form.SubexpIndex("clock"); i >= 0 && m[i] != "" && !midnight.MatchString(m[i]) {
			w.Rest = strings.TrimSpace(m[i] + " " + w.Rest)
		}
		if anotherDay.MatchString(w.Rest) {
			return w, "there is more than one day", false
		}
		return d.read(w, arrival, unsure != "")
	}
	return w, "", false
}

// written3 is a day's three numbers; 0 where one isn't written.
type written3 struct{ year, month, day int }

// read turns the numbers into a day, the year inferred where it isn't written.
func (d written3) read(w When, arrival measure.Span, unsure bool) (_ When, why string, ok bool) {
	if d.year == 0 {
		if !arrival.Known() {
			return w, "the year isn't said, and no day of arrival is known to count from", false
		}
		from := arrival.First.Time()
		d.year = from.Year()
		last := measure.Day(0)
		if s, trouble := measure.ParseSpan(d.String()); trouble == nil {
			last = s.Last
		}
		if last < arrival.First {
			d.year++
		}
		w.Why = "the first from the arrival on"
	}
	text := d.String()
	if unsure && d.day != 0 {
		text = "~" + text
	}
	span, trouble := measure.ParseSpan(text)
	if trouble != nil {
		return w, trouble.Message, false
	}
	w.Day = span
	return w, "", true
}

// String writes the day as a diary does.
func (d written3) String() string {
	switch {
	case d.month == 0:
		return fmt.Sprintf("%04d", d.year)
	case d.day == 0:
		return fmt.Sprintf("%04d-%02d", d.year, d.month)
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.year, d.month, d.day)
}

// slash is a day written with slashes, or in full with hyphens, at the opening of a
// cell.
var slash = regexp.MustCompile(`^([0-9]{1,2})(?:/([0-9]{1,2})(?:/|\b)|-([0-9]{1,2})-[0-9])`)

// orderOf tells how a sheet writes days with slashes, from the cells that allow
// one order only; unknown where none does, or they contradict each other.
func orderOf(cells []string) slashOrder {
	day, month := false, false
	for _, c := range cells {
		m := slash.FindStringSubmatch(strings.TrimSpace(c))
		if m == nil {
			continue
		}
		a, _ := strconv.Atoi(m[1])
		b, _ := strconv.Atoi(m[2] + m[3])
		day, month = day || a > 12 && b <= 12, month || b > 12 && a <= 12
	}
	switch {
	case day && !month:
		return dayFirst
	case month && !day:
		return monthFirst
	}
	return slashesUnknown
}
