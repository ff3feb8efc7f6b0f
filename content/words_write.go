package content

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"wardian/content/format"
	"wardian/content/measure"
)

// Words writes a record as a plant's line in plain words, with a remark at the
// end, in the diary's units: ParseWords reads the same record from it. What the
// closed phrases can't say (a soak, sections, photos, words with a comma in
// them) is an error that names it; such a record is written as a map.
func (f Facts) Words(u measure.Units) (string, error) {
	w := wordsWriter{units: u}
	w.unsayable(f)
	if f.Same {
		w.phrase("same")
	}
	w.outcome(f)
	if f.To != nil {
		w.words("to", f.To.ID)
	}
	switch f.Turgor {
	case "":
	case Firm, Soft, Limp:
		w.phrase(string(f.Turgor))
	default:
		w.cannot("the turgor %q", f.Turgor)
	}
	if f.Resting {
		w.phrase("resting")
	}
	w.leaves(f.Leaves)
	w.roots(f.Roots)
	w.state("rot", f.Rot)
	if f.Rot != "" && f.Rot != "none" && !slices.Contains(format.RotWhere, f.Rot) {
		w.cannot("rot at %q", f.Rot)
	}
	w.state("pests", f.Pests)
	if f.Pests == "no" {
		w.cannot("pests %q", f.Pests)
	}
	if f.Medium != "" {
		w.words("medium", f.Medium)
	}
	if f.Same && len(w.phrases) > 1 {
		w.cannot("same beside %s", w.phrases[1])
	}
	line := strings.Join(w.phrases, ", ")
	if f.Note != "" {
		if strings.TrimFunc(f.Note, unicode.IsSpace) != f.Note {
			w.cannot("a remark with white space at its ends")
		}
		if line += "; " + f.Note; len(w.phrases) == 0 {
			line = "; " + f.Note
		}
	}
	if line == "" {
		w.cannot("nothing: an empty line names nobody")
	}
	return line, w.err
}

type wordsWriter struct {
	units   measure.Units
	phrases []string
	err     error
}

func (w *wordsWriter) phrase(s string) { w.phrases = append(w.phrases, s) }

// cannot keeps the first thing that plain words can't say.
func (w *wordsWriter) cannot(format string, args ...any) {
	if w.err == nil {
		w.err = fmt.Errorf("plain words can't say "+format, args...)
	}
}

// unsayable finds what has no phrase at all.
func (w *wordsWriter) unsayable(f Facts) {
	for _, no := range []struct {
		said bool
		what string
	}{
		{f.Soak != nil, "how long it was soaked"},
		{len(f.Did) > 0, "what was done"},
		{len(f.CutInto) > 0, "which sections were cut"},
		{f.Arrival, "that this is the record of arrival"},
		{f.QuarantineUntil.Known(), "how long it is in quarantine"},
		{f.LastGood.Known(), "when it was last seen well"},
		{len(f.Photos) > 0, "which photos show it"},
	} {
		if no.said {
			w.cannot("%s", no.what)
		}
	}
}

// words writes a phrase whose words run to the comma.
func (w *wordsWriter) words(opening, words string) {
	if words == "" || strings.ContainsAny(words, ",;") || strings.TrimFunc(words, unicode.IsSpace) != words {
		w.cannot("%s %q: its words end at a comma and at a semicolon", opening, words)
	}
	w.phrase(opening + " " + words)
}

// state writes what lasts until it is gone.
func (w *wordsWriter) state(opening, words string) {
	switch words {
	case "":
	case "none":
		w.phrase("no " + opening)
	default:
		w.words(opening, words)
	}
}

func (w *wordsWriter) outcome(f Facts) {
	if f.Outcome != Lost && (len(f.Cause.Words) > 0 || f.Cause.Doubt) {
		w.cannot("a cause without a loss")
	}
	switch f.Outcome {
	case "":
	case Lost:
		if cause := w.cause(f.Cause); cause != "" {
			w.words("lost", cause)
		} else {
			w.phrase("lost")
		}
	case Established, PassedOn, AliveAfterAll:
		w.phrase(string(f.Outcome))
	default:
		w.cannot("the outcome %q", f.Outcome)
	}
}

// cause writes a cause and, for safety, reads it back: words of one's own can
// look like anything.
func (w *wordsWriter) cause(c Cause) string {
	if len(c.Words) == 0 {
		if c.Doubt {
			w.cannot("a doubt about no cause")
		}
		return ""
	}
	out := strings.Join(c.Words, " and ")
	if c.Doubt {
		out += "?"
	}
	if back, trouble := ParseCause(out); trouble != nil || back.Doubt != c.Doubt || !slices.Equal(back.Words, c.Words) {
		w.cannot("the cause %q", strings.Join(c.Words, ", "))
	}
	return out
}

