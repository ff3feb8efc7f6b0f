package header

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/patience"
	"wardian/content/source"
)

// read reads a file of front matter, with what was reported.
func read(t testing.TB, text string) (*Header, []source.Finding) {
	t.Helper()
	var r source.Report
	h := Read(source.New("a.md", []byte(text)), &r)
	return h, r.Findings()
}

func codes(findings []source.Finding) (out []string) {
	for _, f := range findings {
		out = append(out, f.Code)
	}
	return out
}

// Scalars are the text that was written, whatever YAML would make of them.
func TestScalarsAreTextAsWritten(t *testing.T) {
	for _, c := range []struct {
		written, text string
		kind          Kind
	}{
		{"2026-04-06", "2026-04-06", Text}, {"2026-04-06 18:30", "2026-04-06 18:30", Text}, {"18:30", "18:30", Text},
		{"no", "no", Text}, {"Yes", "Yes", Text}, {"true", "true", Text}, {"1.10", "1.10", Text}, {"0123", "0123", Text}, {"0x1F", "0x1F", Text},
		{"1e3", "1e3", Text}, {"+5", "+5", Text}, {".5", ".5", Text}, {"1_000", "1_000", Text}, {".inf", ".inf", Text}, {"null", "null", Text}, {"NULL", "NULL", Text},
		{"~", "", Empty}, {"", "", Empty}, {`""`, "", Text}, {"''", "", Text}, {"~14 cm", "~14 cm", Text},
		{`"it's"`, "it's", Text}, {"'it''s'", "it's", Text}, {`"a\tb"`, "a\tb", Text}, {"two words # a comment", "two words", Text},
		{"a: b"[:1], "a", Text}, {"https://example.org/x", "https://example.org/x", Text}, {"98%", "98%", Text}, {"rot?", "rot?", Text},
		{"Hoya 'So'", "Hoya 'So'", Text}, {"-10.30 USD", "-10.30 USD", Text}, {"#", "", Empty}, {"×", "×", Text}, {"a#b", "a#b", Text},
	} {
		h, findings := read(t, "---\nk: "+c.written+"\nz: 1\n---\n")
		assert.Empty(t, findings, c.written)
		f := h.Top.Field("k")
		require.NotNil(t, f, c.written)
		assert.Equal(t, c.kind, f.Value.Kind, c.written)
		assert.Equal(t, c.text, f.Value.Text, c.written)
		assert.Equal(t, "1", h.Top.Field("z").Value.Text, c.written)
	}
}

// Every key and value stands where it is said to stand.
func TestPlacesAreRight(t *testing.T) {
	text := "---\r\nåpen: blåbær i moss\r\nliste: [en, \"to tre\", 'fire']\r\nkart: {en: to, \"tre\": [x]}\r\nunder:\r\n  - a\r\n  - bokstav: c\r\nlang: en\r\n  to\r\n---\r\nOrd.\r\n"
	for _, whole := range []string{text, "\xef\xbb\xbf" + text, "\n\n" + text} {
		f := source.New("a.md", []byte(whole))
		var r source.Report
		h := Read(f, &r)
		require.Empty(t, r.Findings())
		cut := func(s source.Span) string { return string(f.Bytes[f.Offset(s.Start):f.Offset(s.End)]) }
		n := 0
		var look func(v *Value)
		look = func(v *Value) {
			if v.Kind == Text {
				n++
				written := cut(v.Span)
				switch v.Style {
				case Quoted:
					assert.Equal(t, v.Text, written[1:len(written)-1])
				default:
					assert.Equal(t, v.Text, strings.Join(strings.Fields(written), " "))
				}
				if v.exact && len(v.Text) > 1 {
					assert.Equal(t, v.Text[1:], cut(v.Part(1, 99)))
				}
			}
			for i := range v.Items {
				look(&v.Items[i])
			}
			for i := range v.Fields {
				assert.Equal(t, v.Fields[i].Key, strings.Trim(cut(v.Fields[i].KeySpan), `"'`))
				look(&v.Fields[i].Value)
			}
		}
		look(&h.Top)
		assert.Equal(t, 9, n)
		assert.Equal(t, `[en, "to tre", 'fire']`, cut(h.Top.Field("liste").Value.Span))
		assert.Equal(t, `{en: to, "tre": [x]}`, cut(h.Top.Field("kart").Value.Span))
		assert.Equal(t, "Ord.\r\n", string(f.Bytes[h.Body:]))
		assert.Equal(t, "---", cut(h.Head))
	}
}

