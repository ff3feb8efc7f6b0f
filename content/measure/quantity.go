package measure

import (
	"strconv"
	"strings"
)

// unit is one way to write a quantity: its names, and how a figure in it is
// turned into the one unit that we keep.
type unit struct {
	names []string
	kept  func(float64) float64
}

// quantity is a kind of measured figure: its units, the one that a bare number
// takes, and the range within which a figure makes sense.
type quantity struct {
	name        string // "length"
	want        string // "a length such as 12 cm"
	units       []unit
	bare        int // index into units; needsUnit where a bare number is refused
	least, most float64
	bounds      string // the range in words
	trailer     string // a word that may follow the unit ("RH")
}

const needsUnit = -1

func same(v float64) float64 { return v }

func lengths(u Units) quantity {
	q := quantity{
		name: "length", want: "a length such as 12 cm or 5 in",
		units: []unit{
			{[]string{"cm"}, same},
			{[]string{"in", "inch", "inches", "\"", "″"}, func(v float64) float64 { return v * CentimetresPerInch }},
			{[]string{"mm"}, func(v float64) float64 { return v / 10 }},
			{[]string{"m"}, func(v float64) float64 { return v * 100 }},
		},
		least: float64(ShortestLength), most: float64(LongestLength),
		bounds: "a length is at least 0.01 mm and at most 5 m",
	}
	if u.Inches {
		q.bare = 1
	}
	return q
}

func temperatures(u Units) quantity {
	q := quantity{
		name: "temperature", want: "a temperature such as 24 C or 75 F",
		units: []unit{
			{[]string{"C", "°C", "℃"}, same},
			{[]string{"F", "°F", "℉"}, func(v float64) float64 { return float64(Celsius(v)) }},
		},
		least: float64(ColdestTemperature), most: float64(HottestTemperature),
		bounds: "a temperature is between -60 C and 90 C",
	}
	if u.Fahrenheit {
		q.bare = 1
	}
	return q
}

var humidities = quantity{
	name: "humidity", want: "a relative humidity such as 85%",
	units:  []unit{{[]string{"%", "%RH"}, same}},
	most:   100,
	bounds: "a relative humidity is between 0% and 100%", trailer: "RH",
}

var shares = quantity{
	name: "share", want: "a share such as 50%",
	units: []unit{{[]string{"%"}, func(v float64) float64 { return v / 100 }}},
	bare:  needsUnit,
	most:  1, bounds: "a share is between 0% and 100%",
}

var spans = quantity{
	name: "time", want: "a span of time such as 24 h, 3 days or 90 min",
	units: []unit{
		{[]string{"h", "hour", "hours"}, same},
		{[]string{"day", "days", "d"}, func(v float64) float64 { return v * 24 }},
		{[]string{"min", "minute", "minutes"}, func(v float64) float64 { return v / 60 }},
		{[]string{"week", "weeks"}, func(v float64) float64 { return v * 24 * 7 }},
	},
	most: float64(LongestHours), bounds: "a span of time is between 0 and 100000 hours",
}

// The ranges within which a figure makes sense in a diary. What lies outside is
// a slip of the pen, and is told.
const (
	ShortestLength     Length      = 0.001  // cm, included
	LongestLength      Length      = 500    // cm, included
	ColdestTemperature Temperature = -60    // °C, included
	HottestTemperature Temperature = 90     // °C, included
	LongestHours       Hours       = 100000 // included; a little over eleven years
)

// quantity reads one figure of a kind, with its tilde and its unit.
func (s *scanner) quantity(q quantity) (Figure[float64], *Trouble) {
	s.want = q.want
	estimate := s.tilde()
	n, trouble := s.number()
	if trouble != nil {
		return Figure[float64]{}, trouble
	}
	kept, _, trouble := s.unit(q, n)
	if trouble != nil {
		return Figure[float64]{}, trouble
	}
	v, trouble := s.within(q, n, kept)
	return Figure[float64]{v, estimate}, trouble
}

// unit reads the unit behind a number; written is false where there is none.
func (s *scanner) unit(q quantity, n number) (kept func(float64) float64, written bool, _ *Trouble) {
	word, from, to := s.word()
	if word == "" {
		s.at = n.to // a bare number ends with its last digit
		if q.bare == needsUnit {
			t := s.trouble(n.from, n.to, "a "+q.name+" needs its "+q.units[0].names[0])
			if v, _ := strconv.ParseFloat(n.text, 64); v > 1 {
				t.Hint = s.mend(n.to, n.to, q.units[0].names[0])
			}
			return nil, false, t
		}
		return q.units[q.bare].kept, false, nil
	}
	for _, u := range q.units {
		for _, name := range u.names {
			if strings.EqualFold(word, name) {
				s.trail(q)
				return u.kept, true, nil
			}
		}
	}
	return nil, true, s.trouble(from, to, s.quote(from, to)+" isn't a unit of "+q.name)
}

// trail passes over the word that may follow a unit.
func (s *scanner) trail(q quantity) {
	behind := s.at
	if word, _, _ := s.word(); q.trailer == "" || !strings.EqualFold(word, q.trailer) {
		s.at = behind
	}
}

// within turns a number into the kept unit and holds it to the kind's range.
// The figure is finite: what overflows is out of range.
func (s *scanner) within(q quantity, n number, kept func(float64) float64) (float64, *Trouble) {
	v, _ := strconv.ParseFloat(n.text, 64)
	if v == 0 {
		v = 0 // no negative nought
	}
	v = kept(v)
	if v >= q.least && v <= q.most {
		return v, nil
	}
	return 0, s.trouble(n.from, n.to, q.bounds)
}

// figure reads a text that holds one figure of a kind and nothing else.
func figure[T ~float64](text string, q quantity) (Figure[T], *Trouble) {
	return mended(text, func(text string) (Figure[T], *Trouble) {
		s := scan(text, q.want)
		f, trouble := s.quantity(q)
		if trouble == nil {
			trouble = s.rest()
		}
		if trouble != nil {
			return Figure[T]{}, trouble
		}
		return Figure[T]{T(f.Value), f.Estimate}, nil
	})
}

// ParseLength reads a length: "18 cm", "7 in", "5 mm", "~14 cm"; a bare number
// takes the diary's unit. It is at least 0.001 cm and at most 500 cm.
func ParseLength(text string, u Units) (Figure[Length], *Trouble) {
	return figure[Length](text, lengths(u))
}

// ParseTemperature reads a temperature, -60 to 90 °C: "24 C", "75 F", "-2.5 °C";
// a bare number takes the diary's unit.
func ParseTemperature(text string, u Units) (Figure[Temperature], *Trouble) {
	return figure[Temperature](text, temperatures(u))
}

// ParseHumidity reads a relative humidity in per cent, 0 to 100: "98%", "98 % RH"
// or a bare 98.
func ParseHumidity(text string) (Figure[Humidity], *Trouble) {
	return figure[Humidity](text, humidities)
}

// ParseShare reads a part of a whole: "50%" is 0.5. The sign is needed, since a
// bare 1 could be all or a hundredth.
func ParseShare(text string) (Figure[Share], *Trouble) {
	return figure[Share](text, shares)
}

// ParseHours reads a span of time: "24 h", "3 days", "90 min", "2 weeks"; a bare
// number is hours. It is 0 to 100000 hours.
func ParseHours(text string) (Figure[Hours], *Trouble) {
	return figure[Hours](text, spans)
}
