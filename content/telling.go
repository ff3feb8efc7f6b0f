package content

import (
	"slices"

	"wardian/content/measure"
	"wardian/content/source"
)

// telling is a diary told up to a day, specimen by specimen. What becomes of one
// depends on the entries that name it, on the rounds held where it stands, on its
// list and on its parent's cut, and on nothing else: each is told by itself, a
// parent before its sections. Only then are the entries judged as wholes, for
// what they say of several specimens together.
type telling struct {
	diary    *Diary
	until    measure.Day
	index    *index
	plants   []*plant // by ID
	byID     map[string]*plant
	verdicts map[*Entry]*source.Report // what is wrong with an entry as a whole; nil where nothing is judged
	spoken   map[*Entry]int            // for how many specimens a round speaks that it doesn't name
}

// tell tells a diary, and judges what it meets where that is wanted.
func (d *Diary) tell(until measure.Day, judging bool) *telling {
	t := &telling{diary: d, until: until, index: newIndex(d), byID: make(map[string]*plant, len(d.Specimens)), spoken: map[*Entry]int{}}
	if judging {
		t.verdicts = map[*Entry]*source.Report{}
	}
	t.plants = make([]*plant, 0, len(d.Specimens))
	for _, s := range d.Specimens {
		p := t.newPlant(s)
		t.plants = append(t.plants, p)
		t.byID[s.ID] = p
	}
	for _, p := range t.plants {
		t.follow(p)
	}
	for _, e := range d.Entries {
		t.judge(e)
	}
	return t
}

// follow tells a specimen, its parent first.
func (t *telling) follow(p *plant) {
	if p.followed {
		return
	}
	p.followed = true
	if parent := p.Specimen.Parent; parent != nil && t.byID[parent.ID] != nil { // one that was refused is not there
		t.follow(t.byID[parent.ID])
	}
	w := &walk{telling: t, report: p.verdict}
	w.life(p)
	if p.verdict != nil && len(p.verdict.Findings()) == 0 {
		p.verdict = nil
	}
}

// judge judges an entry as a whole, when all that it names are told.
func (t *telling) judge(e *Entry) {
	if t.verdicts == nil {
		return
	}
	delete(t.verdicts, e)
	w := &walk{telling: t, report: &source.Report{}}
	w.judgeEntry(e)
	if len(w.report.Findings()) > 0 {
		t.verdicts[e] = w.report
	}
}

// report gathers what was found wrong.
func (t *telling) report(into *source.Report) {
	for _, p := range t.plants {
		if p.verdict == nil {
			continue
		}
		for _, f := range p.verdict.Findings() {
			into.Add(nil, f)
		}
	}
	for _, r := range t.verdicts {
		for _, f := range r.Findings() {
			into.Add(nil, f)
		}
	}
}

// timelines gives what was told.
func (t *telling) timelines() *Timelines {
	out := &Timelines{Diary: t.diary, Until: t.until, List: make([]*Timeline, 0, len(t.plants))}
	for _, p := range t.plants {
		if p.begun && (!t.until.Known() || p.Begins.Day <= t.until) {
			out.List = append(out.List, p.Timeline)
		}
	}
	out.Notes, out.Taken, out.unfinished = t.upTo(t.index.notes), t.upTo(t.index.taken), t.upTo(t.index.unfinished)
	return out
}

// upTo copies entries up to the last day told.
func (t *telling) upTo(entries []*Entry) []*Entry {
	if n := slices.IndexFunc(entries, func(e *Entry) bool { return t.until.Known() && e.When.Day > t.until }); n >= 0 {
		entries = entries[:n]
	}
	return slices.Clone(entries)
}

// named gives the check-ins of an entry that say something, in the order of the
// file.
func named(e *Entry) []*CheckIn {
	return slices.DeleteFunc(slices.Clone(e.Named), func(c *CheckIn) bool { return c.Empty })
}
