package abroad

import "fmt"

// schema judges what a table's descriptor says of its columns and keys.
func (t telling) schema(out *table, v *value, o object) bool {
	out.schema = o.get("fields")
	if out.schema == nil {
		t.r.fault(t.f, v.start, v.start+1, "there are no \"fields\" at "+v.pointer(), "a list of the table's columns", mendWhole)
		return false
	}
	fields := t.list(out.schema)
	if len(fields) == 0 || len(fields) > mostFields {
		t.wrong(out.schema, "a table has columns, and not too many", fmt.Sprintf("1 to %d fields", mostFields), mendWhole)
		return false
	}
	column := map[string]int{}
	for _, at := range fields {
		fo, ok := t.object(at)
		if !ok {
			return false
		}
		f := field{name: t.must(at, fo, "name"), kind: "any"}
		if kind, said := t.text(fo, "type"); said != nil {
			f.kind = kind
		}
		if _, twice := column[f.name]; twice {
			t.wrong(at, fmt.Sprintf("two columns are called %q", f.name), "a name of its own for each", mendWhole)
			return false
		}
		column[f.name] = len(out.fields)
		for _, word := range t.list(fo.get("categories")) {
			if f.words == nil {
				f.words = map[string]bool{}
			}
			switch w := word.of.(type) {
			case string:
				f.words[w] = true
			case object:
				said, _ := t.text(w, "value")
				f.words[said] = true
			default:
				t.wrong(word, "a category should stand", "words in quotes", mendWhole)
			}
		}
		if c := fo.get("constraints"); c != nil {
			if co, ok := t.object(c); ok {
				f.required, f.unique = t.yes(co.get("required")), t.yes(co.get("unique"))
			}
		}
		out.fields = append(out.fields, f)
	}
	missing := o.get("missingValues")
	if missing == nil {
		out.missing[""] = true
	}
	for _, m := range t.list(missing) {
		switch w := m.of.(type) {
		case string:
			out.missing[w] = true
		case object:
			said, _ := t.text(w, "value")
			out.missing[said] = true
		default:
			t.wrong(m, "a missing value should stand", "words in quotes", mendWhole)
		}
	}
	ok := true
	out.key, ok = t.columns(o.get("primaryKey"), column)
	if !ok {
		return false
	}
	keys := t.list(o.get("foreignKeys"))
	if len(keys) > mostKeys {
		t.wrong(keys[mostKeys], "a table has too many keys into others", fmt.Sprintf("at most %d", mostKeys), "")
		return false
	}
	for _, k := range keys {
		ko, isObject := t.object(k)
		if !isObject {
			return false
		}
		f := foreign{at: k}
		if f.fields, ok = t.columns(ko.get("fields"), column); !ok {
			return false
		}
		ref := ko.get("reference")
		if ref == nil {
			t.r.fault(t.f, k.start, k.start+1, "there is no \"reference\" at "+k.pointer(), "the table that the key leads to", mendWhole)
			return false
		}
		ro, isObject := t.object(ref)
		if !isObject {
			return false
		}
		if f.resource, _ = t.text(ro, "resource"); f.resource == "" {
			f.resource = out.name // a table's own rows are meant where none is named
		}
		for _, name := range t.several(ro.get("fields")) {
			of, _ := name.of.(string)
			f.of = append(f.of, of)
		}
		if len(f.of) != len(f.fields) || len(f.of) == 0 {
			t.wrong(k, "a key leads to as many columns as it has", "as many fields on either side", mendWhole)
			return false
		}
		out.foreign = append(out.foreign, f)
	}
	return true
}

func (t telling) yes(v *value) bool {
	if v == nil {
		return false
	}
	b, ok := v.of.(bool)
	if !ok {
		t.wrong(v, "true or false should stand", "true or false", mendWhole)
	}
	return b
}

// several takes one word, or a list of them.
func (t telling) several(v *value) []*value {
	if v == nil {
		return nil
	}
	if _, one := v.of.(string); one {
		return []*value{v}
	}
	return t.list(v)
}

// columns finds the columns that a key names.
func (t telling) columns(v *value, column map[string]int) (out []int, ok bool) {
	for _, name := range t.several(v) {
		s, isText := name.of.(string)
		n, there := column[s]
		if !isText || !there {
			t.wrong(name, "a key names a column that isn't there", "the name of one of the table's fields", mendWhole)
			return nil, false
		}
		out = append(out, n)
	}
	return out, true
}
