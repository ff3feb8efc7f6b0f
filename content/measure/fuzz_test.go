package measure

import (
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/govalues/decimal"

	"wardian/content/patience"
)

// seeds are texts on the edge of what the parsers understand.
var seeds = []string{
	"", " ", "~", "-", "4 cm", "4,5 cm", "~14", "12x8 cm", "12 cm × 8 cm", "0x8", "12x~8", "x", "75 F", "-2.5 °C", "−5", "98 % RH", "50%",
	"3 days", "90 min", "2 weeks", "1e9", "0x1F", "NaN", "1_000", "1,250.00", "45.00 EUR", "€45", "-10.30 USD", "45 eur", "10.52",
	"2026-04-06", "2026-02-30", "2026-04-06 18:30", "2026-04-06T6:30 pm", "2024", "2024-05", "~2024-05-10", "2024-05-10..2024-05-20",
	"2024-05-20 .. 2024-05-10", "6 April 2026", "20.4.2026", "25.5 C 98%", "98% 25.5 C", "25.5,98", "yes", "about 4,5 cm", "\xff4", "4\u00a0cm", "٤",
}

// fuzz runs a check over every text: it reads the text and says what is wrong
// with the answer, or nothing. Whatever the parser, a trouble's span lies in the
// text and is never empty, a hint is accepted, and 64 KiB are read in a second.
func fuzz(f *testing.F, check func(text string) (trouble *Trouble, wrong string)) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		began := time.Now()
		trouble, wrong := check(text)
		if took := time.Since(began); len(text) <= 64<<10 && took > patience.For(0) {
			t.Fatalf("%d bytes took %v", len(text), took)
		}
		if wrong != "" {
			t.Fatalf("%q: %s", text, wrong)
		}
		if trouble == nil {
			return
		}
		chars := utf8.RuneCountInString(text)
		if trouble.Start < 0 || trouble.End > chars || trouble.Start > trouble.End || trouble.Start == trouble.End && chars > 0 {
			t.Fatalf("%q: span %d..%d of %d characters", text, trouble.Start, trouble.End, chars)
		}
		if trouble.Message == "" || trouble.Expected == "" || strings.HasSuffix(trouble.Message, ".") || len(trouble.Message) > 250 {
			t.Fatalf("%q: message %q, expected %q", text, trouble.Message, trouble.Expected)
		}
		if trouble.Hint != "" {
			if again, _ := check(trouble.Hint); again != nil {
				t.Fatalf("%q: hint %q is refused: %v", text, trouble.Hint, again)
			}
		}
	})
}

// back checks that a figure is finite, in range, and reads back from what is
// written for it.
func back[T ~float64](f Figure[T], least, most T, text string, read func(string) (Figure[T], *Trouble)) string {
	if v := float64(f.Value); math.IsNaN(v) || math.IsInf(v, 0) || f.Value < least || f.Value > most {
		return "out of range"
	}
	if again, trouble := read(f.Written(text)); trouble != nil || again != f {
		return "reads back as another figure from " + f.Written(text)
	}
	return ""
}

func bothUnits(check func(text string, u Units) (*Trouble, string)) func(string) (*Trouble, string) {
	return func(text string) (*Trouble, string) {
		if trouble, wrong := check(text, imperial); wrong != "" {
			return trouble, wrong
		}
		return check(text, metric)
	}
}

func FuzzParseLength(f *testing.F) {
	fuzz(f, bothUnits(func(text string, u Units) (*Trouble, string) {
		got, trouble := ParseLength(text, u)
		if trouble != nil {
			return trouble, ""
		}
		return nil, back(got, ShortestLength, LongestLength, got.Value.In(u),
			func(s string) (Figure[Length], *Trouble) { return ParseLength(s, u) })
	}))
}

func FuzzParseSize(f *testing.F) {
	fuzz(f, bothUnits(func(text string, u Units) (*Trouble, string) {
		got, trouble := ParseSize(text, u)
		if trouble != nil {
			return trouble, ""
		}
		for _, l := range []Length{got.Value.Length, got.Value.Width} {
			if !(l >= ShortestLength && l <= LongestLength) {
				return nil, "out of range"
			}
		}
		if again, trouble := ParseSize(got.Written(got.Value.In(u)), u); trouble != nil || again != got {
			return nil, "reads back as another size"
		}
		return nil, ""
	}))
}

func FuzzParseTemperature(f *testing.F) {
	fuzz(f, bothUnits(func(text string, u Units) (*Trouble, string) {
		got, trouble := ParseTemperature(text, u)
		if trouble != nil {
			return trouble, ""
		}
		return nil, back(got, ColdestTemperature, HottestTemperature, got.Value.In(u),
			func(s string) (Figure[Temperature], *Trouble) { return ParseTemperature(s, u) })
	}))
}

