package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// MostCount is the largest count of leaves, roots or plants, included.
const MostCount = 100000

// MostDays is the longest span in whole days, included; close to a hundred
// years.
const MostDays = 36500

// ParseCount reads a whole number, 0 to 100000; "~40" is an estimate.
func ParseCount(text string) (Figure[int], *Trouble) {
	return mended(text, func(text string) (Figure[int], *Trouble) {
		s := scan(text, "a whole number such as 3")
		estimate := s.tilde()
		n, trouble := s.wholeWithin(MostCount, "a count")
		if trouble == nil {
			trouble = s.rest()
		}
		if trouble != nil {
			return Figure[int]{}, trouble
		}
		return Figure[int]{n, estimate}, nil
	})
}

// ParseGrade reads a grade of roots: 0 none, 1 stubs, 2 few short, 3 several,
// 4 many, 5 fills the pot. A grade is a judgement already and takes no tilde.
func ParseGrade(text string) (int, *Trouble) {
	return mended(text, func(text string) (int, *Trouble) {
		s := scan(text, "a grade from 0 to 5 such as 2")
		if trouble := s.noTilde("a grade"); trouble != nil {
			return 0, trouble
		}
		n, trouble := s.wholeWithin(5, "a grade")
		if trouble == nil {
			trouble = s.rest()
		}
		return n, trouble
	})
}

// ParseDays reads a span in whole days, 0 to 36500: "3 days", "1 day", "2 weeks"
// or a bare 3.
func ParseDays(text string) (int, *Trouble) {
	return mended(text, func(text string) (int, *Trouble) {
		s := scan(text, "whole days such as 3 days")
		if trouble := s.noTilde("a span of days"); trouble != nil {
			return 0, trouble
		}
		from := s.at
		n, trouble := s.wholeWithin(MostDays, "a span of days")
		if trouble != nil {
			return 0, trouble
		}
		numberTo := s.at
		switch word, wordFrom, to := s.word(); strings.ToLower(word) {
		case "", "day", "days", "d":
		case "week", "weeks":
			if n *= 7; n > MostDays {
				return 0, s.trouble(from, numberTo, fmt.Sprintf("a span of days is between 0 and %d", MostDays))
			}
		default:
			return 0, s.trouble(wordFrom, to, s.quote(wordFrom, to)+" isn't days or weeks")
		}
		return n, s.rest()
	})
}

// wholeWithin reads a whole number from 0 to most.
func (s *scanner) wholeWithin(most int, what string) (int, *Trouble) {
	n, trouble := s.number()
	if trouble != nil {
		return 0, trouble
	}
	digits, ok := n.whole()
	if !ok {
		return 0, s.trouble(n.from, n.to, what+" is a whole number")
	}
	if n.decimals() > 0 {
		t := s.trouble(n.from, n.to, what+" is a whole number")
		t.Hint = s.mend(n.from, n.to, digits)
		return 0, t
	}
	v, err := strconv.Atoi(digits)
	if err != nil || v < 0 || v > most {
		return 0, s.trouble(n.from, n.to, fmt.Sprintf("%s is between 0 and %d", what, most))
	}
	return v, nil
}

// noTilde reports a tilde where no estimate makes sense.
func (s *scanner) noTilde(what string) *Trouble {
	from := s.at
	if !s.tilde() {
		return nil
	}
	t := s.trouble(from, from+1, what+" takes no tilde")
	t.Hint = s.mend(from, s.at, "")
	return t
}

// ParseYesNo reads yes or no; true and false are taken too, in any case.
func ParseYesNo(text string) (bool, *Trouble) {
	s := scan(text, "yes or no")
	from := s.at
	word := string(s.chars[from:max(from, s.end)])
	switch strings.ToLower(word) {
	case "yes", "true":
		return true, nil
	case "no", "false":
		return false, nil
	}
	if word == "" {
		return false, s.noNumber()
	}
	t := s.trouble(from, s.end, s.quote(from, s.end)+" is neither yes nor no")
	switch strings.ToLower(word) {
	case "y", "on", "1", "ja":
		t.Hint = "yes"
	case "n", "off", "0", "nei", "nein":
		t.Hint = "no"
	}
	return false, t
}
