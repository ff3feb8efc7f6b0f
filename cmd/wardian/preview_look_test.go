package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// An open page takes on each change of the grower's own look without being loaded
// again. A template that fails leaves it as it was, for whoever opens it anew, too,
// and the slip says where it fails.
func TestAnOpenPageFollowsTheLook(t *testing.T) {
	b := browser(t)
	p := startPreview(t, everyKind(t), 0)
	const title = "getComputedStyle(document.querySelector('.mast .title b'))"
	const facts = "document.querySelector('.facts dt').innerText"
	b.visit(p.address + "specimens/b26-01.html")
	b.is(title + ".fontStyle == 'italic'")
	p.edit("style/own.css", replacing("italic", "normal; letter-spacing: 7px"))
	b.is(title + ".letterSpacing == '7px'")
	b.is("window.sameLoad")

	p.edit("style/parts.html", replacing("{{.Term}}", "Of it: {{.Term}}"))
	b.is(facts + ".startsWith('Of it: ')")
	b.is("window.sameLoad")

	p.edit("style/parts.html", replacing("{{.Term}}", "{{.Terms}}"))
	b.is(slipText + ".includes('there is no .Terms here')")
	b.is(slipText + ".includes('style/parts.html')")
	b.is(facts + ".startsWith('Of it: ')")
	b.is("window.sameLoad")
	b.visit(p.address + "specimens/b26-01.html")
	b.is(slipText + ".includes('there is no .Terms here')")
	b.is(facts + ".startsWith('Of it: ')")
	b.is(title + ".letterSpacing == '7px'")

	p.edit("style/parts.html", replacing("Of it: {{.Terms}}", "{{.Term"))
	b.is(slipText + ".includes('unclosed action') || " + slipText + ".includes('bad character') || " + slipText + ".includes('unexpected')")
	p.edit("style/parts.html", replacing("{{.Term", "It: {{.Term}}"))
	b.is(facts + ".startsWith('It: ')")
	b.is("!" + slipText + ".includes('style/parts.html')")
	assert.Equal(t, exitStopped, p.stop())
}
