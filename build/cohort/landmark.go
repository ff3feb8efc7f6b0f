package cohort

import (
	"cmp"
	"math"
	"slices"

	"wardian/content"
)

// What was done to a plant in its first days may be compared only among the
// plants that lived to the day by which it was done, the landmark: whoever died
// on day 1 was never potted, whatever the grower had in mind (Anderson, Cain and
// Gelber 1983; Dafni 2011, Circ Cardiovasc Qual Outcomes 4:363-371, from memory).
// Groups are formed from records dated up to the landmark; days are still counted
// from arrival, and the curve starts at 1 on the landmark.

// Landmark says who stands in a comparison by landmark. In + Lost + OnArrival +
// Unseen + Listed = the scope's lines.
type Landmark struct {
	Day int
	In  int // not lost by then, and seen on or after it, open, or found lost after it
	// Lost by that day; OnArrival: found dead when unpacked, after that day;
	// Unseen: not seen since before it.
	Lost, OnArrival, Unseen int
	// Listed are rows of a list, which tell of no treatment.
	Listed int
	// Between counts those among In that were last seen before the landmark and
	// found lost after it: whether they lived to it nobody knows.
	Between int
}

// LandmarkDays are the days at which a comparison by landmark is shown.
var LandmarkDays = []int{3, 7, 14}

// OtherLandmarks are the first two landmark days that aren't the given one: the
// same comparison at these stands beside it.
func OtherLandmarks(day int) []int {
	var out []int
	for _, d := range LandmarkDays {
		if d != day && len(out) < 2 {
			out = append(out, d)
		}
	}
	return out
}

// landmark chooses the lines that stand in a comparison by landmark. A line dead
// on arrival stands in none.
func landmark(lines []*Line, day int) (in []*Line, m Landmark) {
	m.Day = day
	for _, l := range lines {
		switch {
		case l.FromList():
			m.Listed++
			continue
		case l.Fate == Lost && l.Day <= day:
			m.Lost++
			continue
		case l.Fate == Lost && l.OnArrival:
			m.OnArrival++
			continue
		case l.Fate == Lost && l.LastAlive < day:
			m.Between++
		case l.Fate != Lost && l.Fate != Open && l.LastAlive < day:
			m.Unseen++
			continue
		}
		in = append(in, l)
	}
	m.In = len(in)
	return in, m
}

// until gives the looks at a part up to and on a day.
func (p *Part) until(day int) []*content.Look {
	n := len(p.Looks)
	for n > 0 && p.Looks[n-1].Day > day {
		n--
	}
	return p.Looks[:n]
}

// firstMedium is the first medium in which any part of the line was said to
// stand outside a soak.
func firstMedium(l *Line, day int) string {
	var looks []*content.Look
	for _, p := range l.Parts {
		looks = append(looks, p.until(day)...)
	}
	slices.SortStableFunc(looks, func(a, b *content.Look) int {
		return cmp.Or(cmp.Compare(a.When.Day, b.When.Day), cmp.Compare(a.When.Minute, b.When.Minute))
	})
	for _, look := range looks {
		at := look.At
		if look.To != nil {
			at = look.To
		}
		if look.MediumNow != "" && (at == nil || at.Stage != content.Soak) {
			return look.MediumNow
		}
	}
	return ""
}

// leavesCutBand is the share of its leaves that the plant as received was cut of:
// all leaves cut by the day ÷ (those and the leaves left after the last cut). A
// plant that was looked at and of which no cut is told had none: a cut is
// something done, not a state that can go unmentioned.
func leavesCutBand(l *Line, day int) string {
	looks := l.until(day)
	if len(looks) == 0 {
		return ""
	}
	cut, left, known := 0, 0, true
	for n := range looks {
		f := looks[n].Facts.Leaves
		if f == nil || f.Cut == 0 {
			continue
		}
		cut += f.Cut
		left, known = l.Points[n].Leaves.Count, l.Points[n].Leaves.CountKnown
	}
	switch {
	case cut == 0:
		return cutBands[0]
	case !known:
		return ""
	}
	return cutBand(float64(cut) / float64(left+cut))
}

// rootsCutBand is the share of its roots that the plant as received was cut of;
// two cuts of a half take three quarters.
func rootsCutBand(l *Line, day int) string {
	looks := l.until(day)
	if len(looks) == 0 {
		return ""
	}
	left := 1.0
	for _, look := range looks {
		if r := look.Facts.Roots; r != nil && r.Cut != nil {
			left *= 1 - float64(r.Cut.Value)
		}
	}
	return cutBand(1 - left)
}

// cutBand is the band of a share cut, by its whole per cent; any cut at all is at
// least 1 %.
func cutBand(share float64) string {
	percent := math.Floor(100*share + 0.5 + 1e-9)
	switch {
	case share <= 0:
		return cutBands[0]
	case percent <= 33:
		return cutBands[1]
	case percent <= 66:
		return cutBands[2]
	}
	return cutBands[3]
}

// soakBand is the hours of soaking by the day: from the moves in and out of a
// soak where both have a time of day, else what the check-ins say. A plant that
// was looked at and of which no soaking is told had none. One that was soaked for
// hours nobody wrote down is not recorded, unless the days alone put it beyond 24.
func soakBand(l *Line, day int) string {
	looks := l.until(day)
	if len(looks) == 0 {
		return ""
	}
	soaked, timed, hours, atLeast := false, true, 0.0, 0.0
	for _, s := range l.Stays {
		from := l.dayOf(s.From)
		if s.Place.Stage != content.Soak || from > day {
			continue
		}
		soaked = true
		to := day // it stood in the soak at the end of the landmark
		if s.Until.Known() && l.dayOf(s.Until) <= day {
			if h, ok := s.From.HoursUntil(s.Until); ok {
				hours += float64(h)
				continue
			}
			to = l.dayOf(s.Until) - 1
		}
		timed = false
		atLeast += 24 * float64(max(to-from, 0))
	}
	said, told := 0.0, false
	for _, look := range looks {
		if look.Soak != nil {
			said, told = said+float64(look.Soak.Value), true
		}
		soaked = soaked || slices.Contains(look.Did, "soaked")
	}
	switch {
	case soaked && timed && hours > 0:
		return soakBandOf(hours)
	case told:
		return soakBandOf(said)
	case !soaked:
		return soakBands[0]
	case atLeast > 24:
		return soakBands[3]
	}
	return ""
}

func soakBandOf(hours float64) string {
	switch {
	case hours <= 0:
		return soakBands[0]
	case hours <= 6:
		return soakBands[1]
	case hours <= 24:
		return soakBands[2]
	}
	return soakBands[3]
}

// bottomHeatAt tells whether the place where the plant as received stood at the
// end of the day, by the moves told by then, has bottom heat.
func bottomHeatAt(l *Line, day int) string {
	var at *content.Place
	for _, s := range l.Stays {
		if l.dayOf(s.From) <= day {
			at = s.Place
		}
	}
	switch {
	case at == nil:
		return ""
	case at.BottomHeat:
		return yesNoBands[0]
	}
	return yesNoBands[1]
}

// turgorAt is the last turgor said of the plant as received by the day.
func turgorAt(l *Line, day int) string {
	looks := l.until(day)
	for i := len(looks) - 1; i >= 0; i-- {
		if looks[i].Turgor != "" {
			return string(looks[i].Turgor)
		}
	}
	return ""
}

// rotAt is where the plant as received had rot at the end of the day: said then,
// or carried on from before.
func rotAt(l *Line, day int) string {
	looks := l.until(day)
	if len(looks) == 0 {
		return ""
	}
	return looks[len(looks)-1].RotNow
}
