package prose

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"wardian/content/patience"
	"wardian/content/source"
)

// hostile are the kinds of input that the reference implementation of CommonMark
// (cmark) tests for time in its pathological_tests.py, written anew from their
// descriptions, and those found quadratic in goldmark by trying repeated marks.
// Each gives a text of about n bytes.
var hostile = []struct {
	name string
	text func(n int) string
}{
	{"nested strong emphasis", around("*a **a ", "b", " a** a*")},
	{"emphasis closers without openers", over("a_ ")},
	{"emphasis openers without closers", over("_a ")},
	{"link closers without openers", over("a]")},
	{"link openers without closers", over("[a")},
	{"mismatched openers and closers", over("*a_ ")},
	{"openers and closers multiple of three", func(n int) string { return "a**b" + over("c* ")(n) }},
	{"link openers and emphasis closers", over("[ a_")},
	{"brackets and parentheses", over("[ (](")},
	{"images of nothing", over("![[]()")},
	{"strong before a link", func(n int) string { return "**x [a*b**c*](d)" + over("**x [a*b**c*](d) ")(n) }},
	{"nested brackets", around("[", "a", "]")},
	{"nested quotations", func(n int) string { return strings.Repeat("> ", n/2) + "a" }},
	{"deeply nested lists", nestedLists},
	{"NUL", over("abc\x00de\x00")},
	{"runs of backticks", backticks},
	{"unclosed links with brackets", over("[a](<b")},
	{"unclosed links", over("[a](b")},
	{"unclosed pictures", over("![](")},
	{"unclosed comments", over("</<!--")},
	{"unclosed processing instructions", over("<?")},
	{"unclosed declarations", over("<!A ")},
	{"unclosed titles", over(`[a](b "c `)},
	{"empty lines in nested lists", func(n int) string {
		return strings.Repeat("- ", n/8) + "x" + strings.Repeat("\n", n/2)
	}},
	{"references", func(n int) string {
		return strings.Repeat("[a]: u\n", n/14) + "\n" + strings.Repeat("[a] ", n/8)
	}},
	{"different references", definitions},
	{"a long address by reference", func(n int) string {
		return "[a]: " + strings.Repeat("x", n/2) + "\n\n" + strings.Repeat("[a] ", n/8)
	}},
	{"a table of many columns", func(n int) string {
		return strings.Repeat("|a", n/6) + "|\n" + strings.Repeat("|-", n/6) + "|\n" + strings.Repeat("|\n", n/6)
	}},
	{"escaped bars in code in a table", func(n int) string {
		return "|a|\n|-|\n" + strings.Repeat("|`x\\|y`|\n", n/9)
	}},
	{"footnotes", func(n int) string {
		var b strings.Builder
		for i := 0; b.Len() < n/2; i++ {
			fmt.Fprintf(&b, "[^%d]: x\n\n", i)
		}
		return b.String() + strings.Repeat("[^0] ", n/10)
	}},
	{"footnotes without a text", over("[^a] ")},
	{"brackets on lines of their own", over("][\n")},
	{"links on one long line", over("[a](b)")},
	{"links of angle brackets", over("<a@b.c>")},
	{"tags", over("<b>")},
	{"attributes", over(`<a x="`)},
	{"attributes of two quotes", over(`<a x='" y="`)},
	{"marks of three kinds", over("_**a ")},
	{"empty headings", over("## \n")},
	{"plates", over("```plate\n```\n")},
	{"entities", over("&#1;&#x")},
	{"backslashes", over(`\`)},
	{"tabs in quotations", over(">\t#")},
}

func over(unit string) func(int) string {
	return func(n int) string { return strings.Repeat(unit, n/len(unit)) }
}

func around(open, middle, shut string) func(int) string {
	return func(n int) string {
		k := n / (len(open) + len(shut))
		return strings.Repeat(open, k) + middle + strings.Repeat(shut, k)
	}
}

func nestedLists(n int) string {
	var b strings.Builder
	for i := 0; b.Len()+2*i+4 < n; i++ {
		b.WriteString(strings.Repeat("  ", i) + "* a\n")
	}
	return b.String()
}

func backticks(n int) string {
	var b strings.Builder
	for i := 1; b.Len()+i+1 < n; i++ {
		b.WriteString("e" + strings.Repeat("`", i))
	}
	return b.String()
}

func definitions(n int) string {
	var b strings.Builder
	for i := 0; b.Len() < n/2; i++ {
		fmt.Fprintf(&b, "[%d]: u\n", i)
	}
	b.WriteString("\n")
	for i := 0; b.Len() < n-10; i++ {
		fmt.Fprintf(&b, "[%d] ", i)
	}
	return b.String()
}

// limit is the time that the issue allows for 64 KiB.
var limit = patience.For(0)

// everything does all that a build does with a body, and gives the time it took.
// On a busy machine a clock counts other people's work too: a time over the limit
// is taken again, twice at most, and the least one holds.
func everything(t testing.TB, f *source.File, offset int) (doc *Document, findings []source.Finding, took time.Duration) {
	for try := range 3 {
		start := time.Now()
		var report source.Report
		doc = compile(f, offset, &report)
		pages := []string{doc.HTML(page)}
		for _, s := range doc.Sections() {
			pages = append(pages, s.HTML(page))
		}
		doc.Plain()
		doc.FirstSentence()
		if once := time.Since(start); try == 0 || once < took {
			took = once
		}
		if try == 0 {
			findings = report.Findings()
			for _, p := range pages {
				checkHTML(t, p)
			}
		}
		if took < limit {
			break
		}
	}
	return doc, findings, took
}

func TestHostileTextsEndInTime(t *testing.T) {
	for _, c := range hostile {
		t.Run(c.name, func(t *testing.T) {
			text := c.text(MaxBody - 32)
			require.LessOrEqual(t, len(text), MaxBody)
			require.Greater(t, len(text), MaxBody/2)
			_, _, took := everything(t, source.New("a.md", []byte(text)), 0)
			assert.Less(t, took, limit)
		})
	}
}

// A budget that refused what people write would be worse than none.
func TestOrdinaryWritingIsFarFromTheBudget(t *testing.T) {
	const letter = "Twelve *weeks* ago (in March) **fourteen plants** lay on [newspaper](specimens/b26-03 \"a title\") in the hall_way,\n" +
		"with `roots` in the air: 2 * 3 < 7 & _so_ on.[^n] See <https://example.org/a_b*c>, ![a leaf](photos/a.jpg), [here].\n\n" +
		"- [ ] one\n  - two\n    1. three\n\n> said\n\n| a | b | c |\n|---|--:|:-:|\n| 1 | 2 | `3` |\n| [x](places/tote) | | |\n\n"
	text := strings.Repeat(letter, (MaxBody-200)/len(letter)) + "[^n]: note\n\n[here]: places/tote\n"
	m := spent(t, text)
	assert.Less(t, m, budget/10)

	oneLine := strings.Repeat("Twelve *weeks* ago **plants** lay on [newspaper](specimens/b26-03) in the `hall`, ", 700)
	assert.Less(t, spent(t, oneLine), budget/10)
}

func spent(t *testing.T, text string) int {
	t.Helper()
	require.Less(t, len(text), MaxBody)
	_, findings := read(t, text)
	require.Empty(t, findings)
	m := &meter{left: budget, body: []byte(text)}
	parse(m)
	return budget - m.left
}

// elements are what a body may become, with the attributes they may carry.
var elements = map[string]string{
	"p": "", "em": "", "strong": "", "code": "", "pre": "", "blockquote": "", "hr": "", "br": "",
	"h1": "", "h2": "", "h3": "", "h4": "", "h5": "", "h6": "", "ul": "", "ol": "start", "li": "id",
	"table": "", "thead": "", "tbody": "", "tr": "", "td": "class", "th": "class scope",
	"div": "class tabindex role aria-label", "a": "href rel title id role aria-label", "sup": "",
	"section": "class role aria-label", "figure": "",
}

// checkHTML holds HTML to what may leave this package: known elements and
// attributes, each closed in order, no link under another scheme, nothing
// unprintable, no paragraph in a paragraph, no link in a link.
func checkHTML(t testing.TB, text string) {
	t.Helper()
	for _, r := range text {
		if unprintable(r) {
			t.Fatalf("%q stands in the page", r)
		}
	}
	var open []string
	z := html.NewTokenizer(strings.NewReader(text))
	for {
		switch z.Next() {
		case html.ErrorToken:
			require.Empty(t, open, "elements left open")
			return
		case html.CommentToken, html.DoctypeToken:
			t.Fatalf("%q passed", z.Raw())
		case html.StartTagToken:
			tag := z.Token()
			allowed, known := elements[tag.Data]
			require.True(t, known, "element %s", tag.Data)
			ids := ""
			for _, a := range tag.Attr {
				require.Contains(t, strings.Fields(allowed), a.Key, tag.Data)
				require.NotContains(t, ids, " "+a.Key+" ", "an attribute given twice")
				ids += " " + a.Key + " "
				if a.Key == "href" {
					require.Regexp(t, `^(https?:|mailto:|#|\.\./)`, strings.ToLower(a.Val))
				}
			}
			for _, outer := range open {
				require.False(t, outer == "p" && strings.Contains(" p div ul ol table figure pre blockquote h1 h2 h3 section hr ", " "+tag.Data+" "), "%s in a paragraph", tag.Data)
				require.False(t, outer == "a" && tag.Data == "a", "a link in a link")
			}
			if tag.Data != "br" && tag.Data != "hr" {
				open = append(open, tag.Data)
			}
		case html.EndTagToken:
			tag := z.Token()
			require.NotEmpty(t, open, "</%s> closes nothing", tag.Data)
			require.Equal(t, open[len(open)-1], tag.Data)
			open = open[:len(open)-1]
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, c := range hostile {
		f.Add([]byte(c.text(200)), 0)
	}
	f.Add([]byte("---\na: b\n---\n# x\n\n[a](b)![c](d)[^1]\n\n## y\n\n```plate\nz: 1\n```\n\n[^1]: n\n"), 13)
	f.Add([]byte(">\t#"), 0)
	f.Fuzz(func(t *testing.T, data []byte, offset int) {
		if len(data) > MaxBody {
			return
		}
		file := source.New("a.md", data)
		if doc := Parse(file, offset, &source.Report{}); doc == nil {
			return
		}
		offset = min(max(offset, 0), len(data))
		// compile lets a panic of goldmark's through: it should be seen here.
		doc, findings, took := everything(t, file, offset)
		assert.Less(t, took, limit)
		end := file.Position(len(data))
		within := func(s source.Span) {
			t.Helper()
			for _, p := range []source.Position{s.Start, s.End} {
				require.True(t, p.Line >= 1 && p.Column >= 1 && p.Line <= end.Line, "%v", p)
				require.Equal(t, p, file.Position(file.Offset(p)), "a place that isn't one")
			}
		}
		for _, l := range doc.Links() {
			within(l.Span)
		}
		for _, p := range doc.Plates() {
			within(p.Span)
			require.Equal(t, p.Text, string(data[p.Offset:p.Offset+len(p.Text)]))
		}
		for _, s := range doc.Sections() {
			within(s.Span)
		}
		for _, finding := range findings {
			within(finding.Span)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	text := strings.Repeat("The third leaf of [b26-03](specimens/b26-03) is *hardening*; roots through the moss on two sides.\n\n", 15)
	f := source.New("check-ins/2026-04-06.md", []byte(text))
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		Parse(f, 0, &source.Report{})
	}
}

func BenchmarkHTML(b *testing.B) {
	text := strings.Repeat("The third leaf of [b26-03](specimens/b26-03) is *hardening*; roots through the moss on two sides.\n\n", 15)
	doc, _ := read(b, text)
	b.ReportAllocs()
	for b.Loop() {
		doc.HTML(page)
	}
}
