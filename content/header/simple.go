package header

import (
	"strings"
	"sync"

	"go.yaml.in/yaml/v4"
)

// Nearly all front matter is a few lines of a key, a colon and a word. The library
// takes such a block through a scanner, a parser and a composer, and that was the
// dearest part of reading a diary. So blocks of that kind, and no others, are made
// into the library's nodes here. What isn't surely one of them is left to the
// library: quotes, comments, lists below a key, words over several lines, tabs,
// anything beyond ASCII, and whatever is amiss. A fuzz target holds that both give
// the same nodes.

// simple makes nodes of a simple block; ok is false where it isn't one.
//
//	block = line { line }
//	line  = key ":" [ " " ( words | map | list ) ]     at the line's start, or set
//	                                                   in by some spaces below a
//	                                                   key with nothing behind it
//	map   = "{" key ": " ( word | list ) { ", " … } "}"
//	list  = "[" word { ", " word } "]"
func simple(block []byte, from *nodes) (root *yaml.Node, ok bool) {
	for _, c := range block {
		if c != '\n' && (c < ' ' || c > '~' || c == '#') {
			return nil, false
		}
	}
	s := simpler{from: from}
	root = s.node(yaml.MappingNode, "", 1)
	root.Line = 0
	into, depth := root, 0 // the map that lines stand in, and how far they are set in
	text := string(block)
	for n := 1; text != ""; n++ {
		var line string
		if line, text, _ = strings.Cut(text, "\n"); line == "" {
			continue
		}
		s.line = n
		indent := len(line) - len(strings.TrimLeft(line, " "))
		switch {
		case indent == depth:
		case indent == 0:
			into, depth = root, 0
		case depth == 0 && len(root.Content) > 0 && root.Content[len(root.Content)-1].Column == 0:
			// The key above has nothing behind it: these lines are its map.
			into, depth = s.node(yaml.MappingNode, "", indent+1), indent
			root.Content[len(root.Content)-1] = into
		default:
			return nil, false
		}
		key, rest, found := strings.Cut(line[indent:], ":")
		if !found || !isKey(key) {
			return nil, false
		}
		if root.Line == 0 {
			root.Line = n
			if indent > 0 {
				return nil, false
			}
		}
		into.Content = append(into.Content, s.node(yaml.ScalarNode, key, indent+1))
		if rest == "" {
			// An empty value stands behind the colon, unless a map follows.
			empty := s.node(yaml.ScalarNode, "", 0)
			into.Content = append(into.Content, empty)
			continue
		}
		value, ok := s.behind(rest, indent+len(key)+2)
		if !ok {
			return nil, false
		}
		into.Content = append(into.Content, value)
	}
	if root.Line == 0 || hasEmpty(root) {
		return nil, false
	}
	return root, true
}

// hasEmpty says whether a key has nothing behind it: where such a value stands is
// the library's to say.
func hasEmpty(m *yaml.Node) bool {
	for _, n := range m.Content {
		if n.Column == 0 || n.Kind == yaml.MappingNode && n.Style == 0 && hasEmpty(n) {
			return true
		}
	}
	return false
}

// simpler makes nodes of a line.
type simpler struct {
	from *nodes
	line int
}

func (s *simpler) node(kind yaml.Kind, value string, column int) *yaml.Node {
	return s.from.add(yaml.Node{Kind: kind, Value: value, Line: s.line, Column: column})
}

// nodes are those of one file's tree, which is dropped once values are made of it:
// the next file's nodes take their room.
type nodes struct {
	list []yaml.Node // those that were given stay where they are: it never grows
}

var rooms = sync.Pool{New: func() any { return &nodes{make([]yaml.Node, 0, 64)} }}

func (r *nodes) add(n yaml.Node) *yaml.Node {
	if len(r.list) == cap(r.list) {
		return &n
	}
	r.list = append(r.list, n)
	return &r.list[len(r.list)-1]
}

// drop ends the use of all nodes.
func (r *nodes) drop() {
	clear(r.list)
	r.list = r.list[:0]
	rooms.Put(r)
}

// behind makes a node of what stands behind a key's colon, which is in a column.
func (s *simpler) behind(rest string, column int) (*yaml.Node, bool) {
	if len(rest) < 2 || rest[0] != ' ' {
		return nil, false
	}
	words, column := rest[1:], column+1
	switch words[0] {
	case '{':
		return s.flow(words, column, '}')
	case '[':
		return s.flow(words, column, ']')
	}
	if !isWords(words, ",;:'()") {
		return nil, false
	}
	return s.node(yaml.ScalarNode, words, column), true
}

// flow makes a node of a list in brackets or a map in braces, which takes all of
// the text and begins in a column.
func (s *simpler) flow(text string, column int, end byte) (*yaml.Node, bool) {
	last := len(text) - 1
	if last < 2 || text[last] != end {
		return nil, false
	}
	kind := yaml.SequenceNode
	if end == '}' {
		kind = yaml.MappingNode
	}
	all := s.node(kind, "", column)
	all.Style = yaml.FlowStyle
	inner, column := text[1:last], column+1
	for {
		part := inner
		if cut := firstComma(inner); cut >= 0 {
			part = inner[:cut]
		}
		if kind == yaml.MappingNode {
			key, value, found := strings.Cut(part, ": ")
			if !found || !isKey(key) || value == "" {
				return nil, false
			}
			all.Content = append(all.Content, s.node(yaml.ScalarNode, key, column))
			at := column + len(key) + 2
			if value[0] == '[' {
				list, ok := s.flow(value, at, ']')
				if !ok {
					return nil, false
				}
				all.Content = append(all.Content, list)
			} else if isWords(value, "()") {
				all.Content = append(all.Content, s.node(yaml.ScalarNode, value, at))
			} else {
				return nil, false
			}
		} else if isWords(part, "()") {
			all.Content = append(all.Content, s.node(yaml.ScalarNode, part, column))
		} else {
			return nil, false
		}
		if len(part) == len(inner) {
			return all, true
		}
		if !strings.HasPrefix(inner[len(part):], ", ") {
			return nil, false
		}
		inner, column = inner[len(part)+2:], column+len(part)+2
	}
}

// firstComma finds the first comma outside brackets, or -1.
func firstComma(s string) int {
	inside := false
	for i := range len(s) {
		switch s[i] {
		case '[':
			inside = true
		case ']':
			inside = false
		case ',':
			if !inside {
				return i
			}
		}
	}
	return -1
}

// isKey says whether a text is a key as the diary has them: a letter, and
// letters, digits and hyphens.
func isKey(s string) bool {
	return s != "" && len(s) <= 100 && isLetter(s[0]) && isWords(s, "") && !strings.ContainsAny(s, " ./%+_")
}

// isWords says whether a text is words that mean nothing else in YAML: a letter or
// a digit, and more of them, spaces, ./%+-_ and what else is allowed; the last no
// space. A colon must have something behind it.
func isWords(s, allowed string) bool {
	if s == "" || !isLetter(s[0]) && !isDigit(s[0]) {
		return false
	}
	for i := range len(s) {
		c := s[i]
		switch {
		case isLetter(c), isDigit(c), strings.IndexByte("./%+-_", c) >= 0:
		case c == ' ':
			if i == len(s)-1 {
				return false
			}
		case strings.IndexByte(allowed, c) < 0:
			return false
		case c == ':' && (i == len(s)-1 || s[i+1] == ' '):
			return false
		}
	}
	return true
}

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }
func isDigit(c byte) bool  { return '0' <= c && c <= '9' }