func FuzzParseHumidity(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseHumidity(text)
		if trouble != nil {
			return trouble, ""
		}
		return nil, back(got, 0, 100, got.Value.String(), ParseHumidity)
	})
}

func FuzzParseShare(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseShare(text)
		if trouble != nil {
			return trouble, ""
		}
		return nil, back(got, 0, 1, got.Value.String(), ParseShare)
	})
}

func FuzzParseHours(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseHours(text)
		if trouble != nil {
			return trouble, ""
		}
		return nil, back(got, 0, LongestHours, got.Value.String(), ParseHours)
	})
}

func FuzzParseClimate(f *testing.F) {
	fuzz(f, bothUnits(func(text string, u Units) (*Trouble, string) {
		got, trouble := ParseClimate(text, u)
		if trouble != nil {
			return trouble, ""
		}
		if again, trouble := ParseClimate(got.In(u), u); trouble != nil || again != got {
			return nil, "reads back as another reading from " + got.In(u)
		}
		return nil, ""
	}))
}

func FuzzParseWhole(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) {
		if grade, trouble := ParseGrade(text); trouble == nil && (grade < 0 || grade > 5) {
			return nil, "grade out of range"
		}
		if days, trouble := ParseDays(text); trouble == nil && (days < 0 || days > MostDays) {
			return nil, "days out of range"
		}
		got, trouble := ParseCount(text)
		if trouble == nil && (got.Value < 0 || got.Value > MostCount) {
			return nil, "count out of range"
		}
		return trouble, ""
	})
}

// The parsers whose answer isn't a figure share what must hold for troubles.
func FuzzParseDays(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) { _, trouble := ParseDays(text); return trouble, "" })
}

func FuzzParseGrade(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) { _, trouble := ParseGrade(text); return trouble, "" })
}

func FuzzParseYesNo(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) { _, trouble := ParseYesNo(text); return trouble, "" })
}

func FuzzParseFactor(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseFactor(text)
		if trouble == nil && !(got >= 0.1 && got <= 1.5) {
			return nil, "out of range"
		}
		return trouble, ""
	})
}

func FuzzParseMoney(f *testing.F) {
	most := decimal.MustNew(LargestAmount, 0)
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseMoney(text, "NOK")
		if trouble != nil {
			return trouble, ""
		}
		if got.Amount.CmpAbs(most) > 0 || got.Amount.Scale() > 3 || len(got.Currency) != 3 {
			return nil, "out of range: " + got.String()
		}
		if again, trouble := ParseMoney(got.String(), "EUR"); trouble != nil || !again.Amount.Equal(got.Amount) || again.Currency != got.Currency {
			return nil, "reads back as other money from " + got.String()
		}
		return nil, ""
	})
}

func FuzzParseDecimal(f *testing.F) {
	most := decimal.MustNew(LargestRate, 0)
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseDecimal(text)
		if trouble != nil {
			return trouble, ""
		}
		if !got.IsPos() || got.Cmp(most) > 0 {
			return nil, "out of range"
		}
		if again, trouble := ParseDecimal(got.String()); trouble != nil || !again.Equal(got) {
			return nil, "reads back as another decimal from " + got.String()
		}
		return nil, ""
	})
}

func inDiaryYears(d Day) bool { return d.Time().Year() >= FirstYear && d.Time().Year() <= LastYear }

func FuzzParseDay(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseDay(text)
		if trouble != nil {
			return trouble, ""
		}
		if again, trouble := ParseDay(got.String()); trouble != nil || again != got || !inDiaryYears(got) {
			return nil, "reads back as another day from " + got.String()
		}
		return nil, ""
	})
}

func FuzzParseMoment(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseMoment(text)
		if trouble != nil {
			return trouble, ""
		}
		if again, trouble := ParseMoment(got.String()); trouble != nil || again != got || !inDiaryYears(got.Day) || got.Minute < NoMinute || got.Minute > 1439 {
			return nil, "reads back as another moment from " + got.String()
		}
		return nil, ""
	})
}

func FuzzParseSpan(f *testing.F) {
	fuzz(f, func(text string) (*Trouble, string) {
		got, trouble := ParseSpan(text)
		if trouble != nil {
			return trouble, ""
		}
		if got.Last < got.First || !inDiaryYears(got.First) || !inDiaryYears(got.Last) {
			return nil, "out of order"
		}
		if again, trouble := ParseSpan(got.Written); trouble != nil || again != got {
			return nil, "reads back as another span from " + got.Written
		}
		return nil, ""
	})
}
