package content

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/govalues/decimal"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/source"
)

// codeFor is the code of a value that can't be read, by its kind.
var codeFor = map[format.Kind]string{
	format.YesNo: "not-yes-or-no", format.Day: "not-a-day", format.Moment: "not-a-day", format.HalfDay: "not-a-day",
	format.Whole: "not-a-number", format.Count: "not-a-number", format.Grade: "not-a-grade", format.Number: "not-a-number",
	format.Length: "not-a-length", format.Size: "not-a-size", format.Temperature: "not-a-temperature", format.Humidity: "not-a-humidity",
	format.Share: "not-a-share", format.Hours: "not-a-time-span", format.Days: "not-a-time-span", format.Money: "not-an-amount",
	format.Climate: "not-a-reading",
}

// clock is a time of day alone.
var clock = regexp.MustCompile(`^[0-9]{1,2}[:.][0-9]{2}([:.][0-9]{2})?$`)

// trouble reports a text that couldn't be read as its kind.
func (rd *reader) trouble(v *header.Value, kind format.Kind, t *measure.Trouble) {
	code, hint := codeFor[kind], t.Hint
	switch kind {
	case format.Day, format.Moment, format.HalfDay:
		if clock.MatchString(v.Text) {
			code, hint = "time-alone", "write the day before it, such as 2026-04-06 "+strings.Replace(v.Text, ".", ":", 1)
			t = &measure.Trouble{Start: 0, End: len(v.Text), Message: "a time of day without its day", Expected: t.Expected}
			if kind != format.Moment {
				hint = "write the day: 2026-04-06"
			}
		}
	}
	expected := t.Expected
	if expected == "" {
		expected = kind.Expected()
	}
	if hint == "" {
		hint = like(expected)
	} else if !strings.HasPrefix(hint, "write ") && !strings.HasPrefix(hint, "nearest: ") {
		hint = "write " + hint
	}
	rd.fault(code, v.Part(t.Start, t.End), t.Message, expected, hint)
}

// like turns what was expected into what to do: "a day such as 2026-04-06" into
// "write it like 2026-04-06".
func like(expected string) string {
	_, example, ok := strings.Cut(expected, " such as ")
	if !ok {
		return "write " + expected
	}
	example, _, _ = strings.Cut(example, " or a ")
	example, _, _ = strings.Cut(example, ", ")
	return "write it like " + example
}

// parse reads a value of a kind through one of measure's parsers.
func parse[T any](rd *reader, v *header.Value, want *format.Value, read func(string) (T, *measure.Trouble)) (out T, ok bool) {
	if v == nil {
		return out, false
	}
	text, ok := rd.scalarText(v, want)
	if !ok {
		return out, false
	}
	got, t := read(text)
	if t != nil {
		rd.trouble(v, want.Kind, t)
		return out, false
	}
	return got, true
}

// scalar reads the value behind a key through one of measure's parsers.
func scalar[T any](c *record, name string, kind format.Kind, read func(string) (T, *measure.Trouble)) (T, bool) {
	v, key := c.value(name, kind)
	return parse(c.reader, v, &key.Value, read)
}

// figure reads the value behind a key, nil where there is none.
func figure[T any](c *record, name string, kind format.Kind, read func(string) (measure.Figure[T], *measure.Trouble)) *measure.Figure[T] {
	if f, ok := scalar(c, name, kind, read); ok {
		return &f
	}
	return nil
}

func (c *record) length(name string) *measure.Figure[measure.Length] {
	return figure(c, name, format.Length, func(s string) (measure.Figure[measure.Length], *measure.Trouble) {
		return measure.ParseLength(s, c.units)
	})
}

func (c *record) temperature(name string) *measure.Figure[measure.Temperature] {
	return figure(c, name, format.Temperature, func(s string) (measure.Figure[measure.Temperature], *measure.Trouble) {
		return measure.ParseTemperature(s, c.units)
	})
}

func (c *record) humidity(name string) *measure.Figure[measure.Humidity] {
	return figure(c, name, format.Humidity, measure.ParseHumidity)
}

func (c *record) share(name string) *measure.Figure[measure.Share] {
	return figure(c, name, format.Share, measure.ParseShare)
}

