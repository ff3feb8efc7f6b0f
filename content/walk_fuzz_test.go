package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
	"wardian/content/source"
)

// tale makes the check-ins of a diary out of bytes: sound ones and nonsense,
// after a round that places all that came.
func (c *choices) tale() []string {
	ids := []string{"b26-01", "b26-02", "b26-03", "b26-01a", "b26-01b", "b26-02a", "b26-01aa", "a25-01"}
	places := []string{"tote", "cabinet", "tub", "tote", "tote"}
	texts := []string{arrivalRound}
	day := mustDate(2026, 3, 9)
	for len(c.data) > 0 && len(texts) < 24 {
		day += measure.Day(c.upTo(3))
		keys := "date: " + day.String() + "\n"
		if c.upTo(6) == 1 {
			keys = "date: " + day.String() + " 18:30\n"
		}
		if c.yes() {
			keys += "place: " + places[c.upTo(5)] + "\n"
			if c.upTo(4) > 0 {
				keys += "others: same\n"
			}
			if c.upTo(6) == 1 {
				keys += "not-seen: [" + ids[c.upTo(8)] + "]\n"
			}
			keys += "specimens:\n"
			first := c.upTo(8)
			for n := c.upTo(3) - 1; n >= 0; n-- {
				line := []string{"", "firm", "same", "to " + places[c.upTo(5)], "lost rot", "resting", "leaves 1", "alive after all",
					"passed on", "{cut-into: {b26-01: base, b26-01a: top}}", "{cut-into: {b26-01aa: top}}", "{rot: stem, medium: bark}"}[c.upTo(12)]
				keys += "  " + ids[(first+n)%8] + ": " + line + "\n"
			}
		} else {
			id := ids[c.upTo(8)]
			keys += "specimen: " + id + "\n"
			if c.upTo(8) == 1 {
				keys += "place: " + places[c.upTo(5)] + "\n"
			}
			if c.upTo(3) == 1 {
				keys += "to: " + places[c.upTo(5)] + "\n"
			}
			switch c.upTo(9) {
			case 1:
				keys += "outcome: lost\n"
			case 2:
				keys += "outcome: alive after all\n"
			case 3:
				keys += "cut-into: {" + id + ": base, " + id + "a: top}\n"
			case 4:
				keys += "cut-into: {" + id + "a: top, " + id + "b: base}\n"
			case 5:
				keys += "outcome: passed on\n"
			case 6:
				keys += "resting: yes\n"
			case 7:
				keys += "unfinished: yes\n"
			}
			keys += "pests: none\n"
		}
		texts = append(texts, keys)
	}
	return texts
}

// weeded reads a tale, leaves out the check-ins with findings that stop a build,
// and reads it again, until none is left; nil where that takes too long.
func weeded(t *testing.T, texts []string) *Diary {
	for range 8 {
		d, findings := tell(t, tubFile, entries(texts...))
		bad := map[string]bool{}
		for _, f := range findings {
			if f.Severity == source.Error {
				bad[f.File] = true
			}
		}
		if len(bad) == 0 {
			return d
		}
		var kept []string
		for i, text := range texts {
			if !bad[entryFile(i)] {
				kept = append(kept, text)
			}
		}
		texts = kept
	}
	return nil
}

func mustDate(y, m, d int) measure.Day {
	day, _ := measure.Date(y, m, d)
	return day
}

// slowly tells where a specimen stood after the first k entries, and whether it
// was there, by going over them all again: the obvious method, for sound
// diaries only.
func slowly(d *Diary, s *Specimen, k int) (at *Place, there bool) {
	from, gone := 0, ""
	if s.Parent != nil {
		for from < len(d.Entries) && d.Entries[from] != s.CutBy {
			from++
		}
		if from >= k {
			return nil, false
		}
		at, _ = slowly(d, s.Parent, from+1)
	}
	for _, e := range d.Entries[from:k] {
		for _, c := range e.Named {
			if c.ID != s.ID || c.Empty {
				continue
			}
			if c.Outcome == AliveAfterAll {
				gone = ""
			}
			if at == nil {
				at = e.Place
			}
			if c.To != nil && gone == "" {
				at = c.To
			}
			switch own := false; {
			case len(c.CutInto) > 0:
				for _, p := range c.CutInto {
					own = own || p.ID == s.ID
				}
				if !own && gone == "" {
					gone = "divided"
				}
			case c.Outcome == Lost || c.Outcome == PassedOn:
				gone = string(c.Outcome)
			}
		}
	}
	return at, gone == ""
}