func TestBodyBeginsBelow(t *testing.T) {
	for _, c := range []struct{ text, body string }{
		{"---\na: 1\n---\nwords\n", "words\n"}, {"---\na: 1\n---", ""}, {"---\na: 1\n--- \nwords", "words"}, {"---\n---\nwords\n---\nmore\n", "words\n---\nmore\n"},
		{"---\n# nothing\n---\n\nwords", "\nwords"}, {"---\na: 1\n---\n\n| a | b |\n|---|---|\n", "\n| a | b |\n|---|---|\n"},
		{"---\na: 1\n---\nTitle\n---\nwords\n", "Title\n---\nwords\n"}, {"---\na: 1\n---\nnote: words\n---\n", "note: words\n---\n"},
	} {
		h, findings := read(t, c.text)
		if strings.Contains(c.text, "note:") {
			// A paragraph that looks like a key of the diary's, above a rule: taken
			// for front matter that was cut short.
			assert.Equal(t, []string{"hyphens-inside"}, codes(findings))
			continue
		}
		assert.Empty(t, findings, c.text)
		assert.False(t, h.Broken)
		assert.Equal(t, c.body, c.text[h.Body:])
	}
}

// One broken line hides nothing of the rest: each is told, and what stands
// between is read.
func TestReadingGoesOnBehindABrokenLine(t *testing.T) {
	h, findings := read(t, "---\na: b: c\nd: 1\ne: *f g\nh: 2\ni:3\nj: \"k\" l\nm: 3\nn: [o\np: 4\nq: @r\ns: {t: u, v}\nw: 5\n---\n")
	assert.Equal(t, []string{"colon-in-words", "opening-mark", "colon-without-space", "quote-closes-early", "bracket-open", "opening-mark", "comma-in-words"}, codes(findings))
	assert.False(t, h.Broken)
	for key, want := range map[string]string{"d": "1", "h": "2", "m": "3", "p": "4", "w": "5"} {
		require.NotNil(t, h.Top.Field(key), key)
		assert.Equal(t, want, h.Top.Field(key).Value.Text)
	}
	for _, key := range []string{"a", "e", "i", "j", "n", "q"} {
		require.NotNil(t, h.Top.Field(key), key)
		assert.True(t, h.Top.Field(key).Value.Faulty, key)
	}
}

func TestMendingHasALimit(t *testing.T) {
	h, findings := read(t, "---\n"+strings.Repeat("a: b: c\n", 500)+"---\n")
	assert.True(t, h.Broken)
	assert.LessOrEqual(t, len(findings), maxMends+1)
}

// hostile are texts that have kept readers of YAML busy.
func hostile() map[string]string {
	const n = 60 << 10
	aliases := "a0: &a0 [x, x, x, x, x, x, x, x, x]\n"
	for i := range 9 {
		aliases += fmt.Sprintf("a%d: &a%d [*a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d]\n", i+1, i+1, i, i, i, i, i, i, i, i, i)
	}
	many := func(s string) string { return strings.Repeat(s, n/len(s)) }
	var keys strings.Builder
	for i := 0; keys.Len() < n; i++ {
		fmt.Fprintf(&keys, "k%d: 1\n", i)
	}
	return map[string]string{
		"aliases": aliases, "keys": keys.String(), "same key": many("a: 1\n"), "broken lines": many("a: b: c\n"), "blank lines": "a:1\n" + many("\n") + "b: 1\n",
		"brackets": "a: " + many("["), "braces": "a: " + many("{"), "braces and keys": "a: " + many("{a: "), "hyphens": many("- "), "questions": many("? "), "colons": many(": "),
		"commas": "a: [" + many("a,") + "]", "pairs": "a: {" + many("a,") + "}", "quotes": "a: " + many(`"`), "open quotes": many("a: \"x\n"), "hashes": many("a: b #c\n"), "comments": many("# a\n"),
		"folds": "a: x\n" + many(" y\n"), "block": "a: |\n" + many(" y\n"), "anchors": many("&a "), "tabs": many("\ta: 1\n"), "words": many("word "), "lines of words": many("word\n"),
		"deep lists": func() string {
			var b strings.Builder
			for i := 0; b.Len() < n && i < 300; i++ {
				b.WriteString(strings.Repeat(" ", i) + "-\n")
			}
			return b.String()
		}(), "tags": many("!a "), "dots": "a: 1\n" + many("...\n"), "rules": many("--- x\n"), "percent": many("%a\n"), "stars": many("*a "),
	}
}

