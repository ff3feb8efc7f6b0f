package cohort

import (
	"wardian/build/forecast"
	"wardian/build/survival"
	"wardian/content"
)

// A planned order is one new import, so that what is learned from are whole
// imports before it (measures: Forecast). An import may be learned from at a day
// only if everyone in it arrived at least so long before the as-of day: a younger
// one shows its dead before its living.

// MostPlanned is the largest order that is forecast, in plants.
const MostPlanned = forecast.Most

// PastImport is what one import says of a day of its plants' lives.
type PastImport struct {
	Import *content.Import
	// Counts are plain counts of lines where every fate is known (Counted),
	// else what the product limit is worth in plants, which needn't be whole.
	Counts  forecast.Import
	Counted bool
	// Undated counts the rows of its list that have no day: they stand on no
	// axis of days and aren't among Counts.
	Undated int
}

// Unfit says why an import can't be learned from.
type Unfit int

const (
	// Young: its plants arrived less than the horizon before the as-of day.
	Young Unfit = iota
	// BeganLate: its diary lists survivors only.
	BeganLate
	// Nearby: it was bought nearby and made no journey.
	Nearby
	// Unfollowed: it has no line with a day, or none of those was followed to
	// the horizon.
	Unfollowed
)

// UnfitImport is an import that isn't learned from.
type UnfitImport struct {
	Import *content.Import
	Why    Unfit
}

// Past sorts the diary's imports by whether they can be learned from at a horizon,
// in days from arrival; both lists are in the order of the diary's IDs. A
// half-known arrival counts from its first possible day, as everywhere.
func (c *Cohort) Past(horizon int) (fit []PastImport, unfit []UnfitImport) {
	for _, i := range c.Diary.Imports {
		s := c.Import(i)
		day, watched := c.Day(i)
		leave := func(why Unfit) { unfit = append(unfit, UnfitImport{i, why}) }
		switch {
		case i.Local:
			leave(Nearby)
		case !Pooled(i):
			leave(BeganLate)
		case len(s.Lines) == 0 || !watched:
			leave(Unfollowed)
		case day < horizon:
			leave(Young)
		default:
			counts, ok := forecast.Followed(s.subjects(), float64(horizon))
			if !ok {
				leave(Unfollowed)
				continue
			}
			fit = append(fit, PastImport{Import: i, Counts: counts, Counted: s.At(horizon).Kind == Counted, Undated: len(s.Undated)})
		}
	}
	return fit, unfit
}

// subjects are the scope's lines as the product limit takes them.
func (s Scope) subjects() []survival.Subject {
	out := make([]survival.Subject, len(s.Lines))
	for n, l := range s.Lines {
		// A line of an import that arrived after the as-of day is under
		// watch from day 0 and seen no further.
		out[n] = survival.Subject{Time: float64(max(l.Day, 0)), Lost: l.Fate == Lost}
	}
	return out
}

// Usual is the chance that an order's count is at least that which was wanted, and
// the confidence of the range that is shown; Wide is that of the range for
// programs.
const (
	Usual = 0.80
	Wide  = 0.95
)

// Outlook is what may become of a planned order by a day of its plants' lives.
type Outlook struct {
	Order   *content.Order
	Horizon int // days from arrival
	Planned int // plants
	Fit     []PastImport
	Unfit   []UnfitImport
	// Known is false where no import can be learned from: then the diary says
	// nothing of the next one, Refusal says so, and every figure is 0.
	Known    bool
	Refusal  string
	Caveat   string // what has to stand beside a forecast from one import; else ""
	Expected float64
	Range    forecast.Range // holds the number alive with a chance of at least Usual
	Wide     forecast.Range
	// Nearest is the largest smaller horizon at which an import can be learned
	// from, where none can at this one; 0 where there is none.
	Nearest int
	Cost    OrderCost
	Earlier []Earlier

	posterior forecast.Posterior
}

// Forecast looks ahead to a horizon of at least 1 day for an order of 1 to
// MostPlanned plants. It panics for another order; whoever reads one judges that.
func (c *Cohort) Forecast(o *content.Order, horizon int) Outlook {
	out := Outlook{Order: o, Horizon: horizon, Planned: o.Plants(), Earlier: c.earlier(o)}
	out.Fit, out.Unfit = c.Past(horizon)
	past := make([]forecast.Import, len(out.Fit))
	for n, p := range out.Fit {
		past[n] = p.Counts
	}
	if out.posterior, out.Known = forecast.Learn(past); !out.Known {
		out.Refusal, out.Nearest = forecast.NoImport, c.nearestHorizon(horizon)
		out.Cost = c.landing(o)
		return out
	}
	count, ok := out.posterior.Order(out.Planned)
	if !ok {
		panic("cohort: an order of nothing, or of more than is forecast")
	}
	out.Caveat, out.Expected = out.posterior.Caveat(), count.Expected
	out.Range, out.Wide = count.Range(Usual), count.Range(Wide)
	out.Cost = c.landing(o).among(count)
	return out
}

// Needed is the smallest order of which at least so many are alive with a chance
// of Usual; ok is false where that would be more than MostPlanned, for less than 1
// alive, and where nothing is known.
func (o Outlook) Needed(alive int) (planned int, ok bool) {
	return o.posterior.Needed(alive, Usual)
}

// nearestHorizon is the largest horizon below another at which an import can be
// learned from; 0 where there is none.
func (c *Cohort) nearestHorizon(below int) int {
	nearest := 0
	for _, i := range c.Diary.Imports {
		lines := c.Import(i).subjects()
		day, _ := c.Day(i)
		if day = min(day, below-1); !Pooled(i) || len(lines) == 0 || day <= nearest {
			continue
		}
		last := 0.0
		for _, l := range lines {
			last = max(last, l.Time)
		}
		for _, at := range []int{day, min(day, int(last))} { // to the as-of day, else as far as anybody was followed
			if _, ok := forecast.Followed(lines, float64(at)); ok {
				nearest = max(nearest, at)
				break
			}
		}
	}
	return nearest
}