// Whatever is written, nothing panics and the walk keeps its promises; where the
// diary is sound, "others: same" speaks for those that the obvious method finds.
func FuzzWalk(f *testing.F) {
	for i := range 60 {
		seed := make([]byte, 120)
		for k := range seed {
			seed[k] = byte((i*37 + k*k*(i+3)) >> (k % 3))
		}
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		texts := (&choices{data}).tale()
		d, _ := tell(t, tubFile, entries(texts...))
		for _, until := range []measure.Day{measure.NoDay, mustDate(2026, 3, 15)} {
			keepsItsPromises(t, d.Timelines(until))
		}
		keepsItsPromises(t, d.Shown(ShowOptions{On: mustDate(2026, 3, 20)}).Timelines(measure.NoDay))
		if d = weeded(t, texts); d != nil {
			againstTheObvious(t, d)
		}
	})
}

func keepsItsPromises(t *testing.T, tl *Timelines) {
	for _, p := range tl.List {
		require.Same(t, p, tl.Of(p.Specimen))
		last := measure.NoMoment
		for n, l := range p.Looks {
			require.Same(t, p, l.Timeline)
			require.False(t, l.When.Before(last))
			require.Equal(t, l.Entry.When, l.When)
			if n > 0 {
				require.NotSame(t, p.Looks[n-1].Entry, l.Entry, "one look an entry")
			}
			require.Equal(t, l.Cutting, n == 0 && p.Specimen.Parent != nil, "a section begins with its cut")
			last = l.When
		}
		for n, s := range p.Stays {
			require.NotNil(t, s.Place)
			require.False(t, s.Until.Known() && s.Until.Before(s.From))
			if n > 0 {
				require.Equal(t, p.Stays[n-1].Until, s.From, "a stay begins where the one before ends")
				require.NotNil(t, s.Move)
			}
		}
		for _, w := range p.Withdrawn {
			require.NotNil(t, w.TakenBack)
			require.NotSame(t, p.Loss, w)
		}
		for _, c := range p.Pieces {
			require.Same(t, p.Specimen, c.Specimen.Parent)
		}
		if p.Loss != nil || p.PassedOn != nil || p.Divided.Known() {
			require.Nil(t, p.Place())
		}
	}
}

// told gives a diary's check-ins as text.
func told(d *Diary) string {
	var b strings.Builder
	for _, e := range d.Entries {
		b.WriteString(e.Path + "\n" + string(e.File.Bytes))
	}
	return b.String()
}

func againstTheObvious(t *testing.T, d *Diary) (compared int) {
	tl := d.Timelines(measure.NoDay)
	for k, e := range d.Entries {
		var got, want []string
		for _, p := range tl.List {
			for _, l := range p.Looks {
				if l.Entry == e && !l.Named && !l.Cutting {
					got = append(got, p.Specimen.ID)
				}
			}
			if e.Others != OthersSame {
				continue
			}
			named := false
			for _, c := range e.Named {
				named = named || c.ID == p.Specimen.ID && !c.Empty
			}
			for _, m := range e.NotSeen {
				named = named || m.ID == p.Specimen.ID
			}
			if at, there := slowly(d, p.Specimen, k); there && at == e.Place && !named {
				want = append(want, p.Specimen.ID)
			}
		}
		require.Equal(t, want, got, "%s\n%s", e.Path, told(d))
		compared += len(want)
	}
	for _, p := range tl.List {
		at, there := slowly(d, p.Specimen, len(d.Entries))
		if !there {
			at = nil
		}
		if at != p.Place() {
			require.Fail(t, "the walk and the obvious method differ on where "+p.Specimen.ID+" stands", told(d))
		}
	}
	return compared
}

// Tales enough for the comparison to mean something, without a fuzzer.
func TestTheWalkAgainstTheObvious(t *testing.T) {
	sound, compared := 0, 0
	for i := range 200 {
		data := make([]byte, 60+i%90)
		x := uint32(i)*2654435761 + 1
		for k := range data {
			x ^= x << 13
			x ^= x >> 17
			x ^= x << 5
			data[k] = byte(x >> 8)
		}
		if d := weeded(t, (&choices{data}).tale()); d != nil {
			sound++
			compared += againstTheObvious(t, d)
		}
	}
	assert.Greater(t, sound, 100)
	assert.Greater(t, compared, 400, "looks by others: same")
}