func (c *record) hours(name string) *measure.Figure[measure.Hours] {
	return figure(c, name, format.Hours, measure.ParseHours)
}

func (c *record) count(name string) *measure.Figure[int] {
	return figure(c, name, format.Count, measure.ParseCount)
}

func (c *record) climate(name string) *Climate {
	got, ok := scalar(c, name, format.Climate, func(s string) (measure.Climate, *measure.Trouble) { return measure.ParseClimate(s, c.units) })
	if !ok {
		return nil
	}
	return &Climate{Temperature: got.Temperature.Value, Humidity: got.Humidity.Value}
}

// yes reads a yes or no; unsaid is no.
func (c *record) yes(name string) bool {
	b, _ := scalar(c, name, format.YesNo, measure.ParseYesNo)
	return b
}

// days reads whole days, or gives the default.
func (c *record) days(name string, otherwise int) int {
	if n, ok := scalar(c, name, format.Days, measure.ParseDays); ok {
		return n
	}
	return otherwise
}

// whole reads a whole number, or gives the default.
func (c *record) whole(name string, otherwise int) int {
	v, key := c.value(name, format.Whole)
	if n, ok := c.wholeOf(v, &key.Value); ok {
		return n
	}
	return otherwise
}

func (rd *reader) wholeOf(v *header.Value, want *format.Value) (int, bool) {
	return parse(rd, v, want, func(s string) (int, *measure.Trouble) {
		f, t := measure.ParseCount(s)
		if t == nil && f.Estimate {
			t = &measure.Trouble{Start: 0, End: 1, Message: "this number is counted, not estimated", Expected: "a whole number such as 3", Hint: strings.TrimLeft(s, "~ ")}
		}
		return f.Value, t
	})
}

// nameCurrency is the hint of an amount in a diary that names no currency.
var nameCurrency = "write currency: " + format.Find(format.Diary.Keys, "currency").Example + " in diary.yaml, or the three letters of another"

func (rd *reader) money(v *header.Value, want *format.Value) (measure.Money, bool) {
	m, ok := parse(rd, v, want, func(s string) (measure.Money, *measure.Trouble) { return measure.ParseMoney(s, rd.currency) })
	if ok && m.Currency == "" && !m.Zero() {
		if *rd.noMoney {
			return m, false
		}
		*rd.noMoney = true
		rd.fault("no-currency", v.Span, "an amount without a currency, in a diary that names none", "a currency behind the amount, or currency: in diary.yaml",
			nameCurrency)
		return m, false
	}
	return m, ok
}

func (c *record) amount(name string) *measure.Money {
	v, key := c.value(name, format.Money)
	if m, ok := c.money(v, &key.Value); ok {
		return &m
	}
	return nil
}

func (rd *reader) rate(v *header.Value, want *format.Value) (decimal.Decimal, bool) {
	return parse(rd, v, want, measure.ParseDecimal)
}

// day reads a day known in full, or NoDay.
func (c *record) day(name string) measure.Day {
	d, ok := scalar(c, name, format.Day, measure.ParseDay)
	if !ok || !c.past(name, d) {
		return measure.NoDay
	}
	return d
}

// moment reads a day with or without its time, or NoMoment.
func (c *record) moment(name string) measure.Moment {
	m, ok := scalar(c, name, format.Moment, measure.ParseMoment)
	if !ok || !c.past(name, m.Day) {
		return measure.NoMoment
	}
	return m
}

// halfDay reads a day that may be known by half, or NoSpan.
func (c *record) halfDay(name string) measure.Span {
	s, ok := scalar(c, name, format.HalfDay, measure.ParseSpan)
	if !ok || !c.past(name, s.First) {
		return measure.NoSpan
	}
	return s
}

// past reports a day in the future under a key whose days can't lie there.
func (c *record) past(name string, d measure.Day) bool {
	key := format.Find(c.keys, name)
	return !key.Past || c.notFuture(c.spanOf(name), d)
}