// No text of 64 KiB takes longer than a second (standards A14), whatever it is.
func TestHostileTextsEnd(t *testing.T) {
	cases := hostile()
	require.NotEmpty(t, cases)
	for name, text := range cases {
		t.Run(name, func(t *testing.T) {
			took := time.Hour
			var h *Header
			var findings []source.Finding
			for i := 0; i < 3 && took >= patience.For(0); i++ { // the machine does other things too
				start := time.Now()
				h, findings = read(t, "---\n"+text+"\n---\n")
				took = min(took, time.Since(start))
			}
			assert.Less(t, took, patience.For(0))
			assert.NotNil(t, h)
			assert.Less(t, len(findings), 70_000)
		})
	}
}

func FuzzRead(f *testing.F) {
	for _, text := range hostile() {
		f.Add("---\n" + text[:min(len(text), 300)] + "\n---\n")
	}
	for _, text := range []string{
		"---\na: pot #3\nb: {c: 4,5 cm}\n---\nwords", "\xef\xbb\xbf---\r\na: 1\r\n---\r\n", "+++\na = 1\n+++\n", "---\nnote: |\n a\n ---\n b\n---\n", "---\na:\n\tb: 1\n---\n",
		"--- # x\na: 'b' c\n...\n", "---\na: &b [*b]\n<<: *b\n---\n", "---\ndate:1\n---\n", "—\na: 1\n—\n", "---\na: \"x\nb: 1\n---\n",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file := source.New("a.md", []byte(text))
		start := time.Now()
		for _, h := range []func(*source.File, *source.Report) *Header{Read, Whole} {
			var r source.Report
			got := h(file, &r)
			if got.Body < 0 || got.Body > len(text) {
				t.Fatalf("the body begins at %d of %d", got.Body, len(text))
			}
			if got.Top.Kind != Map {
				t.Fatal("the top isn't a map")
			}
			if got.Broken && len(r.Findings()) == 0 {
				t.Fatal("broken, and nothing said")
			}
			inside(t, file, &got.Top)
			for _, finding := range r.Findings() {
				if finding.Span.Start.Line < 1 || finding.Span.Start.Line > file.Lines() || finding.Message == "" {
					t.Fatalf("%+v", finding)
				}
				_ = finding.Long()
			}
		}
		if took := time.Since(start); took > patience.For(len(text)) {
			t.Fatalf("%d bytes took %v", len(text), took)
		}
	})
}

// inside says whether all places lie in the file.
func inside(t *testing.T, f *source.File, v *Value) {
	for _, p := range []source.Position{v.Span.Start, v.Span.End} {
		if p.Line > f.Lines() || p.Line == 0 && len(v.Fields) > 0 {
			t.Fatalf("%v lies outside of %d lines", p, f.Lines())
		}
	}
	for i := range v.Items {
		inside(t, f, &v.Items[i])
	}
	for i := range v.Fields {
		inside(t, f, &v.Fields[i].Value)
	}
}

func BenchmarkRead(b *testing.B) {
	text := "---\ndate: 2026-04-06\nplace: tote\nreading: 25.5 C 98%\nspecimens:\n  b26-01: new root\n  b26-02: limp, rot stem; smells sour\n  b26-03: leaves 3 13x6 12x6, roots 1 longest 2, soft\n  b26-04: to cabinet, firm\n  b26-05: {turgor: firm, pests: thrips}\nothers: same\n---\nA word or two.\n"
	f := source.New("a.md", []byte(text))
	b.ReportAllocs()
	for b.Loop() {
		var r source.Report
		Read(f, &r)
	}
}
