package cohort

import (
	"wardian/build/survival"
	"wardian/content"
)

// fewest is the least number of lines of a group that has a curve and stands in
// a test.
const fewest = 5

// State says how much may be told of a group at a horizon.
type State int

const (
	// Told: counts, share, curve; it stands in the test.
	Told State = iota
	// Small: under five lines; counts only.
	Small
	// NotRecordedThere: the lines of which the diary doesn't say; counts only.
	NotRecordedThere
	// Unripe: not all its lines arrived at least the horizon before the as-of
	// day; it isn't compared.
	Unripe
)

// Group is the lines of one group, followed to the horizon and no further.
// Alive + Lost + Unknown = N, but where it isn't Ripe, which leaves Alive and
// Unknown at 0.
type Group struct {
	Name    string
	State   State
	Lines   []*Line
	Imports []*content.Import
	Ripe    bool // all its lines arrived at least the horizon before the as-of day
	N       int
	Lost    int // found lost up to the horizon
	Left    int // left alive before it: passed on, not seen since, never looked at
	Alive   int // known alive on it
	Unknown int // passed on or not seen since by then
	// Row is the survival table's row at the horizon: the share alive with its
	// limits. Read only if Told, as are the following.
	Row    Row
	Curve  survival.Curve // ends at the horizon
	Median survival.Quantile
	// Mean is the restricted mean to the comparison's Tau.
	Mean    survival.Mean
	HasMean bool
}

// Comparison is the lines of a scope in groups, all at one horizon.
type Comparison struct {
	By       Grouping
	Scope    Scope // without what is left out
	Horizon  int   // day since arrival at which everything ends
	Landmark *Landmark
	Split    *Split // of root-to-leaf
	// FollowedLate counts lines of imports whose diary began late: such an
	// import lists survivors only and is compared with nothing.
	FollowedLate int
	// Undated counts the scope's rows of lists that have no day: they count in
	// shares and in no comparison.
	Undated int
	Groups  []Group // in order, "not recorded" last
	// Tau is the day to which restricted means are taken.
	Tau  int
	Test Test
	// LogRank and Hazards are for programs; pages don't show them.
	LogRank LogRank
	Hazards Hazards
}

// Compare groups the scope's lines by a word and compares them on the horizon,
// in days since arrival; landmark is the day up to which treatment forms groups
// and isn't read for other words. Where the horizon isn't after the landmark
// nothing can be compared, and the test says so.
//
// The same comparison at the same age, with a season that still runs, is that at
// the horizon SameAge.
func (c *Cohort) Compare(s Scope, by Grouping, horizon, landmarkDay int) Comparison {
	r := Comparison{By: by, Scope: Scope{Name: s.Name}, Horizon: horizon, Undated: len(s.Undated)}
	for _, i := range s.Imports {
		if !i.FollowedFrom.Known() {
			r.Scope.Imports = append(r.Scope.Imports, i)
		}
	}
	for _, l := range s.Lines {
		if l.Import().FollowedFrom.Known() {
			r.FollowedLate++
			continue
		}
		r.Scope.Lines = append(r.Scope.Lines, l)
	}
	lines := r.Scope.Lines
	if by.Landmark {
		in, m := landmark(lines, landmarkDay)
		lines, r.Landmark = in, &m
		if horizon <= landmarkDay {
			r.Test.Reason, r.Hazards.Reason = LandmarkAtHorizon, LandmarkAtHorizon.String()
			return r
		}
	}
	names := make([]string, len(lines))
	if by.ratio {
		names, r.Split = ratioGroups(lines)
	} else {
		for n, l := range lines {
			names[n] = by.of(l, landmarkDay)
		}
	}
	r.form(lines, names)
	r.test()
	return r
}

// SameAge is the largest horizon that every line of a scope has been followed to:
// the age of the youngest import. ok is false where that is less than a day.
func (s Scope) SameAge() (horizon int, ok bool) {
	horizon = s.AsOfDay()
	return horizon, len(s.Lines) > 0 && horizon >= 1
}

