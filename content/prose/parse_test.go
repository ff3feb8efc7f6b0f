package prose

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/source"
)

const front = "---\ntitle: Ünïcode\n---\n"

// under parses a text below front matter.
func under(t testing.TB, text string) (*Document, *source.File, []source.Finding) {
	t.Helper()
	f := source.New("updates/six-weeks-on.md", []byte(front+text))
	var report source.Report
	return Parse(f, len(front), &report), f, report.Findings()
}

// marked gives the characters of a file that a span marks.
func marked(f *source.File, s source.Span) string {
	return string(f.Bytes[f.Offset(s.Start):f.Offset(s.End)])
}

func TestNothingButWhiteSpaceIsNoDocument(t *testing.T) {
	for _, text := range []string{"", " ", "\n\n", "\t\r\n \n"} {
		doc, findings := read(t, text)
		assert.Nil(t, doc, "%q", text)
		assert.Empty(t, findings)
	}
	var none *Document
	assert.Nil(t, none.Opening())
	assert.Nil(t, none.Sections())
	assert.Nil(t, none.Links())
	assert.Nil(t, none.Plates())
	assert.Empty(t, none.HTML(page)+none.Plain()+none.FirstParagraph()+none.FirstSentence())
	var bare *Section
	assert.Empty(t, bare.HTML(page)+bare.Plain()+bare.FirstSentence())
}

func TestAnOffsetOutsideTheFileIsItsNearestEnd(t *testing.T) {
	f := source.New("a.md", []byte("words"))
	assert.Nil(t, Parse(f, 99, &source.Report{}))
	assert.Equal(t, "words", Parse(f, -1, &source.Report{}).Plain())
}

func TestSections(t *testing.T) {
	doc, f, findings := under(t, "For all.\n\n## b26-01\n\nThe first.\n\n### deeper\n\nmore\n\n##   `b26-02` ##\nThe *second*.\n\nb26-03\n---\n\n## b26-04\n")
	require.Empty(t, findings)
	require.Equal(t, "For all.", doc.Opening().Plain())
	var seen [][3]string
	for _, s := range doc.Sections() {
		seen = append(seen, [3]string{s.Heading, marked(f, s.Span), s.Plain()})
	}
	assert.Equal(t, [][3]string{
		{"b26-01", "b26-01", "The first.\ndeeper\nmore"},
		{"b26-02", "`b26-02`", "The second."},
		{"b26-03", "b26-03", ""},
		{"b26-04", "b26-04", ""},
	}, seen)
	assert.True(t, doc.Sections()[3].Empty())
	assert.Equal(t, "<p>The first.</p>\n<h4>deeper</h4>\n<p>more</p>\n", doc.Sections()[0].HTML(Renderer{Lower: 1}))

	doc, _, _ = under(t, "## b26-01\n\nx\n")
	assert.Nil(t, doc.Opening())
}

func TestAHeadingInAQuotationOrAListOpensNoSection(t *testing.T) {
	doc, _, _ := under(t, "> ## b26-01\n\n- ## b26-02\n")
	assert.Empty(t, doc.Sections())
}

func TestLinksHaveTheirPlaces(t *testing.T) {
	doc, f, _ := under(t, `Åé [b *3*](specimens/b26-03.md) and [same](<photos/a b.jpg>), <https://example.org/>,
![alt **two**](photos/a%20b.jpg "title") [by reference][ref] [ref]
[specimens/b26-03](specimens/b26-03) [](x) x[^n]

[ref]: places/tote
[^n]: [in a note](imports/a)
`)
	type link struct {
		dest, place, words string
		image              bool
	}
	var seen []link
	for _, l := range doc.Links() {
		seen = append(seen, link{l.Dest, marked(f, l.Span), l.Text + l.Alt, l.Image})
	}
	assert.Equal(t, []link{
		{"specimens/b26-03.md", "specimens/b26-03.md", "b 3", false},
		{"photos/a b.jpg", "photos/a b.jpg", "same", false},
		{"https://example.org/", "https://example.org/", "https://example.org/", false},
		{"photos/a b.jpg", "photos/a%20b.jpg", "alt two", true},
		{"places/tote", "[by reference]", "by reference", false},
		{"places/tote", "[ref]", "ref", false},
		{"specimens/b26-03", "specimens/b26-03", "specimens/b26-03", false},
		{"x", "x", "", false},
		{"imports/a", "imports/a", "in a note", false},
	}, seen)
	assert.True(t, doc.Links()[2].External())
	assert.False(t, doc.Links()[0].External())
}

