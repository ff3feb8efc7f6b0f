package content

import (
	"fmt"
	"slices"
	"strings"

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/source"
)

// opened is a file whose front matter was split off and whose words were read.
type opened struct {
	header *header.Header
	words  *prose.Document
}

// open reads a Markdown file's front matter and its words.
func (l *loader) open(f *source.File) opened {
	if o, wrong, ok := l.keeper.opened(f); ok {
		for _, finding := range wrong {
			l.report.Add(f, finding)
		}
		return o
	}
	report := &source.Report{}
	o := opened{header: header.Read(f, report)}
	if h := o.header; h.Body < len(f.Bytes) {
		o.words = prose.Parse(f, h.Body, report)
	}
	wrong := report.Findings()
	l.keeper.keepOpened(f, o, wrong)
	for _, finding := range wrong {
		l.report.Add(f, finding)
	}
	return o
}

// reader makes the reader of one file.
func (l *loader) reader(f *source.File, kind *format.File) *reader {
	rd := &reader{file: f, report: l.report, kind: kind.Name, today: l.today, noMoney: &l.noMoney}
	if s := &l.diary.Settings; kind != &format.Diary {
		rd.units, rd.currency = s.Units, s.Currency
	}
	return rd
}

// top begins to read a file's keys. Where the front matter couldn't be read to
// its end, no key is reported as missing.
func (l *loader) top(o opened, kind *format.File, keys []format.Key) *record {
	rd := l.reader(o.header.File, kind)
	required := &o.header.Head
	if o.header.Broken {
		required = nil
	}
	return rd.record(o.header.Top.Fields, keys, "", required)
}

// page reads what every kind of file may carry.
func (c *record) page(o opened) Page {
	p := Page{File: c.file, Head: o.header.Head, Words: o.words, Unfinished: c.yes("unfinished")}
	c.value("private", format.Anything) // known, and never looked at
	fields, want := c.table("amended")
	for i := range fields {
		f := &fields[i]
		key := header.Value{Kind: header.Text, Text: f.Key, Span: f.KeySpan}
		d, ok := parse(c.reader, &key, &format.Value{Kind: format.Day}, measure.ParseDay)
		if !ok || !c.notFuture(f.KeySpan, d) || f.Value.Faulty {
			continue
		}
		if words, ok := c.scalarText(&f.Value, want.Item); ok {
			p.Amended = append(p.Amended, Amendment{Date: d, Words: words})
			c.spans = append(c.spans, KeySpan{Key: "amended." + d.String(), Span: f.KeySpan})
		}
	}
	slices.SortStableFunc(p.Amended, func(a, b Amendment) int { return int(a.Date - b.Date) })
	p.Spans = c.spans
	return p
}

// reserved are words that can't be IDs, since they mean something where an ID
// stands.
var reserved = map[string]string{
	"all": "it stands for all imports together", "same": "it says that there is nothing to add",
	"index": "it is the name of a folder's first page", "short": "it stands for plants that weren't in the box",
}

// idTrouble says what is wrong with an ID; mend is one that would do, or "".
func idTrouble(id string) (code, message, mend string) {
	if why := reserved[id]; why != "" {
		return "reserved-id", fmt.Sprintf("%q can't be an ID: %s", id, why), id + "-1"
	}
	ok := id != "" && id[0] != '-'
	for _, r := range id {
		ok = ok && (r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-')
	}
	if ok {
		return "", "", ""
	}
	mend = strings.Trim(strings.Map(func(r rune) rune {
		switch {
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-':
			return r
		case r == ' ' || r == '_' || r == '.':
			return '-'
		}
		return -1
	}, id), "-")
	if reserved[mend] != "" {
		mend = ""
	}
	return "not-an-id", fmt.Sprintf("%q can't be an ID", short(id)), mend
}

// fileID gives the ID that a file's name is, or "" where it can't be one. The
// finding stands at the head of the file.
func (l *loader) fileID(path string) string {
	name := baseName(path)
	code, message, mend := idTrouble(name)
	if code == "" {
		return name
	}
	expected := "lower-case letters, digits and hyphens"
	if code == "reserved-id" {
		expected = "any other name"
	}
	hint := "give the file another name"
	if mend != "" {
		hint = "name the file " + mend + ".md"
	}
	finding := header.Fault(code, source.Span{Start: source.Position{Line: 1, Column: 1}, End: source.Position{Line: 1, Column: 1}}, message, expected, hint)
	finding.File = path
	l.report.Add(nil, finding)
	return ""
}

// idOf reads a text that must be an ID, whosever it is.
func (rd *reader) idOf(v *header.Value, want *format.Value) (Mention, bool) {
	if v == nil {
		return Mention{}, false
	}
	id, ok := rd.scalarText(v, want)
	if !ok {
		return Mention{}, false
	}
	return Mention{ID: id, Span: v.Span}, true
}

// id reads the ID behind a key.
func (c *record) id(name string) (Mention, bool) {
	v, key := c.value(name, format.ID)
	return c.idOf(v, &key.Value)
}
