package measure

import "unicode"

// Climate is a temperature and a relative humidity measured together.
type Climate struct {
	Temperature Figure[Temperature]
	Humidity    Figure[Humidity]
}

// ParseClimate reads a reading, temperature first: "25.5 C 98%", "78 F 60 %",
// "25.5 98". Both must be there: a deficit needs both.
func ParseClimate(text string, u Units) (Climate, *Trouble) {
	return mended(text, func(text string) (Climate, *Trouble) {
		const want = "a temperature and a humidity such as 25.5 C 98%"
		s := scan(text, want)
		if trouble := s.humidityFirst(); trouble != nil {
			return Climate{}, trouble
		}
		q := temperatures(u)
		q.want = want
		t, trouble := s.quantity(q)
		if trouble != nil {
			return Climate{}, trouble
		}
		if s.done() {
			return Climate{}, s.trouble(0, s.end, "the humidity is missing")
		}
		if from := s.at; s.take(",;/") {
			s.space()
			trouble := s.trouble(from, from+1, "a space stands between temperature and humidity")
			trouble.Hint = s.mend(from, s.at, " ")
			return Climate{}, trouble
		}
		q = humidities
		q.want = want
		h, trouble := s.quantity(q)
		if trouble == nil {
			trouble = s.rest()
		}
		if trouble != nil {
			return Climate{}, trouble
		}
		return Climate{
			Temperature: Figure[Temperature]{Temperature(t.Value), t.Estimate},
			Humidity:    Figure[Humidity]{Humidity(h.Value), h.Estimate},
		}, nil
	})
}

// humidityFirst reports a reading that begins with its humidity.
func (s *scanner) humidityFirst() *Trouble {
	from := s.at
	defer func() { s.at = from }()
	s.tilde()
	if _, trouble := s.number(); trouble != nil {
		return nil
	}
	s.space()
	if !s.take("%") {
		return nil
	}
	to := s.at
	if s.done() {
		return s.trouble(from, to, "the temperature is missing")
	}
	t := s.trouble(from, to, "the temperature comes before the humidity")
	for s.at < s.end && (unicode.IsSpace(s.peek(0)) || s.peek(0) == ',') {
		s.at++
	}
	t.Hint = string(s.chars[s.at:s.end]) + " " + string(s.chars[from:to])
	return t
}
