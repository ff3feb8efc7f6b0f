package content

import (
	"cmp"
	"slices"
	"strconv"

	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/source"
)

var (
	noDay    = measure.NoDay
	noMoment = measure.NoMoment
)

func cmpString(a, b string) int { return cmp.Compare(a, b) }

// idLists are the IDs there are, for offering the nearest.
type idLists struct{ places, imports, specimens []string }

func (l *loader) placeIDs() []string {
	if l.ids.places == nil {
		l.ids.places = idsOf(l.diary.Places)
	}
	return l.ids.places
}

func (l *loader) importIDs() []string {
	if l.ids.imports == nil {
		l.ids.imports = idsOf(l.diary.Imports)
	}
	return l.ids.imports
}

func (l *loader) specimenIDs() []string {
	if l.ids.specimens == nil {
		l.ids.specimens = idsOf(l.diary.Specimens)
	}
	return l.ids.specimens
}

func idsOf[T identified](list []T) []string {
	out := make([]string, 0, len(list))
	for _, x := range list {
		out = append(out, x.key())
	}
	return out
}

// unknownID reports an ID that nothing bears. One whose own file was refused has
// its finding there.
func (l *loader) unknownID(f *source.File, m Mention, kind string, known []string) {
	if l.refused[kind+"/"+m.ID] {
		return
	}
	folder := map[string]string{"place": "places/", "import": "imports/", "specimen": "specimens/"}[kind]
	hint := ""
	if l.search(f) {
		hint = nearest(m.ID, known)
	}
	if hint == "" {
		hint = "begin a file " + folder + m.ID + ".md"
		if code, _, mend := idTrouble(m.ID); code != "" {
			hint = "write the name of a file in " + folder + ", without .md"
			if len(known) > 0 {
				hint += ", such as " + known[0]
			}
			if slices.Contains(known, mend) {
				hint = "nearest: " + mend
			}
		}
	}
	l.report.Add(f, header.Fault("unknown-id", m.Span, "there is no "+kind+" "+quoted(m.ID), "the ID of a file in "+folder, hint))
}

// search says whether another search may be made for a file.
func (l *loader) search(f *source.File) bool {
	l.searches.mu.Lock()
	defer l.searches.mu.Unlock()
	l.searches.of[f]++
	return l.searches.of[f] <= maxSearches
}

// ties judges what an entry names that must be in the diary: specimens, and where
// its words lead.
func (l *loader) ties(e *Entry, t *targets) {
	report := &source.Report{}
	aside := l.aside(report)
	for _, n := range e.Named {
		aside.specimenNamed(e.File, n.Mention)
	}
	for _, m := range e.NotSeen {
		aside.specimenNamed(e.File, m)
	}
	t.page(&e.Page, report)
	if wrong := report.Findings(); len(wrong) > 0 {
		l.wrong[e] = append(l.wrong[e], wrong...)
	}
}

// references judges money that has no rate.
func (l *loader) references() {
	d := l.diary
	for _, i := range d.Imports {
		for _, c := range i.Costs {
			l.convertible(&i.Page, i, c.Amount, "costs."+c.Words)
		}
		for n, r := range i.Refunds {
			l.convertible(&i.Page, i, r.Amount, refundKey(n, "amount"))
		}
	}
	for _, s := range d.Specimens {
		if s.File == nil || s.Import == nil {
			continue
		}
		if s.Price != nil {
			l.convertible(&s.Page, s.Import, *s.Price, "price")
		}
		if s.Local != nil {
			l.convertible(&s.Page, s.Import, *s.Local, "local-price")
		}
	}
}

func (l *loader) specimenNamed(f *source.File, m Mention) {
	if l.diary.Specimen(m.ID) == nil {
		l.unknownID(f, m, "specimen", l.specimenIDs())
	}
}

// convertible reports money in another currency than the diary's, where the
// import has no rate for it.
func (l *loader) convertible(p *Page, i *Import, m measure.Money, key string) {
	if m.Zero() || m.Currency == "" || m.Currency == l.diary.Settings.Currency {
		return
	}
	for _, r := range i.Rates {
		if r.Currency == m.Currency {
			return
		}
	}
	at := p.Spans.Of(key, p.Head)
	if l.diary.Settings.Currency == "" {
		if l.noMoney {
			return
		}
		l.noMoney = true
		l.report.Add(p.File, header.Fault("no-currency", at, "an amount in a diary that names no currency", "currency: in diary.yaml", "write currency: "+m.Currency+" in diary.yaml"))
		return
	}
	var have []string
	for _, r := range i.Rates {
		have = append(have, r.Currency)
	}
	hint := "write rates: {" + m.Currency + ": what one cost} in " + i.File.Path
	if near := source.Nearest(m.Currency, have); near != "" {
		hint = "nearest: " + near
	}
	l.report.Add(p.File, header.Fault("no-rate", at, "import "+i.ID+" has no rate for "+m.Currency, "a rate under rates, in "+l.diary.Settings.Currency+" for one "+m.Currency, hint))
}

// knownSeason reports words about a season that no import is of.
func (l *loader) knownSeason(s *SeasonWords, at source.Span) {
	var seasons []string
	for _, i := range l.diary.Imports {
		if i.Season == s.Season {
			return
		}
		seasons = append(seasons, i.Season)
	}
	hint := nearest(s.Season, seasons)
	if hint == "" {
		hint = "write it as the imports do"
	}
	l.report.Add(s.File, header.Fault("unknown-season", at, "no import is of the season "+quoted(s.Season), "a season as imports write it", hint))
}

// whole remembers whether a specimen's front matter could be read to its end.
func (l *loader) whole(s *Specimen, broken bool) {
	if broken {
		l.broken[s] = true
	}
}

// refundKey is the key under which the place of a refund's value is kept.
func refundKey(n int, key string) string {
	return "refunds." + strconv.Itoa(n) + "." + key
}
