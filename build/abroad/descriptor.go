package abroad

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wardian/content/measure"
	"wardian/content/source"
)

// These bound what one descriptor may ask to be read.
const (
	mostResources = 100
	mostFields    = 500
	mostKeys      = 20 // from one table into others
)

// table is one CSV as the descriptor tells of it.
type table struct {
	name, path string
	bytes      int64  // -1 where not said
	hash       string // "" where not said
	fields     []field
	key        []int
	foreign    []foreign
	missing    map[string]bool
	at         *value   // the resource
	schema     *value   // its fields
	rows       [][]cell // kept where keep
	keep       bool
	values     map[string]map[string]cell // of fields that take part in keys between tables: first places
	sound      bool                       // its rows could be read
}

// field is one column.
type field struct {
	name, kind       string
	words            map[string]bool // categories; nil where they are open
	required, unique bool
}

// foreign is a key into another table, or its own.
type foreign struct {
	fields   []int
	resource string
	of       []string
	at       *value
}

// descriptor is what the whole tells.
type descriptor struct {
	file     *source.File
	title    string
	homepage string
	licences []string
	created  measure.Day
	terms    *Terms
	tables   []*table
	list     *value // the resources
}

// telling judges values of one descriptor.
type telling struct {
	r *reader
	f *source.File
}

const (
	mendWhole = "build the site again and publish its open-data as it is"
)

func (t telling) wrong(v *value, message, expected, hint string) {
	if t.r.told[t.f.Path] <= mostTold { // a pointer is dear where there are many
		t.r.fault(t.f, v.start, v.end, message+" at "+v.pointer(), expected, hint)
	}
}

// text gives a member that must be words; "" and false where it isn't there.
func (t telling) text(o object, key string) (string, *value) {
	v := o.get(key)
	if v == nil {
		return "", nil
	}
	s, ok := v.of.(string)
	if !ok {
		t.wrong(v, "words should stand", "words in quotes", mendWhole)
	}
	return s, v
}

// must is text that has to be there.
func (t telling) must(in *value, o object, key string) string {
	s, v := t.text(o, key)
	if v == nil {
		t.r.fault(t.f, in.start, in.start+1, fmt.Sprintf("there is no %q at %s", key, in.pointer()), "a "+key, mendWhole)
	}
	return s
}

func (t telling) list(v *value) []*value {
	if v == nil {
		return nil
	}
	l, ok := v.of.([]*value)
	if !ok {
		t.wrong(v, "a list should stand", "a list in square brackets", mendWhole)
	}
	return l
}

func (t telling) object(v *value) (object, bool) {
	o, ok := v.of.(object)
	if !ok {
		t.wrong(v, "an object should stand", "an object in braces", mendWhole)
	}
	return o, ok
}

// count gives a whole number from 0 to a billion.
func (t telling) count(v *value) (int, bool) {
	n, err := 0, fmt.Errorf("no number")
	if number, is := v.of.(json.Number); is {
		n, err = strconv.Atoi(number.String())
	}
	if err != nil || n < 0 || n > 1e9 {
		t.wrong(v, "a whole number should stand", "a number such as 42", mendWhole)
		return 0, false
	}
	return n, true
}

// describe judges the descriptor; nil where it can't be read at all.
func (r *reader) describe(data []byte) *descriptor {
	f := source.New(Descriptor, data)
	top, faults := parse(data)
	for _, x := range faults {
		r.fault(f, x.start, x.end, x.message, x.expected, x.hint)
	}
	if top == nil {
		return nil
	}
	t := telling{r, f}
	o, ok := t.object(top)
	if !ok {
		return nil
	}
	d := &descriptor{file: f, created: measure.NoDay}
	if s, v := t.text(o, "$schema"); v == nil || !strings.Contains(s, "/profiles/2.0/") {
		at := top
		if v != nil {
			at = v
		}
		r.fault(f, at.start, min(at.end, at.start+64), "the package isn't said to be a Data Package 2.0 at /$schema", "https://datapackage.org/profiles/2.0/datapackage.json", mendWhole)
	}
	d.title, _ = t.text(o, "title")
	if d.title == "" {
		d.title = t.must(top, o, "name")
	}
	d.homepage, _ = t.text(o, "homepage")
	for _, l := range t.list(o.get("licenses")) {
		if lo, ok := t.object(l); ok {
			name, _ := t.text(lo, "name")
			if name == "" {
				name, _ = t.text(lo, "path")
			}
			if name != "" {
				d.licences = append(d.licences, name)
			}
		}
	}
	if s, v := t.text(o, "created"); v != nil {
		day, trouble := measure.ParseDay(firstTen(s))
		if trouble != nil {
			t.wrong(v, "a day should stand", "a day such as 2026-06-01T00:00:00Z", mendWhole)
		} else {
			d.created = day
		}
	}
	if v := o.get("diary"); v != nil {
		d.terms = t.terms(v)
	}
	d.list = o.get("resources")
	if d.list == nil {
		r.fault(f, top.start, top.start+1, "there is no \"resources\" at the top", "the list of the package's files", mendWhole)
		return nil
	}
	resources := t.list(d.list)
	if len(resources) > mostResources {
		t.wrong(resources[mostResources], "the package tells of too many files", fmt.Sprintf("at most %d", mostResources), "")
		return nil
	}
	seen := map[string]bool{}
	for _, v := range resources {
		if table := t.resource(v, seen); table != nil {
			d.tables = append(d.tables, table)
		}
	}
	return d
}

