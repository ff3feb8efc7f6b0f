package header

import (
	"bufio"
	"bytes"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/adrg/frontmatter"

	"wardian/content/format"
	"wardian/content/source"
)

// yamlOnly is the diary's one format of front matter. It keeps the block as it
// stands; the tree is made from it afterwards, with places.
var yamlOnly = frontmatter.NewFormat("---", "---", func(block []byte, into any) error {
	*into.(*[]byte) = block
	return nil
})

var buffers = sync.Pool{New: func() any { return bufio.NewReader(nil) }}

// Read reads the front matter of a Markdown file. It gives a header in any case;
// what is wrong goes to the report.
func Read(f *source.File, r *source.Report) *Header {
	h := &Header{File: f, Top: Value{Kind: Map}, Body: len(f.Bytes), Broken: true}
	if !Readable(f, r) {
		return h
	}
	skip := 0
	if bytes.HasPrefix(f.Bytes, mark) {
		skip = len(mark)
	}
	s := splitter{f: f, r: r, data: f.Bytes, at: skip}
	if !s.open(h) {
		return h
	}
	s.close()
	if !s.closed {
		r.Add(f, Fault("front-matter-open", h.Head, "the front matter that opens here is never closed",
			"a line of three hyphens below the last key", "write --- on a line of its own below the last key"))
		return h
	}
	// What was found wrong with the lines of hyphens is mended in s.data, which
	// from here on is what the library and YAML read. The library copies what it
	// is given, so it isn't given the words below.
	var block []byte
	head := s.data[:s.end]
	// It reads through a buffer of four kilobytes, and takes one that it is given.
	buffered := buffers.Get().(*bufio.Reader)
	defer buffers.Put(buffered)
	buffered.Reset(bytes.NewReader(head[skip:]))
	rest, err := frontmatter.Parse(buffered, &block, yamlOnly)
	if err != nil {
		// Neither the reader of bytes nor our own unmarshal can fail.
		panic("header: " + err.Error())
	}
	h.Body = len(head) - len(rest)
	h.fill(block, s.block, r)
	return h
}

// Whole reads a file that is YAML from end to end.
func Whole(f *source.File, r *source.Report) *Header {
	start := source.Position{Line: 1, Column: 1}
	h := &Header{File: f, Top: Value{Kind: Map}, Head: source.Span{Start: start, End: start}, Body: len(f.Bytes), Broken: true}
	if !Readable(f, r) {
		return h
	}
	skip := 0
	if bytes.HasPrefix(f.Bytes, mark) {
		skip = len(mark)
	}
	h.fill(f.Bytes[skip:], skip, r)
	return h
}

// Fenced reads a block of YAML that stands between two bytes of a file, such as
// a plate in an update. The file was read by Read before.
func Fenced(f *source.File, start, end int, r *source.Report) *Header {
	h := &Header{File: f, Top: Value{Kind: Map}, Head: f.SpanOf(start, start), Body: end, Broken: true}
	h.fill(f.Bytes[start:end], start, r)
	return h
}

// splitter looks for the two lines of hyphens, and for what people write in
// their stead.
type splitter struct {
	f      *source.File
	r      *source.Report
	data   []byte // the file's bytes, or a mended copy of the same length
	at     int    // where the next line begins
	block  int    // where the block begins
	end    int    // the byte behind the line that closes it
	closed bool
	copied bool
}

// next gives the next line's bounds, without its line end; ok is false at the
// end of the file.
func (s *splitter) next() (start, end int, ok bool) {
	if s.at >= len(s.data) {
		return 0, 0, false
	}
	start = s.at
	if n := bytes.IndexByte(s.data[start:], '\n'); n >= 0 {
		end, s.at = start+n, start+n+1
	} else {
		end, s.at = len(s.data), len(s.data)
	}
	return start, len(bytes.TrimRight(s.data[:end], "\r")), true
}

// overwrite puts other characters in the place of a line, in the copy.
func (s *splitter) overwrite(start, end int, with string) {
	if !s.copied {
		s.data, s.copied = bytes.Clone(s.data), true
	}
	copy(s.data[start:end], with+strings.Repeat(" ", end-start))
}

// open finds the line that opens the front matter.
func (s *splitter) open(h *Header) bool {
	for {
		start, end, ok := s.next()
		if !ok {
			h.Head = s.f.SpanOf(0, 0)
			s.r.Add(s.f, Fault("no-front-matter", h.Head, "the file is empty", "front matter between two lines of three hyphens", "begin the file with ---"))
			return false
		}
		line := string(bytes.TrimSpace(s.data[start:end]))
		if line == "" {
			continue
		}
		h.Head = s.f.SpanOf(start, end)
		s.block = s.at
		switch {
		case line == "---":
			return true
		case line == "+++" || line == "---toml":
			s.other(h.Head, "TOML")
		case line == ";;;" || line == "---json" || line[0] == '{':
			s.other(h.Head, "JSON")
		case end-start >= 3 && strings.ContainsRune("-–—", firstRune(line)) && hyphens(line):
			s.r.Add(s.f, Fault("front-matter-line", h.Head, "the line that opens the front matter isn't three hyphens alone", "three hyphens alone", "write ---"))
			s.overwrite(start, end, "---")
			return true
		default:
			h.Head.End = h.Head.Start
			s.r.Add(s.f, Fault("no-front-matter", h.Head, "the file doesn't begin with front matter", "a line of three hyphens, the keys, and a line of three hyphens",
				"write --- on a line of its own above the first key"))
		}
		return false
	}
}

