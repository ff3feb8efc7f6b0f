package prose

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPlain(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"marks", "A *b* **c** `d  e` [f](g) &amp; \\* <https://example.org/>", "A b c d e f & * https://example.org/"},
		{"soft and hard line ends", "a\nb  \nc", "a b c"},
		{"blocks", "# h\n\np\n\n- x\n- y\n\n> q", "h\np\nx\ny\nq"},
		{"table", "| a | b |\n|---|---|\n| 1 | 2 |", "a b\n1 2"},
		{"code", "```\na <b>\n c\n```", "a <b> c"},
		{"pictures and plates", "x ![y](z) w\n\n```plate\nshow: rows\n```", "x w"},
		{"footnotes", "a[^1] b\n\n[^1]: c", "a b\nc"},
		{"raw HTML", "a <b title=\"x > y\">c</b>", "a c"},
		{"signs", "2 < 3 > 1 & \"q\" 'r'", "2 < 3 > 1 & \"q\" 'r'"},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc, _ := read(t, c.text)
			assert.Equal(t, c.want, doc.Plain())
		})
	}
}

func TestFirstParagraph(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"# Title\n\n![x](y)\n\nFirst *one*\nof two.\n\nSecond.", "First one of two."},
		{"## b26-01\n\nUnder a [heading](x) here.", "Under a heading here."},
		{"- only\n- a list", ""},
		{"- loose\n\n- list", "loose"},
		{"```plate\nshow: rows\n```", ""},
	} {
		doc, _ := read(t, c.text)
		assert.Equal(t, c.want, doc.FirstParagraph(), "%q", c.text)
	}
}

func TestFirstSentence(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"One. Two.", "One."},
		{"No stop", "No stop"},
		{"Is it? Yes.", "Is it?"},
		{"“Gone!” I said. Then", "“Gone!”"},
		{"It wasn't... it was. So.", "It wasn't... it was."},
		{"The H. wayetii came. It stands.", "The H. wayetii came."},
		{"A Begonia cf. Amphioxus came. It stands.", "A Begonia cf. Amphioxus came."},
		{"At 25.5 C it grew. Fast.", "At 25.5 C it grew."},
		{"It grew to 4 cm approx. Then", "It grew to 4 cm approx. Then"},
		{"So did I. Then rest.", "So did I."},
		{"Day 5. Nothing.", "Day 5."},
		{"(Lost.) Next.", "(Lost.)"},
	} {
		doc, _ := read(t, c.text)
		assert.Equal(t, c.want, doc.FirstSentence())
	}
}