func (w *wordsWriter) leaves(l *Leaves) {
	if l == nil {
		return
	}
	if l.New {
		w.phrase("new leaf")
	}
	if l.Count == nil && len(l.Sizes) > 0 {
		w.cannot("the sizes of leaves without their number")
	}
	if l.Count != nil {
		parts := []string{"leaves " + w.count(*l.Count)}
		for _, s := range l.Sizes {
			parts = append(parts, w.size(s))
		}
		w.phrase(strings.Join(parts, " "))
	}
	if l.Cut != 0 {
		leaves := " leaves"
		if l.Cut == 1 {
			leaves = " leaf"
		}
		w.phrase("cut " + w.count(measure.Figure[int]{Value: l.Cut}) + leaves)
	}
	if l.Dropped != 0 || l.Count == nil && len(l.Sizes) == 0 && !l.New && l.Cut == 0 {
		w.phrase("dropped " + w.count(measure.Figure[int]{Value: l.Dropped}))
	}
}

func (w *wordsWriter) roots(r *Roots) {
	if r == nil {
		return
	}
	if *r == (Roots{}) {
		w.cannot("roots of which nothing is told")
	}
	if r.New {
		w.phrase("new root")
	}
	if r.Cut != nil {
		w.phrase("cut " + tilde(r.Cut.Estimate) + w.percent(r.Cut.Value) + " roots")
	}
	var parts []string
	length := func(name string, l *measure.Figure[measure.Length]) {
		if l != nil {
			number, unit := w.length(l.Value)
			parts = append(parts, name+" "+tilde(l.Estimate)+number+unit)
		}
	}
	length("longest", r.Longest)
	length("mean", r.Mean)
	if r.Count != nil {
		parts = append(parts, "count "+w.count(*r.Count))
	}
	length("length", r.Length)
	switch {
	case r.Grade != nil:
		if *r.Grade < 0 || *r.Grade > 5 {
			w.cannot("the grade %d", *r.Grade)
		}
		w.phrase(strings.Join(append([]string{"roots " + strconv.Itoa(*r.Grade)}, parts...), " "))
	case len(parts) > 0:
		w.cannot("%s without a grade of the roots", parts[0])
	}
}

func tilde(estimate bool) string {
	if estimate {
		return "~"
	}
	return ""
}

func (w *wordsWriter) count(n measure.Figure[int]) string {
	if n.Value < 0 || n.Value > measure.MostCount {
		w.cannot("the count %d", n.Value)
	}
	return tilde(n.Estimate) + strconv.Itoa(n.Value)
}

func (w *wordsWriter) size(s measure.Figure[measure.Size]) string {
	long, unit := w.length(s.Value.Length)
	wide, unitWide := w.length(s.Value.Width)
	if unit != unitWide { // one unit holds for both
		cm := wordsWriter{}
		long, _ = cm.length(s.Value.Length)
		wide, _ = cm.length(s.Value.Width)
		unit = " cm"
	}
	return tilde(s.Estimate) + long + "x" + wide + unit
}

// length writes a length as a bare number where the diary's unit gives it
// exactly, else in centimetres.
func (w *wordsWriter) length(l measure.Length) (number, unit string) {
	if !(l >= measure.ShortestLength && l <= measure.LongestLength) {
		w.cannot("the length %v", float64(l))
	}
	if !w.units.Inches {
		return plain(float64(l)), ""
	}
	inches := plain(math.Round(l.Inches()*1e6) / 1e6)
	if back, trouble := measure.ParseLength(inches, w.units); trouble == nil && back.Value == l {
		return inches, ""
	}
	return plain(float64(l)), " cm"
}

// percent writes a share so that it reads back as the same number.
func (w *wordsWriter) percent(s measure.Share) string {
	hundred := float64(s) * 100
	for _, v := range []float64{math.Round(hundred*1e6) / 1e6, hundred,
		math.Nextafter(hundred, 0), math.Nextafter(hundred, 200)} {
		text := plain(v) + "%"
		if back, trouble := measure.ParseShare(text); trouble == nil && back.Value == s {
			return text
		}
	}
	w.cannot("the share %v", float64(s))
	return ""
}

// plain writes a number with a point and without an exponent, in as few
// digits as read back the same.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