func firstTen(s string) string {
	if len(s) > 10 && s[10] == 'T' {
		return s[:10]
	}
	return s
}

func (t telling) terms(v *value) *Terms {
	o, ok := t.object(v)
	if !ok {
		return nil
	}
	out := &Terms{SeenWithin: -1}
	for _, k := range []struct {
		key string
		to  *int
	}{{"horizon", &out.Horizon}, {"landmark", &out.Landmark}, {"seen_within", &out.SeenWithin}} {
		n := o.get(k.key)
		switch {
		case n == nil:
			t.r.fault(t.f, v.start, v.start+1, fmt.Sprintf("there is no %q at %s", k.key, v.pointer()), "a number of days", mendWhole)
		case n.of == nil && k.key == "seen_within":
		default:
			if days, ok := t.count(n); ok {
				*k.to = days
			}
		}
	}
	return out
}

// resource judges one resource; nil for one that isn't a table or has no shape.
func (t telling) resource(v *value, seen map[string]bool) *table {
	o, ok := t.object(v)
	if !ok {
		return nil
	}
	out := &table{name: t.must(v, o, "name"), path: "", bytes: -1, at: v, missing: map[string]bool{}, values: map[string]map[string]cell{}}
	if out.name == "" {
		return nil
	}
	if seen[out.name] {
		t.wrong(o.get("name"), "two files have one name", "a name of its own for each", mendWhole)
		return nil
	}
	seen[out.name] = true
	p := o.get("path")
	if p == nil {
		t.r.fault(t.f, v.start, v.start+1, "there is no \"path\" at "+v.pointer(), "the file's name in the folder", mendWhole)
		return nil
	}
	name, ok := p.of.(string)
	if !ok {
		t.wrong(p, "one path should stand", "the file's name in the folder, in quotes", mendWhole)
		return nil
	}
	if why := stays(name); why != "" {
		t.wrong(p, why, "the name of a file in this folder, such as specimens.csv", "put the file beside "+Descriptor+" and write its name")
		return nil
	}
	out.path = name
	if format, said := t.text(o, "format"); said != nil && format != "csv" {
		return nil // a file of another kind isn't read
	}
	if encoding, at := t.text(o, "encoding"); at != nil && !slices.Contains([]string{"utf-8", "utf8"}, strings.ToLower(encoding)) {
		t.wrong(at, "the file is said to be in another encoding", "utf-8", mendWhole)
		return nil
	}
	if d := o.get("dialect"); d != nil {
		if dialect, ok := t.object(d); ok {
			if mark, at := t.text(dialect, "delimiter"); at != nil && mark != "," {
				t.wrong(at, "the cells are said to be parted by something else", "a comma", mendWhole)
				return nil
			}
		}
	}
	if b := o.get("bytes"); b != nil {
		if n, ok := t.count(b); ok {
			out.bytes = int64(n)
		}
	}
	out.hash, _ = t.text(o, "hash")
	schema := o.get("schema")
	if schema == nil {
		t.r.fault(t.f, v.start, v.start+1, "there is no \"schema\" at "+v.pointer(), "what each column means", mendWhole)
		return nil
	}
	if so, ok := t.object(schema); ok && t.schema(out, schema, so) {
		return out
	}
	return nil
}