func TestPlatesHaveTheirPlaces(t *testing.T) {
	doc, f, findings := under(t, "Å\n\n```plate\nshow: survival\n\nby: size\n```\n\n~~~~  plate  \nshow: rows")
	require.Empty(t, findings)
	plates := doc.Plates()
	require.Len(t, plates, 2)
	assert.Equal(t, "show: survival\n\nby: size\n", plates[0].Text)
	assert.Equal(t, "show: rows", plates[1].Text)
	for _, p := range plates {
		assert.Equal(t, p.Text, string(f.Bytes[p.Offset:p.Offset+len(p.Text)]))
		assert.True(t, strings.HasPrefix(marked(f, p.Span), "plate"))
		assert.True(t, strings.HasSuffix(marked(f, p.Span), p.Text))
	}

	doc, _, _ = under(t, "```plate\n```\n")
	require.Len(t, doc.Plates(), 1)
	assert.Empty(t, doc.Plates()[0].Text)
}

func TestFindings(t *testing.T) {
	for _, c := range []struct {
		name, text string
		severity   source.Severity
		code       string
		place      string
	}{
		{"tag", "a <b>x</b>", source.Warning, codeRawHTML, "<b>"},
		{"block", "<div>\nx\n</div>", source.Warning, codeRawHTML, "<div>"},
		{"open comment", "a\n\n<!-- b\n\nc", source.Warning, codeRawHTML, "<!--"},
		{"scheme", "[x](ftp://example.org)", source.Warning, codeScheme, "ftp://example.org"},
		{"autolink", "<tel:123>", source.Warning, codeScheme, "tel:123"},
		{"no words", "[](specimens/b26-03)", source.Warning, codeNoWords, "specimens/b26-03"},
		{"picture elsewhere", "![x](https://example.org/a.jpg)", source.Warning, codeElsewhere, "https://example.org/a.jpg"},
		{"note unused", "a\n\n[^one]: b", source.Warning, codeNoteUnused, "[^one]"},
		{"note unknown", "a[^one] b", source.Warning, codeNoNote, "[^one]"},
		{"plate in a list", "- x\n\n  ```plate\n  show: rows\n  ```", source.Warning, codePlate, "plate"},
		{"too long", "\n" + strings.Repeat("a", MaxBody), source.Error, codeTooLong, "a"},
		{"too tangled", "words\n\n" + strings.Repeat("*a_ ", 10000), source.Error, codeTangled, "_"},
		{"too deep", strings.Repeat("> ", 200) + "a", source.Error, codeTangled, ">"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, f, findings := under(t, c.text)
			require.Len(t, findings, 1)
			got := findings[0]
			assert.Equal(t, c.severity, got.Severity)
			assert.Equal(t, c.code, got.Code)
			assert.NotEmpty(t, got.Expected)
			if c.code == codeTangled {
				assert.Greater(t, got.Span.Start.Line, 3, "below the front matter")
			} else {
				assert.Equal(t, c.place, marked(f, got.Span))
			}
		})
	}
}

func TestCommentsVanishInSilence(t *testing.T) {
	for _, text := range []string{"a <!-- x --> b", "<!-- x\n\ny -->\n\nb", "<!-- x -->", "<!--> b", "a <!---> b"} {
		doc, _, findings := under(t, text)
		assert.Empty(t, findings, "%q", text)
		assert.NotContains(t, doc.HTML(page)+doc.Plain(), "x")
	}
}

func TestAMarkThatIsMeantAsItStandsIsNoNote(t *testing.T) {
	_, _, findings := under(t, `a [^](x) \[^one] [^one](y) `+"`[^one]`")
	assert.Empty(t, findings)
}

func TestWarningsAboutOneBodyAreBounded(t *testing.T) {
	_, _, findings := under(t, strings.Repeat("<b>x ", 5000))
	assert.Len(t, findings, maxWarnings)
}

func TestARefusedBodyShowsNothing(t *testing.T) {
	doc, _, _ := under(t, "## b26-01\n\n[a](b)\n\n"+strings.Repeat("*a_ ", 10000))
	require.NotNil(t, doc)
	assert.Empty(t, doc.HTML(page)+doc.Plain())
	assert.Empty(t, doc.Sections())
	assert.Empty(t, doc.Links())
}
