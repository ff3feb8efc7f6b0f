package abroad

import (
	"fmt"
	"slices"
	"strconv"

	"wardian/content/measure"
	"wardian/content/source"
)

// needs are the tables that are used, and the columns of each that must be there.
// places and groups may be left out: a grower may publish less.
var needs = []struct {
	table  string
	must   bool
	fields []need
}{
	{"specimens", true, []need{
		{"specimen", "string"}, {"parent", "string"}, {"import", "string"}, {"arrived", "date"}, {"pooled", "boolean"},
		{"line_fate", "string"}, {"line_day", "integer"}, {"cause", "string"},
	}},
	{"places", false, []need{
		{"place", "string"}, {"name", "string"}, {"stage", "string"}, {"humidity", "number"}, {"temperature", "number"},
		{"bottom_heat", "boolean"}, {"quarantine", "boolean"}, {"check_every", "integer"},
	}},
	{"groups", false, []need{
		{"by", "string"}, {"horizon", "integer"}, {"landmark", "integer"}, {"group", "string"}, {"imports", "integer"}, {"n", "integer"},
		{"lost", "integer"}, {"left", "integer"}, {"alive_at", "integer"}, {"unknown_at", "integer"}, {"share", "number"}, {"lower", "number"}, {"upper", "number"},
	}},
}

type need struct{ name, kind string }

// read judges the whole package and takes what is used of it.
func (r *reader) read() (*Diary, error) {
	data, ok, err := r.get(Descriptor, mostDescriptor)
	if !ok || err != nil {
		return nil, err
	}
	d := r.describe(data)
	if d == nil {
		return nil, nil
	}
	described := r.told[Descriptor] == 0
	r.tables = map[string]*table{}
	for _, t := range d.tables {
		r.tables[t.name] = t
	}
	for _, n := range needs {
		t := r.tables[n.table]
		switch {
		case t != nil:
			t.keep = r.holds(d, t, n.fields)
		case n.must && described: // else what keeps it away is told
			r.fault(d.file, d.list.start, min(d.list.end, d.list.start+1), fmt.Sprintf("there is no table %q at %s", n.table, d.list.pointer()), "the table of plants, specimens.csv, among the resources", mendWhole)
		}
	}
	for _, t := range d.tables {
		if err := r.readTable(t); err != nil {
			return nil, err
		}
	}
	r.keys(d)
	if len(r.told) > 0 {
		return nil, nil
	}
	out := &Diary{Title: d.title, Homepage: d.homepage, Licences: d.licences, AsOf: d.created, Terms: d.terms}
	r.lines(d, out)
	if t := r.tables["places"]; t != nil {
		out.HasPlaces = true
		for _, row := range t.rows {
			out.Places = append(out.Places, placeOf(t.taken(row)))
		}
	}
	if t := r.tables["groups"]; t != nil {
		out.HasGroups = true
		for n, row := range t.rows {
			out.Groups = append(out.Groups, r.group(t, n, row))
		}
	}
	return out, nil
}

// holds tells whether a table has the columns that are used, of the types that they
// must have.
func (r *reader) holds(d *descriptor, t *table, fields []need) bool {
	sound := true
	for _, want := range fields {
		n := slices.IndexFunc(t.fields, func(f field) bool { return f.name == want.name })
		switch {
		case n < 0:
			r.fault(d.file, t.schema.start, t.schema.start+1, fmt.Sprintf("the table %s has no column %q at %s", t.name, want.name, t.schema.pointer()), "the columns that Wardian publishes", mendWhole)
			sound = false
		case t.fields[n].kind != want.kind:
			at := t.schema.of.([]*value)[n]
			telling{r, d.file}.wrong(at, fmt.Sprintf("the column %q is of type %q", want.name, short(t.fields[n].kind)), "type "+want.kind, mendWhole)
			sound = false
		}
	}
	return sound
}

// taken gives the cells of a row by the names of their columns; missing ones are
// left out.
func (t *table) taken(row []cell) map[string]string {
	out := make(map[string]string, len(row))
	for n, c := range row {
		if !t.missing[c.text] {
			out[t.fields[n].name] = c.text
		}
	}
	return out
}

