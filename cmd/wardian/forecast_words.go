package main

import (
	"fmt"
	"strconv"
	"strings"
	"text/tabwriter"

	"wardian/build/cohort"
)

// forecastWords tells of a planned order: what it is learned from, how many may be
// alive, what each would have cost, and, beside it, what became of earlier ones.
func forecastWords(o cohort.Outlook, want int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s planned, looked at on day %d since arrival\n", counted(o.Planned, "plant", "plants"), o.Horizon)
	if o.Known {
		b.WriteString("\n" + fitWords(o))
	}
	if words := unfitWords(o); words != "" {
		b.WriteString(words + "\n")
	}
	if o.Known {
		fmt.Fprintf(&b, "\n%s of %d expected alive on day %d; 80 %% range %s\n", oneDecimal(o.Expected), o.Planned, o.Horizon, between(o.Range.Low, o.Range.High))
		if o.Caveat != "" {
			b.WriteString(strings.TrimSuffix(o.Caveat, ".") + "\n")
		}
	}
	b.WriteString(costWords(o))
	if want > 0 && o.Known {
		if n, ok := o.Needed(want); ok {
			fmt.Fprintf(&b, "for %d or more alive on day %d with a chance of 80 of 100: order %d\n", want, o.Horizon, n)
		} else {
			fmt.Fprintf(&b, "for %d or more alive on day %d with a chance of 80 of 100: more than %d would have to be ordered\n", want, o.Horizon, cohort.MostPlanned)
		}
	}
	b.WriteString("\nearlier ones of their kind; the forecast itself goes by whole imports:\n")
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, e := range o.Earlier {
		fmt.Fprintf(t, "  %s\t%s\t%s\n", e.By, e.Word, becameWords(e))
	}
	t.Flush()
	return unsteered(b.String())
}

// fitWords lists the imports that are learned from.
func fitWords(o cohort.Outlook) string {
	var b strings.Builder
	fmt.Fprintf(&b, "from %s:\n", counted(len(o.Fit), "earlier import", "earlier imports"))
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, p := range o.Fit {
		said := fmt.Sprintf("%.0f of %.0f alive on day %d", p.Counts.Alive, p.Counts.Lines, o.Horizon)
		if !p.Counted {
			said = fmt.Sprintf("as good as %s of %s alive on day %d; some weren't seen up to it", oneDecimal(p.Counts.Alive), oneDecimal(p.Counts.Lines), o.Horizon)
		}
		if p.Undated > 0 {
			said += fmt.Sprintf("; %s of its list left out, without a day", counted(p.Undated, "row", "rows"))
		}
		fmt.Fprintf(t, "  %s\t%s\n", p.Import.ID, said)
	}
	t.Flush()
	return b.String()
}

// unfitWords counts the imports that aren't learned from, by the reason.
func unfitWords(o cohort.Outlook) string {
	var out []string
	for _, r := range []struct {
		why   cohort.Unfit
		words string
	}{
		{cohort.Young, fmt.Sprintf("younger than %d days", o.Horizon)},
		{cohort.BeganLate, "with a diary that began late"},
		{cohort.Nearby, "bought nearby"},
		{cohort.Unfollowed, fmt.Sprintf("without a plant followed to day %d", o.Horizon)},
	} {
		n := 0
		for _, u := range o.Unfit {
			if u.Why == r.why {
				n++
			}
		}
		if n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, r.words))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return counted(len(o.Unfit), "import", "imports") + " left out: " + strings.Join(out, ", ")
}

// costWords tells what the order costs, and each of its plants that is alive.
func costWords(o cohort.Outlook) string {
	c := o.Cost
	switch {
	case c.Unpriced > 0:
		return fmt.Sprintf("%s without a price, so no cost is told\n", counted(c.Unpriced, "plant", "plants"))
	case !c.Known:
		return "the order's costs don't come to a sum that can be told\n"
	case !c.Each:
		return fmt.Sprintf("landed cost %s\n", c.Landed)
	}
	said := fmt.Sprintf("landed cost %s; for each survivor %s, ", c.Landed, c.Expected)
	switch {
	case c.HasHigh && c.Low == c.High:
		said += fmt.Sprintf("80 %% range just that of %s alive", strconv.Itoa(o.Range.Low))
	case c.HasHigh:
		said += fmt.Sprintf("80 %% range %s to %s", c.Low.Amount, c.High)
	case c.HasLow:
		said += fmt.Sprintf("80 %% range %s to none survived", c.Low)
	default:
		said += "80 % range none survived"
	}
	return said + "\n"
}

// becameWords is what became of earlier ones, in counts and causes: "3 of 3 lost:
// rot, rot, cold". Beyond six losses the causes are counted.
func becameWords(e cohort.Earlier) string {
	apart := ""
	if e.Apart > 0 {
		apart = fmt.Sprintf("; %d more bought nearby or of a diary that began late", e.Apart)
	}
	if e.N == 0 {
		return "none before" + apart
	}
	said := fmt.Sprintf("%d of %d lost", e.Shares.Lost, e.N)
	var causes []string
	for _, row := range e.Lost {
		for _, part := range []struct {
			n    int
			word string
		}{{len(row.Lines) - row.Doubted, row.Cause}, {row.Doubted, row.Cause + "?"}} {
			switch {
			case part.n == 0:
			case e.Shares.Lost > 6:
				causes = append(causes, fmt.Sprintf("%s %d", part.word, part.n))
			default:
				for range part.n {
					causes = append(causes, part.word)
				}
			}
		}
	}
	if len(causes) > 0 {
		said += ": " + strings.Join(causes, ", ")
	}
	for _, rest := range []struct {
		n    int
		word string
	}{{e.Alive, "alive"}, {e.PassedOn, "passed on"}, {e.Unknown, "not seen since"}} {
		if rest.n > 0 {
			said += fmt.Sprintf("; %d %s", rest.n, rest.word)
		}
	}
	return said + apart
}

func between(low, high int) string {
	if low == high {
		return fmt.Sprintf("just %d", low)
	}
	return fmt.Sprintf("%d to %d", low, high)
}

func oneDecimal(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }
