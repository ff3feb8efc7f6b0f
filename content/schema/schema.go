package schema

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/source"
)

// Draft names the version of JSON Schema.
const Draft = "https://json-schema.org/draft/2020-12/schema"

// ID is the name of the schema of a kind of file. It is a name and no address:
// nothing is ever fetched.
func ID(f *format.File) string {
	return "urn:wardian:schema:" + strings.ReplaceAll(f.Name, " ", "-")
}

// Of writes the schema of a kind of file, indented, with a line end behind it.
func Of(f *format.File) []byte {
	top := obj("$schema", Draft, "$id", ID(f), "title", f.Name+": "+f.Path, "description", f.About)
	m := maker{}
	rest := m.keyed(f.Keys, requiredOf(f))
	for _, key := range rest.keys {
		top.set(key, rest.values[key])
	}
	if c := together[f.Name]; len(c) > 0 {
		top.set("allOf", c)
	}
	if m.plant != nil {
		top.set("$defs", obj("plant", m.plant))
	}
	var plain, out bytes.Buffer
	err := encode(&plain, top)
	if err == nil {
		err = json.Indent(&out, plain.Bytes(), "", "  ")
	}
	if err != nil {
		panic("schema: " + err.Error()) // made of strings, numbers, lists and objects, which always encode
	}
	return append(out.Bytes(), '\n')
}

// maker makes one schema. What a round may say of a plant stands once, under
// $defs.
type maker struct{ plant *object }

// keyed is the schema of a map with keys of its own.
func (m *maker) keyed(keys []format.Key, required []string) *object {
	props := &object{}
	for i := range keys {
		props.set(keys[i].Name, m.key(&keys[i]))
	}
	o := obj("type", "object", "properties", props)
	if len(required) > 0 {
		o.set("required", required)
	}
	return o.set("additionalProperties", false)
}

// key is the schema of what stands behind one key, with what the table tells of
// it.
func (m *maker) key(k *format.Key) *object {
	o := m.value(&k.Value)
	if b, ok := bounds[k.Name]; ok {
		o.set("minimum", b[0]).set("maximum", b[1])
	}
	if !k.Required && !filled[k.Name] {
		o = orNothing(o)
	}
	told := obj("description", Describe(k))
	if example := exampleOf(k); example != nil {
		told.set("examples", []any{example})
	}
	for _, key := range o.keys {
		told.set(key, o.values[key])
	}
	return told
}

// Describe tells in words what a key is, which words it takes and what holds
// without it.
func Describe(k *format.Key) string {
	var b strings.Builder
	b.WriteString(k.About)
	if v := wordsOf(&k.Value); v != nil {
		before := " "
		for _, w := range v.Words {
			b.WriteString(before + w.Word + ": " + w.About)
			before = "; "
		}
		b.WriteString(".")
	}
	if k.Value.Kind != format.Choice && k.Value.Kind != format.Anything {
		fmt.Fprintf(&b, " Written as %s.", k.Value.Kind.Expected())
	}
	if k.Default != "" {
		fmt.Fprintf(&b, " Without it: %s.", k.Default)
	}
	return b.String()
}

// wordsOf finds the words of a value or of a list's items.
func wordsOf(v *format.Value) *format.Value {
	for ; v != nil; v = v.Item {
		if len(v.Words) > 0 {
			return v
		}
	}
	return nil
}

// exampleOf is a key's example as JSON; nil where it has none.
func exampleOf(k *format.Key) any {
	text := k.Name + ": " + k.Example + "\n"
	h := header.Whole(source.New("example", []byte(text)), &source.Report{})
	if f := h.Top.Field(k.Name); f != nil {
		return Instance(&f.Value)
	}
	return nil
}

// orNothing lets a key stand with nothing behind it, which says nothing.
func orNothing(o *object) *object {
	switch t := o.values["type"].(type) {
	case string:
		if o.values["enum"] == nil {
			return o.set("type", []string{t, "null"})
		}
	case []string:
		return o.set("type", append(t, "null"))
	case nil:
		if len(o.keys) == 0 {
			return o // anything, nothing among it
		}
	}
	return obj("anyOf", []any{o, obj("type", "null")})
}

