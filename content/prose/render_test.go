package prose

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/source"
)

// read parses a text as the whole of a file.
func read(t testing.TB, text string) (*Document, []source.Finding) {
	t.Helper()
	var report source.Report
	return Parse(source.New("updates/six-weeks-on.md", []byte(text)), 0, &report), report.Findings()
}

// page fills gaps so that they can be seen in the result.
var page = Renderer{
	Link: func(dest string) (string, bool) {
		return "../" + dest + ".html", !strings.Contains(dest, "nowhere")
	},
	Image: func(dest, alt string) string { return "<figure>" + dest + ": " + alt + "</figure>\n" },
	Plate: func(i int) string { return fmt.Sprintf("<figure>plate %d</figure>\n", i) },
}

// The numbers are those of the examples of CommonMark 0.31.2 (spec.commonmark.org);
// the wanted HTML is the specification's. Before they were chosen, all of its
// examples without raw HTML and pictures were run once: those that differed had
// a scheme or an address that this package treats otherwise on purpose.
func TestCommonMarkExamples(t *testing.T) {
	for _, c := range []struct {
		number     int
		text, html string
	}{
		{1, "\tfoo\tbaz\t\tbim\n", "<pre><code>foo\tbaz\t\tbim\n</code></pre>\n"},
		{12, "\\!\\\"\\#\\$\n", "<p>!&quot;#$</p>\n"},
		{25, "&nbsp; &amp; &copy; &AElig;\n", "<p>\u00a0 &amp; © Æ</p>\n"},
		{42, "- `one\n- two`\n", "<ul>\n<li>`one</li>\n<li>two`</li>\n</ul>\n"},
		{43, "***\n---\n___\n", "<hr>\n<hr>\n<hr>\n"},
		{62, "# foo\n## foo\n### foo\n", "<h1>foo</h1>\n<h2>foo</h2>\n<h3>foo</h3>\n"},
		{80, "Foo *bar*\n=========\n\nFoo *bar*\n---------\n", "<h1>Foo <em>bar</em></h1>\n<h2>Foo <em>bar</em></h2>\n"},
		{119, "```\n<\n >\n```\n", "<pre><code>&lt;\n &gt;\n</code></pre>\n"},
		{228, "> # Foo\n> bar\n> baz\n", "<blockquote>\n<h1>Foo</h1>\n<p>bar\nbaz</p>\n</blockquote>\n"},
		{265, "1. a\n\n  2. b\n\n    3. c\n", "<ol>\n<li>\n<p>a</p>\n</li>\n<li>\n<p>b</p>\n</li>\n</ol>\n<pre><code>3. c\n</code></pre>\n"},
		{301, "- foo\n- bar\n+ baz\n", "<ul>\n<li>foo</li>\n<li>bar</li>\n</ul>\n<ul>\n<li>baz</li>\n</ul>\n"},
		{328, "`foo`\n", "<p><code>foo</code></p>\n"},
		{350, "*foo bar*\n", "<p><em>foo bar</em></p>\n"},
		{409, "foo***bar***baz\n", "<p>foo<em><strong>bar</strong></em>baz</p>\n"},
		{594, "<https://foo.bar.baz/test?q=hello&id=22&boolean>\n",
			`<p><a href="https://foo.bar.baz/test?q=hello&amp;id=22&amp;boolean" rel="external noopener">https://foo.bar.baz/test?q=hello&amp;id=22&amp;boolean</a></p>` + "\n"},
		{633, "foo  \nbaz\n", "<p>foo<br>\nbaz</p>\n"},
		{650, "hello $.;'there\n", "<p>hello $.;'there</p>\n"},
	} {
		t.Run(fmt.Sprint(c.number), func(t *testing.T) {
			doc, findings := read(t, c.text)
			assert.Equal(t, c.html, doc.HTML(page))
			assert.Empty(t, findings)
		})
	}
}