// form makes the groups.
func (r *Comparison) form(lines []*Line, names []string) {
	members := map[string][]*Line{}
	var order []string
	for n, l := range lines {
		name := names[n]
		if name == "" {
			name = NotRecorded
		}
		if members[name] == nil {
			order = append(order, name)
		}
		members[name] = append(members[name], l)
	}
	r.By.sorted(order, members)
	var curves []survival.Curve
	for _, name := range order {
		g := groupAt(name, members[name], r.Horizon)
		if g.State == Told {
			curves = append(curves, g.Curve)
		}
		r.Groups = append(r.Groups, g)
	}
	tau := survival.CommonHorizon(float64(r.Horizon), curves...)
	r.Tau = int(tau)
	for n := range r.Groups {
		if g := &r.Groups[n]; g.State == Told {
			g.Mean, g.HasMean = g.Curve.RestrictedMean(tau)
		}
	}
}

// groupAt counts a group's lines at a horizon.
func groupAt(name string, lines []*Line, horizon int) Group {
	g := Group{Name: name, Lines: lines, N: len(lines)}
	seen := map[*content.Import]bool{}
	g.Ripe = true
	subjects := make([]survival.Subject, len(lines))
	for n, l := range lines {
		if i := l.Import(); !seen[i] {
			seen[i] = true
			g.Imports = append(g.Imports, i)
		}
		g.Ripe = g.Ripe && l.AsOfDay >= horizon
		subjects[n] = l.upTo(horizon)
		switch {
		case subjects[n].Lost:
			g.Lost++
		case l.Fate != Open && max(l.Day, 0) < horizon:
			g.Left++
		}
	}
	switch {
	case name == NotRecorded:
		g.State = NotRecordedThere
	case g.N < fewest:
		g.State = Small
	}
	if !g.Ripe {
		if g.State == Told {
			g.State = Unripe
		}
		return g
	}
	g.Row = Scope{Lines: lines}.row(survival.ProductLimit(subjects), horizon)
	g.Alive, g.Unknown = g.Row.Alive, g.Row.PassedOn+g.Row.NotSeen
	if g.State == Told {
		g.Curve = survival.ProductLimit(subjects)
		g.Median = g.Curve.Median()
	}
	return g
}

// upTo is a line followed to a horizon: a loss counts up to and on it, whatever
// comes after is not looked at.
func (l *Line) upTo(horizon int) survival.Subject {
	day := max(l.Day, 0)
	return survival.Subject{Time: float64(min(day, horizon)), Lost: l.Fate == Lost && day <= horizon}
}

// Difference is a group's share alive minus another's, with 95 % limits:
// Newcombe's where both are counts of all their lines, else of a normal
// distribution with both standard errors. ok is false where one of them has no
// share, and where there is no error to go by: all of one lost among unknown
// ones, or nobody lost in either.
func (r Comparison) Difference(a, b int) (value, lower, upper float64, ok bool) {
	g, h := r.Groups[a], r.Groups[b]
	if !g.HasShare() || !h.HasShare() {
		return 0, 0, 0, false
	}
	if r.BothCounted(a, b) {
		i, ok := survival.Newcombe(g.Row.Alive, g.N, h.Row.Alive, h.N, 0.95)
		return g.Row.Share - h.Row.Share, i.Lower, i.Upper, ok
	}
	x, y := g.Curve.At(float64(r.Horizon)), h.Curve.At(float64(r.Horizon))
	if !x.HasStdError || !y.HasStdError || x.StdError+y.StdError == 0 {
		return 0, 0, 0, false
	}
	d := survival.NormalDifference(x.Share, x.StdError, y.Share, y.StdError, 0.95)
	return d.Value, d.Lower, d.Upper, true
}

// BothCounted tells whether two groups' shares are both counts of all their lines,
// nobody's state being unknown; Difference then has Newcombe's limits.
func (r Comparison) BothCounted(a, b int) bool {
	return r.Groups[a].Row.Kind == Counted && r.Groups[b].Row.Kind == Counted
}

// HasShare tells whether the group has a share alive at the horizon.
func (g Group) HasShare() bool {
	return g.State == Told && (g.Row.Kind == Counted || g.Row.Kind == Estimated)
}
