package abroad

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wardian/content/source"
)

// named is the name under which the values of several columns are kept.
func named(columns []string) string { return strings.Join(columns, "\x00") }

// followed gives the columns whose values have to be kept, since a key leads to or
// from them.
func (t *table) followed(r *reader) map[string][]int {
	out := map[string][]int{}
	add := func(names []string) {
		var columns []int
		for _, name := range names {
			n := slices.IndexFunc(t.fields, func(f field) bool { return f.name == name })
			if n < 0 {
				return // told by keys
			}
			columns = append(columns, n)
		}
		if key := named(names); out[key] == nil {
			out[key], t.values[key] = columns, map[string]cell{}
		}
	}
	for _, other := range r.tables {
		for _, k := range other.foreign {
			if k.resource == t.name {
				add(k.of)
			}
		}
	}
	for _, k := range t.foreign {
		add(t.names(k.fields))
	}
	return out
}

func (t *table) names(columns []int) []string {
	out := make([]string, len(columns))
	for n, c := range columns {
		out[n] = t.fields[c].name
	}
	return out
}

// keys holds the keys that lead from one table into another to it.
func (r *reader) keys(d *descriptor) {
	judged := telling{r, d.file}
	for _, t := range d.tables {
		for _, k := range t.foreign {
			to := r.tables[k.resource]
			if to == nil || !to.has(k.of) {
				judged.wrong(k.at, "a key leads to a column that isn't there", "a table and fields of this package", mendWhole)
				continue
			}
			if !t.sound || !to.sound {
				continue // what is wrong there is told
			}
			there := to.values[named(k.of)]
			from := t.values[named(t.names(k.fields))]
			for _, key := range slices.Sorted(maps.Keys(from)) {
				if _, ok := there[key]; ok || t.missing[key] || strings.Trim(key, "\x00") == "" {
					continue
				}
				c := from[key]
				f := source.Span{Start: source.Position{Line: c.line, Column: 1}, End: source.Position{Line: c.line, Column: 1}}
				r.at(nil, t.path, f, fmt.Sprintf("column %s: %q is nowhere in %s of %s", strings.Join(t.names(k.fields), ", "), short(strings.ReplaceAll(key, "\x00", " ")), strings.Join(k.of, ", "), k.resource), "a value that stands there", mendWhole)
			}
		}
	}
}

func (t *table) has(columns []string) bool {
	for _, name := range columns {
		if !slices.ContainsFunc(t.fields, func(f field) bool { return f.name == name }) {
			return false
		}
	}
	return true
}

func sorted(words map[string]bool) []string { return slices.Sorted(maps.Keys(words)) }