func firstRune(s string) rune { r, _ := utf8.DecodeRuneInString(s); return r }

func (s *splitter) other(at source.Span, name string) {
	s.r.Add(s.f, Fault("other-front-matter", at, "the front matter is "+name, "YAML between two lines of three hyphens", "write --- above and below, and each key as key: value"))
}

// close finds the line that closes the front matter.
func (s *splitter) close() {
	indented := -1
	for {
		start, end, ok := s.next()
		if !ok {
			break
		}
		raw := s.data[start:end]
		if len(raw) < 3 || strings.IndexByte(" \t-.\xe2", raw[0]) < 0 {
			continue
		}
		line := string(bytes.TrimSpace(raw))
		switch {
		case line == "---" && raw[0] == '-':
			if !s.early(start, end) {
				s.closed, s.end = true, s.at
				return
			}
		case line == "---":
			// The library would close here; YAML wouldn't. Blanked out for the
			// library, and reported.
			s.r.Add(s.f, Fault("hyphens-inside", s.f.SpanOf(end-3, end), "three hyphens alone on a line that is set in", "words, or the end of the front matter",
				"write *** in words, or the hyphens at the line's start to end the front matter"))
			s.overwrite(start, end, "")
			indented, s.end = start, s.at
		case line == "..." && raw[0] == '.', raw[0] != ' ' && raw[0] != '\t' && hyphens(line):
			what := "the line that closes the front matter isn't three hyphens alone"
			if line == "..." {
				what = "three dots don't close front matter"
			}
			s.r.Add(s.f, Fault("front-matter-line", s.f.SpanOf(start, end), what, "three hyphens alone", "write ---"))
			s.overwrite(start, end, "---")
			s.closed, s.end = true, s.at
			return
		}
	}
	if indented >= 0 {
		s.overwrite(indented, indented+3, "---")
		s.closed = true
	}
}

// hyphens says whether a line is meant for three hyphens: more of them, dashes
// that a word processor made of them, or hyphens with a comment.
func hyphens(line string) bool {
	if words, comment, ok := strings.Cut(line, " #"); ok && comment != "" {
		line = strings.TrimSpace(words)
		return line != "" && strings.Trim(line, "-–—") == ""
	}
	if strings.HasPrefix(line, "---") && strings.Trim(line, "-–— ") != "" {
		return strings.HasPrefix(line, "--- ") || line == "---yaml"
	}
	return strings.Trim(line, "-–—") == ""
}

// early says whether a line of three hyphens at a line's start closes the front
// matter before its keys are at an end, as one inside a block of words does: the
// lines below it are keys that a diary knows, up to another such line. It is
// then reported, and made a comment in the copy.
func (s *splitter) early(start, end int) bool {
	known := false
	for at, lines := s.at, 0; at < len(s.data) && lines < 60; lines++ {
		stop := len(s.data)
		if n := bytes.IndexByte(s.data[at:], '\n'); n >= 0 {
			stop = at + n
		}
		line := bytes.TrimRight(s.data[at:stop], " \t\r")
		at = min(stop+1, len(s.data))
		if string(line) == "---" {
			if known {
				s.r.Add(s.f, Fault("hyphens-inside", s.f.SpanOf(start, end), "three hyphens at the start of a line end the front matter here, with keys below them",
					"three hyphens below the last key", "write *** in words, or set the line in and put a space between the hyphens"))
				s.overwrite(start, end, "")
			}
			return known
		}
		if len(line) == 0 || line[0] == ' ' || line[0] == '#' {
			continue
		}
		key, _, ok := bytes.Cut(line, []byte(":"))
		if !ok || len(bytes.Trim(key, "abcdefghijklmnopqrstuvwxyz-")) > 0 {
			return false
		}
		known = known || topKeys[string(key)]
	}
	return false
}

// topKeys are all keys that can stand at a line's start in some file.
var topKeys = func() map[string]bool {
	m := map[string]bool{}
	for _, file := range format.Files() {
		for _, k := range file.Keys {
			m[k.Name] = true
		}
	}
	return m
}()

// mapKeys are those of them behind which a map stands.
var mapKeys = func() map[string]bool {
	m := map[string]bool{}
	for _, file := range format.Files() {
		for _, k := range file.Keys {
			m[k.Name] = m[k.Name] || k.Value.Kind == format.Map || k.Value.Kind == format.Table
		}
	}
	return m
}()