// value is the schema of a value.
func (m *maker) value(v *format.Value) *object {
	switch v.Kind {
	case format.Anything:
		return &object{}
	case format.Choice:
		return obj("type", "string", "enum", v.WordList())
	case format.Cause:
		one := obj("type", "string", "pattern", whole(causeByWord))
		return obj("anyOf", []any{one, obj("type", "array", "items", orNothing(one.copied()), "maxItems", 2, "uniqueItems", true)})
	case format.Photo:
		path := obj("type", "string", "pattern", whole(onePicture))
		return obj("anyOf", []any{path, m.keyed(v.Keys, required(v.Keys))})
	case format.Plant:
		if m.plant == nil {
			m.plant = m.keyed(v.Keys, nil)
		}
		return obj("anyOf", []any{obj("type", "string"), obj("$ref", "#/$defs/plant")})
	case format.Map:
		return m.keyed(v.Keys, required(v.Keys))
	case format.Table:
		return m.table(v)
	case format.List:
		item := m.value(v.Item)
		if v.Item.Kind != format.Choice {
			item = orNothing(item)
		}
		list := obj("type", "array", "items", item)
		if !v.Single {
			return list
		}
		return obj("anyOf", []any{m.value(v.Item), list})
	}
	return m.scalar(v)
}

// table is the schema of a map with free keys, and some of its own.
func (m *maker) table(v *format.Value) *object {
	item := m.value(v.Item)
	// Among the free keys a number or a word of a list must be there; anything
	// else may be left empty.
	if v.Item.Kind != format.Whole && v.Item.Kind != format.Choice {
		item = orNothing(item)
	}
	o := obj("type", "object")
	if len(v.Keys) > 0 {
		props := &object{}
		for i := range v.Keys {
			props.set(v.Keys[i].Name, m.key(&v.Keys[i]))
		}
		o.set("properties", props)
	}
	kind, known := naming[v.Naming]
	if !known {
		panic("schema: what are keys that are " + v.Naming + "?")
	}
	if kind != format.Text {
		names := obj("pattern", whole(forms[kind].pattern))
		if kind == format.ID {
			names.set("not", obj("enum", reserved))
		}
		o.set("propertyNames", names)
	}
	return o.set("additionalProperties", item)
}

// naming tells what free keys must look like. Text stands for any words.
var naming = map[string]format.Kind{
	"a day": format.Day, "a currency": format.Currency, "the ID of a section": format.ID, "the ID of a specimen": format.ID,
	"a plant's name": format.Text, "free words": format.Text, "a word": format.Text, "the name of a rule": format.Text,
}

// scalar is the schema of one piece of text. It panics for a kind without a form,
// which a test would show before.
func (m *maker) scalar(v *format.Value) *object {
	f, ok := forms[v.Kind]
	if !ok {
		panic(fmt.Sprintf("schema: a kind without a form: %s", v.Kind.Expected()))
	}
	types := []string{"string"}
	if f.number != "" {
		types = append(types, f.number)
	}
	if f.truth {
		types = append(types, "boolean")
	}
	o := obj("type", types)
	if len(types) == 1 {
		o.set("type", types[0])
	}
	if v.Kind == format.Text {
		o.set("pattern", f.pattern)
	} else {
		// The second is no word of the draft's; editors that know it show it instead
		// of the pattern, and others pass over it.
		o.set("pattern", whole(f.pattern)).set("patternErrorMessage", "expected "+v.Kind.Expected())
	}
	for _, bound := range []struct {
		name string
		at   any
	}{{"minimum", f.least}, {"exclusiveMinimum", f.above}, {"maximum", f.most}} {
		if bound.at != nil {
			o.set(bound.name, bound.at)
		}
	}
	if v.Kind == format.ID {
		o.set("not", obj("enum", reserved))
	}
	return o
}

// reserved are words that can't be IDs.
var reserved = []string{"all", "same", "index", "short"}

// whole makes a pattern hold for a whole text, white space about it let pass.
func whole(pattern string) string { return "^" + space + "(?:" + pattern + ")" + space + "$" }

// copied is an object with the same keys, which can be changed apart.
func (o *object) copied() *object {
	out := &object{}
	for _, key := range o.keys {
		out.set(key, o.values[key])
	}
	return out
}

// required lists the keys that must be there.
func required(keys []format.Key) []string {
	var out []string
	for i := range keys {
		if keys[i].Required {
			out = append(out, keys[i].Name)
		}
	}
	return out
}