func (rd *reader) notFuture(at source.Span, d measure.Day) bool {
	if !rd.today.Known() || !d.Known() || d <= rd.today {
		return true
	}
	rd.fault("day-in-future", at, fmt.Sprintf("%s lies in the future", d), "a day up to "+rd.today.String(), "look at the year, the month and the day")
	return false
}

// text reads words.
func (c *record) text(name string) string {
	v, key := c.value(name, format.Text)
	if v == nil {
		return ""
	}
	s, _ := c.scalarText(v, &key.Value)
	return s
}

// line reads words that stand on one line of a page: line ends become spaces.
func (c *record) line(name string) string { return strings.Join(strings.Fields(c.text(name)), " ") }

// choice reads one word of a closed list.
func (c *record) choice(name string) string {
	v, key := c.value(name, format.Choice)
	return c.choiceOf(v, &key.Value)
}

func (rd *reader) choiceOf(v *header.Value, want *format.Value) string {
	if v == nil {
		return ""
	}
	word, ok := rd.scalarText(v, want)
	if !ok || want.Has(word) {
		return word
	}
	if single := strings.Join(strings.Fields(word), " "); want.Has(single) {
		return single
	}
	rd.unknownWord(v.Span, word, want.WordList())
	return ""
}

// unknownWord reports a word that isn't among those allowed.
func (rd *reader) unknownWord(at source.Span, word string, words []string) {
	hint := nearest(word, words)
	if hint == "" {
		if hint = "write " + anyOf(words); len(words) > 6 {
			hint = "write one of them"
		}
	}
	rd.fault("unknown-word", at, fmt.Sprintf("%q isn't one of the words that can stand here", short(word)), strings.Join(words, ", "), hint)
}

// anyOf lists words as a choice: "firm, soft or limp".
func anyOf(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// nearest offers the nearest word as a hint, or "".
func nearest(word string, words []string) string {
	if n := source.Nearest(word, words); n != "" {
		return "nearest: " + n
	}
	return ""
}

// short keeps what a message cites to the length of a message.
func short(words string) string {
	if utf8.RuneCountInString(words) <= 60 {
		return words
	}
	return string([]rune(words)[:57]) + "..."
}

// each gives the values of a list. One that may stand alone may do so, unless
// it looks like several whose brackets were forgotten.
func (c *record) each(name string) ([]header.Value, *format.Value) {
	v, key := c.value(name, format.List)
	if v == nil {
		return nil, key.Value.Item
	}
	switch {
	case v.Kind == header.List:
		return v.Items, key.Value.Item
	case v.Kind == header.Map && key.Value.Item.Kind != format.Map && key.Value.Item.Kind != format.Photo, !key.Value.Single:
		c.wrongKind(v, &key.Value, key.Example)
		return nil, key.Value.Item
	case v.Kind == header.Text && v.Style == header.Plain && strings.Contains(v.Text, ", "):
		c.fault("list-without-brackets", v.Span, "several words with commas between them are one without brackets", "a list in brackets", "write ["+short(v.Text)+"]")
		return nil, key.Value.Item
	}
	return []header.Value{*v}, key.Value.Item
}

// texts reads a list of words.
func (c *record) texts(name string) []string {
	items, want := c.each(name)
	var out []string
	for i := range items {
		if items[i].Faulty {
			continue
		}
		if s, ok := c.scalarText(&items[i], want); ok {
			out = append(out, s)
		}
	}
	return out
}

// table gives the fields of a map with free keys.
func (c *record) table(name string) ([]header.Field, *format.Value) {
	v, key := c.value(name, format.Table)
	if v == nil {
		return nil, &key.Value
	}
	if v.Kind != header.Map {
		c.wrongKind(v, &key.Value, key.Example)
		return nil, &key.Value
	}
	return v.Fields, &key.Value
}

// under begins to read the map behind a key; nil where there is none.
func (c *record) under(name string) *record {
	v, key := c.value(name, format.Map)
	if v == nil {
		return nil
	}
	if v.Kind != header.Map {
		c.wrongKind(v, &key.Value, key.Example)
		return nil
	}
	sub := c.reader.record(v.Fields, key.Value.Keys, c.prefix+name+".", &v.Span)
	c.spans = append(c.spans, sub.spans...)
	return sub
}
