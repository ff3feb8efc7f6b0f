package source

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every cell of a table is found again where it stands: the text under its span
// is the cell.
func TestEveryCellIsFoundWhereItStands(t *testing.T) {
	for name, text := range map[string]string{
		"plain":           "a;b;c\nblåbær;2;x y\n",
		"mark and CRLF":   "\xef\xbb\xbfa;b\r\n\"one; two\";3\r\n",
		"spaces":          "a;b\n  lead ; trail  \n",
		"no last line":    "a;b\n1;2",
		"inches":          "a;b\nleaf 4\" long;ok\n",
		"an empty line":   "a;b\n\n1;2\n",
		"a short row":     "a;b;c\n1\n",
		"below a heading": "kept by M.\na;b\n1;2\n",
	} {
		t.Run(name, func(t *testing.T) {
			f := New("lists/a.csv", []byte(text))
			cells := 0
			f.EachRow(TableStart(f.Bytes), ';', func(r TableRow) {
				for i, c := range r.Cells {
					cells++
					c = strings.TrimSpace(c)
					line, from := r.At(i)
					at := f.Part(line, from, c)
					assert.Equal(t, c, string(f.Bytes[f.Offset(at.Start):f.Offset(at.End)]))
				}
			})
			assert.Greater(t, cells, 2)
		})
	}
}

func TestColumnsAreFoundByTheirHeadings(t *testing.T) {
	headings := Headings([]byte("ID;\"last  seen\";Lost;lost;Price"), ';')
	assert.Equal(t, []string{"ID", "last seen", "Lost", "lost", "Price"}, headings)
	for name, want := range map[string]int{"id": 0, "last seen": 1, "Lost": 2, "lost": 3, "LOST": -1, "price ": 4, "": -1, "cost": -1} {
		assert.Equal(t, want, Column(headings, name), name)
	}
	assert.True(t, NotText([]byte("\xff\xfea\x00")))
	assert.False(t, NotText([]byte("a;b")))
}
