package schema

import (
	"bytes"
	"encoding/json"
)

// object is a JSON object that keeps its keys in the order in which they were
// set, so that a schema reads in the order of the tables.
type object struct {
	keys   []string
	values map[string]any
}

// set puts a key at the end, or changes one that is there.
func (o *object) set(key string, value any) *object {
	if o.values == nil {
		o.values = map[string]any{}
	}
	if _, ok := o.values[key]; !ok {
		o.keys = append(o.keys, key)
	}
	o.values[key] = value
	return o
}

// obj makes an object of keys and values in turn.
func obj(pairs ...any) *object {
	o := &object{}
	for i := 0; i+1 < len(pairs); i += 2 {
		o.set(pairs[i].(string), pairs[i+1])
	}
	return o
}

// MarshalJSON writes the object in its own order.
func (o *object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, key := range o.keys {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := encode(&b, key); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := encode(&b, o.values[key]); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// encode writes one value as it stands: < and & are no danger in a schema.
func encode(b *bytes.Buffer, value any) error {
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	if err := e.Encode(value); err != nil {
		return err
	}
	b.Truncate(b.Len() - 1)
	return nil
}
