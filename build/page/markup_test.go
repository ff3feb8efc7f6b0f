package page

import (
	"html/template"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build/chart"
)

// Whatever html/template makes of a string, in text and in a quoted attribute, is
// what is written by hand too: every character up to 0x2ff, and odd ones.
func TestWordsAreEscapedAsTemplatesDo(t *testing.T) {
	both := template.Must(template.New("").Parse(`<p aria-label="{{.}}">{{.}}</p>`))
	var all strings.Builder
	for r := range rune(0x300) {
		all.WriteRune(r)
	}
	for _, words := range []string{all.String(), "", `a "b" & 'c' <d>+e`, "cut\xff\xc3short", "\ufdd0\uffff\ufffd\U0001f33f", "&amp;", "cm², ×3"} {
		var want strings.Builder
		require.NoError(t, both.Execute(&want, words))
		var got markup
		got.WriteString(`<p aria-label="`)
		got.say(words)
		got.WriteString(`">`)
		got.say(words)
		got.WriteString("</p>")
		assert.Equal(t, want.String(), got.String(), "%q", words)
	}
}

func TestATableNamesItsRowsAndSetsNumbersRight(t *testing.T) {
	got := tableHTML(chart.Table{
		Caption: "Leaf & root", Columns: []chart.Column{{Name: "day", Numeric: true}, {Name: "area is"}, {Name: "cm²", Numeric: true}},
		Rows: [][]string{{"0", "<measured>", "12"}, {"3", "", ""}},
	})
	assert.Equal(t, `<div class="scroll" tabindex="0" role="region" aria-label="Leaf &amp; root"><table><caption>Leaf &amp; root</caption>`+"\n"+
		`<thead><tr><th scope="col" class="n">day</th><th scope="col">area is</th><th scope="col" class="n">cm²</th></tr></thead>`+"\n"+
		`<tbody><tr><th scope="row" class="n">0</th><td>&lt;measured&gt;</td><td class="n">12</td></tr>`+
		`<tr><th scope="row" class="n">3</th><td></td><td class="n"></td></tr></tbody></table></div>`, string(got))
}

func TestTwoAreGivenOneAndTheThirdAnother(t *testing.T) {
	made := 0
	ask := twice(func() int { made++; return made })
	assert.Equal(t, []int{1, 1, 2, 2, 3}, []int{ask(), ask(), ask(), ask(), ask()})
}
