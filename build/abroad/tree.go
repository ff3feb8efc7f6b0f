package abroad

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"wardian/content/source"
)

// The descriptor is read into a small tree of which every value knows where it
// stands, so that a finding can point at it by line, column and JSON pointer. No
// value is decoded into a Go map: a key that stands twice is a fault, and many of
// them would be compared with each other in vain.

// deepest is how far values may be nested: the standard needs seven.
const deepest = 32

// value is one JSON value.
type value struct {
	in         *value // the object or array that holds it; nil for the whole
	name       string // its key or its place there
	start, end int    // bytes of the file
	of         any    // string, json.Number, bool, nil, []*value, object
}

// pointer is the value's JSON pointer (RFC 6901). It is put together when it is
// told and not before: half a million values under long keys would hold as many
// copies of them.
func (v *value) pointer() string {
	if v.in == nil {
		return "the top"
	}
	var steps []string
	for ; v.in != nil; v = v.in {
		steps = append(steps, escaped(v.name))
	}
	slices.Reverse(steps)
	return "/" + strings.Join(steps, "/")
}

// object is a JSON object: its members in order of writing.
type object []member

type member struct {
	key   string
	value *value
}

// get gives a member's value; nil where there is none.
func (o object) get(key string) *value {
	for _, m := range o {
		if m.key == key {
			return m.value
		}
	}
	return nil
}

// parser walks the tokens of a text that is known to be JSON.
type parser struct {
	d      *json.Decoder
	data   []byte
	skip   int // bytes of data before the decoder's first
	faults []treeFault
}

type treeFault struct {
	start, end              int
	message, expected, hint string
}

// parse reads a JSON text. What is wrong with it is told; the tree is nil where it
// isn't JSON or nests too deeply.
func parse(data []byte) (*value, []treeFault) {
	skip := source.TableStart(data)
	if n := firstNotText(data); n >= 0 {
		return nil, []treeFault{{n, n + 1, "the descriptor isn't UTF-8 from here on", "UTF-8, which JSON is written in", "build the site again and publish its open-data as it is"}}
	}
	var whole json.RawMessage
	if err := json.Unmarshal(data[skip:], &whole); err != nil {
		at := len(data)
		if s := (*json.SyntaxError)(nil); errors.As(err, &s) {
			at = skip + max(0, int(s.Offset)-1)
		}
		return nil, []treeFault{{at, min(at+1, len(data)), "the descriptor stops being JSON here", "JSON (RFC 8259)", "build the site again and publish its open-data as it is"}}
	}
	p := &parser{d: json.NewDecoder(bytes.NewReader(data[skip:])), data: data, skip: skip}
	p.d.UseNumber()
	v, ok := p.value(nil, "", 0)
	if !ok {
		return nil, p.faults
	}
	return v, p.faults
}

func firstNotText(data []byte) int {
	for n := 0; n < len(data); {
		r, size := utf8.DecodeRune(data[n:])
		if r == utf8.RuneError && size == 1 || r == 0 {
			return n
		}
		n += size
	}
	return -1
}

// token gives the next token and where it stands.
func (p *parser) token() (t json.Token, start, end int) {
	start = p.skip + int(p.d.InputOffset())
	t, err := p.d.Token()
	if err != nil {
		panic("abroad: a text that is JSON has no next token: " + err.Error()) // the whole was read before
	}
	for start < len(p.data) && strings.IndexByte(" \t\r\n:,", p.data[start]) >= 0 {
		start++
	}
	return t, start, p.skip + int(p.d.InputOffset())
}

func (p *parser) value(in *value, name string, depth int) (*value, bool) {
	t, start, end := p.token()
	v := &value{in: in, name: name, start: start, end: end, of: t}
	mark, compound := t.(json.Delim)
	if !compound {
		return v, true
	}
	if depth == deepest {
		p.faults = append(p.faults, treeFault{start, end, "the descriptor nests too deeply at " + v.pointer(), "at most " + strconv.Itoa(deepest) + " levels", "build the site again and publish its open-data as it is"})
		return nil, false
	}
	if mark == '[' {
		list := []*value{}
		for p.d.More() {
			item, ok := p.value(v, strconv.Itoa(len(list)), depth+1)
			if !ok {
				return nil, false
			}
			list = append(list, item)
		}
		v.of = list
	} else {
		members := object{}
		seen := map[string]bool{}
		for p.d.More() {
			t, from, to := p.token()
			key := t.(string) // JSON has no other keys
			item, ok := p.value(v, key, depth+1)
			if !ok {
				return nil, false
			}
			if seen[key] && len(p.faults) > mostTold {
				continue
			}
			if seen[key] {
				p.faults = append(p.faults, treeFault{from, to, "the key stands twice at " + item.pointer(), "each key once", "leave one of the two out"})
				continue
			}
			seen[key] = true
			members = append(members, member{key, item})
		}
		v.of = members
	}
	_, _, v.end = p.token()
	return v, true
}

// escaped is a key as a JSON pointer has it, cut where it is endless.
func escaped(key string) string {
	if len(key) > 64 {
		key = strings.ToValidUTF8(key[:64], "") + "…"
	}
	return escapes.Replace(key)
}

var escapes = strings.NewReplacer("~", "~0", "/", "~1")