func TestHTML(t *testing.T) {
	for _, c := range []struct{ name, text, html string }{
		{"diary path", "[b 3](specimens/b26-03.md)", `<p><a href="../specimens/b26-03.md.html">b 3</a></p>` + "\n"},
		{"escaped path", "[x](photos/a%20b.jpg \"T & t\")", `<p><a href="../photos/a b.jpg.html" title="T &amp; t">x</a></p>` + "\n"},
		{"leads nowhere", "[words](nowhere) stay", "<p>words stay</p>\n"},
		{"goes out", "[x](https://example.org/ä?q=[1])", `<p><a href="https://example.org/%C3%A4?q=%5B1%5D" rel="external noopener">x</a></p>` + "\n"},
		{"letter", "<m@example.org>", `<p><a href="mailto:m@example.org" rel="external noopener">m@example.org</a></p>` + "\n"},
		{"script", "[x](javascript:alert(1)) [y](JaVa&#115;cript:a) <data:x,y> [z](//example.org)", "<p>x y data:x,y z</p>\n"},
		{"link in a link", "[a <https://example.org/>](b)", `<p><a href="../b.html">a https://example.org/</a></p>` + "\n"},
		{"picture alone", "![two leaves](photos/a.jpg)", "<figure>photos/a.jpg: two leaves</figure>\n"},
		{"picture inside", "Before ![x *y*](a.jpg) after.", "<p>Before  after.</p>\n<figure>a.jpg: x y</figure>\n"},
		{"picture in a link", "[![x](a.jpg)](b)", "<figure>a.jpg: x</figure>\n"},
		{"picture in a list", "- ![x](a.jpg)", "<ul>\n<li><figure>a.jpg: x</figure>\n</li>\n</ul>\n"},
		{"picture elsewhere", "![x](https://example.org/a.jpg)", "<p>x</p>\n"},
		{"raw HTML", "a <b onclick=x>b</b> <!-- secret --> c\n\n<script>\nalert(1)\n</script>\n", "<p>a b  c</p>\n"},
		{"table", "| a | b |\n|--:|:-:|\n| 1 | `x\\|y` |\n",
			`<div class="scroll" tabindex="0" role="region" aria-label="Table"><table>` +
				"\n<thead><tr>" + `<th scope="col" class="n">a</th><th scope="col" class="mid">b</th></tr></thead>` +
				"\n<tbody>\n" + `<tr><td class="n">1</td><td class="mid"><code>x|y</code></td></tr>` + "\n</tbody>\n</table></div>\n"},
		{"table without rows", "| a |\n|---|\n",
			`<div class="scroll" tabindex="0" role="region" aria-label="Table"><table>` +
				"\n<thead><tr>" + `<th scope="col">a</th></tr></thead>` + "\n</table></div>\n"},
		{"plate", "Look:\n\n```plate\nshow: survival\n```\n\nand\n\n~~~ plate wide\nshow: causes\n~~~", "<p>Look:</p>\n<figure>plate 0</figure>\n<p>and</p>\n<figure>plate 1</figure>\n"},
		{"code, not a plate", "```yaml\nshow: <x>\n```", "<pre><code>show: &lt;x&gt;\n</code></pre>\n"},
		{"controls", "a\x00b\x07c\u0085d\uFFFEe &#7; &#0;\r\nf\xff", "<p>a\uFFFDbcde  \uFFFD\nf\uFFFD</p>\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc, _ := read(t, c.text)
			assert.Equal(t, c.html, doc.HTML(page))
		})
	}
}

func TestHeadingsAreLowered(t *testing.T) {
	doc, _ := read(t, "# a\n\n## b\n\n##### c\n\n###### d\n")
	assert.Equal(t, "<h3>a</h3>\n<h4>b</h4>\n<h6>c</h6>\n<h6>d</h6>\n", doc.HTML(Renderer{Lower: 2}))
}

func TestWithoutARendererWordsStay(t *testing.T) {
	doc, _ := read(t, "[words](specimens/b26-03) ![alt](photos/a.jpg)\n\n```plate\nshow: rows\n```\n")
	assert.Equal(t, "<p>words </p>\n<p>alt</p>\n", doc.HTML(Renderer{}))
}

func TestFootnotes(t *testing.T) {
	const text = "One.[^b]\n\n## b26-01\n\nTwo.[^a] Again.[^a] [in a link[^b]](x)\n\n[^a]: Note a, and[^c].\n[^b]: Note b\n[^c]: Note c\n"
	doc, findings := read(t, text)
	require.Empty(t, findings)

	whole := doc.HTML(page)
	mark := doc.mark
	assert.Contains(t, whole, `<p>One.<sup><a href="#note-`+mark+`-1" id="noted-`+mark+`-1" role="doc-noteref" aria-label="note 1">1</a></sup></p>`)
	assert.Equal(t, 1, strings.Count(whole, `id="noted-`+mark+`-1"`), "only the first call can be gone back to")
	assert.Contains(t, whole, `in a link</a><sup>`, "a call inside a link stands after it")
	for i, words := range []string{"Note b", "Note a, and", "Note c"} {
		assert.Contains(t, whole, fmt.Sprintf(`<li id="note-%s-%d"><p>%s`, mark, i+1, words), "numbered by first call")
	}

	section := doc.Sections()[0].HTML(page)
	assert.Contains(t, section, `<li id="note-`+mark+`-1-1"><p>Note a`, "a section counts for itself and has ids of its own")
	assert.NotContains(t, doc.Opening().HTML(page), "Note a", "a section carries only the notes that it calls")
	assert.Contains(t, doc.Opening().HTML(page), `id="note-`+mark+`-0-1"`)

	other := Parse(source.New("updates/another.md", []byte(text)), 0, &source.Report{})
	assert.NotEqual(t, mark, other.mark, "two documents on one page don't clash")
}

func TestCRLFGivesTheSamePage(t *testing.T) {
	const text = "# a\n\nhard  \nbreak \\\nsoft\n\n- x\n- y\n\n```\ncode\n\nmore\n```\n\n| a | b |\n|---|---|\n| `c` | d |\n\n> q\n> r\n\n```plate\nshow: rows\nby: size\n```\n\nx[^1] `a\nb`\n\n[^1]: note\n    more\n"
	lf, _ := read(t, text)
	crlf, findings := read(t, strings.ReplaceAll(text, "\n", "\r\n"))
	assert.Empty(t, findings)
	assert.Equal(t, lf.HTML(page), crlf.HTML(page))
	assert.Equal(t, lf.Plain(), crlf.Plain())
}

func TestRenderingIsSafeForGoroutines(t *testing.T) {
	doc, _ := read(t, "[a](b)[^1]\n\n## x\n\nwords[^1]\n\n[^1]: note\n")
	want := doc.HTML(page)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 50 {
				assert.Equal(t, want, doc.HTML(page))
				doc.Sections()[0].HTML(page)
				again, _ := read(t, "[a](b)[^1]\n\n## x\n\nwords[^1]\n\n[^1]: note\n")
				assert.Equal(t, want, again.HTML(page))
			}
		})
	}
	all.Wait()
}
