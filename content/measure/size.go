package measure

// ParseSize reads a leaf's length and greatest width: "12x8 cm", "12 x 8",
// "12×8cm", "~12x8", "12 cm x 8 cm". One unit holds for both; without any, the
// diary's. The tilde stands once, in front, and marks both. Each side keeps to
// the range of a length.
func ParseSize(text string, u Units) (Figure[Size], *Trouble) {
	return mended(text, func(text string) (Figure[Size], *Trouble) {
		f, trouble := readSize(text, u)
		if trouble != nil {
			return Figure[Size]{}, trouble
		}
		return f, nil
	})
}

func readSize(text string, u Units) (f Figure[Size], _ *Trouble) {
	q := lengths(u)
	q.want = "a length and a width such as 12x8 cm"
	s := scan(text, q.want)
	f.Estimate = s.tilde()
	long, trouble := s.side()
	if trouble != nil {
		return f, trouble
	}
	longUnit, longWritten, trouble := s.unit(q, long)
	if trouble != nil {
		return f, trouble
	}
	s.space()
	if s.at >= s.end {
		return f, s.trouble(long.from, s.end, "the width is missing")
	}
	if !s.take("xX×") {
		return f, s.trouble(s.at, s.end, "unexpected "+s.quote(s.at, s.end)+" between length and width")
	}
	s.space()
	if s.at >= s.end {
		return f, s.trouble(s.at-1, s.at, "the width is missing")
	}
	if from := s.at; s.tilde() {
		t := s.trouble(from, from+1, "the tilde stands once, in front of both")
		if t.Hint = s.mend(from, s.at, ""); !f.Estimate {
			t.Hint = "~" + t.Hint
		}
		return f, t
	}
	wide, trouble := s.side()
	if trouble != nil {
		return f, trouble
	}
	unitFrom := s.at
	wideUnit, wideWritten, trouble := s.unit(q, wide)
	if trouble != nil {
		return f, trouble
	}
	switch {
	case wideWritten && !longWritten:
		longUnit = wideUnit
	case longWritten && !wideWritten:
		wideUnit = longUnit
	case longWritten && longUnit(1) != wideUnit(1):
		s.space()
		return f, s.trouble(unitFrom, s.at, "length and width in two different units")
	}
	if trouble := s.rest(); trouble != nil {
		return f, trouble
	}
	l, trouble := s.within(q, long, longUnit)
	if trouble != nil {
		return f, trouble
	}
	w, trouble := s.within(q, wide, wideUnit)
	if trouble != nil {
		return f, trouble
	}
	f.Value = Size{Length: Length(l), Width: Length(w)}
	return f, nil
}

// side reads the number of one side. "0x8" is a length of nought here, not the
// start of a hexadecimal.
func (s *scanner) side() (number, *Trouble) {
	if c := s.peek(1); s.peek(0) == '0' && (c == 'x' || c == 'X') {
		s.at++
		return number{text: "0", from: s.at - 1, to: s.at}, nil
	}
	return s.number()
}
