package source

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPositions(t *testing.T) {
	f := New("a.md", []byte("\xef\xbb\xbfnavn: blåbær\r\n\n着生: x"))
	assert.Equal(t, 3, f.Lines())
	assert.Equal(t, "navn: blåbær", f.Line(1))
	assert.Equal(t, "", f.Line(2))
	assert.Equal(t, "着生: x", f.Line(3))
	assert.Equal(t, "", f.Line(4))
	assert.Equal(t, Position{1, 1}, f.Position(0))
	assert.Equal(t, Position{1, 1}, f.Position(3))
	for _, p := range []Position{{1, 1}, {1, 9}, {1, 13}, {2, 1}, {3, 1}, {3, 2}, {3, 5}, {3, 6}} {
		assert.Equal(t, p, f.Position(f.Offset(p)), "%v", p)
	}
	assert.Equal(t, Position{3, 6}, f.Position(9999))
	assert.Equal(t, len(f.Bytes), f.Offset(Position{9, 9}))
	empty := New("b.md", nil)
	assert.Equal(t, 1, empty.Lines())
	assert.Equal(t, Position{1, 1}, empty.Position(5))
}

func TestReportSortsAndKeepsEachOnce(t *testing.T) {
	var r Report
	f := New("b.md", []byte("one\ntwo\n"))
	r.Add(f, Finding{Span: at(2, 1, 4), Code: "x", Message: "second", Severity: Error})
	r.Add(f, Finding{Span: at(1, 1, 4), Code: "x", Message: "first"})
	r.Add(f, Finding{Span: at(1, 1, 4), Code: "x", Message: "first"})
	r.Add(nil, Finding{File: "a.md", Code: "y", Message: "no file", Severity: Error})
	got := r.Findings()
	assert.Len(t, got, 3)
	assert.Equal(t, []string{"no file", "first", "second"}, []string{got[0].Message, got[1].Message, got[2].Message})
	assert.Equal(t, "one", got[1].Source)
	assert.Equal(t, 2, r.Errors())
}
