package content

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wardian/content/format"
	"wardian/content/measure"
)

func equalFacts(a, b Facts) bool { return reflect.DeepEqual(a, b) }

// choices makes a record out of bytes, one decision a byte; when they run out,
// nothing more is said.
type choices struct{ data []byte }

func (c *choices) upTo(n int) int {
	if len(c.data) == 0 {
		return 0
	}
	v := int(c.data[0]) % n
	c.data = c.data[1:]
	return v
}

func (c *choices) yes() bool { return c.upTo(2) == 1 }

func (c *choices) length() *measure.Figure[measure.Length] {
	if !c.yes() {
		return nil
	}
	l := measure.Length(float64(c.upTo(250)*2+1) / []float64{1, 10, 8, 1000}[c.upTo(4)])
	return &measure.Figure[measure.Length]{Value: max(l, measure.ShortestLength), Estimate: c.yes()}
}

func (c *choices) count() *measure.Figure[int] {
	if !c.yes() {
		return nil
	}
	return &measure.Figure[int]{Value: c.upTo(256) * 7, Estimate: c.yes()}
}

// text makes words that a phrase may hold.
func (c *choices) text() string {
	var out []string
	for n := c.upTo(4); n >= 0; n-- {
		out = append(out, []string{"moss", "and", "12", "?", "other", "rot", "ä中", "leaves", "same", "~", "none", "1x2"}[c.upTo(12)])
	}
	return strings.Join(out, " ")
}

// record makes a record that plain words can say.
func (c *choices) record() Facts {
	f := nothingSaid()
	if c.upTo(8) == 1 {
		f.Same = true
		if c.yes() {
			f.Note = c.text()
		}
		return f
	}
	f.Turgor = []Turgor{"", Firm, Soft, Limp}[c.upTo(4)]
	f.Resting = c.yes()
	f.To = []*Place{nil, tote, cabinet}[c.upTo(3)]
	f.Rot = append([]string{"", "none"}, format.RotWhere...)[c.upTo(5)]
	if c.yes() {
		f.Pests = c.text()
	}
	if c.yes() {
		f.Medium = c.text()
	}
	f.Outcome = []Outcome{"", Lost, Established, PassedOn, AliveAfterAll}[c.upTo(5)]
	if f.Outcome == Lost && c.yes() {
		f.Cause = Cause{Words: []string{format.Causes[c.upTo(3)]}, Doubt: c.yes()}
		switch c.upTo(4) {
		case 1:
			f.Cause.Words = append(f.Cause.Words, format.Causes[3+c.upTo(3)])
		case 2:
			f.Cause.Words = append(f.Cause.Words, "other the cat")
		case 3:
			f.Cause.Words = []string{"other left out and forgotten"}
		}
	}
	if c.yes() {
		l := &Leaves{New: c.yes(), Cut: c.upTo(9), Dropped: c.upTo(9), Count: c.count()}
		for l.Count != nil && c.yes() {
			a, b := c.length(), c.length()
			if a != nil && b != nil {
				l.Sizes = append(l.Sizes, measure.Figure[measure.Size]{Value: measure.Size{Length: a.Value, Width: b.Value}, Estimate: c.yes()})
			}
		}
		f.Leaves = l
	}
	if c.yes() {
		r := &Roots{New: c.yes()}
		if c.yes() {
			g := c.upTo(6)
			r.Grade, r.Longest, r.Mean, r.Count, r.Length = &g, c.length(), c.length(), c.count(), c.length()
		}
		if c.yes() {
			r.Cut = &measure.Figure[measure.Share]{Value: measure.Share(float64(c.upTo(201)) / 2 / 100), Estimate: c.yes()}
		}
		if *r != (Roots{}) {
			f.Roots = r
		}
	}
	if c.yes() {
		f.Note = c.text()
	}
	return f
}

// Every record that plain words can say is written, and reads back the same.
func FuzzRecordThereAndBack(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{1, 1, 2})
	for i := range 40 {
		f.Add([]byte(strings.Repeat(string(rune('!'+i)), 60)))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		record := (&choices{data}).record()
		if equalFacts(record, nothingSaid()) {
			return
		}
		for _, u := range []measure.Units{metric, imperial} {
			line, err := record.Words(u)
			require.NoError(t, err)
			back, _, troubles := ParseWords(line, env(u))
			require.Empty(t, troubles, line)
			require.Equal(t, record, back, line)
		}
	})
}