// lines takes the plants as received. Sections follow their lines and have no fate
// of their own here.
func (r *reader) lines(d *descriptor, out *Diary) {
	t := r.tables["specimens"]
	for n, row := range t.rows {
		said := t.taken(row)
		if said["parent"] != "" {
			continue
		}
		wrong := func(column, message, expected string) {
			i := slices.IndexFunc(t.fields, func(f field) bool { return f.name == column })
			at := source.Position{Line: row[i].line, Column: 1}
			r.at(nil, t.path, source.Span{Start: at, End: at}, fmt.Sprintf("row %d, column %s: %s", n+1, column, message), expected, mendWhole)
		}
		l := Line{ID: said["specimen"], Import: said["import"], Pooled: said["pooled"] == "true", Fate: said["line_fate"], Cause: said["cause"]}
		arrived, trouble := measure.ParseDay(said["arrived"])
		if trouble != nil || l.ID == "" || l.Import == "" {
			wrong("arrived", "a plant without an ID, an import or a day of arrival", "all three")
			continue
		}
		if !d.created.Known() {
			r.fault(d.file, d.list.start, d.list.start+1, "plants are told of and no day on which that was at /created", "a day such as 2026-06-01T00:00:00Z", mendWhole)
			return
		}
		l.Arrived, l.AsOfDay = arrived, int(d.created-arrived)
		if !slices.Contains([]string{Alive, Lost, PassedOn, NotSeen}, l.Fate) {
			wrong("line_fate", fmt.Sprintf("%q is no fate of a line", short(l.Fate)), "alive, lost, passed on or not seen since")
			continue
		}
		day, dated := said["line_day"]
		if l.Undated = !dated; dated {
			l.Day, _ = strconv.Atoi(day)
			if l.Day < 0 || l.Day > max(0, l.AsOfDay) {
				wrong("line_day", fmt.Sprintf("day %s isn't between arrival and the day of the package, day %d", day, l.AsOfDay), "a day from 0 on, no later than what was published")
				continue
			}
		}
		out.Lines = append(out.Lines, l)
	}
}

func placeOf(said map[string]string) Place {
	p := Place{ID: said["place"], Name: said["name"], Stage: said["stage"], BottomHeat: said["bottom_heat"] == "true", Quarantine: said["quarantine"] == "true"}
	p.Humidity, p.Temperature = fraction(said, "humidity"), fraction(said, "temperature")
	p.CheckEvery, _ = strconv.Atoi(said["check_every"])
	return p
}

// group takes a row of groups.csv; counts that can't be are told.
func (r *reader) group(t *table, n int, row []cell) Group {
	said := t.taken(row)
	g := Group{By: said["by"], Name: said["group"], Landmark: number(said, "landmark"), AliveAt: number(said, "alive_at"), UnknownAt: number(said, "unknown_at"),
		Share: fraction(said, "share"), Lower: fraction(said, "lower"), Upper: fraction(said, "upper")}
	for name, to := range map[string]*int{"horizon": &g.Horizon, "imports": &g.Imports, "n": &g.N, "lost": &g.Lost, "left": &g.Left} {
		*to, _ = strconv.Atoi(said[name])
	}
	wrong := ""
	switch {
	case g.Horizon < 1 || g.N < 0 || g.Imports < 0 || g.Lost < 0 || g.Left < 0 || g.Lost+g.Left > g.N:
		wrong = "its counts don't go together"
	case g.AliveAt != nil && g.UnknownAt != nil && (*g.AliveAt < 0 || *g.UnknownAt < 0 || *g.AliveAt+*g.UnknownAt+g.Lost != g.N):
		wrong = "alive, lost and unknown don't add up to its lines"
	case !within(g.Share) || !within(g.Lower) || !within(g.Upper):
		wrong = "a share isn't between 0 and 1"
	}
	if wrong != "" {
		at := source.Position{Line: row[0].line, Column: 1}
		r.at(nil, t.path, source.Span{Start: at, End: at}, fmt.Sprintf("row %d: %s", n+1, wrong), "a group as it was counted", mendWhole)
	}
	return g
}

func within(share *float64) bool { return share == nil || *share >= 0 && *share <= 1 }

// number gives a whole number, nil where it is missing.
func number(said map[string]string, name string) *int {
	n, err := strconv.Atoi(said[name])
	if err != nil {
		return nil
	}
	return &n
}

// fraction gives a number, nil where it is missing.
func fraction(said map[string]string, name string) *float64 {
	x, err := strconv.ParseFloat(said[name], 64)
	if err != nil {
		return nil
	}
	return &x
}
